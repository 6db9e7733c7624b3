"""`topheavy log`: keep the log of sets in the store."""

from __future__ import annotations

import typer

from topheavy.cli.log_add import add, correct, strike
from topheavy.cli.log_example import example
from topheavy.cli.log_files import export, import_file
from topheavy.cli.log_list import list_log
from topheavy.cli.panels import PanelCommand

log = typer.Typer(
    help="Keep the log of sets: add, list, correct, import, export.",
    no_args_is_help=True,
    rich_markup_mode=None,
    add_completion=False,
    pretty_exceptions_enable=False,
)

log.command("add", cls=PanelCommand)(add)
log.command("list", cls=PanelCommand)(list_log)
log.command("correct", cls=PanelCommand)(correct)
log.command("strike", cls=PanelCommand)(strike)
log.command("import", cls=PanelCommand)(import_file)
log.command("export", cls=PanelCommand)(export)
log.command("example", cls=PanelCommand)(example)
