"""Quantities in a file: text with its unit in, SI out, and the same rule for the schema."""

from __future__ import annotations

from abc import ABC, abstractmethod
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


class Written(ABC):
    """Something a file says that is read by a rule of its own: what pydantic is told of it."""

    __slots__ = ()

    @abstractmethod
    def read(self, value: object) -> object:
        """Read it, or raise what `refusal` makes."""

    @abstractmethod
    def schema(self) -> JsonSchemaValue:
        """Give the JSON Schema of what may be written."""

    def __get_pydantic_core_schema__(
        self, source: object, handler: GetCoreSchemaHandler
    ) -> core_schema.CoreSchema:
        return core_schema.no_info_plain_validator_function(self.read)

    def __get_pydantic_json_schema__(
        self, schema: core_schema.CoreSchema, handler: GetJsonSchemaHandler
    ) -> JsonSchemaValue:
        return self.schema()


def refusal(message: str, wanted: str) -> PydanticCustomError:
    """Make the error that says what is wrong and what would be right."""
    return PydanticCustomError("quantity", "{message}", {"message": message, "wanted": wanted})


@dataclass(frozen=True, slots=True)
class Quantity(Written):
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
            raise refusal(*self._without_unit(value))
        try:
            found = parse_quantity(value, self.dimension, field="")
        except BadInputError as error:
            raise refusal(error.message, error.wanted or self._range) from error
        if not (found >= 0 if self.zero else found > 0):
            word = "below zero" if self.zero else "not above zero"
            raise refusal(f"A {self.dimension} {word}", self._range)
        if found > self.up_to:
            raise refusal(f"A {self.dimension} too large to be true", self._range)
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

    def schema(self) -> JsonSchemaValue:
        """Give the JSON Schema: text, a number and a unit of the dimension."""
        return text_schema(self.dimension)


@dataclass(frozen=True, slots=True)
class ShareOrMass(Written):
    """A load: a share of the best, or kilograms or pounds.

    Parameters
    ----------
    wanted : str
        Examples of both.
    """

    wanted: str

    def read(self, value: object) -> tuple[str, float]:
        """Tell which it is, and how much as a fraction or in kg."""
        if isinstance(value, str) and value.strip().endswith("%"):
            return "share", Quantity("share", 1.5).read(value)
        if isinstance(value, str):
            return "mass", Quantity("mass", 2000.0).read(value)
        raise refusal("A load without its unit", f"text in quotes: {self.wanted}")

    def schema(self) -> JsonSchemaValue:
        """Give the JSON Schema: either."""
        return {"anyOf": [text_schema("share"), text_schema("mass")]}


def listed(value: object) -> object:
    """One thing or several: always a list."""
    return value if isinstance(value, list) else [value]


def small_as_text(value: object) -> object:
    """A small whole number that stands without quotes where text is wanted: a grade, a label."""
    whole = isinstance(value, int) and not isinstance(value, bool) and 0 <= value < 1000
    return str(value) if whole else value


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
