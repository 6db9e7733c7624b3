"""What stands on a lifter's page: heights and bests in words, and what was written down."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Final

from topheavy.gym.lifts import LIFTS, lift_named
from topheavy.present.figure import length, mass

if TYPE_CHECKING:
    from collections.abc import Mapping

    from topheavy.gym.people import Lifter
    from topheavy.units import UnitSystem

KINDS: Final = {
    "sets": "Sets",
    "misses": "Misses",
    "isometrics": "Efforts against pins",
    "speeds": "Bar speeds",
    "hung": "Singles with chain or bands",
}
"""What is written down of a lift, by its key in the gym file."""

ADDED_HERE: Final = ("sets", "misses", "isometrics", "speeds")
"""Those that have a form; singles with chain come from the log or the gym file."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RecordLine:
    """One thing that was written down: its kind, its place among them, and words."""

    kind: str
    place: int
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class LiftLine:
    """One lift of a lifter.

    `key` is its name as the gym file has it; `logged` counts what the log tells besides.
    """

    key: str
    name: str
    bottom: str
    top: str
    travel: str
    within: str
    station: str
    best: str
    best_day: str
    records: tuple[RecordLine, ...]
    logged: int


@dataclass(frozen=True, slots=True, kw_only=True)
class LifterLine:
    """A lifter, the lifts that were measured, and those that were not."""

    name: str
    lifts: tuple[LiftLine, ...]
    others: tuple[str, ...]


def lifter_line(lifter: Lifter, table: Mapping[str, Any], units: UnitSystem) -> LifterLine:
    """Put a lifter into words.

    Parameters
    ----------
    lifter : Lifter
        With what the log tells, if there is one.
    table : mapping
        The same lifter as the gym file has it.
    units : UnitSystem
        What is shown.
    """
    lifts = tuple(
        _lift(key, lifter, own, units)
        for key, own in table.get("lifts", {}).items()
        if lift_named(key).name in lifter.lifts
    )
    there = {line.name for line in lifts}
    return LifterLine(
        name=lifter.name, lifts=lifts, others=tuple(name for name in LIFTS if name not in there)
    )


def _lift(key: str, lifter: Lifter, own: Mapping[str, Any], units: UnitSystem) -> LiftLine:
    name = lift_named(key).name
    measured = lifter.lifts[name]
    travel = measured.travel
    return LiftLine(
        key=key,
        name=name,
        bottom=length(units, travel.bottom_m).text,
        top=length(units, travel.top_m).text,
        travel=length(units, travel.travel_m).text,
        within=length(units, travel.height_u_m).text,
        station=measured.station,
        best="" if measured.best_kg is None else mass(units, measured.best_kg).text,
        best_day=measured.best_day,
        records=tuple(
            RecordLine(kind=kind, place=place, words=record_words(kind, record))
            for kind in KINDS
            for place, record in enumerate(own.get(kind, []))
        ),
        logged=len(measured.logged),
    )


def record_words(kind: str, record: Mapping[str, Any]) -> str:
    """Say what was written down, as it was written.

    >>> record_words("sets", {"load": "120 kg", "reps": 5, "reps_left": 1, "day": "2026-10-31"})
    '120 kg for 5, 1 left, 2026-10-31'
    """
    said = _SAID[kind](record)
    return f"{said}, {record['day']}" if record.get("day") else said


def _set(record: Mapping[str, Any]) -> str:
    said = f"{record['load']} for {record.get('reps', 1)}"
    if record.get("reps_left"):
        said += f", {record['reps_left']:g} left"
    if record.get("start"):
        said += f", from {record['start']}"
    return said if record.get("tried", True) else f"{said}, not all out"


def _miss(record: Mapping[str, Any]) -> str:
    where = record.get("height") or f"the {record.get('third')} third"
    hung = ", chain hung" if record.get("hung") else ""
    return f"{record['straight']} stopped at {where}{hung}"


def _hung(record: Mapping[str, Any]) -> str:
    ends = [", ".join(record.get(side, ())) or "nothing" for side in ("left", "right")]
    return f"{record['straight']} with {ends[0]} left, {ends[1]} right"


_SAID: Final = {
    "sets": _set,
    "misses": _miss,
    "isometrics": lambda record: (
        f"pins at {record['height']}: {record['effort']}, at rest {record['rest']}"
    ),
    "speeds": lambda record: (
        f"{record['load']} at {record['speed']} ({record.get('kind', 'mean')})"
    ),
    "hung": _hung,
}
