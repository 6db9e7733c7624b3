"""Logged sets as one frozen view for terminal and JSON, together by day, lifter and lift."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from rich.console import Group
from rich.text import Text

from topheavy.present.figure import Figure, mass
from topheavy.present.terminal import ACCENT, QUIET, headed, listed, ruled

if TYPE_CHECKING:
    from collections.abc import Iterable

    from rich.console import RenderableType

    from topheavy.gym.log import LoggedSet
    from topheavy.units import UnitSystem

_ID_SHOWN = 8


@dataclass(frozen=True, slots=True, kw_only=True)
class SetRow:
    """A logged set in words and figures."""

    id: str
    day: str
    time: str
    lifter: str
    lift: str
    station: str
    session: str
    number: int | None
    straight: Figure
    bottom: Figure | None
    mean: Figure | None
    top: Figure | None
    hung: str
    reps: int
    reps_left: float | None
    speed: Figure | None
    missed: bool
    third: str | None
    note: str
    by: str
    corrects: str
    struck: bool
    corrected: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class LogView:
    """Sets of a gym, in the order in which they were done."""

    gym: str
    sets: tuple[SetRow, ...]
    more: bool


def set_row(logged: LoggedSet, units: UnitSystem, *, corrected: bool = False) -> SetRow:
    """Put a set into words and figures.

    Parameters
    ----------
    logged : LoggedSet
        Any.
    units : UnitSystem
        What the user wants to see.
    corrected : bool
        Whether a later set stands for it.
    """
    rig, speed = logged.rig, logged.speed_m_per_s
    return SetRow(
        id=logged.id,
        day=logged.day,
        time=logged.time,
        lifter=logged.lifter,
        lift=logged.lift,
        station=logged.station,
        session=logged.session,
        number=logged.number,
        straight=mass(units, logged.straight_kg),
        bottom=mass(units, rig.bottom_kg) if rig else None,
        mean=mass(units, rig.mean_kg) if rig else None,
        top=mass(units, rig.top_kg) if rig else None,
        hung=rig.words if rig else "",
        reps=logged.reps,
        reps_left=logged.reps_left,
        speed=Figure(speed, "m/s", f"{speed:.2f} m/s") if speed is not None else None,
        missed=logged.missed,
        third=logged.third,
        note=logged.note,
        by=logged.by,
        corrects=logged.corrects,
        struck=logged.struck,
        corrected=corrected,
    )


def view_log(
    gym: str, rows: Iterable[tuple[LoggedSet, bool]], units: UnitSystem, *, more: bool = False
) -> LogView:
    """Put sets, each with whether a later one stands for it, into a view; `more` stay out."""
    sets = tuple(set_row(logged, units, corrected=corrected) for logged, corrected in rows)
    return LogView(gym=gym, sets=sets, more=more)


def render_log(view: LogView) -> RenderableType:
    """Lay the sets out, a table for each day, lifter and lift."""
    groups: dict[tuple[str, str, str], list[SetRow]] = {}
    for row in view.sets:
        groups.setdefault((row.day, row.lifter, row.lift), []).append(row)
    parts: list[RenderableType] = [Text(view.gym, style=ACCENT)]
    if not groups:
        parts.append(Text("No sets in the log.", style=QUIET))
    if view.more:
        parts.append(Text("Earlier sets are left out; --most shows more.", style=QUIET))
    for (day, lifter, lift), rows in groups.items():
        parts.append(headed(f"{day}  {lifter}, {lift}", _table(rows)))
        hung = dict.fromkeys(row.hung for row in rows if row.hung)
        notes = [f"{row.id[:_ID_SHOWN]}: {row.note}" for row in rows if row.note]
        if hung or notes:
            parts.append(listed([*(f"hung: {words}" for words in hung), *notes]))
    return Group(*parts)


def _table(rows: list[SetRow]) -> RenderableType:
    hung = any(row.top for row in rows)
    speeds = any(row.speed for row in rows)
    loads = ("bottom", "top") if hung else ()
    table = ruled("set", "straight", *loads, "reps", *(("speed",) if speeds else ()), "id")
    for column in table.columns:
        if column.header in {"reps", "id"}:
            column.justify = "left"
    for row in rows:
        cells = [str(row.number or ""), row.straight.text]
        if hung:
            cells += [one.text if one else "" for one in (row.bottom, row.top)]
        cells.append(how_it_went(row))
        if speeds:
            cells.append(row.speed.text if row.speed else "")
        table.add_row(*cells, row.id[:_ID_SHOWN])
    return table


def how_it_went(row: SetRow) -> str:
    """Say how many repetitions were done, left and missed."""
    said = [str(row.reps)]
    if row.missed:
        said.append(f"missed, {row.third} third" if row.third else "missed")
    elif row.reps_left is not None:
        said.append(f"{row.reps_left:g} left")
    if row.corrected:
        said.append("corrected later")
    if row.struck:
        said.append("struck out")
    return ", ".join(said)
