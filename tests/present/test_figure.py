"""Numbers as people see them."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.present.figures import said
from topheavy.present.figure import Figure, force, length, mass, plate_mark, share
from topheavy.units import METRIC, POUNDS, UnitSystem

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
