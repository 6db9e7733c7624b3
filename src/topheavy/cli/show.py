"""Printing: as JSON, or laid out for the terminal with the characters it has."""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING, TypeVar

import typer

if TYPE_CHECKING:
    from collections.abc import Callable

    from rich.console import RenderableType

V = TypeVar("V")


def print_json(view: object) -> None:
    """Print a view as JSON."""
    from topheavy.present.jsonable import to_json

    typer.echo(to_json(view, ascii_only=not _encoding().startswith("utf")))


def print_view(view: V, render: Callable[[V], RenderableType]) -> None:
    """Lay a view out and print it."""
    from topheavy.present.spelling import spelled
    from topheavy.present.terminal import screen

    screen().print(render(spelled(view, _encoding())))


def _encoding() -> str:
    return (getattr(sys.stdout, "encoding", None) or "utf-8").lower()
