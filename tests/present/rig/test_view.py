"""The rig's view against the mechanics, and against a rig worked out by hand."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
import pytest

from tests.present.answers import ANSWERS, BENCH, DEADLIFT, DRAGGED, ODD, SQUAT, STRAIGHT, UNMET
from tests.present.figures import figures, said
from topheavy.mechanics.hang import Straight
from topheavy.mechanics.rig import End, Rig
from topheavy.present.rig.view import RigView, view_rig
from topheavy.units import METRIC, POUNDS, UnitSystem

if TYPE_CHECKING:
    from topheavy.services.rig import RigAnswer

EACH = pytest.mark.parametrize("answer", ANSWERS.values(), ids=ANSWERS)
BOTH = pytest.mark.parametrize("units", [METRIC, POUNDS], ids=["kg", "lb"])


def _load(view: RigView, place: str) -> tuple[float, float | None, float]:
    row = next(row for row in view.loads if row.place == place)
    return row.raising.value, row.lowering.value if row.lowering else None, row.straight.value


@EACH
def test_loads_are_those_of_the_curves(answer: RigAnswer) -> None:
    place, rig = answer.question.place, answer.best.rig
    ends = (place.travel.bottom_m, place.travel.top_m)
    up, down = rig.curve(place.ground, "raising"), rig.curve(place.ground, "lowering")
    view = view_rig(answer, METRIC)
    for name, height_m in zip(("bottom", "top"), ends, strict=True):
        assert _load(view, name)[0] == pytest.approx(float(up.at(height_m)))
    assert _load(view, "bottom")[1] == pytest.approx(float(down.at(ends[0])))
    assert _load(view, "mean")[:2] == pytest.approx((up.mean(*ends), down.mean(*ends)))
    assert _load(view, "top")[1] is None, "at lockout nothing has been lowered yet"


@EACH
def test_the_comparison_is_the_same_chain_in_single_strands(answer: RigAnswer) -> None:
    """Each piece as one strand from the bar centre down, put together here."""
    place, best = answer.question.place, answer.best
    ends = (place.travel.bottom_m, place.travel.top_m)
    hung = [
        End(tuple(Straight(chain=piece.chain) for piece in side))
        for side in (best.left, best.right)
    ]
    other = Rig(best.rig.bar_kg, best.rig.plates_kg, hung[0], hung[1])
    curve = other.curve(place.ground, "raising")
    view = view_rig(answer, METRIC)
    assert _load(view, "bottom")[2] == pytest.approx(float(curve.at(ends[0])))
    assert _load(view, "top")[2] == pytest.approx(float(curve.at(ends[1])))
    assert _load(view, "mean")[2] == pytest.approx(curve.mean(*ends))
    change = float(curve.at(ends[1]) - curve.at(ends[0]))
    assert view.straight_change.value == pytest.approx(change)
    assert view.straight_change.text in view.compared or view.style == "straight"


def test_a_bench_rig_worked_out_by_hand() -> None:
    """Bar 20, collars 5, plates 50 kg: 75 kg. Ring 5 is at 0.58 m, the fold 0.072 m lower.

    The pile raises the floor by a quarter of 56 mm: 1.07 - 0.652 - 0.014 = 0.404 m of each of
    eight strands of 5.3 kg/m is up at lockout, with 0.35 kg of connectors and 0.476 kg of feeder.
    """
    view = view_rig(BENCH, METRIC)
    top_kg = 75 + 8 * 5.3 * 0.404 + 2 * 0.175 + 2 * 0.34 * 0.70
    assert view.straight_weight.text == "75.0 kg"
    assert _load(view, "top")[0] == pytest.approx(top_kg, abs=1e-6)
    assert view.loads[0].raising.text.startswith("93.0 ± ")
    hung_kg = top_kg - 75
    bottom_kg = _load(view, "bottom")[0] - 75
    assert view.deload is not None
    assert view.deload.value == pytest.approx(1 - bottom_kg / hung_kg)
    assert view.share_of_top.value == pytest.approx((hung_kg - bottom_kg) / top_kg, abs=1e-6)
    assert view.share_of_best is not None
    assert view.share_of_best.value == pytest.approx((hung_kg - bottom_kg) / 140, abs=1e-6)
    assert view.change.value == pytest.approx(hung_kg - bottom_kg)
    assert (view.plates_a_side, view.setting) == ("20 + 5 kg", "ring 5")


def test_links_of_the_bench_rig_counted_by_hand() -> None:
    """Fold 0.418 m up at lockout: 7.46 pitches of 56 mm, so eight tops a strand are off."""
    rows = view_rig(BENCH, METRIC).links
    assert [(row.tags, row.links, row.off_top, row.on_top) for row in rows] == [
        (("A1", "A2", "A3", "A4"), 32, 16, 16)
    ]


@EACH
def test_every_link_is_off_or_on(answer: RigAnswer) -> None:
    view = view_rig(answer, METRIC)
    rows = (*view.left, *view.right)
    for row in rows:
        assert row.off_bottom + row.on_bottom == row.off_top + row.on_top == row.links
        assert row.off_bottom <= row.off_top
    tags = [tag for row in view.links for tag in row.tags]
    assert sorted(tags) == sorted(row.tag for row in rows)
    assert [p.tag for p in answer.best.left] == [row.tag for row in view.left]


@EACH
def test_points_of_the_curve_lie_on_it(answer: RigAnswer) -> None:
    place, rig = answer.question.place, answer.best.rig
    points = view_rig(answer, METRIC).curve
    heights_m = np.array([point.height.value for point in points])
    assert (heights_m[0], heights_m[-1]) == (place.travel.bottom_m, place.travel.top_m)
    for way in ("raising", "lowering"):
        shown = [getattr(point, way).value for point in points]
        assert shown == pytest.approx(rig.curve(place.ground, way).at(heights_m))


@EACH
@BOTH
def test_every_text_says_its_value(answer: RigAnswer, units: UnitSystem) -> None:
    found = list(figures(view_rig(answer, units)))
    assert len(found) > 100
    for figure in found:
        number, spread, half = said(figure)
        assert number == pytest.approx(figure.value, abs=1.001 * half)
        if spread is not None:
            assert figure.u == pytest.approx(spread, abs=1.001 * half)


@EACH
def test_units_change_the_texts_and_no_value(answer: RigAnswer) -> None:
    metric, pounds = (list(figures(view_rig(answer, u))) for u in (METRIC, POUNDS))
    assert [f.value for f in metric] == [f.value for f in pounds]
    assert metric[0].text != pounds[0].text


def test_a_straight_rig_is_not_compared_with_itself() -> None:
    view = view_rig(STRAIGHT, METRIC)
    assert view.style == "straight"
    assert all(row.raising.value == pytest.approx(row.straight.value) for row in view.loads)
    assert "mistake" not in view.compared
    assert view.change.text in view.compared


def test_a_draped_rig_has_no_feeder() -> None:
    view = view_rig(DEADLIFT, METRIC)
    assert (view.feeder, view.setting, view.connector, view.feeder_length) == ("", "", "", None)
    assert view.compared.startswith("Laid across the bar")


def test_an_odd_piece_hangs_its_middle_link_first() -> None:
    """Fold 0.418 m up: the middle link, then 0.362 m or 6.46 pitches below it: 7 a strand."""
    assert [row.off_top for row in view_rig(ODD, METRIC).links] == [15]


def test_the_side_pull_is_shown_when_slack_is_dragged() -> None:
    view = view_rig(DRAGGED, METRIC)
    assert view.side_pull is not None
    assert view.side_pull.value == pytest.approx(DRAGGED.reading.side_pull_n)
    assert view.side_pull.value > 10
    assert view_rig(BENCH, METRIC).side_pull is None


def test_a_miss_is_said_with_what_would_do() -> None:
    view = view_rig(UNMET, METRIC)
    assert not view.meets
    assert view.verdict == (
        "The stock does not reach the target: 12.2 kg off at worst, and 1.0 kg would do."
    )
    assert len(view.obstacles) == 2
    assert view_rig(BENCH, METRIC).obstacles == ()


def test_wanted_names_loads_heights_and_rules() -> None:
    wanted = view_rig(SQUAT, POUNDS).wanted
    assert "at 33.9 in" in wanted
    assert "at 56.7 in" in wanted
    assert wanted.endswith(
        "no chain on the bar at the bottom; a link of every strand left on the floor at lockout"
    )
