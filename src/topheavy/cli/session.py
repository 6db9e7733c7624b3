"""`topheavy session`: sets x reps x load with the rig of the day."""

from __future__ import annotations

from typing import Annotated, Any, Final

import typer

from topheavy.cli.options import JsonOption, UnitsOption, unit_system
from topheavy.cli.rig_options import asks_of_lifter

_SESSION: Final = "The session"

DayOption = Annotated[
    str,
    typer.Option(
        "--day",
        metavar="KIND",
        help="heavy, speed, repetition or technique.",
        rich_help_panel=_SESSION,
    ),
]
DoOption = Annotated[
    str | None,
    typer.Option(
        "--do",
        metavar="SETSxREPS",
        help="Sets and reps, such as 5x3; else as usual for the day.",
        rich_help_panel=_SESSION,
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


@asks_of_lifter
def session(
    question: Any,
    day: DayOption = "heavy",
    do: DoOption = None,
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
        --chain 20% --do 3x10 --units lb
    """
    from topheavy.asked.training import session_question
    from topheavy.cli.show import print_json, print_view
    from topheavy.present.session.view import view_session
    from topheavy.services.session import answer_session

    shown = unit_system(units, question.place.gym)
    view = view_session(answer_session(session_question(question, day, do, stop_at)), shown)
    if as_json:
        print_json(view)
        return
    from topheavy.present.session.terminal import render_session

    print_view(view, render_session)
