"""A logged set as a row, and back."""

from __future__ import annotations

import json
from operator import attrgetter
from typing import TYPE_CHECKING, Any, Final

from topheavy.gym.log import LoggedSet, RigThen

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from sqlalchemy import Table
    from sqlalchemy.engine import Dialect

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


COLUMNS: Final = (*_PLAIN, *_LOADS, "rig", "curve", "corrects")
"""Columns of `values_of_set`, in their order."""

_plain_values: Final = attrgetter(*_PLAIN)
_loads_of: Final = attrgetter(*_LOADS)
_NO_RIG: Final = (None, None, None, "", None)


def values_of_set(logged: LoggedSet) -> tuple[Any, ...]:
    """Write a set as the values of `COLUMNS`, as a row has them."""
    rig = logged.rig
    hung: tuple[Any, ...] = _NO_RIG
    if rig is not None:
        curve = [list(pair) for pair in rig.curve] if rig.curve else None
        hung = (*_loads_of(rig), rig.words, curve)
    return (*_plain_values(logged), *hung, logged.corrects or None)


def inserting(
    table: Table, dialect: Dialect, own: Mapping[str, Any]
) -> tuple[str, Callable[[int, LoggedSet], tuple[Any, ...]]]:
    """Prepare the rows of very many sets for the driver itself, which takes them twice as fast.

    Parameters
    ----------
    table : Table
        Of the log.
    dialect : Dialect
        Of the database.
    own : mapping
        What the store adds to every row.

    Returns
    -------
    tuple of (str, callable)
        The statement, and what makes a row of the order of arrival and a set.
    """
    names = (*own, "entry", *COLUMNS)
    quote = dialect.identifier_preparer.quote
    mark = "?" if dialect.paramstyle == "qmark" else "%s"
    statement = (
        f"INSERT INTO {quote(table.name)} ({', '.join(map(quote, names))}) "  # noqa: S608 - our own names
        f"VALUES ({', '.join([mark] * len(names))})"
    )
    bound = [table.c[name].type.dialect_impl(dialect).bind_processor(dialect) for name in own]
    first = tuple(
        value if bind is None else bind(value)
        for value, bind in zip(own.values(), bound, strict=True)
    )

    def row(entry: int, logged: LoggedSet) -> tuple[Any, ...]:
        values = values_of_set(logged)
        if values[_CURVE] is not None:
            text = json.dumps(values[_CURVE])
            values = (*values[:_CURVE], text, *values[_CURVE + 1 :])
        return (*first, entry, *values)

    return statement, row


_CURVE: Final = COLUMNS.index("curve")
