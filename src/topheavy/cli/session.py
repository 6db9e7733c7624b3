"""`topheavy session`: sets x reps x load with the rig of the day."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import TYPE_CHECKING, Annotated, Any, Final

import typer

from topheavy.cli.options import JsonOption, UnitsOption, unit_system
from topheavy.cli.rig_options import asks_of_lifter
from topheavy.errors import BadInputError

if TYPE_CHECKING:
    from topheavy.training.days import Day
    from topheavy.training.session import Plan

_SESSION: Final = "The session"
_SETS_X_REPS: Final = re.compile(r"\s*(\d{1,4})\s*[xX*]\s*(\d{1,4})\s*")

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
    from topheavy.cli.show import print_json, print_view
    from topheavy.present.session_view import view_session
    from topheavy.services.session import SessionQuestion, answer_session
    from topheavy.training.days import day_named
    from topheavy.units import parse_quantity

    shown = unit_system(units, question.place.gym)
    loss = None if stop_at is None else parse_quantity(stop_at, "share", field="--stop-at")
    plan = _plan(day_named(day), do, loss)
    view = view_session(answer_session(SessionQuestion(rig=question, plan=plan)), shown)
    if as_json:
        print_json(view)
        return
    from topheavy.present.session_terminal import render_session

    print_view(view, render_session)


def _plan(day: Day, do: str | None, loss: float | None) -> Plan:
    """Fill in sets and reps as typed."""
    from topheavy.training.session import Plan

    if do is None:
        return Plan.of(day, loss=loss)
    found = _SETS_X_REPS.fullmatch(do)
    wanted = "sets and reps, such as 5x3"
    if found is None:
        raise BadInputError("Not sets and reps", field="--do", got=repr(do), wanted=wanted)
    usual = Plan.of(day, loss=loss)
    try:
        return replace(usual, sets=int(found[1]), reps=int(found[2]))
    except BadInputError as error:
        raise BadInputError(
            error.message, field="--do", got=repr(do), wanted=f"{error.wanted} {error.field}"
        ) from error
