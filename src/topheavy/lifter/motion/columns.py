"""Values whose fields are arrays with one entry for each rep: taking, joining, their spread."""

from __future__ import annotations

from dataclasses import fields, is_dataclass
from typing import TYPE_CHECKING, Any, TypeVar

import numpy as np

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    Floats = NDArray[np.float64]

Value = TypeVar("Value")


def taken(value: Value, which: NDArray[np.intp] | NDArray[np.bool_]) -> Value:
    """Take some reps of a value, by index or by mask, also in the values it holds."""
    parts: dict[str, Any] = {}
    for name in _names(value):
        part = getattr(value, name)
        parts[name] = taken(part, which) if is_dataclass(part) else part[which]
    return type(value)(**parts)


def joined(values: Sequence[Value]) -> Value:
    """Put the reps of several values of one kind one after another."""
    parts: dict[str, Any] = {}
    for name in _names(values[0]):
        column = [getattr(value, name) for value in values]
        parts[name] = joined(column) if is_dataclass(column[0]) else np.concatenate(column)
    return type(values[0])(**parts)


def spread_of(values: Floats) -> tuple[float, float, float]:
    """Range that nine in ten lie in, and the middle: 5, 50 and 95 % [unit of `values`].

    Missed reps (nan) are left out; all three are nan when there is nothing else.

    Examples
    --------
    >>> spread_of(np.array([1.0, 2.0, np.nan, 3.0]))
    (1.1, 2.0, 2.9)
    """
    known = values[~np.isnan(values)]
    if not known.size:
        return float("nan"), float("nan"), float("nan")
    low, middle, high = np.quantile(known, (0.05, 0.5, 0.95))
    return float(low), float(middle), float(high)


def _names(value: object) -> list[str]:
    return [field.name for field in fields(value)]  # type: ignore[arg-type]
