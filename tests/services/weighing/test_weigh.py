"""A weighing from readings to verdict."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any

import pytest

from tests.services.weighing.weighed_rigs import CHAIN, FLOOR, HELD, STATIONS, Truth, alike
from topheavy.errors import BadInputError
from topheavy.gym.people import Travel
from topheavy.gym.stock import FeederSetting
from topheavy.mechanics.chain import Chain
from topheavy.mechanics.ground import Ground
from topheavy.mechanics.hang import Doubled, Straight
from topheavy.mechanics.rig import End, Rig
from topheavy.services.weighing.weigh import Scale, ScaleReading, Suspects, Weighing, weigh

if TYPE_CHECKING:
    from topheavy.services.weighing.case import Carries

BENCH = STATIONS["bench doubled"]


@pytest.fixture(scope="module")
def bench() -> Weighing:
    readings = Truth.draw(21, BENCH.rig).read(BENCH.blank())
    travel = Travel(bottom_m=0.65, top_m=1.15)
    return weigh(BENCH.rig, FLOOR, readings, travel=travel)


def test_says_plainly_that_nothing_is_off(bench: Weighing) -> None:
    assert bench.outcome == "agrees"
    assert bench.causes == bench.likely == ()
    assert bench.mended is None
    worst = max(abs(row.difference_kg) for row in bench.rows)
    assert abs(bench.worst_kg) == pytest.approx(worst)
    said = f"The scale and the prediction agree within {worst:.1f} kg"
    assert bench.verdict.say().startswith(said)
    assert abs(bench.mean_kg) <= bench.rms_kg <= worst


def test_agreeing_readings_say_what_they_share() -> None:
    """A bar 0.6 kg heavier than its 101 kg stated within 0.5 kg."""
    data = weigh(BENCH.rig, FLOOR, BENCH.blank()).rows
    readings = [replace(row.reading, mass_kg=row.predicted_kg + 0.6) for row in data]
    said = weigh(BENCH.rig, FLOOR, readings).verdict.say()
    assert "agree within 0.6 kg: 0.6 kg more than predicted at every height, no more than" in said
    exact = [replace(row.reading, mass_kg=row.predicted_kg) for row in data]
    said = weigh(BENCH.rig, FLOOR, exact).verdict.say()
    assert said == "The scale and the prediction agree within 0.0 kg."


def test_rows_stand_in_the_order_given(bench: Weighing) -> None:
    for row in bench.rows:
        assert row.difference_kg == pytest.approx(row.reading.mass_kg - row.predicted_kg)
        spread = (row.predicted_u_kg**2 + row.noise_kg**2) ** 0.5
        assert row.z == pytest.approx(row.difference_kg / spread)
        assert not row.off
        assert row.studentised is not None
        assert abs(row.studentised) < bench.threshold
    assert [row.reading.height_m for row in bench.rows[:6]] == list(BENCH.heights_m)


def test_readings_outside_the_travel_are_used_and_marked(bench: Weighing) -> None:
    marked = [row.reading.height_m for row in bench.rows if row.outside_travel]
    assert marked == [0.6, 1.17, 0.6, 1.17]


def test_the_prediction_is_the_rigs_own_curve(bench: Weighing) -> None:
    """Where all strands have left their heaps; nearer the floor they leave one by one."""
    for row in bench.rows:
        curve = BENCH.rig.curve(FLOOR, "raising" if row.reading.way == "raising" else "lowering")
        if row.reading.height_m > 0.85:
            assert row.predicted_kg == pytest.approx(curve.at(row.reading.height_m), abs=0.02)
        assert row.predicted_kg == pytest.approx(curve.at(row.reading.height_m), abs=0.7)


def test_order_of_readings_does_not_matter(bench: Weighing) -> None:
    readings = [row.reading for row in bench.rows]
    other = weigh(BENCH.rig, FLOOR, readings[::-1])
    assert other.misfit == pytest.approx(bench.misfit, rel=1e-6)
    assert [row.z for row in other.rows[::-1]] == pytest.approx([row.z for row in bench.rows])


def test_two_bad_readings_are_both_found_and_left_out() -> None:
    readings = Truth.draw(4, BENCH.rig).read(BENCH.blank())
    for place, kg in ((1, 9.0), (8, -14.0)):
        readings[place] = replace(readings[place], mass_kg=readings[place].mass_kg + kg)
    answer = weigh(BENCH.rig, FLOOR, readings)
    assert [place for place, row in enumerate(answer.rows) if row.off] == [1, 8]
    assert answer.likely[0].kind == "reading"
    assert answer.likely[0].out == answer.fit.left_out == (1, 8)
    assert answer.likely[0].what.say().startswith("Readings 2 and 9 are off")
    chain = answer.fit.number("chain")
    assert chain is not None
    assert abs(chain.value - chain.stated) < 3 * chain.stated_u
    assert abs(answer.rows[8].fitted_kg - readings[8].mass_kg) > 10


def test_numbers_are_given_anew_with_the_cause_put_right() -> None:
    long = replace(HELD, feeder_m=0.75)
    truth = Truth.draw(2, alike(21.0, 80.0, Doubled(chains=(CHAIN, CHAIN), suspension=long)))
    settings = tuple(
        FeederSetting(label=f"ring {number}", length_m=0.35 + 0.1 * number) for number in range(6)
    )
    readings = truth.read(STATIONS["squat doubled"].blank())
    answer = weigh(BENCH.rig, FLOOR, readings, suspects=Suspects(settings=settings))
    assert answer.likely[0].kind == "ring"
    assert "ring 4 (75.0 cm) instead of ring 2 (55.0 cm), on both ends" in answer.verdict.say()
    assert answer.mended is not None
    lift_off = answer.mended.number("lift-off raising")
    assert lift_off is not None
    assert abs(lift_off.value - lift_off.stated) < 3 * lift_off.stated_u
    assert answer.likely[0].rms_kg < 1.0


def test_unexplained_readings_are_said_to_be_so() -> None:
    readings = [
        replace(r, mass_kg=100.0 + 30.0 * (place % 2)) for place, r in enumerate(BENCH.blank())
    ]
    answer = weigh(BENCH.rig, FLOOR, readings)
    assert answer.outcome == "unexplained"
    assert answer.likely == ()
    assert answer.causes
    assert "no single slip that was tried" in answer.verdict.say()


CARRIED: tuple[tuple[Carries, float], ...] = (
    ("bar", 101.0 + 2 * 9.0),
    ("left", 50.5 + 9.0),
    ("right", 50.5 + 9.0),
    ("floor", 2 * 6.0),
    ("floor left", 6.0),
    ("floor right", 6.0),
)


@pytest.mark.parametrize(("carries", "expected_kg"), CARRIED)
def test_each_scale_sees_its_share(carries: Carries, expected_kg: float) -> None:
    """1.8 m of the 3 m chain of 5 kg/m hangs on each end of a bar of 101 kg, 1.2 m lies."""
    chain = Chain(links=60, pitch_m=0.05, density_kg_per_m=5.0, density_u_kg_per_m=0.1)
    rig = alike(21.0, 80.0, Straight(chain=chain))
    flat = Ground(raising_pitches=0.0)
    readings = [
        ScaleReading(height_m=h, mass_kg=expected_kg, way="raising") for h in (1.8, 1.8, 1.8)
    ]
    answer = weigh(rig, flat, readings, Scale(carries=carries))
    assert answer.rows[0].predicted_kg == pytest.approx(expected_kg)
    assert answer.outcome == "agrees"


def test_a_scale_between_sleeve_and_chain_sees_no_bar() -> None:
    chain = Chain(links=60, pitch_m=0.05, density_kg_per_m=5.0, density_u_kg_per_m=0.1)
    rig = Rig(21.0, 80.0, End((Straight(chain=chain),)), End())
    readings = [ScaleReading(height_m=h, mass_kg=5 * h - 0.06, way="raising") for h in (1.0, 1.5)]
    answer = weigh(rig, FLOOR, readings, Scale(carries="left", straight_kg=0.0))
    assert answer.rows[0].predicted_kg == pytest.approx(4.94, abs=0.01)
    assert answer.fit.number("straight weight") is None


def test_a_bare_bar_can_be_weighed_once() -> None:
    bare = Rig(20.0, 60.0, End(), End())
    good = weigh(bare, FLOOR, [ScaleReading(height_m=1.0, mass_kg=80.2)])
    assert good.outcome == "agrees"
    assert good.fit.free == 0
    off = weigh(
        bare,
        FLOOR,
        [ScaleReading(height_m=1.0, mass_kg=90.1)],
        suspects=Suspects(plates_kg=(5.0, 10.0)),
    )
    assert off.likely[0].kind == "plate"


def test_unsaid_readings_lie_between_the_ways() -> None:
    blank = BENCH.blank(("unsaid",))
    answer = weigh(BENCH.rig, FLOOR, [replace(r, mass_kg=110.0) for r in blank])
    raising = BENCH.rig.curve(FLOOR, "raising").at(BENCH.heights_m)
    lowering = BENCH.rig.curve(FLOOR, "lowering").at(BENCH.heights_m)
    row = answer.rows[-1]
    assert lowering[-1] < row.predicted_kg < raising[-1]
    assert row.predicted_u_kg > 0.5 * (raising[-1] - lowering[-1])
    assert answer.fit.number("lift-off") is not None


def test_too_few_readings_are_refused() -> None:
    readings = Truth.draw(1, BENCH.rig).read(BENCH.blank())
    with pytest.raises(BadInputError, match="Too few readings") as refused:
        weigh(BENCH.rig, FLOOR, [readings[0], readings[-1]])
    assert refused.value.got == 2
    assert str(refused.value.wanted).startswith("3 or more")
    with pytest.raises(BadInputError, match="Too few readings"):
        weigh(BENCH.rig, FLOOR, [])
    assert weigh(BENCH.rig, FLOOR, readings[1:3]).rows


@pytest.mark.parametrize(
    ("bad", "field"),
    [
        ({"mass_kg": -1.0}, "mass_kg"),
        ({"mass_kg": float("nan")}, "mass_kg"),
        ({"mass_kg": float("inf")}, "mass_kg"),
        ({"height_m": float("nan")}, "height_m"),
        ({"height_m": -0.1}, "height_m"),
        ({"height_m": 90.0}, "height_m"),
        ({"mass_u_kg": 0.0}, "mass_u_kg"),
        ({"height_u_m": -0.01}, "height_u_m"),
        ({"way": "sideways"}, "way"),
    ],
)
def test_bad_readings_are_refused(bad: dict[str, Any], field: str) -> None:
    with pytest.raises(BadInputError) as refused:
        ScaleReading(**({"height_m": 1.0, "mass_kg": 100.0} | bad))
    assert refused.value.field == field


@pytest.mark.parametrize(
    ("make", "field"),
    [
        (lambda: Scale(carries="ceiling"), "carries"),  # type: ignore[arg-type] # as a user may
        (lambda: Scale(straight_kg=-1.0), "straight_kg"),
        (lambda: Scale(straight_u_kg=float("nan")), "straight_u_kg"),
        (lambda: Suspects(plates_kg=(0.0,)), "plates_kg"),
        (lambda: Suspects(surfaces_m=(7.0,)), "surfaces_m"),
    ],
)
def test_bad_scales_and_suspects_are_refused(make: Any, field: str) -> None:
    with pytest.raises(BadInputError) as refused:
        make()
    assert refused.value.field == field
