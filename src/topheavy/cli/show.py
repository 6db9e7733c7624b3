"""Printing: as JSON, or laid out for the terminal with the characters it has."""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING, TypeVar

if TYPE_CHECKING:
    from collections.abc import Callable

    from rich.console import RenderableType

V = TypeVar("V")


def print_json(view: object) -> None:
    """Print a view as JSON."""
    from topheavy.present.jsonable import to_json

    print(to_json(view, ascii_only=not _encoding().startswith("utf")))


def print_view(view: V, render: Callable[[V], RenderableType]) -> None:
    """Lay a view out and print it."""
    from topheavy.present.spelling import spelled
    from topheavy.present.terminal import screen

    console, body = screen(), render(spelled(view, _encoding()))
    if console.legacy_windows:
        console.print(body)
        return
    with console.capture() as captured:
        console.print(body)
    # Tables pad every line; spaces nobody sees would wrap on a narrow terminal.
    print("\n".join(line.rstrip() for line in captured.get().splitlines()))


def _encoding() -> str:
    return (getattr(sys.stdout, "encoding", None) or "utf-8").lower()
