"""The ramp: start, limiting height, late chain, plates that fall short, bad input."""

from __future__ import annotations

from dataclasses import replace

import pytest

from tests.training.stacks import plate
from topheavy.errors import BadInputError, NotInStockError
from topheavy.gym.lifts import lift_named
from topheavy.gym.people import Travel
from topheavy.lifter.evidence import FullRange
from topheavy.lifter.strength import StrengthCurve, strength_curve
from topheavy.mechanics.curve import LoadCurve
from topheavy.training.ramp import HEAVY_START, plan_ramp
from topheavy.training.ramp_parts import NOTHING, Gear, Hanging, Ramp, TopSet

TRAVEL = Travel(bottom_m=0.8, top_m=1.2)
PLATES = (
    plate(25, 4),
    plate(20, 2),
    plate(10, 4),
    plate(5, 2),
    plate(2.5, 2),
    plate(1.25, 2),
)
GEAR = Gear(bar_kg=25.0, plates=PLATES, room_m=0.4)


def hung(top_kg: float, pieces: int = 4) -> Hanging:
    """Chain that grows from nothing at the bottom to this at the top."""
    return Hanging(pieces=pieces, curve=LoadCurve.through([0.8, 1.2], [0.0, top_kg]))


def strength(best_kg: float = 130.0) -> StrengthCurve:
    return strength_curve(lift_named("bench"), TRAVEL, [FullRange(load_kg=best_kg)])


def top_set(
    straight_kg: float = 90.0,
    hanging: Hanging | None = None,
    reps: int = 3,
    chain_from: int = 1,
    lighter: tuple[Hanging, ...] = (),
) -> TopSet:
    return TopSet(
        straight_kg=straight_kg,
        hanging=hanging or hung(30.0),
        reps=reps,
        chain_from=chain_from,
        lighter=lighter,
    )


def codes(ramp: Ramp) -> set[str]:
    return {remark.code for remark in ramp.remarks}


def test_from_the_empty_bar_to_the_top_set() -> None:
    ramp = plan_ramp(top_set(), GEAR, TRAVEL)
    first, last = ramp.sets[0], ramp.sets[-1]
    assert first.loads.straight_kg == 25.0
    assert first.loads.top_kg == 55.0
    assert (first.plates.off, first.plates.on) == ((), ())
    assert last.kind == "top set"
    assert (last.loads.straight_kg, last.reps) == (90.0, 3)
    assert last.loads.top_kg == pytest.approx(120.0)
    assert (last.share, last.top_share) == (1.0, 1.0)
    assert all(one.hanging.pieces == 4 for one in ramp.sets)
    assert codes(ramp) == set()


def test_without_strength_shares_speak_of_the_bottom() -> None:
    ramp = plan_ramp(top_set(), GEAR, TRAVEL)
    assert (ramp.limited_by, ramp.limit_m) == ("bottom", 0.8)
    assert ramp.sets[0].share == pytest.approx(25.0 / 90.0)


def test_with_strength_they_speak_of_where_the_lifter_is_used_hardest() -> None:
    curve = strength()
    ramp = plan_ramp(top_set(), GEAR, TRAVEL, curve)
    at_m = ramp.limit_m
    assert ramp.limited_by == "strength curve"
    assert TRAVEL.bottom_m < at_m < TRAVEL.top_m
    chain = hung(30.0).curve
    used = [
        (90.0 + float(chain.at(h))) / float(curve.at(h))
        for h in (at_m, at_m - 0.02, at_m + 0.02, 0.8, 1.2)
    ]
    assert max(used) == used[0]
    assert ramp.sets[0].share == pytest.approx(
        (25.0 + float(chain.at(at_m))) / (90.0 + float(chain.at(at_m)))
    )


def test_very_heavy_chain_moves_the_limit_to_the_top() -> None:
    ramp = plan_ramp(top_set(hanging=hung(90.0)), GEAR, TRAVEL, strength())
    assert ramp.limit_m == pytest.approx(1.2)


def test_a_heavy_empty_bar_starts_with_fewer_pieces_or_none() -> None:
    """Empty bar and 40 kg of chain: 65 of 85 kg at lockout. Half of it is 45, straight 25 kg."""
    full, half = hung(40.0), hung(20.0, pieces=2)
    some = plan_ramp(top_set(45.0, full, lighter=(half,)), GEAR, TRAVEL)
    assert 65.0 / 85.0 > HEAVY_START > 45.0 / 85.0
    assert some.sets[0].hanging is half
    assert some.sets[1].hanging is full
    assert some.sets[1].plates.handled == 0
    assert "lighter start" in codes(some)
    said = next(r.say() for r in some.remarks if r.code == "lighter start")
    assert "2 of 4 pieces" in said
    assert "76 %" in said
    none = plan_ramp(top_set(45.0, full), GEAR, TRAVEL)
    assert none.sets[0].hanging is NOTHING
    assert "straight weight" in next(r.say() for r in none.remarks)


def test_a_bar_that_is_heavy_by_itself_is_named() -> None:
    ramp = plan_ramp(top_set(35.0, hung(5.0)), GEAR, TRAVEL)
    assert "heavy bar" in codes(ramp)


def test_chain_that_comes_on_late_is_paid_for() -> None:
    ramp = plan_ramp(top_set(chain_from=4), GEAR, TRAVEL)
    pieces = [one.hanging.pieces for one in ramp.sets]
    assert pieces[:3] == [0, 0, 0]
    assert set(pieces[3:]) == {4}
    before, first = ramp.sets[2], ramp.sets[3]
    said = next(r.say() for r in ramp.remarks if r.code == "late chain")
    assert f"{first.loads.top_kg - before.loads.top_kg:.1f} kg" in said
    assert f"{100 * first.share:.0f} %" in said


def test_chain_in_the_top_set_alone_can_not_be_judged() -> None:
    last = len(plan_ramp(top_set(chain_from=2), GEAR, TRAVEL).sets)
    ramp = plan_ramp(top_set(chain_from=last), GEAR, TRAVEL)
    assert "can't be judged" in next(r.say() for r in ramp.remarks if r.code == "late chain")


@pytest.mark.parametrize("chain_from", [9, 40])
def test_chain_from_a_set_that_is_not_there(chain_from: int) -> None:
    with pytest.raises(BadInputError, match="at that set") as caught:
        plan_ramp(top_set(chain_from=chain_from), GEAR, TRAVEL)
    assert caught.value.got == chain_from
    assert caught.value.wanted == "1 or 2 or 3 or 4 or 5 or 6"


def test_sets_that_no_plates_make_do_not_count() -> None:
    """With twenties alone there are three sets: the chain can come on at the second of them."""
    gear = Gear(bar_kg=25.0, plates=(plate(20, 4),), room_m=0.4)
    ramp = plan_ramp(top_set(105.0, chain_from=2), gear, TRAVEL)
    assert [one.hanging.pieces for one in ramp.sets] == [0, 4, 4]


def test_chain_can_not_come_on_below_the_empty_bar() -> None:
    """With 70 kg at the limiting height, the top, no early share leaves room for the bar."""
    with pytest.raises(BadInputError, match="at that set"):
        plan_ramp(top_set(90.0, hung(100.0), chain_from=2), GEAR, TRAVEL, strength(150.0))


def test_singles_try_ninety_and_ninety_five_percent() -> None:
    ramp = plan_ramp(
        TopSet(straight_kg=110.0, reps=1, hanging=hung(20.0), singles=True), GEAR, TRAVEL
    )
    tries = [one for one in ramp.sets if one.kind == "attempt"]
    assert [one.reps for one in tries] == [1, 1]
    assert codes(ramp) == {"goal"}
    assert [one.share for one in tries] == pytest.approx([0.90, 0.95], abs=0.02)


def test_coarse_plates_leave_sets_out_and_say_so() -> None:
    gear = Gear(bar_kg=25.0, plates=(plate(20, 4),), room_m=0.4)
    ramp = plan_ramp(top_set(105.0), gear, TRAVEL)
    assert [one.loads.straight_kg for one in ramp.sets] == [25.0, 65.0, 105.0]
    assert codes(ramp) == {"no plates", "wide last jump"}
    said = next(r.say() for r in ramp.remarks if r.code == "wide last jump")
    assert "40.0 kg, 38 %" in said


def test_small_plates_start_a_pull_low() -> None:
    """Tens of 32 cm, twenty-fives of 45: only sets with a twenty-five start where measured."""
    plates = (plate(25, 4), replace(plate(10, 4), diameter_m=0.32))
    gear = Gear(bar_kg=25.0, plates=plates, room_m=0.4)
    ramp = plan_ramp(replace(top_set(115.0), from_floor=True), gear, TRAVEL)
    low = [str(one.number) for one in ramp.sets if all(p.mass_kg < 25 for p in one.plates.stack)]
    said = next(r.say() for r in ramp.remarks if r.code == "low start")
    assert low == ["1"]
    assert "In set 1 the plates are smaller than 45.0 cm" in said
    tens = replace(gear, plates=(*plates[1:], plate(25, 0), replace(plate(5, 4), diameter_m=0.45)))
    several = plan_ramp(replace(top_set(65.0), from_floor=True), tens, TRAVEL)
    said = next(r.say() for r in several.remarks if r.code == "low start")
    low = [str(n.number) for n in several.sets if 5 not in {p.mass_kg for p in n.plates.stack}]
    assert f"In sets {', '.join(low[:-1])} and {low[-1]} the plates" in said
    assert "low start" not in codes(plan_ramp(top_set(115.0), gear, TRAVEL))


def test_a_top_set_that_no_plates_make() -> None:
    with pytest.raises(NotInStockError, match="straight weight"):
        plan_ramp(top_set(91.0), GEAR, TRAVEL)


def test_a_top_set_no_heavier_than_the_bar() -> None:
    with pytest.raises(BadInputError, match="empty bar"):
        plan_ramp(top_set(25.0), GEAR, TRAVEL)


@pytest.mark.parametrize(
    "wrong", [{"reps": 3, "singles": True}, {"chain_from": 0}, {"straight_kg": -5.0}]
)
def test_top_sets_that_make_no_sense(wrong: dict[str, float]) -> None:
    facts: dict[str, object] = {"straight_kg": 90.0, "reps": 1, "hanging": hung(30.0)}
    with pytest.raises(BadInputError):
        TopSet(**(facts | wrong))  # type: ignore[arg-type]


def test_no_reps() -> None:
    with pytest.raises(BadInputError, match="whole number"):
        plan_ramp(top_set(reps=0), GEAR, TRAVEL)
