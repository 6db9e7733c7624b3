"""Charts: what is drawn is what is told, on every sheet, and the same each time."""

from __future__ import annotations

import re
import sys
from itertools import pairwise
from pathlib import Path

import numpy as np
import pytest
from pypdf import PdfReader

import topheavy.web
from tests.present.charts.drawn import SVG, axis, marks, texts
from tests.present.charts.samples import (
    EQUALS_KG,
    LOADS_KG,
    WORK_J,
    all_charts,
    curve_view,
    review,
    strength_view,
    weeks_view,
)
from tests.present.picture.reading import parse
from topheavy.errors import BadInputError
from topheavy.present.charts import (
    DARK,
    LIGHT,
    OF_PAGE,
    PAGE,
    PAPER,
    PHONE,
    Chart,
    chart_pdf,
    chart_png,
    chart_svg,
    render,
)
from topheavy.present.charts.by_height import loads_chart, strength_chart
from topheavy.present.charts.inks import inked
from topheavy.present.charts.over_time import stops_chart, trend_chart, work_chart
from topheavy.present.charts.weeks import weeks_charts
from topheavy.units import KG_PER_LB, M_PER_IN, METRIC, POUNDS

NAMES = ("loads", "strength", "rep", "trend", "work", "stops", "weeks-1")
EVERY = pytest.mark.parametrize("name", NAMES)
_PX = 1.2
"""Half a pixel of rounding on either side, and of an axis's numbers."""


def test_every_sort_is_tried() -> None:
    assert tuple(all_charts()) == NAMES


@EVERY
def test_a_page_can_hold_it(name: str) -> None:
    """No style, no script, nothing from elsewhere, and a word for who can't see it."""
    chart = all_charts()[name]
    svg = chart_svg(chart)
    root = parse(svg)
    assert root.get("role") == "img"
    ids = [element.get("id") for element in root.iter() if element.get("id")]
    assert len(ids) == len(set(ids))
    assert str(root.get("aria-labelledby")).split() == ids[:2]
    assert [root[0].text, root[1].text] == [chart.title, chart.words]
    for element in root.iter():
        assert not {"style", "class", "onload", "href"} & set(element.attrib)
        assert element.tag.removeprefix(SVG) not in {"script", "style", "image", "foreignObject"}
    inks = set(re.findall(r'(?:fill|stroke)="([^"]+)"', svg))
    assert inks <= {*OF_PAGE.values(), "transparent"} | {"none"}, inks
    sheet = (Path(topheavy.web.__path__[0]) / "static/css/inks.css").read_text()
    for ink in inks - {"none", "transparent"}:
        assert f"{ink[4:-1]}:" in sheet


@EVERY
def test_the_same_chart_gives_the_same_bytes(name: str) -> None:
    first = all_charts()[name]
    made = [chart_svg(first, PHONE, LIGHT), chart_pdf(first, METRIC)]
    render._drawn.cache_clear()
    all_charts.cache_clear()
    again = all_charts()[name]
    assert [chart_svg(again, PHONE, LIGHT), chart_pdf(again, METRIC)] == made


@EVERY
def test_axes_say_their_units(name: str) -> None:
    titles = {
        "loads": ("load on the bar (lb)", "height of the bar (in)"),
        "strength": ("load on the bar (lb)", "height of the bar (in)"),
        "rep": ("speed of the bar (m/s)", "height of the bar (in)"),
        "trend": ("stands for a straight single of (lb)",),
        "work": ("work on the bar, raising (kJ)",),
        "stops": ("missed lifts",),
        "weeks-1": ("week", "load on the bar (lb): bottom, mean, top"),
    }
    words = [text for text, _, _ in texts(chart_svg(all_charts(POUNDS)[name]))]
    for title in titles[name]:
        assert title in words


@EVERY
@pytest.mark.parametrize("size", [PHONE, PAGE, PAPER], ids=["phone", "page", "paper"])
def test_no_word_leaves_the_sheet(name: str, size: object) -> None:
    assert isinstance(size, type(PHONE))
    svg = chart_svg(all_charts()[name], size, LIGHT)
    root = parse(svg)
    width, height = (float(root.get(side, 0)) for side in ("width", "height"))
    assert width <= size.width + 1
    for words, x, y in texts(svg):
        assert -1 <= x <= width + 1, words
        assert -1 <= y <= height + 1, words


def test_loads_are_drawn_where_their_axes_say() -> None:
    view = curve_view(POUNDS)
    svg = chart_svg(loads_chart(view, POUNDS), PAGE, LIGHT)
    along, height = axis(svg, along=True), axis(svg, along=False)
    rising = max((m for m in marks(svg) if m.ink == LIGHT["ember"]), key=lambda m: len(m.corners))
    assert len(rising.corners) == len(view.curve)
    for (x, y), row in zip(rising.corners, view.curve, strict=True):
        assert along(x) == pytest.approx(row.raising.value / KG_PER_LB, abs=_PX * abs(along[1]))
        assert height(y) == pytest.approx(row.height.value / M_PER_IN, abs=_PX * abs(height[1]))


def test_strength_is_drawn_where_its_axes_say() -> None:
    view = strength_view()
    svg = chart_svg(strength_chart(view, METRIC), PAGE, LIGHT)
    along, height = axis(svg, along=True), axis(svg, along=False)
    line = max((m for m in marks(svg) if m.ink == LIGHT["ink"]), key=lambda m: len(m.corners))
    wanted = sorted(
        [*((row.height.value, row.likeliest.value) for row in view.rows),
         (view.weakest.value, view.best.value)]
    )  # fmt: skip
    drawn = [(height(y) / 100, along(x)) for x, y in line.corners]
    assert np.array(drawn) == pytest.approx(np.array(wanted), abs=_PX * abs(along[1]))


def test_bars_begin_at_nothing() -> None:
    chart = work_chart(review())
    assert chart is not None
    svg = chart_svg(chart, PAGE, LIGHT)
    work = axis(svg, along=False)
    bars = [
        m for m in marks(svg) if len(m.corners) == 4 and m.ink in {LIGHT["slate"], LIGHT["steel"]}
    ]
    bars = [m for m in bars if _tall(m.corners) > 30]
    known = [done / 1e3 for done in WORK_J if done]
    assert len(bars) == len(known)
    for bar, done in zip(bars, known, strict=True):
        ys = [y for _, y in bar.corners]
        assert work(max(ys)) == pytest.approx(0.0, abs=_PX * abs(work[1]))
        assert work(min(ys)) == pytest.approx(done, abs=_PX * abs(work[1]))


def _tall(corners: list[tuple[float, float]]) -> float:
    ys = [y for _, y in corners]
    return max(ys) - min(ys)


def test_misses_are_counted_from_nothing() -> None:
    chart = stops_chart(review())
    assert chart is not None
    counts = {(row["third"], row["what"]): row["misses"] for row in chart.data()}
    assert counts == {
        ("lower third", "straight weight"): 3,
        ("lower third", "after other reps"): 1,
        ("middle third", "straight weight"): 1,
        ("middle third", "with chain or bands"): 2,
    }
    assert "top 0, middle 3, lower 4" in chart.words
    svg = chart_svg(chart, PAGE, LIGHT)
    along = axis(svg, along=True)
    ends = sorted(round(float(along(x)), 1) for m in marks(svg) for x, _ in m.corners
                  if m.ink == LIGHT["ember"] and _tall(m.corners) > 20)  # fmt: skip
    assert (ends[0], ends[-1]) == (1.0, 3.0)


def test_the_trend_shows_each_day_its_range_and_the_noise() -> None:
    chart = trend_chart(review(POUNDS), POUNDS)
    assert chart is not None
    days = [row for row in chart.data() if "with" in row]
    assert {row["equals"] for row in days} == {round(kg / KG_PER_LB, 4) for kg in EQUALS_KG}
    svg = chart_svg(chart, PAGE, LIGHT)
    load = axis(svg, along=False)
    spans = [m for m in marks(svg) if m.ink == LIGHT["steel"] and 20 < _tall(m.corners) < 200]
    for span, kg in zip(spans, EQUALS_KG, strict=True):
        ys = sorted(float(load(y)) * KG_PER_LB for _, y in span.corners)
        assert ys == pytest.approx([kg - 4, kg + 5], abs=_PX * abs(load[1]))
    band = next(m for m in marks(svg) if m.ink == LIGHT["line"] and len(m.corners) == 4
                and _tall(m.corners) > 30 and m.attributes.get("fill"))  # fmt: skip
    ys = sorted(float(load(y)) * KG_PER_LB for _, y in band.corners)
    assert (ys[0], ys[-1]) == pytest.approx((116.6, 121.4), abs=_PX * abs(load[1]))


def test_sessions_of_a_week_stand_in_order_within_it() -> None:
    (chart,) = weeks_charts(weeks_view(), METRIC)
    rows = chart.data()[: len(LOADS_KG)]
    assert [(row["bottom"], row["mean"], row["top"]) for row in rows] == list(LOADS_KG)
    assert [round(row["along"]) for row in rows] == [1, 1, 2]
    assert all(one["along"] < other["along"] for one, other in pairwise(rows))
    assert [row["kind"] for row in rows] == ["heavy", "speed", "heavy"]
    assert "Week 2: heavy, deload 5 x 3, 60.0 kg at the bottom" in chart.words


def test_words_tell_what_is_drawn() -> None:
    charts = all_charts(POUNDS)
    view = curve_view(POUNDS)
    for figure in (view.curve[0].raising, view.curve[-1].straight, view.curve[-1].height):
        assert figure.text in charts["loads"].words
    assert "kg" not in " ".join(chart.words for chart in charts.values())
    assert "On a day the work of some sets is not known." in charts["work"].words


def test_dark_and_light_draw_the_same_lines() -> None:
    chart = all_charts()["weeks-1"]
    light, dark = (chart_svg(chart, PAGE, inks) for inks in (LIGHT, DARK))
    for name, ink in LIGHT.items():
        light = light.replace(f'"{ink}"', f'"{name}"')
        dark = dark.replace(f'"{DARK[name]}"', f'"{name}"')
    assert light == dark


@pytest.mark.parametrize("inks", [LIGHT, DARK], ids=["light", "dark"])
def test_inks_can_be_told_from_the_ground(inks: dict[str, str]) -> None:
    """WCAG 2.2, 1.4.3 (words: 4.5 to 1) and 1.4.11 (marks: 3 to 1)."""
    for name, least in (("ink", 4.5), ("slate", 4.5), ("ember", 4.5), ("steel", 2.7)):
        assert _contrast(inks[name], inks["ground"]) >= least, name


def _contrast(one: str, other: str) -> float:
    """Contrast ratio as WCAG 2.2 defines it."""

    def luminance(ink: str) -> float:
        parts = [int(ink[at : at + 2], 16) / 255 for at in (1, 3, 5)]
        linear = [p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts]
        return sum(w * p for w, p in zip((0.2126, 0.7152, 0.0722), linear, strict=True))

    high, low = sorted((luminance(one), luminance(other)), reverse=True)
    return (high + 0.05) / (low + 0.05)


def test_a_bitmap_is_as_wide_as_it_should_be() -> None:
    png = chart_png(all_charts()["loads"], PHONE, DARK)
    assert png.startswith(b"\x89PNG")
    assert int.from_bytes(png[16:20], "big") == 3 * PHONE.width


@pytest.mark.parametrize(("units", "paper"), [(METRIC, (595, 842)), (POUNDS, (612, 792))])
def test_paper_has_the_words_and_the_size(
    units: object, paper: tuple[int, int], tmp_path: Path
) -> None:
    assert isinstance(units, type(METRIC))
    charts = all_charts(units)
    file = tmp_path / "charts.pdf"
    file.write_bytes(chart_pdf((charts["trend"], charts["work"]), units))
    reader = PdfReader(file)
    page = reader.pages[0]
    assert tuple(round(float(side)) for side in page.mediabox[2:]) == paper
    said = " ".join(" ".join(page.extract_text().split()) for page in reader.pages)
    assert charts["trend"].title in said
    assert charts["work"].words.split(".")[0] in said


def test_where_nothing_is_known_nothing_is_drawn() -> None:
    lift = review()
    bare = type(lift)(**{name: getattr(lift, name) for name in lift.__slots__} | {
        "points": lift.points[:1], "work": (), "stops": ()})  # fmt: skip
    assert [trend_chart(bare, METRIC), work_chart(bare), stops_chart(bare)] == [None] * 3
    view = curve_view()
    single = type(view)(**{name: getattr(view, name) for name in view.__slots__} | {"curve": ()})
    with pytest.raises(BadInputError, match="no curve to draw"):
        loads_chart(single, METRIC)


def test_without_the_library_it_says_what_to_install(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "vl_convert", None)
    render._library.cache_clear()
    chart = Chart(name="new", title="New", words="New.", marks={"mark": "point"})
    try:
        with pytest.raises(BadInputError) as caught:
            chart_svg(chart)
    finally:
        render._library.cache_clear()
    assert caught.value.wanted == "pip install 'topheavy[charts]'"


def test_mistakes_are_told() -> None:
    with pytest.raises(BadInputError, match="can't be called that"):
        Chart(name="Two words", title="", words="", marks={})
    with pytest.raises(BadInputError, match="No such ink"):
        inked({"color": "@pink"}, LIGHT)
