"""Small CSV files to import, and what comes of them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from topheavy.gymfile import demo_gym
from topheavy.logfile.mapping import FileMapping, Said, map_file
from topheavy.logfile.read import read_sets
from topheavy.logfile.table import LogFileError, TextTable, read_table

if TYPE_CHECKING:
    from pathlib import Path

    from topheavy.gym.log import LoggedSet

GYM = demo_gym()
HEAD = "day,lifter,lift,straight (kg),reps"


def table(folder: Path, *lines: str, head: str = HEAD) -> TextTable:
    path = folder / "sets.csv"
    path.write_text("\n".join([head, *lines]), encoding="utf-8")
    return read_table(path)


def mapped(folder: Path, *lines: str, head: str = HEAD, said: Said | None = None) -> FileMapping:
    return map_file(table(folder, *lines, head=head), said or Said())


def sets(folder: Path, *lines: str, head: str = HEAD, said: Said | None = None) -> list[LoggedSet]:
    rows = table(folder, *lines, head=head)
    return read_sets(rows, map_file(rows, said or Said()), GYM)


def mistakes(
    folder: Path, *lines: str, head: str = HEAD, said: Said | None = None
) -> list[tuple[str, str, str]]:
    """What is wrong, where, and what came."""
    try:
        sets(folder, *lines, head=head, said=said)
    except LogFileError as error:
        return [(one.message, one.field or "", str(one.got or "")) for one in error.problems]
    return []
