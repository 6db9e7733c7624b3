"""Printing on a terminal of a given width, as plain text."""

from __future__ import annotations

from io import StringIO
from typing import TYPE_CHECKING

from rich.console import Console

if TYPE_CHECKING:
    from rich.console import RenderableType


def printed(what: RenderableType, width: int = 80) -> str:
    """What a terminal without colours shows."""
    out = StringIO()
    Console(file=out, width=width, highlight=False, color_system=None).print(what)
    return out.getvalue()
