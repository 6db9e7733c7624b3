"""Gyms and sets to put into a store."""

from __future__ import annotations

import tomllib
import uuid
from datetime import UTC, datetime, timedelta
from typing import TYPE_CHECKING, Any

from topheavy.gym.log import LoggedSet, RigThen
from topheavy.gymfile import demo_text, gym_of_tables
from topheavy.store.gyms import Change, Saved, save_gym

if TYPE_CHECKING:
    from topheavy.store.opening import Store

START = datetime(2026, 11, 25, 18, 0, tzinfo=UTC)
DEMO: dict[str, Any] = tomllib.loads(demo_text())
NAME = str(DEMO["gym"]["name"])
RIG = RigThen(
    bottom_kg=85.0,
    mean_kg=98.0,
    top_kg=115.0,
    words="A1 + A2 folded",
    curve=((0.66, 0.0), (0.87, 11.0), (1.07, 30.0)),
)


def put(
    store: Store,
    tables: dict[str, Any] = DEMO,
    *,
    over: int | None = None,
    author: str = "Coach",
    minutes: int = 0,
) -> Saved:
    """Save the tables of a gym file."""
    change = Change(author=author, at=START + timedelta(minutes=minutes), over=over)
    return save_gym(store, tables, gym_of_tables(tables, "test"), change)


def a_set(**values: Any) -> LoggedSet:
    """A set of Osric's, with an id of its own."""
    usual = {
        "id": str(uuid.uuid4()),
        "lifter": "Osric",
        "lift": "bench press",
        "day": "2026-11-25",
        "straight_kg": 100.0,
        "reps": 3,
    }
    return LoggedSet(**{**usual, **values})
