"""Half against parallel squat.

Enoki S, Shiba J, Hakozaki T, Suzuki Y, Kuzuhara K. Correlations between one-repetition maximum
weights of different back squat depths. Isokinetics and Exercise Science 31(2): 97-102, 2023. Seen:
abstract. 26 male athletes: half (knee bent 90 degrees) = 1.0728 x parallel + 24.641 kg, r = 0.725;
the quarter squat can't be foretold from either.

The line is read as half from parallel, the direction that makes the half squat heavier. The share
of the travel is ours: 0.4 to 0.5.
"""

from __future__ import annotations

import pytest

from topheavy.gym.lifts import lift_named
from topheavy.gym.people import Travel
from topheavy.lifter.evidence import Evidence, FullRange, Partial
from topheavy.lifter.strength import strength_curve
from topheavy.lifter.typical import typical_for

TRAVEL = Travel(bottom_m=0.9, top_m=1.5)
PARALLEL_KG = (100.0, 130.0, 160.0)


def half_kg(parallel_kg: float) -> float:
    return 1.0728 * parallel_kg + 24.641


@pytest.mark.parametrize("parallel_kg", PARALLEL_KG)
@pytest.mark.parametrize("share", [0.4, 0.5])
def test_half_squat_lies_in_the_range_from_the_parallel_alone(
    parallel_kg: float, share: float
) -> None:
    curve = strength_curve(lift_named("squat"), TRAVEL, [FullRange(load_kg=parallel_kg)])
    low, high = curve.range_at(0.9 + 0.6 * share)
    assert low <= half_kg(parallel_kg) <= high


@pytest.mark.parametrize("parallel_kg", PARALLEL_KG)
def test_typical_squat_comes_near_the_line(parallel_kg: float) -> None:
    """Ratios 1.32 to 1.23; typical 1.20 at 0.4 and 1.36 at 0.5 of the travel."""
    shape = typical_for("squat").shape
    low, high = float(shape.at(0.4)), float(shape.at(0.5))
    assert low <= half_kg(parallel_kg) / parallel_kg <= high


def test_both_make_one_typical_curve() -> None:
    pieces: list[Evidence] = [
        FullRange(load_kg=130.0),
        Partial(height_m=1.17, load_kg=half_kg(130.0)),
    ]
    curve = strength_curve(lift_named("squat"), TRAVEL, pieces)
    assert float(curve.at(1.17)) == pytest.approx(half_kg(130.0))
    assert "not typical" not in {remark.code for remark in curve.remarks}


def test_the_top_quarter_stays_a_guess() -> None:
    """No correlation was found for the quarter squat: there the range is wider than 60 %."""
    pieces: list[Evidence] = [
        FullRange(load_kg=130.0),
        Partial(height_m=1.17, load_kg=half_kg(130.0)),
    ]
    curve = strength_curve(lift_named("squat"), TRAVEL, pieces)
    low, high = curve.range_at(1.4)
    assert high > 1.6 * low
    assert "top unmeasured" in {remark.code for remark in curve.remarks}
