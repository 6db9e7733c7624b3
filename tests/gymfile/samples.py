"""Small gym files to build tests on."""

from __future__ import annotations

from typing import TYPE_CHECKING

from topheavy.gymfile import GymFileError, parse_gym

if TYPE_CHECKING:
    from topheavy.gym.gym import Gym

HEAD = '[gym]\nname = "The Shed"\n'


def read(tables: str) -> Gym:
    """Read tables below a plain [gym]."""
    return parse_gym(HEAD + tables, "shed.toml")


def problems(tables: str, head: str = HEAD) -> list[tuple[str, str, str, str]]:
    """List what is wrong with tables below a [gym]: message, field, got, wanted."""
    try:
        parse_gym(head + tables, "shed.toml")
    except GymFileError as error:
        return [
            (one.message, one.field or "", str(one.got or ""), one.wanted or "")
            for one in error.problems
        ]
    return []
