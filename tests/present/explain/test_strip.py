"""Two ways to hang, side by side: one scale, one floor, the right links off it."""

from __future__ import annotations

from itertools import combinations
from typing import TYPE_CHECKING

import pytest

from tests.present.answers import ANSWERS
from tests.present.explain.test_page import _explained
from tests.present.picture.reading import SVG, boxes, links, of_class, parse, viewbox, words
from topheavy.present.explain.page import hung_ways
from topheavy.present.explain.strip import strip_svg
from topheavy.units import METRIC

if TYPE_CHECKING:
    from topheavy.present.explain.strip import Hung

WAYS = {name: hung_ways(_explained(name), METRIC) for name in ("bench", "deadlift", "straight")}
EACH = pytest.mark.parametrize("ways", WAYS.values(), ids=WAYS)


@EACH
def test_nothing_leaves_the_sheet_and_no_words_meet(ways: tuple[Hung, ...]) -> None:
    root = parse(strip_svg(ways))
    sheet = viewbox(root)
    found = list(boxes(root))
    for element, box in found:
        assert box.left >= sheet.left - 0.01, element.attrib
        assert box.right <= sheet.right + 0.01, element.attrib
        assert box.low <= sheet.low + 0.01, element.attrib
    texts = [box for element, box in found if element.tag == f"{SVG}text"]
    for one, other in combinations(texts, 2):
        apart = one.right <= other.left + 0.01 or other.right <= one.left + 0.01
        assert apart or one.low <= other.top + 3.5 or other.low <= one.top + 3.5


@EACH
def test_links_are_drawn_where_they_are(ways: tuple[Hung, ...]) -> None:
    root = parse(strip_svg(ways))
    figures = of_class(root, "figure")
    assert [figure.get("data-pose") for figure in figures] == ["bottom", "top"] * len(ways)
    for way, both in zip(ways, (figures[:2], figures[2:]), strict=False):
        all_links = sum(chain.links for hang in way.scene.drawn_end.hangs for chain in hang.chains)
        for figure in both:
            assert len(links(figure, "off")) + len(links(figure, "down")) == all_links
        assert len(links(both[1], "off")) >= len(links(both[0], "off"))


def test_loads_stand_over_the_figures() -> None:
    said = words(parse(strip_svg(WAYS["bench"])))
    answer = ANSWERS["bench"]
    for reading in (answer.reading, answer.straight):
        assert METRIC.mass(reading.bottom.load_kg) in said
        assert METRIC.mass(reading.top.load_kg) in said
    assert "the same chain hung straight" in said
