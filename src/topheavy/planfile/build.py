"""From checked tables to a block, names held to the gym's."""

from __future__ import annotations

import datetime as dt
import zoneinfo
from typing import TYPE_CHECKING, cast

from topheavy.errors import BadInputError
from topheavy.gym.lifts import lift_named
from topheavy.gymfile.places import Place, quoted
from topheavy.training.weeks import (
    USUAL_SHARE,
    USUAL_WAVES,
    WEEKDAYS,
    Block,
    Change,
    TrainingDay,
    Wave,
)

if TYPE_CHECKING:
    from collections.abc import Sequence

    from topheavy.gym.gym import Gym
    from topheavy.gymfile.problems import Problems
    from topheavy.planfile.read import Placed, Sections
    from topheavy.planfile.tables import ChangeTable, DayTable, PlanTable, WaveTable
    from topheavy.training.days import DayName

_KINDS: tuple[DayName, ...] = ("heavy", "speed", "repetition", "technique")


def block_from(sections: Sections, gym: Gym, problems: Problems) -> Block | None:
    """Make a block of the tables of a plan file.

    Parameters
    ----------
    sections : Sections
        As read.
    gym : Gym
        Whose lifters and stations the plan names.
    problems : Problems
        Where whatever is wrong gets noted.

    Returns
    -------
    Block or None
        None when anything is wrong.
    """
    maker = _Maker(gym, problems)
    days = [maker.day(placed) for placed in sections.days]
    waves = [maker.wave(placed) for placed in sections.waves]
    changes = [maker.change(placed) for placed in sections.changes]
    head = sections.plan
    if head is None:
        return None
    start = dt.date.fromisoformat(head.table.start)
    lifters = maker.lifters(head.place, head.table.lifters)
    zone = maker.zone(head, sections.days)
    if len(problems):
        return None
    block: Block | None = None
    with problems.caught(head.place):
        block = Block(
            name=head.table.name,
            start=start.isoformat(),
            first_weekday=start.weekday(),
            days=tuple(day for day in days if day),
            waves=tuple(wave for wave in waves if wave) or USUAL_WAVES,
            lifters=lifters,
            changes=tuple(change for change in changes if change),
            test_week=head.table.test_week,
            time_zone=zone,
        )
    return block  # noqa: RET504 - what is wrong was noted, not raised


class _Maker:
    """Makes frozen values of tables, and notes what is wrong."""

    def __init__(self, gym: Gym, problems: Problems) -> None:
        self.gym, self.problems = gym, problems

    def zone(self, placed: Placed[PlanTable], days: Sequence[Placed[DayTable]]) -> str:
        """The time zone, which days with times need."""
        name = placed.table.time_zone
        timed = next((day for day in days if day.table.time is not None), None)
        if name is None:
            if timed is not None:
                with self.problems.caught(timed.place, "time"):
                    raise BadInputError(
                        "A time needs the gym's time zone",
                        got=quoted(timed.table.time),
                        wanted='time_zone = "Europe/Vienna" or the like under [plan]',
                    )
            return ""
        found = ""
        with self.problems.caught(placed.place, "time_zone"):
            try:
                found = zoneinfo.ZoneInfo(name).key
            except (zoneinfo.ZoneInfoNotFoundError, ValueError, OSError):
                raise BadInputError(
                    "This computer knows no such time zone",
                    got=quoted(name),
                    wanted="a name of the IANA list, such as Europe/Vienna or America/Denver",
                ) from None
        return found

    def lifters(self, place: Place, names: Sequence[str] | None) -> tuple[str, ...]:
        """Lifters as the gym writes them, each once."""
        found: list[str] = []
        for name in names or ():
            with self.problems.caught(place, "lifters"):
                found.append(self.gym.lifter(name).name)
        return tuple(dict.fromkeys(found))

    def day(self, placed: Placed[DayTable]) -> TrainingDay | None:
        """A day of the week."""
        table, place = placed.table, placed.place
        lifts: list[str] = []
        station = ""
        for name in table.lift:
            with self.problems.caught(place, "lift"):
                lifts.append(lift_named(name).name)
        if table.station is not None:
            with self.problems.caught(place, "station"):
                station = self._station(table.station, lifts)
        return TrainingDay(
            weekday=WEEKDAYS.index(table.weekday),
            lifts=tuple(lifts),
            kind=table.kind,
            sets=table.sets,
            reps=table.reps,
            lifters=self.lifters(place, table.lifters),
            station=station,
            hang=table.hang,
            begins_min=_minutes(table.time),
            lasts_min=table.minutes,
        )

    def _station(self, name: str, lifts: Sequence[str]) -> str:
        station = self.gym.station(name)
        for lift in map(lift_named, lifts):
            if lift.station != station.kind:
                raise BadInputError(
                    f"The {lift.name} is not done on a {station.kind}",
                    got=quoted(name),
                    wanted=f"a station of kind {quoted(lift.station)}, or no station",
                )
        return station.name

    def wave(self, placed: Placed[WaveTable]) -> Wave | None:
        """A wave."""
        table = placed.table
        given = {kind: getattr(table, kind) for kind in _KINDS}
        found: Wave | None = None
        with self.problems.caught(placed.place):
            if table.hang == "straight" and (table.share or table.match):
                raise BadInputError(
                    "With straight weight nothing hangs",
                    field="share" if table.share else "match",
                    got='hang = "straight"',
                    wanted='hang = "chain", "bands" or "mixed", or no such line',
                )
            if table.match and table.share:
                raise BadInputError(
                    "A rig follows a share or the lifter's strength, not both",
                    field="match",
                    got="match and share",
                    wanted="one of the two",
                )
            self._check_matched(table)
            found = Wave(
                hang=table.hang,
                weeks=table.weeks,
                share=tuple(table.share or (USUAL_SHARE,)),
                of=table.of,
                at=table.load_at,
                match=table.match,
                loads={kind: tuple(loads) for kind, loads in given.items() if loads},
                deload=table.deload,
            )
        return found  # noqa: RET504 - what is wrong was noted, not raised

    @staticmethod
    def _check_matched(table: WaveTable) -> None:
        for kind in _KINDS:
            most = max(getattr(table, kind) or (0.0,))
            if table.match and most > 1:
                raise BadInputError(
                    "No lifter moves more than all of their strength",
                    field=kind,
                    got=f"{100 * most:g} %",
                    wanted="at most 100 % where the rig follows the lifter's strength",
                )

    def change(self, placed: Placed[ChangeTable]) -> Change | None:
        """A change by hand."""
        table, place = placed.table, placed.place
        lift = ""
        if table.lift is not None:
            with self.problems.caught(place, "lift"):
                lift = lift_named(table.lift).name
        who = ""
        if table.lifter is not None:
            with self.problems.caught(place, "lifter"):
                who = self.gym.lifter(table.lifter).name
        told = (table.load, table.share, table.sets, table.reps, table.off or None, table.note)
        with self.problems.caught(place):
            if all(one is None for one in told):
                raise BadInputError(
                    "A change that changes nothing",
                    wanted="load, share, sets, reps, off = true or a note",
                )
        kind, load = cast("tuple[str, float]", table.load or ("", 0.0))
        return Change(
            week=table.week,
            lifter=who,
            lift=lift,
            weekday=None if table.weekday is None else WEEKDAYS.index(table.weekday),
            load=load if kind == "share" else None,
            load_kg=load if kind == "mass" else None,
            share=table.share,
            sets=table.sets,
            reps=table.reps,
            off=table.off,
            note=table.note or "",
        )


def _minutes(time: str | None) -> int | None:
    """Minutes after midnight."""
    if time is None:
        return None
    hours, minutes = time.split(":")
    return 60 * int(hours) + int(minutes)
