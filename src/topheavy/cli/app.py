"""The command line: one thin command for each thing a coach asks for."""

from __future__ import annotations

import os
import sys
from contextvars import ContextVar
from typing import Final

import typer

from topheavy import __version__
from topheavy.cli.commands import Commands, complain
from topheavy.errors import FileError
from topheavy.present.spelling import HANDLER

_ABOUT = """Hang chain on a barbell so that it loads the lifter where the lifter is strong.

Without --gym every command works on a built-in gym. Chain can hurt: spotters, safeties, collars,
rated connectors, inspected chain. Local rules and licensed practice come first.

\b
Examples
  topheavy demo --out demo-out
  topheavy rig --lifter Osric --bottom 85kg --top 115kg
  topheavy COMMAND --help

Exit codes: 0 done, also when no rig meets the target, and then it says so; 2 something in the
question or in a file is wrong; 130 stopped by hand.
"""

STORE: Final[ContextVar[str | None]] = ContextVar("STORE", default=None)
"""Where the store is, as typed before the command; None when nobody said."""

app = typer.Typer(
    name="topheavy",
    cls=Commands,
    help=_ABOUT,
    no_args_is_help=True,
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
    add_completion=False,
    context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100},
)


def _print_version(asked: bool) -> None:
    if asked:
        typer.echo(f"topheavy {__version__}")
        raise typer.Exit


@app.callback()
def _about(
    _version: bool = typer.Option(
        False,
        "--version",
        is_eager=True,
        callback=_print_version,
        help="Print the version and stop.",
    ),
    _store: str | None = typer.Option(
        None,
        "--store",
        metavar="FILE|URL",
        help="Where gyms and logs are kept; else $TOPHEAVY_STORE, else a file of your own.",
    ),
) -> None:
    """Note what holds for every command; the help text is given above."""
    STORE.set(_store)


def main() -> None:
    """Run the command line; a user's mistake ends with exit code 2 and plain words."""
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors=HANDLER)
    try:
        try:
            app()
        finally:
            sys.stdout.flush()
    except KeyboardInterrupt:
        sys.exit(130)
    except BrokenPipeError:
        _drop_output()
        sys.exit(1)
    except OSError as error:
        _drop_output()
        complain(
            FileError(
                f"The system refused: {error.strerror or error}",
                field=str(error.filename or "standard output"),
            )
        )
        sys.exit(2)


def _drop_output() -> None:
    """Send what is still waiting to be printed nowhere, so that Python does not try again."""
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
