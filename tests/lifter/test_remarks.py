"""Remarks: each where it matters, none where it does not, in the units wanted."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from topheavy.gym.lifts import lift_named
from topheavy.gym.people import Travel
from topheavy.lifter.evidence import Evidence, FullRange, HungBest, Isometric, Miss, Partial
from topheavy.lifter.strength import strength_curve
from topheavy.mechanics.curve import LoadCurve
from topheavy.units import POUNDS

if TYPE_CHECKING:
    from topheavy.phrase import Remark

BEST = FullRange(load_kg=100.0)
CHAIN = LoadCurve.through([0.8, 1.2], [0.0, 40.0])


def said(*pieces: Evidence) -> dict[str, Remark]:
    curve = strength_curve(lift_named("bench"), Travel(bottom_m=0.8, top_m=1.2), pieces)
    return {remark.code: remark for remark in curve.remarks}


def test_measured_up_to_lockout_needs_no_remark() -> None:
    assert not said(BEST, Partial(height_m=1.0, load_kg=108.0), Partial(height_m=1.12, load_kg=130))


@pytest.mark.parametrize(
    ("pieces", "codes"),
    [
        ((BEST,), {"one number"}),
        ((FullRange(load_kg=85.0, reps=5),), {"one number", "set"}),
        ((BEST, Partial(height_m=1.0, load_kg=108.0)), {"top unmeasured"}),
        ((BEST, Partial(height_m=1.0, load_kg=108.0), HungBest(straight_kg=82, hung=CHAIN)), set()),
        ((BEST, HungBest(straight_kg=82.0, hung=CHAIN)), set()),
        ((BEST, HungBest(straight_kg=99.0, hung=0.1 * CHAIN)), {"little hung"}),
        ((BEST, Miss(height_m=0.95, load_kg=103.0)), set()),
        ((BEST, Miss(height_m=0.95, load_kg=98.0)), {"miss of a lifted load"}),
        ((BEST, Partial(height_m=1.12, load_kg=98.5)), {"partial low"}),
        ((BEST, Partial(height_m=1.12, load_kg=94.0)), {"partial low", "best lowered"}),
        ((BEST, Isometric(height_m=1.15, force_n=1400.0)), {"isometric"}),
        ((BEST, Isometric(height_m=1.0, force_n=1200.0)), {"isometric", "top unmeasured"}),
    ],
)
def test_each_remark_where_it_matters(pieces: tuple[Evidence, ...], codes: set[str]) -> None:
    assert set(said(*pieces)) == codes


def test_isometric_remark_states_its_shares() -> None:
    text = said(BEST, Isometric(height_m=1.15, force_n=1400.0))["isometric"].say()
    assert "60% to 120%" in text
    assert "loosely" in text


def test_set_remark_gives_the_formulas_range_and_caveats() -> None:
    text = said(FullRange(load_kg=70.0, reps=12))["set"].say()
    assert "set of 12 with 70.0 kg" in text
    assert "More than 10" in text


def test_remarks_are_said_in_pounds_and_inches() -> None:
    remark = said(BEST, Partial(height_m=1.0, load_kg=108.0))["top unmeasured"]
    assert "39.4 in" in remark.say(POUNDS)
    assert "238.1 lb" in remark.say(POUNDS)


def test_a_single_that_was_made_is_not_lowered_in_silence() -> None:
    remark = said(BEST, Partial(height_m=1.12, load_kg=94.0))["best lowered"]
    assert "The single of 220.5 lb was made" in remark.say(POUNDS)
