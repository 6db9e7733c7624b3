"""Evidence that can't be right together is named; evidence within its doubt is not refused."""

from __future__ import annotations

import copy

import pytest

from topheavy.errors import BadInputError
from topheavy.gym.lifts import lift_named
from topheavy.gym.people import Travel
from topheavy.lifter.contradictions import ContradictionError
from topheavy.lifter.evidence import Evidence, FullRange, HungBest, Isometric, Miss, Partial
from topheavy.lifter.strength import StrengthCurve, strength_curve
from topheavy.mechanics.curve import LoadCurve

TRAVEL = Travel(bottom_m=0.8, top_m=1.2)
BEST = FullRange(load_kg=100.0)
CHAIN = LoadCurve.through([0.8, 1.2], [0.0, 40.0])


def test_the_error_carries_its_pieces_and_can_be_copied() -> None:
    partial = Partial(height_m=1.05, load_kg=85.0)
    with pytest.raises(ContradictionError) as caught:
        bench(BEST, partial)
    for error in (caught.value, copy.copy(caught.value)):
        assert error.pieces == (BEST, partial)
        assert error.field == "evidence"
        assert str(error.got) == f"{BEST.words} and {partial.words}"


def bench(*pieces: Evidence) -> StrengthCurve:
    return strength_curve(lift_named("bench"), TRAVEL, pieces)


@pytest.mark.parametrize(
    ("one", "other", "why"),
    [
        (BEST, Partial(height_m=1.05, load_kg=85.0), "A partial starts higher"),
        (BEST, FullRange(load_kg=120.0), "Two full-range bests"),
        (
            Partial(height_m=1.0, load_kg=130.0),
            Partial(height_m=1.1, load_kg=110.0),
            "A partial from higher up",
        ),
        (BEST, Miss(height_m=1.0, load_kg=85.0), "A load was missed"),
        (
            Partial(height_m=1.0, load_kg=130.0),
            Miss(height_m=1.1, load_kg=110.0),
            "A load was missed",
        ),
        (
            HungBest(straight_kg=100.0, hung=CHAIN),
            Miss(height_m=1.15, load_kg=105.0),
            "A load was missed",
        ),
        (BEST, HungBest(straight_kg=120.0, hung=CHAIN), "under hung load"),
        (BEST, HungBest(straight_kg=40.0, hung=CHAIN), "under hung load"),
        (
            Partial(height_m=1.15, load_kg=90.0),
            HungBest(straight_kg=90.0, hung=CHAIN),
            "under hung load",
        ),
        (
            Partial(height_m=1.0, load_kg=200.0),
            Isometric(height_m=1.15, force_n=80 * 9.80665),
            "agrees with both",
        ),
    ],
)
def test_pairs_that_can_not_both_be_right_are_named(
    one: Evidence, other: Evidence, why: str
) -> None:
    bystander = Partial(height_m=1.02, load_kg=1000.0, maximal=False, load_u_kg=1e3)
    for pieces in ((one, other), (other, bystander, one)):
        with pytest.raises(BadInputError) as caught:
            bench(*pieces)
        assert why in caught.value.message
        assert one.words in str(caught.value.got)
        assert other.words in str(caught.value.got)
        assert bystander.words not in str(caught.value.got)
        assert caught.value.wanted


@pytest.mark.parametrize(
    "other",
    [
        Partial(height_m=1.05, load_kg=97.5),
        FullRange(load_kg=104.0),
        Miss(height_m=0.95, load_kg=98.0),
        HungBest(straight_kg=101.0, hung=CHAIN),
    ],
)
def test_pairs_that_differ_within_their_doubt_are_taken(other: Evidence) -> None:
    assert bench(BEST, other).full_range_kg == pytest.approx(100.0, rel=0.045)


def test_hung_best_above_the_full_best_within_doubt_is_remarked() -> None:
    curve = bench(BEST, HungBest(straight_kg=101.0, hung=CHAIN))
    assert "hung above best" in {remark.code for remark in curve.remarks}


def test_three_that_fail_together_though_any_two_agree_are_all_named() -> None:
    """Missed low, strong above, missed higher up: that takes two weakest heights."""
    pieces = (
        Miss(height_m=0.83, load_kg=102.0),
        Isometric(height_m=0.88, force_n=210 * 9.80665),
        Miss(height_m=0.95, load_kg=102.0),
    )
    with pytest.raises(BadInputError) as caught:
        bench(*pieces)
    assert "one weakest height" in caught.value.message
    assert all(piece.words in str(caught.value.got) for piece in pieces)
    assert bench(*pieces[:2]).full_range_kg > 0
    assert bench(*pieces[1:]).full_range_kg > 0


@pytest.mark.parametrize(
    ("pieces", "got"),
    [
        ((), "nothing"),
        ((Miss(height_m=1.0, load_kg=100.0),), "miss of 100 kg"),
        ((FullRange(load_kg=90.0, maximal=False),), "lift of 90 kg"),
        ((HungBest(straight_kg=90.0, hung=CHAIN, maximal=False),), "lift of 90 kg"),
    ],
)
def test_evidence_without_a_best_says_nothing_of_strength(
    pieces: tuple[Evidence, ...], got: str
) -> None:
    with pytest.raises(BadInputError, match="Nothing says how strong") as caught:
        bench(*pieces)
    assert got in str(caught.value.got)


@pytest.mark.parametrize(
    "piece",
    [
        Partial(height_m=0.75, load_kg=100.0),
        Partial(height_m=1.2, load_kg=100.0),
        Partial(height_m=1.3, load_kg=100.0),
        Miss(height_m=0.7, load_kg=100.0),
        Miss(height_m=1.2, load_kg=100.0),
        Isometric(height_m=1.3, force_n=1000.0),
    ],
)
def test_heights_outside_the_lift_are_refused_by_number(piece: Evidence) -> None:
    with pytest.raises(BadInputError, match="outside the lift") as caught:
        bench(BEST, piece)
    assert caught.value.field == "evidence[1].height_m"
    assert piece.words in str(caught.value.got)


def test_isometric_at_lockout_is_inside_the_lift() -> None:
    assert bench(BEST, Isometric(height_m=1.2, force_n=1500.0)).full_range_kg > 0


def test_a_lift_upside_down_is_refused() -> None:
    with pytest.raises(BadInputError, match="bottom of the lift"):
        strength_curve(lift_named("bench"), Travel(bottom_m=1.2, top_m=0.8), [BEST])
