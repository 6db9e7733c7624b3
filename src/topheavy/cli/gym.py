"""`topheavy gym`: check a gym file, or print the example and the schema."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import Annotated

import typer

from topheavy.cli.gym_store import add_store_commands
from topheavy.cli.options import JsonOption, UnitsOption, unit_system
from topheavy.cli.panels import PanelCommand

FileArgument = Annotated[Path, typer.Argument(metavar="FILE", help="Gym file (TOML).")]

gym = typer.Typer(
    help="Check a gym file; keep gyms in the store; print an example, or the schema.",
    no_args_is_help=True,
    rich_markup_mode=None,
    add_completion=False,
    pretty_exceptions_enable=False,
)


@gym.command("check", cls=PanelCommand)
def check(
    file: FileArgument,
    units: UnitsOption = None,
    as_json: JsonOption = False,
) -> None:
    """Read a gym file; count what is there, and say what can't be used.

    Every mistake in the file is told at once, with line and column, and ends with exit code 2. What
    may not hang (unrated connectors, retired chain, pieces without a twin) is no mistake.

    \b
    Examples
      topheavy gym check mine.toml
      topheavy gym check mine.toml --units lb
      topheavy gym check mine.toml --json
    """
    from topheavy.cli.show import print_json, print_view
    from topheavy.cli.today import the_day
    from topheavy.gymfile import read_gym
    from topheavy.present.gym.terminal import render_gym
    from topheavy.present.gym.view import view_gym
    from topheavy.services.chain_care import inspections_due
    from topheavy.services.stock_check import check_gym
    from topheavy.services.strength_check import contradictions_in

    found = read_gym(file)
    looked = check_gym(found)
    due = inspections_due(found.stock.chains, the_day(), found.inspect_days)
    looked = replace(looked, remarks=(*looked.remarks, *due, *contradictions_in(found)))
    view = view_gym(looked, unit_system(units, found), file.name)
    if as_json:
        print_json(view)
    else:
        print_view(view, render_gym)


@gym.command("example", cls=PanelCommand)
def example() -> None:
    """Print the built-in gym file, with notes on every line worth one.

    Send it to a file, then change what is in it to what your gym owns.

    \b
    Examples
      topheavy gym example
      topheavy gym example > mine.toml
    """
    from topheavy.gymfile import demo_text

    print(demo_text(), end="")


@gym.command("schema", cls=PanelCommand)
def schema() -> None:
    """Print the JSON Schema of gym files, for editors and scripts.

    \b
    Examples
      topheavy gym schema
      topheavy gym schema > gym.schema.json
    """
    import json

    from topheavy.gymfile import gym_schema

    print(json.dumps(gym_schema(), indent=2))


add_store_commands(gym)
