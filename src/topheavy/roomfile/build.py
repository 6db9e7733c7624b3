"""From checked tables to a room, names held to the gym's."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Generic, TypeVar

from topheavy.errors import BadInputError
from topheavy.gym.lifts import lift_named
from topheavy.gymfile.places import quoted
from topheavy.gymfile.tables_stock import Table
from topheavy.rigging.limits import Limits
from topheavy.rigging.target import Ask
from topheavy.room.ask import Booking, Room
from topheavy.room.pace import GRAIN_S, Pace, grains
from topheavy.services.match import EFFORT
from topheavy.services.rig import Rules

if TYPE_CHECKING:
    from collections.abc import Sequence

    from topheavy.gym.gym import Gym
    from topheavy.gym.people import Station
    from topheavy.gymfile.places import Place
    from topheavy.gymfile.problems import Problems
    from topheavy.roomfile.tables import RoomTable, SessionTable

T = TypeVar("T", bound=Table)

_DAY_S = 24 * 3600


@dataclass(frozen=True, slots=True)
class Placed(Generic[T]):
    """A table that fits the format, and where it stands."""

    place: Place
    table: T


def room_from(
    head: Placed[RoomTable] | None,
    sessions: Sequence[Placed[SessionTable]],
    gym: Gym,
    problems: Problems,
) -> Room | None:
    """Make a room of the tables of a room file; None when anything is wrong, which is noted."""
    if head is None:
        return None
    maker = Maker(head.table, gym, problems)
    stations = maker.stations(head.place)
    bookings = [maker.booking(placed) for placed in sessions]
    maker.once(sessions)
    maker.of_one_day(head, sessions)
    if len(problems):
        return None
    room: Room | None = None
    with problems.caught(head.place):
        room = Room(
            gym=gym,
            bookings=tuple(booking for booking in bookings if booking),
            name=head.table.name,
            opens_s=head.table.opens,
            length=maker.length,
            stations=stations,
            spotters=head.table.spotters,
            most_in_group=head.table.most_in_group,
            pace=pace_of(head.table),
            broken=tuple(head.table.broken),
            limits=limits_of(head.table),
        )
    return room  # noqa: RET504 - what is wrong was noted, not raised


def pace_of(head: RoomTable) -> Pace:
    """How long things take."""
    return Pace(
        rep_s=head.rep,
        ready_s=head.ready,
        plates_s=head.plates,
        rig_s=head.rig,
        between_lifts_s=head.between_lifts,
    )


def limits_of(head: RoomTable) -> Limits:
    """How chain may hang, and bands."""
    return Limits(styles=tuple(dict.fromkeys(head.hang)), most_bands=head.bands)


class Maker:
    """Makes frozen values of tables, and notes what is wrong."""

    def __init__(self, head: RoomTable, gym: Gym, problems: Problems) -> None:
        self.head, self.gym, self.problems = head, gym, problems
        self.length = (head.closes - head.opens) % _DAY_S // GRAIN_S

    def stations(self, place: Place) -> tuple[Station, ...]:
        """Those in use; all of the gym when none are named."""
        with self.problems.caught(place, "closes"):
            if self.length == 0:
                raise BadInputError(
                    "It closes as it opens", wanted="a later time of day, or one after midnight"
                )
        if self.head.stations is None:
            return self.gym.stations
        found: list[Station] = []
        for name in self.head.stations:
            with self.problems.caught(place, "stations"):
                found.append(self.gym.station(name))
        return tuple(dict.fromkeys(found))

    def booking(self, placed: Placed[SessionTable]) -> Booking | None:
        """One lift of one lifter."""
        table, place = placed.table, placed.place
        found: Booking | None = None
        with self.problems.caught(place, "lifter"):
            lifter = self.gym.lifter(table.lifter)
            with self.problems.caught(place, "lift"):
                lift = lift_named(table.lift)
                best_kg = lifter.measured(lift).best_kg
                with self.problems.caught(place):
                    found = Booking(
                        lifter=lifter,
                        lift=lift,
                        ask=self._ask(table, best_kg),
                        sets=table.sets,
                        reps=table.reps,
                        rest_s=table.rest,
                        effort=(table.effort or EFFORT) if table.match else None,
                        rules=Rules(full_deload=not table.part_deload, links_down=1)
                        if not table.match
                        else Rules(full_deload=False, links_down=None),
                        tolerance_kg=table.within or self.head.within,
                        arrives=self._after(table.arrive, "arrive") or 0,
                        leaves=self._after(table.leave, "leave"),
                        station=self._station(table),
                        starts=self._after(table.start, "start"),
                        spotters=table.spotters,
                        may_spot=table.may_spot,
                        kind=table.kind,
                    )
        return found

    def _station(self, table: SessionTable) -> str:
        return self.gym.station(table.station).name if table.station else ""

    def _after(self, clock_s: int | None, field: str) -> int | None:
        """Grains after opening of a time of day."""
        if clock_s is None:
            return None
        found = grains((clock_s - self.head.opens) % _DAY_S)
        if found > self.length:
            raise BadInputError(
                "A time when the room is closed",
                field=field,
                got=f"{clock_s // 3600:02d}:{clock_s % 3600 // 60:02d}",
                wanted="a time of day from opening to closing",
            )
        return found

    def _ask(self, table: SessionTable, best_kg: float | None) -> Ask:
        """Loads in the coach's words, held to what makes sense."""
        ask = Ask(
            bottom_kg=_load_kg(table.bottom, "bottom", best_kg),
            top_kg=_load_kg(table.top, "top", best_kg),
            mean_kg=_load_kg(table.mean, "mean", best_kg),
            straight_kg=_load_kg(table.straight, "straight", best_kg),
            chain_share=table.chain,
        )
        if table.effort is not None and not table.match:
            raise BadInputError(
                "An effort counts only when the rig is matched",
                field="effort",
                wanted="match = true, or loads alone",
            )
        if table.match:
            given = [name for name in ("bottom", "top", "mean", "chain") if getattr(table, name)]
            if given:
                raise BadInputError(
                    "A rig is matched to the lifter or to loads, not to both",
                    field="match",
                    got=f"match and {given[0]}",
                    wanted="one of the two; straight may stand beside match",
                )
            return ask
        try:
            ask.ends_kg()
        except BadInputError as error:
            error.field = "bottom" if table.bottom else "top"
            raise
        return ask

    def once(self, sessions: Sequence[Placed[SessionTable]]) -> None:
        """Refuse a lift of a lifter that stands twice."""
        named = [
            (f"{placed.table.lifter}, {placed.table.lift}", placed.place, ("lift",))
            for placed in sessions
        ]
        self.problems.refuse_twice("session", named)

    def of_one_day(self, head: Placed[RoomTable], sessions: Sequence[Placed[SessionTable]]) -> None:
        """Refuse what speaks of several days where there is one."""
        wanted = "[[day]] tables, or the key left out"
        said = [(placed.place, "days") for placed in sessions if placed.table.days is not None]
        said += [(head.place, "a_day")] if head.table.a_day is not None else []
        for place, key in said:
            with self.problems.caught(place, key):
                raise BadInputError("Only a week has several days", field=key, wanted=wanted)


def _load_kg(load: Any, name: str, best_kg: float | None) -> float | None:
    if load is None:
        return None
    sort, value = load
    if sort == "mass":
        return float(value)
    if best_kg is None:
        raise BadInputError(
            "A percentage here is of the lifter's best, and no best is known",
            field=name,
            got=quoted(f"{100 * value:g} %"),
            wanted="a mass, or a best in the gym file",
        )
    return float(value * best_kg)
