"""A logged set as a row, and back."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Final

from topheavy.gym.log import LoggedSet, RigThen

if TYPE_CHECKING:
    from collections.abc import Mapping

_PLAIN: Final = (
    "id", "by", "lifter", "lift", "station", "day", "time", "session", "number", "straight_kg",
    "reps", "reps_left", "speed_m_per_s", "missed", "third", "note", "struck",
)  # fmt: skip
_LOADS: Final = ("bottom_kg", "mean_kg", "top_kg")


def row_of_set(logged: LoggedSet) -> dict[str, Any]:
    """Write a set as the columns of its row; gym, order and time of arrival are the store's."""
    row: dict[str, Any] = {name: getattr(logged, name) for name in _PLAIN}
    row["corrects"] = logged.corrects or None
    rig = logged.rig
    row |= {name: getattr(rig, name) if rig else None for name in _LOADS}
    row["rig"] = rig.words if rig else ""
    row["curve"] = [list(pair) for pair in rig.curve] if rig and rig.curve else None
    return row


def set_of_row(row: Mapping[str, Any]) -> LoggedSet:
    """Read a set from its row."""
    rig = None
    if row["bottom_kg"] is not None:
        rig = RigThen(
            **{name: row[name] for name in _LOADS},
            words=row["rig"],
            curve=tuple((height_m, load_kg) for height_m, load_kg in row["curve"] or ()),
        )
    values = {name: row[name] for name in _PLAIN}
    return LoggedSet(**values, corrects=row["corrects"] or "", rig=rig)
