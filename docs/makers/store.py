"""The tables of the store and the columns of a log file, from what the code knows of them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from docs.makers.markers import fill
from topheavy.logfile.meanings import MEANINGS, NEEDED
from topheavy.store.account_tables import ACCOUNTS
from topheavy.store.block_tables import BLOCK_PLAN
from topheavy.store.room_tables import ROOM_PLAN
from topheavy.store.tables import GYM, GYM_VERSION, LOG_SET, THINGS

if TYPE_CHECKING:
    from collections.abc import Iterable

    from sqlalchemy import Column, Table

_SHARED = ("gym_id", "key", "version", "gone", "place", "written")


def reference_page(page: str) -> str:
    """Fill the tables in."""
    page = fill(page, "gyms", _tables([GYM, GYM_VERSION]))
    things = list(THINGS.values())
    shared = [column for column in things[0].columns if column.name in _SHARED]
    page = fill(page, "shared", _columns(shared))
    page = fill(page, "things", _tables(things, without=_SHARED))
    page = fill(page, "log", _tables([LOG_SET]))
    page = fill(page, "rooms", _tables([ROOM_PLAN, BLOCK_PLAN]))
    page = fill(page, "accounts", _tables(ACCOUNTS))
    return fill(page, "columns", _meanings())


def _tables(tables: Iterable[Table], without: tuple[str, ...] = ()) -> str:
    parts = []
    for table in tables:
        columns = [column for column in table.columns if column.name not in without]
        parts.append(f"### `{table.name}`: {table.info['says']}\n\n{_columns(columns)}".rstrip())
    return "\n\n".join(parts)


def _columns(columns: Iterable[Column[object]]) -> str:
    rows = [f"| `{one.name}` | {_kind(one)} | {one.doc} |" for one in columns]
    return "\n".join(["| column | kind | what |", "|---|---|---|", *rows]) if rows else ""


def _kind(column: Column[object]) -> str:
    words = {"FLOAT": "number", "TEXT": "text", "VARCHAR": "text", "BIGINT": "whole number",
             "INTEGER": "whole number", "BOOLEAN": "yes or no", "DATETIME": "moment (UTC)",
             "JSON": "JSON"}  # fmt: skip
    kind = words[str(column.type).partition("(")[0]]
    key = ", key" if column.primary_key else ""
    return kind + key + (", may be empty" if column.nullable else "")


def _meanings() -> str:
    rows = []
    for meaning in MEANINGS.values():
        word = f"**{meaning.word}**" if meaning.word in NEEDED else meaning.word
        unit = {"mass": "kg or lb", "speed": "m/s or cm/s"}.get(meaning.kind, "")
        rows.append(f"| {word} | {meaning.says} | {unit} | {', '.join(meaning.also)} |")
    return "\n".join(
        ["| word | what | unit | headers taken for it besides |", "|---|---|---|---|", *rows]
    )
