"""`topheavy buy`: the cheapest that makes every lift of a session possible."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import Annotated

import typer

from topheavy.cli.options import GymOption, JsonOption, UnitsOption, load_gym, mass_kg, unit_system
from topheavy.cli.panels import PanelCommand
from topheavy.errors import BadInputError

FileArgument = Annotated[
    Path | None,
    typer.Argument(metavar="FILE", help="Room file (TOML): the lifts. Without it: the example."),
]
PricesOption = Annotated[
    Path | None,
    typer.Option("--prices", metavar="FILE", help="Price file (TOML). Without it: the example."),
]
WithinOption = Annotated[
    str | None,
    typer.Option("--within", metavar="LOAD", help="How far any load may be off: 1kg."),
]

buy = typer.Typer(
    help="Find the cheapest chain and parts that make every lift possible.",
    no_args_is_help=True,
    rich_markup_mode=None,
    add_completion=False,
    pretty_exceptions_enable=False,
)


@buy.command("list", cls=PanelCommand)
def shopping(
    file: FileArgument = None,
    gym: GymOption = None,
    prices: PricesOption = None,
    within: WithinOption = None,
    units: UnitsOption = None,
    as_json: JsonOption = False,
) -> None:
    """Write the shopping list, how to cut it, and what less buys.

    The cheapest additions with which each lift of a room file can be rigged
    within its tolerance, proven; prices are yours. Chain is cut in whole
    links, no piece heavier than one may carry, nothing above its rating.

    \b
    Examples
      topheavy buy list
      topheavy buy list --within 0.3kg --units lb
    """
    from topheavy.cli.show import print_json, print_view
    from topheavy.cli.waiting import waiting
    from topheavy.present.buying.terminal import render_buying
    from topheavy.present.buying.view import view_buying
    from topheavy.room.buying import buy as find
    from topheavy.roomfile import demo_room, read_room
    from topheavy.roomfile.prices import demo_prices_text, parse_prices, read_prices

    found = load_gym(gym)
    shown = unit_system(units, found)
    if file is None and gym is not None:
        raise BadInputError(
            "The example is a session of the built-in gym",
            field="FILE",
            got=f"--gym {gym} without a room file",
            wanted="a room file; topheavy room example prints one to begin with",
        )
    asked = demo_room() if file is None else read_room(file, found)
    within_kg = mass_kg(within, "--within")
    if within_kg is not None:
        if within_kg <= 0:
            raise BadInputError(
                "Not a tolerance", field="--within", got=repr(within), wanted="a mass above zero"
            )
        bookings = tuple(replace(one, tolerance_kg=within_kg) for one in asked.bookings)
        asked = replace(asked, bookings=bookings)
    shelf = parse_prices(demo_prices_text()) if prices is None else read_prices(prices)
    with waiting("Finding the cheapest"):
        bought = find(asked, shelf)
    view = view_buying(asked, shelf, bought, shown)
    if as_json:
        print_json(view)
    else:
        print_view(view, render_buying)


@buy.command("example", cls=PanelCommand)
def example() -> None:
    """Print the built-in price file, with notes on what is in it.

    \b
    Examples
      topheavy buy example
      topheavy buy example > prices.toml
    """
    from topheavy.roomfile.prices import demo_prices_text

    print(demo_prices_text(), end="")


@buy.command("schema", cls=PanelCommand)
def schema() -> None:
    """Print the JSON Schema of price files, for editors and scripts.

    \b
    Examples
      topheavy buy schema
      topheavy buy schema > prices.schema.json
    """
    import json

    from topheavy.roomfile.prices import price_schema

    print(json.dumps(price_schema(), indent=2))
