"""The help of every command, as it is printed on a terminal of 80 columns."""

from __future__ import annotations

from typing import Final

from typer.testing import CliRunner

from docs.makers.markers import fill
from topheavy.cli.app import app

HELPS: Final = {
    "topheavy": (),
    "demo": ("demo",),
    "rig": ("rig",),
    "card": ("card",),
    "explain": ("explain",),
    "rep": ("rep",),
    "speed": ("speed",),
    "ramp": ("ramp",),
    "session": ("session",),
    "curve": ("curve",),
    "strength": ("strength",),
    "room plan": ("room", "plan"),
    "room example": ("room", "example"),
    "room schema": ("room", "schema"),
    "buy list": ("buy", "list"),
    "buy example": ("buy", "example"),
    "buy schema": ("buy", "schema"),
    "weeks show": ("weeks", "show"),
    "weeks example": ("weeks", "example"),
    "weeks schema": ("weeks", "schema"),
    "weigh": ("weigh",),
    "catalogue": ("catalogue",),
    "serve": ("serve",),
    "account add": ("account", "add"),
    "account list": ("account", "list"),
    "account passphrase": ("account", "passphrase"),
    "account sign-out": ("account", "sign-out"),
    "account remove": ("account", "remove"),
    "gym check": ("gym", "check"),
    "gym example": ("gym", "example"),
    "gym schema": ("gym", "schema"),
    "gym load": ("gym", "load"),
    "gym save": ("gym", "save"),
    "gym stored": ("gym", "stored"),
    "work give": ("work", "give"),
    "work plan": ("work", "plan"),
    "work list": ("work", "list"),
    "work show": ("work", "show"),
    "work take": ("work", "take"),
    "log add": ("log", "add"),
    "log list": ("log", "list"),
    "log correct": ("log", "correct"),
    "log strike": ("log", "strike"),
    "log import": ("log", "import"),
    "log export": ("log", "export"),
    "log example": ("log", "example"),
    "review": ("review",),
}
"""Which part of the page shows the help of which words; a test holds them to the commands."""

_TERMINAL: Final = {"COLUMNS": "80"}


def reference_page(page: str) -> str:
    """Fill the help texts in."""
    for part, words in HELPS.items():
        page = fill(page, part, f"```text\n{help_text(*words)}\n```")
    return page


def help_text(*words: str) -> str:
    """Print the help of a command."""
    done = CliRunner().invoke(app, [*words, "--help"], env=_TERMINAL, prog_name="topheavy")
    return "\n".join(line.rstrip() for line in done.stdout.rstrip().splitlines())
