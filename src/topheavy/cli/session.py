"""`topheavy session`: sets x reps x load with the rig of the day."""

from __future__ import annotations

from typing import Annotated, Any

import typer

from topheavy.cli.options import JsonOption, UnitsOption, unit_system
from topheavy.cli.rig_options import asks_for_rig

_SESSION = "The session"

DayOption = Annotated[
    str,
    typer.Option(
        "--day",
        metavar="KIND",
        help="heavy, speed, repetition or technique.",
        rich_help_panel=_SESSION,
    ),
]
Sets = Annotated[
    int | None,
    typer.Option(
        "--sets", metavar="N", help="Sets; else as usual for the day.", rich_help_panel=_SESSION
    ),
]
Reps = Annotated[
    int | None,
    typer.Option(
        "--reps", metavar="N", help="Reps a set; else as usual.", rich_help_panel=_SESSION
    ),
]
StopAt = Annotated[
    str | None,
    typer.Option(
        "--stop-at",
        metavar="SHARE",
        help="Loss of speed that ends a set, such as 10%.",
        rich_help_panel=_SESSION,
    ),
]


@asks_for_rig
def session(
    question: Any,
    day: DayOption = "heavy",
    sets: Sets = None,
    reps: Reps = None,
    stop_at: StopAt = None,
    units: UnitsOption = None,
    as_json: JsonOption = False,
) -> None:
    """Lay out a session: sets, reps, loads, and when a set ends.

    Every load as a percentage with its base, the speed to aim at, and a
    check on volume. It warns; you decide.

    \b
    Examples
      topheavy session --lifter Osric --bottom 105kg --top 135kg
      topheavy session --day speed --lifter Runa --lift squat \\
        --bottom 50% --chain 25% --stop-at 15%
      topheavy session --day repetition --lifter Pip --straight 30kg \\
        --chain 20% --sets 3 --reps 10 --units lb
    """
    from topheavy.cli.show import print_json, print_view
    from topheavy.present.session_view import view_session
    from topheavy.services.session import SessionQuestion, answer_session
    from topheavy.training.days import day_named
    from topheavy.training.session import Plan
    from topheavy.units import parse_quantity

    shown = unit_system(units, question.place.gym)
    loss = None if stop_at is None else parse_quantity(stop_at, "share", field="--stop-at")
    plan = Plan.of(day_named(day), sets, reps, loss)
    view = view_session(answer_session(SessionQuestion(rig=question, plan=plan)), shown)
    if as_json:
        print_json(view)
        return
    from topheavy.present.session_terminal import render_session

    print_view(view, render_session)
