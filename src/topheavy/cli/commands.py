"""The commands by name, each loaded when it is asked for, so that the help starts at once."""

from __future__ import annotations

import importlib
import sys
from collections.abc import Iterator, MutableMapping
from typing import Any, Final

import typer
from typer.core import TyperGroup

from topheavy.errors import TopheavyError

COMMANDS: Final = {
    "demo": ("demo", "Find a rig for the built-in gym; write card and picture."),
    "rig": (
        "rig",
        "Find the best rig for a lifter, a lift and a target, or for the lifter's strength.",
    ),
    "card": ("rig", "Print the card of a rig: one page for the rack."),
    "rep": ("rep", "Show how the bar moves with a rig, and beside others as hard."),
    "explain": (
        "explain",
        "Explain a rig to the lifter: two pages, why the chain and how it will feel.",
    ),
    "speed": ("speed", "Compare bar speed with chain and without, load by load."),
    "curve": ("curve", "Show the load at any height of a rig you describe."),
    "ramp": ("ramp", "Plan the ramp from the empty bar to the top set, chain on."),
    "strength": ("strength", "Say how strong a lifter is at each height, and how sure that is."),
    "session": ("session", "Lay out a session: sets, reps, loads, and when a set ends."),
    "room": ("room", "Plan a session of the whole gym: who lifts where, with whom, on what."),
    "buy": ("buy", "Find the cheapest chain and parts that make every lift possible."),
    "weeks": ("weeks", "Plan weeks of training for a lifter or a group; check, print, export."),
    "weigh": ("weigh", "Check what hangs against a scale; say what is off and why."),
    "catalogue": ("catalogue", "Tell what chain weighs, what it is and what it is good for."),
    "serve": (
        "serve",
        "Serve the pages: the rig that moves, the gym, the work of the day, on a phone too.",
    ),
    "account": ("account", "Say who may sign in to the pages: add, list, change, remove."),
    "gym": ("gym", "Check a gym file; keep gyms in the store; print an example, or the schema."),
    "review": ("review", "Review the log: trend, bests, work, misses, next week."),
    "work": ("work", "Give lifters the work of the day, list it, show it, take it away."),
    "log": ("log", "Keep the log of sets: add, list, correct, import, export."),
}
"""Module and first line of help of each command; a test holds them to the commands' own words."""


class _Lazy(MutableMapping[str, Any]):
    """Commands by name; one is imported and built when it is first looked at."""

    def __init__(self) -> None:
        self._built: dict[str, Any] = {}

    def __getitem__(self, name: str) -> Any:
        if name not in self._built:
            self._built[name] = _build(name, COMMANDS[name][0])
        return self._built[name]

    def __setitem__(self, name: str, command: Any) -> None:
        self._built[name] = command

    def __delitem__(self, name: str) -> None:
        del self._built[name]

    def __iter__(self) -> Iterator[str]:
        return iter(COMMANDS)

    def __len__(self) -> int:
        return len(COMMANDS)


class Commands(TyperGroup):
    """All commands; a user's mistake ends with exit code 2 and plain words on stderr."""

    def __init__(self, **settings: Any) -> None:
        super().__init__(**settings)
        self.commands: Any = _Lazy()

    def format_commands(self, ctx: Any, formatter: Any) -> None:  # noqa: ARG002 - the hook's shape
        """Write the commands into the help without loading any."""
        with formatter.section("Commands"):
            formatter.write_dl([(name, words) for name, (_, words) in COMMANDS.items()])

    def invoke(self, ctx: Any) -> Any:
        """Run the command that was asked for."""
        try:
            return super().invoke(ctx)
        except TopheavyError as error:
            complain(error)
            raise typer.Exit(2) from error


def complain(error: TopheavyError) -> None:
    """Say on stderr what was wrong, where, what came and what would be right."""
    message, *facts = error.lines()
    print("\n".join([f"topheavy: {message}", *(f"  {fact}" for fact in facts)]), file=sys.stderr)


def _build(name: str, module: str) -> Any:
    """Turn a function, or a group of them, into a command."""
    from typer.main import get_command

    from topheavy.cli.panels import PanelCommand

    found = getattr(importlib.import_module(f"topheavy.cli.{module}"), name)
    if not isinstance(found, typer.Typer):
        single = typer.Typer(
            add_completion=False, rich_markup_mode=None, pretty_exceptions_enable=False
        )
        single.command(name, cls=PanelCommand)(found)
        found = single
    command = get_command(found)
    command.name = name
    return command
