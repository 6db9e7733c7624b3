"""What was written down of a chain piece over the years: inspections and weighings, by day."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final, TypeVar

from topheavy.catalogue.wear import LONGEST_PITCH, MOST_LOST_SECTION
from topheavy.errors import BadInputError
from topheavy.gym.day import day_number
from topheavy.mechanics.chain import require_not_negative, require_positive

if TYPE_CHECKING:
    from collections.abc import Iterable

INSPECT_DAYS: Final = 365
"""After so many days chain is due for a thorough inspection unless the gym says otherwise: once a
year at least, as 29 CFR 1910.184 (e)(3)(i) has it for alloy steel chain slings (read as quoted by
others) and Michigan R 408.14923 too (read). Gym chain has no rule of its own. Sooner where it is
dropped, and a look before every session either way."""

ON_SIGHT: Final = {
    "crack": "a crack",
    "bend": "a bent link",
    "twist": "a twisted link",
    "gouge": "a gouge",
    "heat": "heat colour",
    "binding": "links that bind",
}
"""What an inspection may find that retires a piece at once, whatever was measured."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Inspection:
    """One inspection of a piece.

    Parameters
    ----------
    day : str
        As ``"2026-09-01"``; empty when nobody noted it.
    pitch_growth, lost_section : float or None
        Where they were worst [-], at least 0; None when not measured.
    found : tuple of str
        Words of `ON_SIGHT`.
    by, note : str
        Who looked, and whatever else.

    Raises
    ------
    BadInputError
        A day that is none, or a word that is not known.
    """

    day: str = ""
    pitch_growth: float | None = None
    lost_section: float | None = None
    found: tuple[str, ...] = ()
    by: str = ""
    note: str = ""

    def __post_init__(self) -> None:
        if self.day:
            day_number(self.day, "day")
        for name in ("pitch_growth", "lost_section"):
            if getattr(self, name) is not None:
                require_not_negative(name, getattr(self, name))
        for word in self.found:
            if word not in ON_SIGHT:
                raise BadInputError(
                    "Not a finding known here",
                    field="found",
                    got=repr(word),
                    wanted="one of " + ", ".join(ON_SIGHT),
                )


@dataclass(frozen=True, slots=True, kw_only=True)
class Weighing:
    """One weighing of a piece.

    Parameters
    ----------
    day : str
        As ``"2026-09-01"``; empty when nobody noted it.
    mass_kg, scale_u_kg : float
        What the scale said and its smallest step [kg], both above 0.
    by, note : str
        Who weighed, and whatever else.
    """

    day: str = ""
    mass_kg: float
    scale_u_kg: float
    by: str = ""
    note: str = ""

    def __post_init__(self) -> None:
        if self.day:
            day_number(self.day, "day")
        require_positive("mass_kg", self.mass_kg)
        require_positive("scale_u_kg", self.scale_u_kg)


_T = TypeVar("_T", Inspection, Weighing)


def by_day(some: Iterable[_T]) -> tuple[_T, ...]:
    """Put them in order: the oldest first, those without a day before all, else as written.

    >>> [one.day for one in by_day([Inspection(day="2026-09-01"), Inspection()])]
    ['', '2026-09-01']
    """
    return tuple(sorted(some, key=lambda one: one.day))


def retired_by(inspections: Iterable[Inspection]) -> str:
    """Say why a piece must not be hung by what inspections say; empty while it is fit.

    Of readings the newest counts, for a finer one may correct a coarse one. What was seen once, a
    crack or a bend, does not heal: it counts whatever was written down later.

    Examples
    --------
    >>> worn = Inspection(day="2025-09-01", pitch_growth=0.031)
    >>> retired_by([worn])
    'pitch 3.1 % over, the limit is 3 %'
    >>> retired_by([worn, Inspection(day="2025-09-02", pitch_growth=0.024)])
    ''
    >>> retired_by([Inspection(day="2025-09-01", found=("crack",)), Inspection(day="2026-09-01")])
    'a crack, seen 2025-09-01'
    """
    ordered = by_day(inspections)
    for one in ordered:
        if one.found:
            seen = ", ".join(ON_SIGHT[word] for word in one.found)
            return f"{seen}, seen {one.day}" if one.day else seen
    grown = _newest([one.pitch_growth for one in ordered])
    lost = _newest([one.lost_section for one in ordered])
    if grown >= LONGEST_PITCH - 1e-9:
        return f"pitch {100 * grown:.1f} % over, the limit is {100 * LONGEST_PITCH:g} %"
    if lost >= MOST_LOST_SECTION - 1e-9:
        return f"section worn by {100 * lost:.1f} %, the limit is {100 * MOST_LOST_SECTION:g} %"
    return ""


def _newest(readings: list[float | None]) -> float:
    return next((one for one in reversed(readings) if one is not None), 0.0)
