"""What is gathered of a lifter's strength, and what is not."""

from __future__ import annotations

import numpy as np
import pytest

from tests.services.lifters import CHAIN, measured, place
from topheavy.errors import BadInputError, NotInStockError
from topheavy.gym.gym import Gym
from topheavy.gym.lifts import LIFTS
from topheavy.gym.records import (
    BandsUsed,
    HungLift,
    HungThen,
    LiftedSet,
    MissedRep,
    PinEffort,
    Record,
    SpeedRead,
)
from topheavy.lifter.by_speed import best_by_speed
from topheavy.lifter.evidence import Evidence, FullRange, HungBest, Isometric, Miss, Partial
from topheavy.lifter.one_rm import one_rm
from topheavy.lifter.strength import strength_curve
from topheavy.lifter.typical import TYPICAL
from topheavy.mechanics.ground import Ground
from topheavy.mechanics.hang import Doubled, Suspension
from topheavy.mechanics.rig import End, Rig
from topheavy.services.known_of_lifter import SAME_TOP_M, VARIANTS
from topheavy.services.rig import Place
from topheavy.services.strength import answer_strength, gather, strength_of

HUNG = HungThen(left=("A1",), right=("A2",), feeder="strap", setting="1", connector="link")


def only(record: Record, *, station: str = "bench 1") -> Evidence:
    """What a single record becomes."""
    one = place({"bench press": measured(records=(record,))}, station=station)
    (used,) = gather(one).used
    return used.piece


def test_the_best_of_the_file_is_a_full_range_best() -> None:
    one = place({"bench press": measured(best_kg=100.0)})
    assert gather(one).evidence == (FullRange(load_kg=100.0),)
    assert strength_of(one).full_range_kg == pytest.approx(100.0)


def test_strength_is_what_the_library_makes_of_the_pieces() -> None:
    one = place({"bench press": measured(best_kg=100.0)})
    extra: list[Evidence] = [Partial(height_m=0.9, load_kg=120.0)]
    pieces: list[Evidence] = [FullRange(load_kg=100.0), *extra]
    wanted = strength_curve(one.lift, one.travel, pieces)
    found = strength_of(one, extra)
    assert np.array_equal(found.best_kg, wanted.best_kg)
    assert np.array_equal(found.low_kg, wanted.low_kg)
    assert np.array_equal(found.high_kg, wanted.high_kg)


def test_records_become_evidence() -> None:
    assert only(LiftedSet(load_kg=90.0, reps=5, reps_left=1.0)) == FullRange(
        load_kg=90.0, reps=5, reps_left=1.0
    )
    assert only(LiftedSet(load_kg=95.0, from_m=0.8)) == Partial(height_m=0.8, load_kg=95.0)
    assert only(PinEffort(height_m=0.8, effort_kg=220.0, rest_kg=110.0)) == Isometric.from_scale(
        height_m=0.8, effort_kg=220.0, rest_kg=110.0
    )
    by_speed = only(SpeedRead(load_kg=100.0, speed_m_per_s=0.4))
    assert isinstance(by_speed, FullRange)
    assert by_speed.load_kg == pytest.approx(best_by_speed("bench press", 100.0, 0.4).load_kg)
    assert by_speed.reckoned


def test_a_lift_nobody_tried_to_better_is_a_lower_bound_only() -> None:
    records = (LiftedSet(load_kg=120.0, tried=False), LiftedSet(load_kg=90.0, from_m=0.9))
    one = place({"bench press": measured(best_kg=100.0, records=records[:1])})
    piece = gather(one).evidence[1]
    assert isinstance(piece, FullRange)
    assert not piece.maximal
    with pytest.raises(BadInputError):
        strength_of(one)


def test_a_miss_carries_what_hung_where_it_stopped() -> None:
    """The load there is that of the same rig built by hand."""
    missed = only(MissedRep(straight_kg=100.0, height_m=0.9, hung=HUNG))
    end = End((Doubled(chains=(CHAIN,), suspension=_held()),))
    rig = Rig(20.0, 80.0, end, end)
    assert isinstance(missed, Miss)
    assert missed.load_kg == pytest.approx(float(rig.curve(Ground()).at(0.9)))
    assert missed.load_kg > 105.0


def _held() -> Suspension:
    return Suspension(
        feeder_m=0.54,
        feeder_density_kg_per_m=0.3,
        feeder_whole_m=0.7,
        connector_m=0.06,
        connector_kg=0.2,
        feeder_u_m=0.002,
    )


def test_a_miss_in_a_third_is_less_sure_than_one_at_a_height() -> None:
    roughly, taped = (
        only(MissedRep(straight_kg=100.0, **where, hung=HUNG))
        for where in ({"third": "middle"}, {"height_m": 0.865})
    )
    assert isinstance(roughly, Miss)
    assert isinstance(taped, Miss)
    assert roughly.height_m == pytest.approx(taped.height_m)
    assert roughly.height_u_m > 3 * taped.height_u_m
    assert (roughly.load_u_kg or 0.0) > (taped.load_u_kg or 0.0)


def test_a_best_with_chain_on_holds_the_curve_to_it() -> None:
    """P is the least of S - C over the heights, by the definition of the heaviest straight load."""
    lift = HungLift(straight_kg=92.0, hung=HUNG)
    one = place({"bench press": measured(best_kg=100.0, records=(lift,))})
    piece = gather(one).evidence[1]
    assert isinstance(piece, HungBest)
    curve = strength_of(one)
    left_kg = curve.best_kg - piece.hung.at(curve.height_m)
    assert float(np.min(left_kg)) == pytest.approx(92.0, abs=0.1)


def test_what_hung_may_be_bands_or_retired_since() -> None:
    bands = HungThen(bands=(BandsUsed(left="red-1", right="red-2", peg="low"),))
    old = HungThen(left=("old",), right=("A1",), style="straight")
    for hung in (bands, old):
        piece = only(HungLift(straight_kg=90.0, hung=hung))
        assert isinstance(piece, HungBest)
        assert float(piece.hung.at(1.07)) > float(piece.hung.at(0.66)) >= 0.0


@pytest.mark.parametrize(
    "record",
    [
        LiftedSet(load_kg=95.0, from_m=0.8),
        PinEffort(height_m=0.8, effort_kg=220.0, rest_kg=110.0),
        MissedRep(straight_kg=105.0, height_m=0.8),
        MissedRep(straight_kg=105.0, third="lower"),
    ],
)
def test_heights_move_with_the_pad(record: Record) -> None:
    here, there = only(record), only(record, station="bench 2")
    assert isinstance(here, Partial | Isometric | Miss)
    assert isinstance(there, Partial | Isometric | Miss)
    assert there.height_m - here.height_m == pytest.approx(0.03)


def test_what_hung_moves_with_the_pad_as_the_lifter_does() -> None:
    lift = HungLift(straight_kg=92.0, hung=HUNG)
    one, other = only(lift), only(lift, station="bench 2")
    assert isinstance(one, HungBest)
    assert isinstance(other, HungBest)
    heights = np.linspace(0.66, 1.07, 9)
    assert other.hung.at(heights + 0.03) == pytest.approx(one.hung.at(heights))


@pytest.mark.parametrize("lift", VARIANTS)
def test_every_lift_and_variant_is_known_and_has_a_shape(lift: str) -> None:
    assert {lift, *VARIANTS[lift]} <= set(LIFTS)
    assert {lift, *VARIANTS[lift]} <= set(TYPICAL)


@pytest.mark.parametrize(
    ("lift", "variant", "at"),
    [(lift, variant, "bench 1") for lift in ("bench press",) for variant in VARIANTS[lift]]
    + [("squat", "half squat", "rack"), ("deadlift", "rack pull", "platform"),
       ("deadlift", "block pull", "platform"), ("overhead press", "overhead pin press", "rack")],
)  # fmt: skip
def test_a_best_from_higher_up_counts(lift: str, variant: str, at: str) -> None:
    lifts = {
        lift: measured(0.5, 1.0, best_kg=100.0, station=""),
        variant: measured(0.7, 1.01, best_kg=120.0, station=""),
    }
    full, part = gather(place(lifts, lift=lift, station=at)).used
    assert full.piece == FullRange(load_kg=100.0)
    assert isinstance(part.piece, Partial)
    assert (part.piece.height_m, part.piece.load_kg) == (0.7, 120.0)
    assert part.piece.height_u_m == pytest.approx(np.hypot(0.005, 0.01))
    assert part.origin.startswith(variant)


def test_records_of_a_variant_count_too() -> None:
    pins = (LiftedSet(load_kg=110.0, reps=3), LiftedSet(load_kg=125.0, from_m=0.98),
            MissedRep(straight_kg=130.0, height_m=1.0))  # fmt: skip
    lifts = {
        "bench press": measured(best_kg=100.0),
        "pin press": measured(0.85, 1.10, station="bench 2", records=pins),
    }
    used = gather(place(lifts)).used
    heights = [one.piece.height_m for one in used if isinstance(one.piece, Partial | Miss)]
    assert heights == pytest.approx([0.82, 0.95, 0.97])


@pytest.mark.parametrize(
    ("variant", "kept", "why"),
    [
        (measured(0.82, 1.07 + SAME_TOP_M + 0.001, best_kg=120.0), 1, "its lockout is 3.1 cm off"),
        (measured(0.82, 1.07 - SAME_TOP_M + 0.001, best_kg=120.0), 2, ""),
        (measured(0.66, 1.07, best_kg=120.0), 1, "no higher than the full lift"),
        (measured(0.82, 1.07, best_kg=120.0, station="odd bench"), 1, "can't be moved"),
        (measured(0.82, 1.07), 1, ""),
    ],
)
def test_another_lockout_is_another_movement(variant: object, kept: int, why: str) -> None:
    lifts = {"bench press": measured(best_kg=100.0), "pin press": variant}
    gathered = gather(place(lifts))  # type: ignore[arg-type]  # all are Measured
    assert len(gathered.used) == kept
    assert bool(gathered.left_out) == bool(why)
    assert why in "".join(one.say() for one in gathered.left_out)


@pytest.mark.parametrize(
    "other",
    ["paused bench press", "close-grip bench press", "incline press", "floor press"],
)
def test_other_movements_are_no_evidence(other: str) -> None:
    station = "rack" if other == "floor press" else "bench 1"
    lifts = {
        "bench press": measured(best_kg=100.0),
        other: measured(0.8, 1.07, best_kg=90.0, station=station),
    }
    assert gather(place(lifts)).evidence == (FullRange(load_kg=100.0),)


def test_what_a_part_of_the_lift_does_not_tell_is_left_out_with_its_reason() -> None:
    records = (HungLift(straight_kg=90.0, hung=HUNG), SpeedRead(load_kg=90.0, speed_m_per_s=0.3),
               LiftedSet(load_kg=90.0, from_m=1.0699))  # fmt: skip
    lifts = {
        "bench press": measured(top_m=1.06, best_kg=100.0),
        "pin press": measured(0.82, 1.07, records=records),
    }
    gathered = gather(place(lifts))
    assert gathered.evidence == (FullRange(load_kg=100.0),)
    said = [one.say() for one in gathered.left_out]
    assert "full range only" in said[0]
    assert "no published line" in said[1]
    assert "outside the bench press" in said[2]


def test_a_given_single_replaces_the_files() -> None:
    one = place({"bench press": measured(best_kg=100.0)})
    gathered = gather(one, [FullRange(load_kg=120.0)])
    assert gathered.evidence == (FullRange(load_kg=120.0),)
    assert "another best was given" in gathered.left_out[0].say()
    assert strength_of(one, [FullRange(load_kg=120.0)]).full_range_kg == pytest.approx(120.0)


@pytest.mark.parametrize(
    "extra", [FullRange(load_kg=85.0, reps=5), Partial(height_m=0.9, load_kg=120.0)]
)
def test_anything_else_given_stands_beside_it(extra: Evidence) -> None:
    one = place({"bench press": measured(best_kg=100.0)})
    assert set(gather(one, [extra]).evidence) == {extra, FullRange(load_kg=100.0)}


def test_bar_speed_steps_back_behind_a_single() -> None:
    speeds = (SpeedRead(load_kg=100.0, speed_m_per_s=0.4),)
    one = place({"bench press": measured(best_kg=110.0, records=speeds)})
    gathered = gather(one)
    assert gathered.evidence == (FullRange(load_kg=110.0),)
    assert "says more" in gathered.left_out[0].say()


def test_several_bar_speeds_make_one_best() -> None:
    speeds = tuple(
        SpeedRead(load_kg=load, speed_m_per_s=v, kind="propulsive")
        for load, v in ((60.0, 0.95), (80.0, 0.66), (100.0, 0.38))
    )
    one = place({"bench press": measured(records=speeds)})
    (piece,) = gather(one).evidence
    assert isinstance(piece, FullRange)
    singles = [best_by_speed("bench press", s.load_kg, s.speed_m_per_s, s.kind) for s in speeds]
    loads = [single.load_kg for single in singles]
    assert min(loads) < piece.load_kg < max(loads)
    assert (piece.load_u_kg or 0.0) >= min(single.load_u_kg or 0.0 for single in singles)


def test_a_speed_the_line_does_not_reach_is_left_out_in_the_files_words() -> None:
    speeds = (SpeedRead(load_kg=60.0, speed_m_per_s=0.9),)
    one = place({"bench press": measured(best_kg=100.0, records=speeds)})
    (left,) = gather(one).left_out
    assert "0.9 m/s with 60.0 kg" in left.say()
    assert "braked" in left.say()


@pytest.mark.parametrize("records", [(), (MissedRep(straight_kg=100.0, third="top"),)])
def test_a_lifter_without_data_is_told_what_to_bring(records: tuple[Record, ...]) -> None:
    one = place({"bench press": measured(records=records)})
    with pytest.raises(NotInStockError, match="Nothing says how strong Odda is") as caught:
        strength_of(one)
    assert caught.value.field == "Odda, bench press"
    for what in ("best single", "set", "pins", "gym file"):
        assert what in (caught.value.wanted or "")


def test_what_was_not_used_is_said_when_nothing_is_left() -> None:
    one = place({"bench press": measured(records=(SpeedRead(load_kg=60.0, speed_m_per_s=0.9),))})
    with pytest.raises(NotInStockError) as caught:
        strength_of(one)
    assert "braked" in str(caught.value.got)


def test_a_contradiction_names_both_and_where_each_is_from() -> None:
    lifts = {"bench press": measured(best_kg=100.0), "pin press": measured(0.82, best_kg=80.0)}
    with pytest.raises(BadInputError, match="partial") as caught:
        strength_of(place(lifts))
    assert caught.value.field == "Odda, bench press"
    assert str(caught.value.got) == (
        "a best of 100.0 kg (best in the gym file); "
        "a best of 80.0 kg from 82.0 cm up (pin press, gym file)"
    )


def test_a_contradiction_is_told_in_the_gyms_units() -> None:
    kg = place({"bench press": measured(best_kg=100.0)})
    gym = Gym(name="x", units="lb", stations=kg.gym.stations, lifters=kg.gym.lifters)
    pounds = Place(gym=gym, lifter=kg.lifter, lift=kg.lift, station=kg.station)
    with pytest.raises(BadInputError) as caught:
        strength_of(pounds, [Partial(height_m=0.9144, load_kg=80.0)])
    assert "a best of 176.4 lb from 36.0 in up (as given)" in str(caught.value.got)


def test_the_answer_holds_the_range_and_every_formula() -> None:
    records = (LiftedSet(load_kg=85.0, reps=5),)
    answer = answer_strength(place({"bench press": measured(records=records)}))
    assert answer.best_low_kg < answer.curve.full_range_kg < answer.best_high_kg
    assert np.all(answer.curve.low_kg <= answer.low_kg + 1e-9)
    assert np.all(answer.low_kg <= answer.curve.best_kg)
    assert np.all(answer.curve.best_kg <= answer.high_kg)
    assert np.all(answer.high_kg <= answer.curve.high_kg + 1e-9)
    assert answer.weakest_low_m <= answer.curve.weakest_m <= answer.weakest_high_m
    (row,) = answer.sets
    assert row.best == one_rm(85.0, 5, lift="bench press")


def test_the_same_question_has_the_same_answer() -> None:
    one = place({"bench press": measured(best_kg=100.0)})
    first, second = answer_strength(one), answer_strength(one)
    assert first.advice == second.advice
    assert np.array_equal(first.low_kg, second.low_kg)


def test_heights_are_those_of_the_station_at_hand() -> None:
    one = place({"bench press": measured(best_kg=100.0)}, station="bench 2")
    travel = strength_of(one).travel
    assert [travel.bottom_m, travel.top_m] == pytest.approx([0.69, 1.10])
