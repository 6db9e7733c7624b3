"""Constants and unit factors against two general-purpose libraries.

scipy.constants (standard gravity: 3rd CGPM 1901; pound and inch: NIST SP 811, 2008, appendix B.8)
and the pint unit registry. Seen: computed. All factors are exact by definition, so the tolerance
is rounding only.
"""

from __future__ import annotations

import pint
import pytest
from scipy import constants

from topheavy.constants import STANDARD_GRAVITY_M_PER_S2
from topheavy.units import (
    KG_PER_LB,
    M_PER_IN,
    METRIC,
    POUNDS,
    Dimension,
    UnitSystem,
    parse_quantity,
)

REGISTRY: pint.UnitRegistry[float] = pint.UnitRegistry()
SI = {"mass": "kg", "length": "m", "linear density": "kg/m", "speed": "m/s"}
PINT_NAMES = {"lbs": "lb", '"': "in", "'": "ft"}
UNITS: dict[Dimension, tuple[str, ...]] = {
    "mass": ("kg", "g", "lb", "lbs", "oz"),
    "length": ("m", "cm", "mm", "in", '"', "ft", "'"),
    "linear density": ("kg/m", "g/m", "lb/ft", "lb/in"),
    "speed": ("m/s", "cm/s", "ft/s", "in/s"),
}


def pint_factor(unit: str, si: str) -> float:
    return float(REGISTRY.Quantity(1.0, PINT_NAMES.get(unit, unit)).to(si).magnitude)


def test_standard_gravity() -> None:
    """3rd CGPM, declaration 2: 9.80665 m/s2, exact."""
    assert constants.g == STANDARD_GRAVITY_M_PER_S2
    pint_g = REGISTRY.Quantity(1.0, "standard_gravity").to("m/s**2").magnitude
    assert pint_g == pytest.approx(STANDARD_GRAVITY_M_PER_S2, rel=1e-15)


def test_pound_and_inch() -> None:
    """International pound 0.45359237 kg and inch 0.0254 m, exact."""
    assert pytest.approx(constants.pound, rel=1e-15) == KG_PER_LB
    assert pytest.approx(constants.inch, rel=1e-15) == M_PER_IN


@pytest.mark.parametrize(
    ("dimension", "unit"), [(dimension, unit) for dimension in UNITS for unit in UNITS[dimension]]
)
def test_reading_a_unit(dimension: Dimension, unit: str) -> None:
    """Every unit a coach may write, against pint; read to 12 decimals."""
    wanted = 1000 * pint_factor(unit, SI[dimension])
    assert parse_quantity(f"1000 {unit}", dimension, field="test") == pytest.approx(
        wanted, rel=1e-12
    )


def test_reading_a_share() -> None:
    """One percent is one hundredth."""
    wanted = REGISTRY.Quantity(12.5, "percent").to("dimensionless").magnitude
    assert parse_quantity("12.5 %", "share", field="test") == pytest.approx(wanted, rel=1e-12)


@pytest.mark.parametrize("shown", [METRIC, POUNDS], ids=["kg", "lb"])
def test_printing_units(shown: UnitSystem) -> None:
    """The factors that results are printed with."""
    assert shown.kg_per_mass == pytest.approx(pint_factor(shown.mass_unit, "kg"), rel=1e-15)
    assert shown.m_per_length == pytest.approx(pint_factor(shown.length_unit, "m"), rel=1e-15)
    density = pint_factor(shown.density_unit, "kg/m")
    assert shown.kg_per_m_per_density == pytest.approx(density, rel=1e-12)
