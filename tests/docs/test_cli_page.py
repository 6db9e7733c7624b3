"""The page of commands shows every command there is."""

from __future__ import annotations

from typer.main import get_command

from docs.generate import standing
from docs.makers.cli import HELPS
from topheavy.cli.app import app


def test_every_command_has_its_part() -> None:
    parts = {"topheavy"}
    for name, command in get_command(app).commands.items():  # type: ignore[attr-defined]  # a group
        deeper = getattr(command, "commands", None)
        parts |= {f"{name} {word}" for word in deeper} if deeper else {name}
    assert set(HELPS) == parts


def test_every_command_has_its_heading() -> None:
    page = standing("reference/cli.md")
    assert not [
        part for part in HELPS if part != "topheavy" and f"## `topheavy {part}`" not in page
    ]
