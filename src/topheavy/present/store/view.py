"""The gyms in the store and their versions, as one frozen view, and on the terminal."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from rich.console import Group
from rich.text import Text

from topheavy.present.terminal import ACCENT, QUIET, headed, ruled

if TYPE_CHECKING:
    from collections.abc import Iterable

    from rich.console import RenderableType


@dataclass(frozen=True, slots=True, kw_only=True)
class VersionRow:
    """A version of a gym: number, moment in UTC, who, and why."""

    number: int
    at: str
    author: str
    note: str


@dataclass(frozen=True, slots=True, kw_only=True)
class GymVersions:
    """A gym and its versions, the first one first."""

    name: str
    versions: tuple[VersionRow, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class StoreView:
    """Where the store is, and the gyms in it."""

    store: str
    gyms: tuple[GymVersions, ...]


def view_versions(where: str, rows: Iterable[tuple[str, int, str, str, str]]) -> StoreView:
    """Put versions into a view.

    Parameters
    ----------
    where : str
        Address of the store.
    rows : iterable of (gym, number, at, author, note)
        Versions by gym, in order.
    """
    found: dict[str, list[VersionRow]] = {}
    for gym, number, at, author, note in rows:
        row = VersionRow(number=number, at=at, author=author, note=note)
        found.setdefault(gym, []).append(row)
    gyms = tuple(GymVersions(name=name, versions=tuple(rows)) for name, rows in found.items())
    return StoreView(store=where, gyms=gyms)


def render_versions(view: StoreView) -> RenderableType:
    """Lay the versions out, a table for each gym."""
    parts: list[RenderableType] = [Text(f"The store is {view.store}", style=QUIET)]
    if not view.gyms:
        parts.append(Text("There is no gym in it yet: topheavy gym load FILE", style=ACCENT))
    for gym in view.gyms:
        table = ruled("version", "when (UTC)", "by", "note")
        for column in table.columns[1:]:
            column.justify, column.overflow = "left", "fold"
        for row in gym.versions:
            when = row.at[:16].replace("T", " ")
            table.add_row(str(row.number), when, row.author, row.note)
        parts.append(headed(gym.name, table))
    return Group(*parts)
