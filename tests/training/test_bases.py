"""Percentages with their bases."""

from __future__ import annotations

import pytest

from topheavy.errors import BadInputError
from topheavy.gym.people import Travel
from topheavy.mechanics.curve import LoadCurve
from topheavy.training.bases import (
    BaseName,
    Bases,
    Hung,
    Percent,
    chain_share,
    convert,
    percent_of,
    straight_for,
)

HUNG = Hung(bottom_kg=2.0, mean_kg=14.0, top_kg=30.0)
LOADS = HUNG.under(80.0)


def test_what_hangs_is_read_off_its_curve() -> None:
    """A ramp from 0 to 40 kg over the upper half: mean 10."""
    curve = LoadCurve.through([0.8, 1.0, 1.2], [0.0, 0.0, 40.0])
    hung = Hung.of(curve, Travel(bottom_m=0.8, top_m=1.2))
    assert (hung.bottom_kg, hung.mean_kg, hung.top_kg) == pytest.approx((0.0, 10.0, 40.0))


def test_straight_weight_has_nothing_hung() -> None:
    assert LOADS.at("straight") == 80.0
    assert HUNG.at("straight") == 0.0


def test_the_same_set_in_four_percentages() -> None:
    bases = Bases(best_kg=100.0, measure=HUNG.under(98.0))
    said = Percent(share=0.8, at="straight")
    assert convert(said, "bottom", "best", HUNG, bases).share == pytest.approx(0.82)
    assert convert(said, "mean", "best", HUNG, bases).share == pytest.approx(0.94)
    assert convert(said, "top", "top", HUNG, bases).share == pytest.approx(110 / 128)


def test_too_much_hung_leaves_no_straight_weight() -> None:
    assert straight_for(Percent(share=0.2, at="top"), HUNG, Bases(best_kg=100.0)) == -10.0


@pytest.mark.parametrize("of", ["best", "top", "mean", "bottom", "straight"])
def test_a_base_that_nobody_knows(of: BaseName) -> None:
    with pytest.raises(BadInputError, match="not known"):
        percent_of(LOADS, "top", of, Bases())


def test_a_base_of_nothing() -> None:
    with pytest.raises(BadInputError, match="not above zero"):
        percent_of(LOADS, "top", "best", Bases(best_kg=0.0))


def test_the_share_of_each_base() -> None:
    shares = {of: chain_share(LOADS, of, 140.0) for of in ("top", "mean", "bottom", "best")}
    assert shares == pytest.approx(
        {"top": 28 / 110, "mean": 28 / 94, "bottom": 28 / 82, "best": 28 / 140}, abs=1e-9
    )
    with pytest.raises(BadInputError, match="No such base"):
        chain_share(LOADS, "straight")
