"""`topheavy log list`: the sets in the log."""

from __future__ import annotations

from typing import Annotated

import typer

from topheavy.cli.options import JsonOption, UnitsOption, name_in, unit_system
from topheavy.cli.stored import StoredGymOption
from topheavy.errors import BadInputError

LifterOption = Annotated[
    str | None, typer.Option("--lifter", metavar="NAME", help="Only this lifter's.")
]
LiftOption = Annotated[str | None, typer.Option("--lift", metavar="LIFT", help="Only this lift.")]
SessionOption = Annotated[
    str | None, typer.Option("--session", metavar="NAME", help="Only this session.")
]
SinceOption = Annotated[
    str | None, typer.Option("--since", metavar="DAY", help="From this day on: 2026-11-01.")
]
UntilOption = Annotated[str | None, typer.Option("--until", metavar="DAY", help="Up to this day.")]
AllOption = Annotated[
    bool,
    typer.Option("--all", help="Corrected and struck out ones too, as they came in."),
]
MostOption = Annotated[int, typer.Option("--most", metavar="N", help="The last so many.")]


def list_log(
    gym: StoredGymOption = "",
    lifter: LifterOption = None,
    lift: LiftOption = None,
    session: SessionOption = None,
    since: SinceOption = None,
    until: UntilOption = None,
    everything: AllOption = False,
    most: MostOption = 100,
    units: UnitsOption = None,
    as_json: JsonOption = False,
) -> None:
    """List the sets in the log, by day, lifter and lift.

    \b
    Examples
      topheavy log list
      topheavy log list --lifter Osric --lift "bench press" --since 2026-11-01
      topheavy log list --all --json
    """
    from topheavy.cli.show import print_json, print_view
    from topheavy.cli.stored import name_of, the_store
    from topheavy.present.store.log_view import render_log, view_log
    from topheavy.store.gyms import load_gym
    from topheavy.store.sets import Wanted, list_sets

    if most < 1:
        raise BadInputError("Fewer than one set", field="--most", got=most, wanted="1 or more")
    lifter = name_in(lifter, "--lifter")
    with the_store() as store:
        house = load_gym(store, name_of(gym))
        wanted = Wanted(
            lifter=house.gym.lifter(lifter).name if lifter else "",
            lift=lift_name(lift),
            session=session or "",
            since=day_in(since, "--since"),
            until=day_in(until, "--until"),
            most=most + 1,
            everything=everything,
        )
        found = list(list_sets(store, house.id, wanted))
    rows = [(entry.logged, entry.corrected) for entry in found[-most:]]
    view = view_log(house.gym.name, rows, unit_system(units, house.gym), more=len(found) > most)
    if as_json:
        print_json(view)
    else:
        print_view(view, render_log)


def lift_name(lift: str | None) -> str:
    """The lift's full name; empty when none was typed."""
    from topheavy.gym.lifts import lift_named

    return lift_named(lift).name if lift else ""


def day_in(text: str | None, option: str) -> str:
    """A day as typed, checked; empty when none was."""
    from topheavy.gym.day import day_number

    if text is None:
        return ""
    day_number(text.strip(), option)
    return text.strip()
