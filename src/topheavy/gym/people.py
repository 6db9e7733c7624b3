"""Lifters, their measured heights and bests, and the stations they lift on."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from topheavy.errors import NotInStockError

if TYPE_CHECKING:
    from collections.abc import Mapping

    from topheavy.gym.lifts import Lift, StationKind
    from topheavy.gym.records import Record
    from topheavy.mechanics.banded import Peg


@dataclass(frozen=True, slots=True, kw_only=True)
class StationPeg:
    """A band peg of a station, alike on both sides: its name there, and where it is."""

    name: str
    peg: Peg


@dataclass(frozen=True, slots=True, kw_only=True)
class Station:
    """A bench, rack or platform.

    Parameters
    ----------
    name : str
        As the coach calls it.
    kind : {'bench', 'rack', 'platform'}
        What it is.
    surface_m : float
        Height of what the chain lies on above what bar heights are measured from [m]: a mat or
        block under the chain is positive.
    pad_m : float or None
        Height of a bench's pad [m].
    bar : str
        Name of the bar that lives there; empty: the gym's first.
    pegs : tuple of StationPeg
        Where bands are anchored.
    """

    name: str
    kind: StationKind
    surface_m: float = 0.0
    pad_m: float | None = None
    bar: str = ""
    pegs: tuple[StationPeg, ...] = ()

    def peg(self, name: str) -> Peg:
        """Find a peg by its name, upper or lower case, or raise NotInStockError."""
        for one in self.pegs:
            if one.name.casefold() == name.casefold():
                return one.peg
        raise NotInStockError(
            f"{self.name} has no band peg {name!r}",
            field="peg",
            got=repr(name),
            wanted=f"one of {', '.join(one.name for one in self.pegs)}"
            if self.pegs
            else "a station with band pegs",
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Travel:
    """Bottom and top of one lift, floor to bar centre.

    Parameters
    ----------
    bottom_m, top_m : float
        Heights [m].
    height_u_m : float
        Standard uncertainty of each [m].
    """

    bottom_m: float
    top_m: float
    height_u_m: float = 0.005

    @property
    def travel_m(self) -> float:
        """How far the bar goes [m]."""
        return self.top_m - self.bottom_m


@dataclass(frozen=True, slots=True, kw_only=True)
class Measured:
    """What is known of one lifter in one lift.

    Parameters
    ----------
    travel : Travel
        Heights.
    station : str
        Where they were measured; empty when it does not matter.
    best_kg : float or None
        Best single at straight weight, full range [kg].
    best_day : str
        Day of that single, as ``"2026-10-03"``; empty when nobody noted it.
    records : tuple of Record
        What else was written down.
    logged : tuple of Record
        What the log of sets tells; it gives way where it contradicts the rest.
    """

    travel: Travel
    station: str = ""
    best_kg: float | None = None
    best_day: str = ""
    records: tuple[Record, ...] = ()
    logged: tuple[Record, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Lifter:
    """A lifter: name, and what was measured by lift name."""

    name: str
    lifts: Mapping[str, Measured] = field(default_factory=dict)

    def measured(self, lift: Lift) -> Measured:
        """Find what was measured for a lift, or raise NotInStockError."""
        found = self.lifts.get(lift.name)
        if found is None:
            raise NotInStockError(
                f"{self.name} has no heights for the {lift.name}",
                field="lift",
                got=lift.name,
                wanted=f"one of {', '.join(self.lifts)}; or measure bottom ({lift.bottom_at}) and "
                f"top ({lift.top_at}), floor to bar centre",
            )
        return found
