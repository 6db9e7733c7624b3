"""The cautions appear when they must, and only then."""

from __future__ import annotations

from dataclasses import replace

import pytest

from topheavy.gym.lifts import LIFTS, lift_named
from topheavy.gym.people import Travel
from topheavy.gym.stock import ChainPiece
from topheavy.mechanics.chain import Chain
from topheavy.mechanics.ground import Ground
from topheavy.mechanics.hang import Doubled, Draped, Straight, Suspension
from topheavy.mechanics.rig import End, Rig
from topheavy.services.cautions import above_best, cautions_for, much_hung, thin_chain

BENCH, SQUAT, PRESS = lift_named("bench"), lift_named("squat"), lift_named("press")
TRAVEL = Travel(bottom_m=0.66, top_m=1.07)
FLOOR = Ground()
ALWAYS = {"collars", "alike", "ratings", "inspect", "familiarise", "defer"}


def _rig(feeder_m: float = 0.6, links: int = 32) -> Rig:
    chain = Chain(links=links, pitch_m=0.056, density_kg_per_m=5.3)
    held = Suspension(feeder_m=feeder_m, connector_m=0.06, connector_kg=0.2)
    end = End((Doubled(chains=(chain,), suspension=held),))
    return Rig(25.0, 60.0, end, end)


def _codes(rig: Rig, travel: Travel = TRAVEL, ground: Ground = FLOOR) -> set[str]:
    return {caution.code for caution in cautions_for(BENCH, rig, travel, ground)}


def test_a_good_bench_rig_has_the_usual_ones_only() -> None:
    assert _codes(_rig()) == {"spotter", *ALWAYS}


@pytest.mark.parametrize("lift", LIFTS.values(), ids=LIFTS)
def test_every_lift_begins_with_who_or_what_catches_the_bar(lift: object) -> None:
    named = lift_named(getattr(lift, "name", ""))
    first = cautions_for(named, _rig(), TRAVEL, FLOOR)[0].code
    assert first == {"bench": "spotter", "rack": "safeties", "platform": "clear"}[named.station]


def test_overhead_is_told_of_the_bar_over_the_head_and_nobody_else_is() -> None:
    for lift in LIFTS.values():
        codes = {caution.code for caution in cautions_for(lift, _rig(), TRAVEL, FLOOR)}
        assert ("overhead" in codes) == ("overhead" in lift.name or lift.name == "push press")
    words = next(c.text for c in cautions_for(PRESS, _rig(), TRAVEL, FLOOR) if c.code == "overhead")
    assert "Grade 30, 43 or 70" in words


@pytest.mark.parametrize(("links", "swings"), [(14, True), (16, True), (18, False), (32, False)])
def test_chain_that_clears_the_floor_swings(links: int, *, swings: bool) -> None:
    """Fold 0.41 m up at lockout: eight tops of 56 mm a strand are off."""
    assert ("swing" in _codes(_rig(links=links))) == swings


def test_one_short_piece_of_two_swings_too() -> None:
    long, short = (Chain(links=n, pitch_m=0.056, density_kg_per_m=5.3) for n in (32, 10))
    end = End((Doubled(chains=(long, short), suspension=Suspension(feeder_m=0.66)),))
    assert "swing" in _codes(Rig(25.0, 60.0, end, end))
    lone = Rig(25.0, 60.0, End(), end)
    assert "swing" in _codes(lone)


def test_dragged_slack_is_told() -> None:
    assert "drag" in _codes(_rig(), ground=Ground(lay="dragged"))
    assert "drag" not in _codes(_rig())


@pytest.mark.parametrize(
    ("feeder_m", "lifts"), [(1.2, False), (1.01, False), (1.0, True), (0.9, True)]
)
def test_a_feeder_so_long_that_nothing_lifts(feeder_m: float, *, lifts: bool) -> None:
    assert ("nothing lifts" in _codes(_rig(feeder_m=feeder_m))) == (not lifts)


def test_chain_that_hangs_clear_all_the_way_changes_nothing() -> None:
    short = Chain(links=6, pitch_m=0.056, density_kg_per_m=5.3)
    end = End((Straight(chain=short),))
    codes = _codes(Rig(25.0, 60.0, end, end))
    assert {"no change", "swing"} <= codes
    assert "nothing lifts" not in codes
    assert "no change" not in _codes(_rig())


@pytest.mark.parametrize(("feeder_m", "hangs"), [(0.45, True), (0.55, False)])
def test_a_fold_that_hangs_is_told(feeder_m: float, *, hangs: bool) -> None:
    """More than a hand's width, 0.1 m, above the floor at the bottom."""
    assert ("fold hangs" in _codes(_rig(feeder_m=feeder_m))) == hangs


@pytest.mark.parametrize(("feeder_m", "slack"), [(0.66, False), (0.70, False), (0.72, True)])
def test_a_feeder_that_hangs_slack_at_the_bottom_is_told(feeder_m: float, *, slack: bool) -> None:
    """More than 5 cm longer than the bar is high at the bottom, 0.66 m."""
    assert ("slack feeder" in _codes(_rig(feeder_m=feeder_m))) == slack


@pytest.mark.parametrize(("wire_m", "thin"), [(0.0065, True), (0.010, True), (0.013, False)])
def test_thin_chain_is_named(wire_m: float, *, thin: bool) -> None:
    piece = ChainPiece(
        tag="H1",
        size="1/4 in",
        wire_diameter_m=wire_m,
        chain=Chain(links=40, pitch_m=0.03, density_kg_per_m=1.0),
    )
    found = thin_chain((piece, piece))
    assert bool(found) == thin
    assert all("1/4 in" in caution.text for caution in found)


def test_chain_across_the_bar_has_no_fold_to_lengthen() -> None:
    chain = Chain(links=40, pitch_m=0.056, density_kg_per_m=5.3)
    end = End((Draped(chains=(chain,)),))
    assert "fold hangs" not in _codes(Rig(25.0, 60.0, end, end))


def test_a_mat_counts() -> None:
    """0.2 m of mat lifts the floor, so the same feeder leaves the fold on it."""
    assert "fold hangs" not in _codes(_rig(feeder_m=0.45), ground=Ground(surface_m=0.2))
    assert "nothing lifts" not in _codes(_rig(feeder_m=1.0), ground=Ground(surface_m=-0.1))


def test_without_a_lift_or_a_travel_what_depends_on_them_is_left_out() -> None:
    assert {c.code for c in cautions_for(None, _rig(), None, FLOOR)} == ALWAYS
    assert {c.code for c in cautions_for(None, _rig(links=10), TRAVEL, FLOOR)} == {
        "swing",
        *ALWAYS,
    }


def test_without_chain_there_is_nothing_to_say_of_it() -> None:
    bare = replace(_rig(), left=End(), right=End())
    assert _codes(bare) == {"spotter", *ALWAYS}
    assert {c.code for c in cautions_for(SQUAT, bare, TRAVEL, FLOOR)} == {"safeties", *ALWAYS}


def test_more_than_studies_hung_is_said_and_only_then() -> None:
    rig = _rig()
    low_kg, high_kg = rig.curve(FLOOR).at((TRAVEL.bottom_m, TRAVEL.top_m))
    hung_kg = float(high_kg - low_kg)
    assert much_hung(rig, TRAVEL, FLOOR, hung_kg / 0.34) == ()
    assert much_hung(rig, TRAVEL, FLOOR, None) == ()
    (said,) = much_hung(rig, TRAVEL, FLOOR, hung_kg / 0.4)
    assert said.code == "much hung"
    assert "40 % of the best" in said.text


def test_a_rig_above_the_best_where_lifters_are_weakest_is_too_heavy() -> None:
    rig = _rig()
    load_kg = float(rig.curve(FLOOR).at(TRAVEL.bottom_m + 0.35 * TRAVEL.travel_m))
    assert above_best(BENCH, rig, TRAVEL, FLOOR, load_kg / 0.99) == ()
    assert above_best(BENCH, rig, TRAVEL, FLOOR, None) == ()
    (said,) = above_best(BENCH, rig, TRAVEL, FLOOR, load_kg / 1.04)
    assert said.code == "above best"
    assert "35 % of the way up" in said.text
    assert "104 % of the best single" in said.text
