"""Facts in a row: "32 links, 593 mm over ten, 9.5 kg" taken apart, each known by its form."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Final

from topheavy.errors import BadInputError
from topheavy.units import UNITS, parse_quantity

if TYPE_CHECKING:
    from topheavy.units import Dimension

_BETWEEN: Final = re.compile(r"(?<!\d),|,(?!\d)|;")
_UNIT: Final = re.compile(r"[\d/]\s*([a-zA-Z\"'%]+(?:/[a-zA-Z]+)?)\s*$")
_LONGEST: Final = 300


def facts_in(text: str) -> list[str]:
    """Split at commas and semicolons; a comma between two digits is a decimal comma.

    >>> facts_in("32 links, 59,3 cm over ten links,9.5 kg")
    ['32 links', '59,3 cm over ten links', '9.5 kg']
    """
    return [" ".join(part.split()) for part in _BETWEEN.split(text) if part.strip()]


def dimension_of(fact: str) -> Dimension | None:
    """Tell from its unit what a bare quantity measures; None when it has no unit known here.

    >>> dimension_of("5/8 in"), dimension_of("5.3 kg/m"), dimension_of("ring 7")
    ('length', 'linear density', None)
    """
    unit = _UNIT.search(fact)
    for dimension, units in UNITS.items():
        if unit is not None and unit[1].lower() in units:
            return dimension
    return None


def amount(text: str, dimension: Dimension, option: str) -> float:
    """Read a quantity that must be above zero, in SI.

    Raises
    ------
    BadInputError
        No such quantity, or nothing and less.
    """
    value = parse_quantity(text, dimension, field=option)
    if value <= 0:
        raise BadInputError(
            f"A {dimension} must be above zero",
            field=option,
            got=repr(text),
            wanted=f"a {dimension} above zero",
        )
    return value


def not_understood(fact: str, option: str, wanted: str) -> BadInputError:
    """Make the error for a fact of no known form."""
    shown = fact if len(fact) <= _LONGEST else fact[:_LONGEST] + "..."
    return BadInputError("Not understood", field=option, got=repr(shown), wanted=wanted)
