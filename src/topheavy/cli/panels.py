"""Help that groups a command's options under headings, and mistakes told in plain words."""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING, Any

import typer
from typer.core import TyperCommand, TyperGroup

from topheavy.errors import TopheavyError

if TYPE_CHECKING:
    from topheavy.errors import TopheavyError as _Error

_LAST = "Options"


class PanelCommand(TyperCommand):
    """A command whose help lists its options under their panels, the general ones last."""

    def format_options(self, ctx: Any, formatter: Any) -> None:
        """Write arguments and options into the help text."""
        panels: dict[str, list[tuple[str, str]]] = {}
        for parameter in self.get_params(ctx):
            record = parameter.get_help_record(ctx)
            if record is not None:
                last = "Arguments" if parameter.param_type_name == "argument" else _LAST
                title = getattr(parameter, "rich_help_panel", None) or last
                panels.setdefault(title, []).append(record)
        for title in sorted(panels, key=lambda title: title == _LAST):
            with formatter.section(title):
                formatter.write_dl(panels[title])


class Commands(TyperGroup):
    """Commands that end a user's mistake with exit code 2 and plain words on stderr."""

    def invoke(self, ctx: Any) -> Any:
        """Run the command that was asked for."""
        try:
            return super().invoke(ctx)
        except TopheavyError as error:
            complain(error)
            raise typer.Exit(2) from error


def complain(error: _Error) -> None:
    """Say on stderr what was wrong, where, what came and what would be right."""
    lines = [f"topheavy: {error.message}."]
    for name in ("field", "got", "wanted"):
        value = getattr(error, name)
        if value is not None:
            lines.append(f"  {'where' if name == 'field' else name:<7}{value}")
    print("\n".join(lines), file=sys.stderr)
