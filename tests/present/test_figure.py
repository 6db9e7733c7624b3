"""Numbers as people see them."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.present.figures import said
from topheavy.present.figure import (
    Figure,
    force,
    length,
    mass,
    plate_mark,
    says_length,
    share,
    sure_mass,
)
from topheavy.units import M_PER_IN, METRIC, POUNDS, UnitSystem

BOTH = pytest.mark.parametrize("units", [METRIC, POUNDS], ids=["kg", "lb"])


@BOTH
@given(value=st.floats(-500, 500), u=st.none() | st.floats(0, 50))
def test_text_of_a_mass_says_its_value(units: UnitSystem, value: float, u: float | None) -> None:
    _check(mass(units, value, u), value, u)


@BOTH
@given(value=st.floats(-3, 3), u=st.none() | st.floats(0, 1))
def test_text_of_a_length_says_its_value(units: UnitSystem, value: float, u: float | None) -> None:
    _check(length(units, value, u), value, u)


@given(value=st.floats(-2, 2), u=st.none() | st.floats(0, 1))
def test_text_of_a_share_says_its_value(value: float, u: float | None) -> None:
    _check(share(value, u), value, u)


def _check(figure: Figure, value: float, u: float | None) -> None:
    number, spread, half = said(figure)
    assert figure.value == value
    assert figure.u == u
    assert number == pytest.approx(value, abs=half * 1.001)
    assert (spread is None) == (u is None)
    if spread is not None and u is not None:
        assert spread == pytest.approx(u, abs=half * 1.001)
    assert "-0.0 " not in figure.text


def test_a_force_names_the_mass_that_weighs_as_much() -> None:
    """One pound-force is 4.4482216 N (NIST SP 811, appendix B.8, from memory)."""
    assert force(METRIC, 98.0665).text == "98 N, the weight of 10.0 kg"
    assert force(POUNDS, 10 * 4.4482216).text == "44 N, the weight of 10.0 lb"


@pytest.mark.parametrize(
    ("mass_kg", "mark"),
    [
        (20.0, "20 kg"),
        (1.25, "1.25 kg"),
        (0.5, "0.5 kg"),
        (45 * 0.45359237, "45 lb"),
        (2.5 * 0.45359237, "2.5 lb"),
        (9.52, "9.52 kg"),
    ],
)
def test_a_plate_is_called_by_what_stands_on_it(mass_kg: float, mark: str) -> None:
    assert plate_mark(mass_kg) == mark


@pytest.mark.parametrize(
    ("u_kg", "shown"),
    [
        (0.02, "9.50 \u00b1 0.02 kg"),
        (0.014, "9.500 \u00b1 0.014 kg"),
        (0.9, "9.5 \u00b1 0.9 kg"),
        (1.31, "9.5 \u00b1 1.3 kg"),
        (3.0, "10 \u00b1 3 kg"),
        (0.00001, "9.500 \u00b1 0.000 kg"),
        (0.0, "9.500 \u00b1 0.000 kg"),
    ],
)
def test_a_mass_has_the_decimals_that_its_doubt_lets_stand(u_kg: float, shown: str) -> None:
    assert sure_mass(METRIC, 9.5, u_kg).text == shown


def test_a_length_in_two_roundings_is_one() -> None:
    assert says_length("28.75 in", length(POUNDS, 28.75 * M_PER_IN))
    assert not says_length("28.75 in", length(POUNDS, 28.85 * M_PER_IN))
    assert not says_length("66.5 cm", length(POUNDS, 0.665))
    assert not says_length("ring 7", length(POUNDS, 0.665))
    assert not says_length("pin", length(POUNDS, 0.665))
