"""Quantities in a gym file: text with its unit in, SI out, and the same rule for the schema."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Annotated, Final

from pydantic_core import PydanticCustomError, core_schema

from topheavy.errors import BadInputError
from topheavy.units import UNITS, Dimension, parse_quantity

if TYPE_CHECKING:
    from pydantic import GetCoreSchemaHandler, GetJsonSchemaHandler
    from pydantic.json_schema import JsonSchemaValue

_NUMBER: Final = r"[+-]?([0-9]+\s+[0-9]+/[0-9]+|[0-9]+/[0-9]+|[0-9]*[.,]?[0-9]+([eE][+-]?[0-9]+)?)"

_BARE_UNITS: Final[dict[Dimension, tuple[str, str]]] = {
    "mass": ("kg", "lb"),
    "length": ("cm", "in"),
    "linear density": ("kg/m", "lb/ft"),
    "speed": ("m/s", "cm/s"),
    "share": ("%", "%"),
}
_SI_UNIT: Final[dict[Dimension, str]] = {
    "mass": "kg",
    "length": "m",
    "linear density": "kg/m",
    "speed": "m/s",
    "share": "",
}


@dataclass(frozen=True, slots=True)
class Quantity:
    """A quantity's dimension and the range that a gym can mean.

    Parameters
    ----------
    dimension : {'mass', 'length', 'linear density', 'speed', 'share'}
        What it is.
    up_to : float
        Largest value in SI; a guard against slips of the pen, no source.
    zero : bool
        Whether nothing at all is allowed.
    """

    dimension: Dimension
    up_to: float
    zero: bool = False

    def read(self, value: object) -> float:
        """Turn text with its unit into SI, or say what is wrong with it."""
        if not isinstance(value, str):
            raise self._refusal(*self._without_unit(value))
        try:
            found = parse_quantity(value, self.dimension, field="")
        except BadInputError as error:
            raise self._refusal(error.message, error.wanted or self._range) from error
        if not (found >= 0 if self.zero else found > 0):
            word = "below zero" if self.zero else "not above zero"
            raise self._refusal(f"A {self.dimension} {word}", self._range)
        if found > self.up_to:
            raise self._refusal(f"A {self.dimension} too large to be true", self._range)
        return found

    @property
    def _range(self) -> str:
        start = "0" if self.zero else "above 0"
        return f"{start}, up to {self.up_to:g} {_SI_UNIT[self.dimension]}".rstrip()

    def _without_unit(self, value: object) -> tuple[str, str]:
        if isinstance(value, bool) or not isinstance(value, int | float):
            return f"Not a {self.dimension}", "text in quotes: a number and its unit"
        one, other = _BARE_UNITS[self.dimension]
        shown = f"{value:g}" if abs(value) < 1e12 else "..."
        return (
            f"A {self.dimension} without its unit",
            f'write the unit, in quotes: "{shown} {one}" or "{shown} {other}"',
        )

    def _refusal(self, message: str, wanted: str) -> PydanticCustomError:
        return PydanticCustomError("quantity", "{message}", {"message": message, "wanted": wanted})

    def __get_pydantic_core_schema__(
        self, source: object, handler: GetCoreSchemaHandler
    ) -> core_schema.CoreSchema:
        return core_schema.no_info_plain_validator_function(self.read)

    def __get_pydantic_json_schema__(
        self, schema: core_schema.CoreSchema, handler: GetJsonSchemaHandler
    ) -> JsonSchemaValue:
        return text_schema(self.dimension)


def text_schema(dimension: Dimension) -> JsonSchemaValue:
    """Make the JSON Schema of a quantity: text, a number and a unit of its dimension."""
    units = "|".join(_any_case(unit) for unit in UNITS[dimension])
    return {"type": "string", "maxLength": 40, "pattern": rf"^\s*({_NUMBER}\s*({units})\s*)+$"}


def _any_case(unit: str) -> str:
    return "".join(f"[{c.lower()}{c.upper()}]" if c.isalpha() else c for c in unit)


Mass = Annotated[float, Quantity("mass", 2000.0)]
"""Mass of one thing or of a lift [kg]."""

Pull = Annotated[float, Quantity("mass", 500.0, zero=True)]
"""What a scale in line with a band shows, which may be nothing [kg]."""

Rating = Annotated[float, Quantity("mass", 1e6)]
"""Working load limit [kg]."""

Length = Annotated[float, Quantity("length", 20.0)]
"""Length of one thing [m]."""

Thickness = Annotated[float, Quantity("length", 2.0, zero=True)]
"""Thickness or rise, which may be nothing [m]."""

PegHeight = Annotated[float, Quantity("length", 6.0, zero=True)]
"""Height of a peg, on the floor or up to the top of a rack [m]."""

Speed = Annotated[float, Quantity("speed", 5.0)]
"""Speed of a bar [m/s]."""

Density = Annotated[float, Quantity("linear density", 200.0)]
"""Mass per length [kg/m]."""
