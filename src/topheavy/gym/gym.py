"""A gym: stock, stations and lifters."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from topheavy.errors import BadInputError, NotInStockError
from topheavy.gym.care import INSPECT_DAYS
from topheavy.gym.people import Travel
from topheavy.gym.stock import Stock

if TYPE_CHECKING:
    from topheavy.gym.lifts import Lift
    from topheavy.gym.people import Lifter, Station
    from topheavy.gym.stock import Bar


@dataclass(frozen=True, slots=True, kw_only=True)
class Gym:
    """Stock, stations and lifters of one gym.

    Parameters
    ----------
    name : str
        As it stands on the cards.
    units : str
        ``"kg"`` or ``"lb"``: what this gym wants to see.
    stock : Stock
        Everything that can be hung or loaded.
    stations, lifters : tuple
        Places and people.
    inspect_days : int
        Days after which chain is due for a thorough inspection, 1 or more.
    """

    name: str
    units: str = "kg"
    stock: Stock = field(default_factory=Stock)
    stations: tuple[Station, ...] = ()
    lifters: tuple[Lifter, ...] = ()
    inspect_days: int = INSPECT_DAYS

    def station(self, name: str) -> Station:
        """Find a station by name, upper or lower case, or raise NotInStockError."""
        for station in self.stations:
            if station.name.casefold() == name.casefold():
                return station
        raise _unknown("station", name, [station.name for station in self.stations])

    def station_for(self, lift: Lift) -> Station:
        """Find the first station where a lift is done, or raise NotInStockError."""
        for station in self.stations:
            if station.kind == lift.station:
                return station
        raise NotInStockError(
            f"The {lift.name} needs a {lift.station}, and this gym lists none",
            field="station",
            wanted=f"a station of kind {lift.station!r}",
        )

    def lifter(self, name: str) -> Lifter:
        """Find a lifter by name, upper or lower case, or raise NotInStockError."""
        for lifter in self.lifters:
            if lifter.name.casefold() == name.casefold():
                return lifter
        raise _unknown("lifter", name, [lifter.name for lifter in self.lifters])

    def first_lifter(self, lift: Lift) -> Lifter:
        """Find the first lifter who was measured for a lift, or raise NotInStockError."""
        for lifter in self.lifters:
            if lift.name in lifter.lifts:
                return lifter
        raise NotInStockError(
            f"Nobody in this gym was measured for the {lift.name}",
            field="lifter",
            wanted=f"heights of a lifter: {lift.bottom_at} and {lift.top_at}, floor to bar centre",
        )

    def bar_at(self, station: Station) -> Bar:
        """Find the bar of a station: its own, or the gym's first."""
        if station.bar:
            return self.stock.bar(station.bar)
        if not self.stock.bars:
            raise NotInStockError("This gym lists no bar", field="stock.bar", wanted="one bar")
        return self.stock.bars[0]

    def travel(self, lifter: Lifter, lift: Lift, station: Station) -> Travel:
        """Heights of a lifter's lift on a station [m].

        Heights of a bench lift measured on another bench move with the pad.

        Raises
        ------
        BadInputError
            The station is of the wrong kind, or the pads can't be compared.
        """
        if station.kind != lift.station:
            raise BadInputError(
                f"The {lift.name} is not done on a {station.kind}",
                field="station",
                got=station.name,
                wanted=f"a station of kind {lift.station!r}",
            )
        measured = lifter.measured(lift)
        if not measured.station or measured.station == station.name or lift.station != "bench":
            return measured.travel
        pad_there_m = self.station(measured.station).pad_m
        if pad_there_m is None or station.pad_m is None:
            raise BadInputError(
                f"{lifter.name}'s heights were measured on {measured.station!r} and can't be moved",
                field="pad",
                wanted="the pad height of both benches, or heights measured here",
            )
        shift_m = station.pad_m - pad_there_m
        return Travel(
            bottom_m=measured.travel.bottom_m + shift_m,
            top_m=measured.travel.top_m + shift_m,
            height_u_m=measured.travel.height_u_m,
        )


def _unknown(what: str, name: str, known: list[str]) -> NotInStockError:
    return NotInStockError(
        f"No {what} called {name!r}",
        field=what,
        got=repr(name),
        wanted=f"one of {', '.join(known)}" if known else f"a gym with at least one {what}",
    )
