"""Sentences with quantities in them, said in kilograms or in pounds when they are shown."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from topheavy.units import METRIC

if TYPE_CHECKING:
    from topheavy.units import UnitSystem

Dimension = Literal["mass", "length", "linear density"]


@dataclass(frozen=True, slots=True)
class Amount:
    """One quantity of a sentence.

    Parameters
    ----------
    value : float
        In SI: [kg], [m] or [kg/m].
    dimension : {'mass', 'length', 'linear density'}
        What it is.
    decimals : int or None
        Decimals to show; None: as is usual for the dimension.
    """

    value: float
    dimension: Dimension
    decimals: int | None = None

    def say(self, units: UnitSystem = METRIC) -> str:
        """Print the quantity with its unit.

        >>> Amount(0.05, "length").say()
        '5.0 cm'
        """
        usual = 2 if self.dimension == "linear density" else 1
        decimals = usual if self.decimals is None else self.decimals
        if self.dimension == "mass":
            return units.mass(self.value, decimals)
        if self.dimension == "length":
            return units.length(self.value, decimals)
        return units.density(self.value, decimals)


@dataclass(frozen=True, slots=True)
class Phrase:
    """A sentence.

    Parameters
    ----------
    text : str
        With ``{}`` where an amount stands.
    amounts : tuple of Amount
        In the order of the text.
    """

    text: str
    amounts: tuple[Amount, ...] = ()

    def say(self, units: UnitSystem = METRIC) -> str:
        """Say it in the units a person wants to see.

        >>> Phrase("they agree within {}", (Amount(0.31, "mass"),)).say()
        'they agree within 0.3 kg'
        """
        return self.text.format(*(amount.say(units) for amount in self.amounts))


@dataclass(frozen=True, slots=True)
class Remark:
    """Something to know, with a name that programs can go by.

    Parameters
    ----------
    code : str
        A short name that never changes.
    phrase : Phrase
        What, and what to do.
    """

    code: str
    phrase: Phrase

    def say(self, units: UnitSystem = METRIC) -> str:
        """Say it in the units a person wants to see.

        >>> Remark("hung", Phrase("{} hang", (Amount(60.0, "mass"),))).say()
        '60.0 kg hang'
        """
        return self.phrase.say(units)


def literal(text: str) -> str:
    """Keep braces in a name from being taken for places of amounts.

    >>> literal("ring {7}")
    'ring {{7}}'
    """
    return text.replace("{", "{{").replace("}", "}}")
