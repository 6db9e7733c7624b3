"""Quantities as a coach writes them, to and from SI.

Inside, everything is a float in kg and m. Only this module knows pounds and inches; only the
edges (files, terminal, pages) call it.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Final, Literal

from topheavy.errors import BadInputError

KG_PER_LB: Final = 0.45359237
"""International avoirdupois pound [kg], exact: NIST SP 811 (2008), appendix B.8."""

M_PER_IN: Final = 0.0254
"""International inch [m], exact: NIST SP 811 (2008), appendix B.8."""

Dimension = Literal["mass", "length", "linear density", "speed", "share"]

_FACTORS: Final[dict[Dimension, dict[str, float]]] = {
    "mass": {"kg": 1.0, "g": 1e-3, "lb": KG_PER_LB, "lbs": KG_PER_LB, "oz": KG_PER_LB / 16},
    "length": {
        "m": 1.0,
        "cm": 1e-2,
        "mm": 1e-3,
        "in": M_PER_IN,
        '"': M_PER_IN,
        "ft": 12 * M_PER_IN,
        "'": 12 * M_PER_IN,
    },
    "linear density": {
        "kg/m": 1.0,
        "g/m": 1e-3,
        "lb/ft": KG_PER_LB / (12 * M_PER_IN),
        "lb/in": KG_PER_LB / M_PER_IN,
    },
    "speed": {"m/s": 1.0, "cm/s": 1e-2, "ft/s": 12 * M_PER_IN, "in/s": M_PER_IN},
    "share": {"%": 1e-2},
}

UNITS: Final[dict[Dimension, tuple[str, ...]]] = {
    dimension: tuple(factors) for dimension, factors in _FACTORS.items()
}
"""Every unit that can be written for a dimension; upper and lower case are alike."""

_NUMBER: Final = (
    r"[+-]?\d+\s+\d+/\d+|[+-]?\d+/\d+|[+-]?\d+(?:[.,]\d+)?(?:[eE][+-]?\d{1,2})?|[+-]?[.,]\d+"
)
_TERM: Final = re.compile(rf"\s*({_NUMBER})\s*([a-zA-Z%\"']+(?:/[a-zA-Z]+)?)\s*", re.ASCII)
_LONGEST: Final = 40


def parse_quantity(text: str, dimension: Dimension, *, field: str) -> float:
    """Read a quantity with its unit.

    Parameters
    ----------
    text : str
        Such as ``"1.37 m"``, ``"4 ft 6 in"``, ``"5/8 in"``, ``"1 1/4 lb"``, ``"0,5 kg"``.
    dimension : {'mass', 'length', 'linear density', 'speed', 'share'}
        What the quantity must be.
    field : str
        Where the text stands, for the error.

    Returns
    -------
    float
        In kg, m, kg/m, m/s, or as a fraction of one.

    Raises
    ------
    BadInputError
        No number, no unit, an unknown unit, or a unit of another dimension.

    Examples
    --------
    >>> parse_quantity("4 ft 6 in", "length", field="travel")
    1.3716
    >>> parse_quantity("5/8 in", "length", field="size")
    0.015875
    >>> parse_quantity("25 %", "share", field="chain")
    0.25
    """
    factors = _FACTORS[dimension]
    wanted = f"a {dimension} with its unit ({', '.join(factors)}), such as {_EXAMPLES[dimension]}"
    total, position = 0.0, 0
    if not text.strip() or len(text) > _LONGEST:
        raise BadInputError(f"Not a {dimension}", field=field, got=_short(text), wanted=wanted)
    while position < len(text):
        term = _TERM.match(text, position)
        if term is None:
            raise BadInputError(f"Not a {dimension}", field=field, got=_short(text), wanted=wanted)
        unit = term[2] if term[2] in factors else term[2].lower()
        if unit == "kn" and dimension == "mass":
            raise BadInputError(
                "A figure in kN is what a part breaks at, not what it may carry",
                field=field,
                got=_short(text),
                wanted="the working load limit (WLL) in kg or lb: ask the maker; never convert it",
            )
        if unit not in factors:
            raise BadInputError(
                f"Unknown unit {term[2]!r} for a {dimension}",
                field=field,
                got=_short(text),
                wanted=wanted,
            )
        total += _number(term[1], field) * factors[unit]
        position = term.end()
    return round(total, 12)


_EXAMPLES: Final[dict[Dimension, str]] = {
    "mass": '"21 lb" or "9.5 kg"',
    "length": '"1.37 m" or "4 ft 6 in"',
    "linear density": '"5.3 kg/m"',
    "speed": '"0.45 m/s"',
    "share": '"25 %"',
}


def _short(text: str) -> str:
    return repr(text if len(text) <= _LONGEST else text[:_LONGEST] + "...")


def _number(text: str, field: str) -> float:
    whole, _, rest = text.replace(",", ".").rpartition(" ")
    numerator, slash, denominator = rest.partition("/")
    if not slash:
        return float(rest)
    if int(denominator) == 0:
        raise BadInputError("A fraction over zero", field=field, got=repr(text))
    fraction = int(numerator) / int(denominator)
    return int(whole) + fraction if whole.strip() else fraction


@dataclass(frozen=True, slots=True)
class UnitSystem:
    """The units a person wants to see.

    Parameters
    ----------
    name : str
        ``"kg"`` (kg and cm) or ``"lb"`` (lb and in).
    mass_unit, length_unit, density_unit : str
        As printed.
    kg_per_mass, m_per_length, kg_per_m_per_density : float
        SI value of one printed unit.
    """

    name: str
    mass_unit: str
    length_unit: str
    density_unit: str
    kg_per_mass: float
    m_per_length: float
    kg_per_m_per_density: float

    def mass(self, mass_kg: float, decimals: int = 1) -> str:
        """Print a mass [kg] with its unit.

        >>> POUNDS.mass(9.5254)
        '21.0 lb'
        """
        return f"{_no_minus_zero(mass_kg / self.kg_per_mass, decimals)} {self.mass_unit}"

    def length(self, length_m: float, decimals: int = 1) -> str:
        """Print a length [m] with its unit.

        >>> METRIC.length(0.225)
        '22.5 cm'
        """
        return f"{_no_minus_zero(length_m / self.m_per_length, decimals)} {self.length_unit}"

    def density(self, density_kg_per_m: float, decimals: int = 2) -> str:
        """Print a linear density [kg/m] with its unit.

        >>> METRIC.density(5.3)
        '5.30 kg/m'
        """
        value = density_kg_per_m / self.kg_per_m_per_density
        return f"{_no_minus_zero(value, decimals)} {self.density_unit}"


def pounds_beside(text: str) -> str:
    """Put pounds and inches beside kilograms and metres in a sentence.

    Parameters
    ----------
    text : str
        Masses in kg and lengths in m, each with its unit; what stands in quotes is left alone, as
        is what has something in brackets behind it already.

    Examples
    --------
    >>> pounds_beside("3.2 kg at 0.508 m, 0 to 2.9 m wanted")
    '3.2 kg (7.1 lb) at 0.508 m (20.0 in), 0 to 2.9 m (0.0 to 114.2 in) wanted'
    """
    return _SI.sub(_beside, text)


def _beside(said: re.Match[str]) -> str:
    low, high, unit = said.groups()
    show = POUNDS.mass if unit == "kg" else POUNDS.length
    ends = [show(float(number)) for number in (low, high) if number]
    if high:
        ends[0] = ends[0].rpartition(" ")[0]
    return f"{said[0]} ({' to '.join(ends)})"


def _no_minus_zero(value: float, decimals: int) -> str:
    text = f"{value:.{decimals}f}"
    return text.removeprefix("-") if float(text) == 0 else text


METRIC: Final = UnitSystem("kg", "kg", "cm", "kg/m", 1.0, 0.01, 1.0)
POUNDS: Final = UnitSystem(
    "lb", "lb", "in", "lb/ft", KG_PER_LB, M_PER_IN, KG_PER_LB / (12 * M_PER_IN)
)
SYSTEMS: Final = {"kg": METRIC, "lb": POUNDS}

_SI: Final = re.compile(
    r"(?<![\w.\"'])(\d+(?:\.\d+)?)(?: to (\d+(?:\.\d+)?))? (kg|m)\b(?!/)(?! \()"
)
