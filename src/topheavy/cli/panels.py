"""Help that groups a command's options under headings, and mistakes told by option."""

from __future__ import annotations

from contextvars import ContextVar
from typing import Any

import typer
from typer.core import TyperCommand

from topheavy.errors import TopheavyError

GYM_UNITS: ContextVar[str | None] = ContextVar("gym_units", default=None)
"""Units of the gym that the command read; mistakes are told in them too."""

_LAST = "Options"


def option(name: str, metavar: str, text: str, panel: str) -> Any:
    """Make an option with its help, under a panel's heading."""
    return typer.Option(name, metavar=metavar, help=text, rich_help_panel=panel)


class PanelCommand(TyperCommand):
    """A command whose help lists its options under their panels, the general ones last.

    A mistake in an option is told by the option's own name.
    """

    def invoke(self, ctx: Any) -> Any:
        """Run the command."""
        GYM_UNITS.set(None)
        try:
            return super().invoke(ctx)
        except TopheavyError as error:
            from topheavy.asked.typed import in_typed_words

            raise in_typed_words(error, ctx.params, GYM_UNITS.get()) from error

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
