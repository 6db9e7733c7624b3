"""What a room is asked: who lifts what today, where, from when to when, and with how many hands."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from functools import cached_property
from typing import TYPE_CHECKING, Final

from topheavy.errors import BadInputError, NotInStockError
from topheavy.rigging.limits import Limits
from topheavy.room.pace import GRAIN_S, Pace, Work, grains
from topheavy.services.match import Matching
from topheavy.services.rig import Place, RigQuestion, Rules
from topheavy.services.strength import strength_of

if TYPE_CHECKING:
    from topheavy.gym.gym import Gym
    from topheavy.gym.lifts import Lift
    from topheavy.gym.people import Lifter, Station
    from topheavy.rigging.target import Ask
    from topheavy.training.days import DayName

MOST_SETS: Final = 20
MOST_IN_GROUP: Final = 4
"""Lifters who share a bar: common practice, no source; with more the rests grow too long."""

SPOTTERS: Final = {"bench": 1, "rack": 2, "platform": 0}
"""People who stand ready at a set, by station: common practice, no source. Overhead: none, the bar
is set down on safeties or dropped."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Booking:
    """One lift of one lifter today.

    Parameters
    ----------
    lifter, lift : Lifter, Lift
        Who and what.
    ask : Ask
        Loads wanted.
    sets, reps : int
        Work, 1 to 20 sets.
    rest_s : float
        Least rest between two sets [s].
    effort : float or None
        Match the rig to the lifter's strength at this share of it [-], in place of loads.
    rules : Rules
        How the chain must lie.
    tolerance_kg : float or None
        Largest miss that will do [kg]; None: as for a rig alone.
    arrives : int
        Grains after the room opens when the lifter can begin.
    leaves : int or None
        Grains after the room opens when the lifter must have done.
    station : str
        Locked to this station; empty: any that suits.
    starts : int or None
        Locked to this beginning of the group's first round, in grains.
    spotters : int or None
        People needed at each set; None: as is usual for the lift.
    may_spot : bool
        Whether this lifter may spot others of the group.
    kind : {'heavy', 'speed', 'repetition', 'technique'}
        Kind of day: how near to failure, and when a set ends.
    """

    lifter: Lifter
    lift: Lift
    ask: Ask
    sets: int = 5
    reps: int = 3
    rest_s: float = 180.0
    effort: float | None = None
    rules: Rules = field(default_factory=Rules)
    tolerance_kg: float | None = None
    arrives: int = 0
    leaves: int | None = None
    station: str = ""
    starts: int | None = None
    spotters: int | None = None
    may_spot: bool = True
    kind: DayName = "heavy"

    def __post_init__(self) -> None:
        for name, most in (("sets", MOST_SETS), ("reps", 30)):
            if not 1 <= getattr(self, name) <= most:
                raise BadInputError(
                    f"That many {name} are no session",
                    field=name,
                    got=getattr(self, name),
                    wanted=f"1 to {most}",
                )
        if self.arrives < 0 or (self.leaves is not None and self.leaves <= self.arrives):
            raise BadInputError(
                "Nobody leaves before coming",
                field="leave",
                wanted="an arrival inside the session, and leaving after it",
            )

    @property
    def name(self) -> str:
        """Who and what, in a few words."""
        return f"{self.lifter.name}, {self.lift.name}"

    @property
    def hands(self) -> int:
        """People who must stand ready at each set."""
        if self.spotters is not None:
            return self.spotters
        return 0 if self.lift.overhead else SPOTTERS[self.lift.station]


@dataclass(frozen=True)
class Room:
    """A session of a whole gym.

    Parameters
    ----------
    gym : Gym
        Stock, stations, lifters.
    bookings : tuple of Booking
        Who lifts what; a lifter may have several.
    name : str
        Such as ``"Tuesday"``.
    opens_s : int
        Time of day when it opens [s after midnight].
    length : int
        How long it is open, in grains.
    stations : tuple of Station
        Those in use.
    spotters : int
        People who only spot: coaches, helpers.
    most_in_group : int
        Lifters who share a bar at most.
    pace : Pace
        How long things take.
    broken : tuple of str
        Tags of chain pieces and bands that are not to be used today.
    limits : Limits
        Limits of every rig.
    """

    gym: Gym
    bookings: tuple[Booking, ...]
    name: str = ""
    opens_s: int = 18 * 3600
    length: int = 90 * 60 // GRAIN_S
    stations: tuple[Station, ...] = ()
    spotters: int = 1
    most_in_group: int = MOST_IN_GROUP
    pace: Pace = field(default_factory=Pace)
    broken: tuple[str, ...] = ()
    limits: Limits = field(default_factory=Limits)

    def __post_init__(self) -> None:
        if not self.bookings:
            raise BadInputError(
                "Nobody lifts", field="session", wanted="at least one lifter with a lift"
            )
        if not self.stations:
            raise BadInputError("No station is in use", field="stations", wanted="one or more")
        if not 1 <= self.most_in_group <= 8:
            raise BadInputError(
                "So many can't share a bar",
                field="most_in_group",
                got=self.most_in_group,
                wanted="1 to 8",
            )
        bands = {band.tag for band in self.gym.stock.bands}
        for tag in self.broken:
            if tag not in bands:
                self.gym.stock.piece(tag)
        for booking in self.bookings:
            self._check(booking)

    def _check(self, booking: Booking) -> None:
        if not self.stations_for(booking):
            raise NotInStockError(
                f"{booking.name}: no station in use suits",
                field="stations",
                got=booking.station or ", ".join(one.name for one in self.stations),
                wanted=f"a {booking.lift.station}",
            )

    @cached_property
    def in_use(self) -> Gym:
        """The gym without what is retired or broken: the search never sees it."""
        stock = self.gym.stock
        kept = tuple(one for one in stock.fit_chains if one.tag not in self.broken)
        bands = tuple(one for one in stock.fit_bands if one.tag not in self.broken)
        return replace(self.gym, stock=replace(stock, chains=kept, bands=bands))

    def stations_for(self, booking: Booking) -> tuple[Station, ...]:
        """Stations in use where a booking may lift."""
        return tuple(
            one
            for one in self.stations
            if one.kind == booking.lift.station
            and booking.station.casefold() in ("", one.name.casefold())
        )

    def work(self, booking: Booking) -> Work:
        """Turns and rests of a booking at this room's pace."""
        pace = self.pace
        return Work(
            sets=booking.sets,
            turn=pace.turn_grains(booking.reps),
            cycle=pace.set_grains(booking.reps) + grains(booking.rest_s),
        )

    def question(self, booking: Booking, station: Station) -> RigQuestion:
        """Ask for the rig of one booking at one station, from today's stock."""
        place = Place(gym=self.in_use, lifter=booking.lifter, lift=booking.lift, station=station)
        matching = None
        if booking.effort is not None:
            matching = Matching(strength=strength_of(place), effort=booking.effort)
        return RigQuestion(
            place=place,
            ask=booking.ask,
            rules=booking.rules,
            limits=self.limits,
            tolerance_kg=booking.tolerance_kg,
            matching=matching,
        )
