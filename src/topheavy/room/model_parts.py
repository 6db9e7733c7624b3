"""What stations share, written for the solver: never more in use at a time than there is."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from topheavy.errors import BadInputError
from topheavy.room.draft import COLLARS, HANDS, Part, capacities, parts_hung, plates_on

if TYPE_CHECKING:
    from topheavy.room.ask import Room
    from topheavy.room.offers import Offers


def solver_library() -> Any:
    """Load CP-SAT.

    Raises
    ------
    BadInputError
        It is not installed.
    """
    try:
        from ortools.sat.python import cp_model  # noqa: PLC0415 - large, and only planning needs it
    except ImportError:
        raise BadInputError(
            "Planning a room needs the solver, and it is not installed",
            field="ortools",
            wanted="pip install 'topheavy[room]'",
        ) from None
    return cp_model


@dataclass(frozen=True, slots=True, kw_only=True)
class Slack:
    """What may be stretched to see what stands in the way.

    Parameters
    ----------
    part : tuple of str or None
        A sort of thing of which there may be more, at a cost each.
    time : bool
        Whether the room may stay open longer.
    leave_out : bool
        Whether bookings may be left out.
    """

    part: Part | None = None
    time: bool = False
    leave_out: bool = False


@dataclass(slots=True, eq=False)
class Place:
    """One place for a group at a station, and its variables."""

    station: str
    used: Any
    who: dict[int, Any]
    hung: dict[int, Any]
    begins: Any
    ends: Any
    fresh: Any
    long: Any
    interval: Any
    plates: dict[Part, Any] = field(default_factory=dict)


class SharedParts:
    """Writes the constraints on chain, feeders, connectors, collars, plates and people."""

    def __init__(self, room: Room, offers: Offers, slack: Slack) -> None:
        self.library = solver_library()
        self.model = self.library.CpModel()
        self.room, self.offers, self.slack = room, offers, slack
        self.places: list[Place] = []
        self.ways: dict[tuple[int, str], list[Any]] = {}
        self.have = capacities(room, offers)

    def enough_of_everything(self) -> Any:
        """What stations share is never taken more often than it is there."""
        extra = None
        demands = self._demands()
        for part, have in self.have.items():
            takers = demands.get(part, [])
            more = 0
            if self.slack.part == part:
                extra = more = self.model.new_int_var(0, 99, "extra")
            if not takers:
                continue
            if self.slack.part != part and not self._could_run_short(part, have):
                continue
            intervals = [place.interval for place, _ in takers]
            self.model.add_cumulative(intervals, [demand for _, demand in takers], have + more)
        return extra if extra is not None else 0

    def _could_run_short(self, part: Part, have: int) -> bool:
        worst: dict[str, int] = {}
        for place in self.places:
            most = self._most(place, part)
            worst[place.station] = max(worst.get(place.station, 0), most)
        return sum(worst.values()) > have

    def _most(self, place: Place, part: Part) -> int:
        if part == HANDS:
            return max((self.room.bookings[n].hands for n in place.who), default=0)
        if part == COLLARS:
            return 1
        if part[0] == "plates":
            return max((self._plates_most(n, place.station, part) for n in place.who), default=0)
        return max((parts_hung(self.offers, h).get(part, 0) for h in place.hung), default=0)

    def _plates_most(self, n: int, station: str, part: Part) -> int:
        ways = self.offers.at[n, station].loadings
        return max(plates_on(way).get(part, 0) for way in ways)

    def _demands(self) -> dict[Part, list[tuple[Place, Any]]]:
        found: dict[Part, list[tuple[Place, Any]]] = {}
        short = {
            part
            for part, have in self.have.items()
            if part == self.slack.part or self._could_run_short(part, have)
        }
        for place in self.places:
            wants: dict[Part, Any] = {COLLARS: place.used}
            for h, var in place.hung.items():
                for part, count in parts_hung(self.offers, h).items():
                    wants[part] = wants.get(part, 0) + count * var
            if HANDS in short:
                wants[HANDS] = self._hands(place)
            for part in short:
                if part[0] == "plates":
                    wants[part] = self._plates(place, part)
            for part, want in wants.items():
                if part in short:
                    found.setdefault(part, []).append((place, self._counted(place, part, want)))
        return found

    def _counted(self, place: Place, part: Part, want: Any) -> Any:
        """Make a sum one number, as the solver wants demands."""
        count = self.model.new_int_var(0, max(1, self._most(place, part)), "")
        self.model.add(count == want)
        return count

    def _hands(self, place: Place) -> Any:
        """People from outside the group: those of it who rest may spot."""
        bookings = self.room.bookings
        most = max((bookings[n].hands for n in place.who), default=0)
        hands = self.model.new_int_var(0, most, "")
        spots = sum(var for n, var in place.who.items() if bookings[n].may_spot)
        for n, var in place.who.items():
            own = bookings[n].hands
            if own:
                others = spots - (var if bookings[n].may_spot else 0)
                self.model.add(hands >= own - others).only_enforce_if(var)
        return hands

    def _plates(self, place: Place, part: Part) -> Any:
        """Pairs of plates of one size that lie at a station for its group."""
        most = max((self._plates_most(n, place.station, part) for n in place.who), default=0)
        lying = self.model.new_int_var(0, most, "")
        for n, var in place.who.items():
            loadings = self.offers.at[n, place.station].loadings
            counts = [plates_on(way).get(part, 0) for way in loadings]
            if len(set(counts)) == 1:
                if counts[0]:
                    self.model.add(lying >= counts[0] * var)
                continue
            for way, count in zip(self._way_vars(n, place.station), counts, strict=True):
                if count:
                    self.model.add(lying >= count).only_enforce_if(var, way)
        return lying

    def _way_vars(self, n: int, station: str) -> list[Any]:
        if (n, station) not in self.ways:
            count = len(self.offers.at[n, station].loadings)
            made = [self.model.new_bool_var(f"way {n} {station} {at}") for at in range(count)]
            self.model.add_exactly_one(made)
            self.ways[n, station] = made
        return self.ways[n, station]
