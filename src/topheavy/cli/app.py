"""The command line: one thin command for each thing a coach asks for."""

from __future__ import annotations

import os
import sys

import typer

from topheavy import __version__
from topheavy.cli.demo import demo
from topheavy.cli.rig import card, rig
from topheavy.errors import TopheavyError

_ABOUT = """Hang chain on a barbell so that it loads the lifter where the lifter is strong.

Without --gym every command works on a built-in gym. Chain can hurt: spotters, safeties, collars,
rated connectors, inspected chain. Local rules and licensed practice come first.
"""

app = typer.Typer(
    name="topheavy",
    help=_ABOUT,
    no_args_is_help=True,
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
    add_completion=False,
    context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100},
)
app.command("demo")(demo)
app.command("rig")(rig)
app.command("card")(card)


@app.callback()
def _about(
    version: bool = typer.Option(False, "--version", help="Print the version and stop."),
) -> None:
    if version:
        typer.echo(f"topheavy {__version__}")
        raise typer.Exit


def main() -> None:
    """Run the command line; a user's mistake ends with exit code 2 and plain words."""
    try:
        app()
    except TopheavyError as error:
        complain(error)
        sys.exit(2)
    except BrokenPipeError:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        sys.exit(1)


def complain(error: TopheavyError) -> None:
    """Say on stderr what was wrong, where, what came and what would be right."""
    lines = [f"topheavy: {error.message}."]
    for name in ("field", "got", "wanted"):
        value = getattr(error, name)
        if value is not None:
            lines.append(f"  {'where' if name == 'field' else name:<7}{value}")
    print("\n".join(lines), file=sys.stderr)
