"""`topheavy ramp`: from the empty bar to the day's top set, and the next attempt."""

from __future__ import annotations

from typing import Annotated, Any

import typer

from topheavy.cli.options import JsonOption, UnitsOption, unit_system
from topheavy.cli.rig_options import asks_of_lifter

_RAMP = "The ramp"
_AFTER = "After a single: what next"

Reps = Annotated[
    int | None,
    typer.Option("--reps", metavar="N", help="Reps of the top set; else 3.", rich_help_panel=_RAMP),
]
Singles = Annotated[
    bool,
    typer.Option(
        "--singles", help="Singles up to a max; the rig's load is the goal.", rich_help_panel=_RAMP
    ),
]
ChainFrom = Annotated[
    int,
    typer.Option(
        "--chain-from",
        metavar="N",
        help="Set from which the chain is on; the first, unless you say otherwise.",
        rich_help_panel=_RAMP,
    ),
]
After = Annotated[
    str | None,
    typer.Option(
        "--after",
        metavar="LOAD",
        help="Straight weight of the last single; tells the next one.",
        rich_help_panel=_AFTER,
    ),
]
Missed = Annotated[bool, typer.Option("--missed", help="It was missed.", rich_help_panel=_AFTER)]
MissedBefore = Annotated[
    bool,
    typer.Option(
        "--missed-before", help="The one before it was missed too.", rich_help_panel=_AFTER
    ),
]
RepsLeft = Annotated[
    float | None,
    typer.Option(
        "--reps-left", metavar="N", help="How many more reps were in it.", rich_help_panel=_AFTER
    ),
]
Speed = Annotated[
    float | None,
    typer.Option(
        "--bar-speed", metavar="M/S", help="Its mean speed on the way up.", rich_help_panel=_AFTER
    ),
]
Attempt = Annotated[
    int,
    typer.Option("--attempt", metavar="N", help="Which attempt it was.", rich_help_panel=_AFTER),
]


@asks_of_lifter
def ramp(
    question: Any,
    reps: Reps = None,
    singles: Singles = False,
    chain_from: ChainFrom = 1,
    after: After = None,
    missed: Missed = False,
    missed_before: MissedBefore = False,
    reps_left: RepsLeft = None,
    bar_speed: Speed = None,
    attempt: Attempt = 1,
    units: UnitsOption = None,
    as_json: JsonOption = False,
) -> None:
    """Plan the ramp from the empty bar to the top set, chain on.

    Sets, reps, rests, and what to change on the bar between sets, with the
    plates the gym has and the least handling.

    \b
    Examples
      topheavy ramp --lifter Osric --bottom 85kg --top 115kg
      topheavy ramp --lifter Pip --straight 45kg --chain 25% --reps 5
      topheavy ramp --lifter Runa --lift squat --bottom 60% --chain 25% \\
        --chain-from 3 --units lb
      topheavy ramp --lifter Osric --bottom 105kg --top 135kg --singles \\
        --after 100kg --reps-left 1 --attempt 2
    """
    from topheavy.asked.training import RampAsked, ramp_question
    from topheavy.cli.show import print_json, print_view
    from topheavy.present.ramp.view import view_ramp
    from topheavy.services.ramp import answer_ramp

    shown = unit_system(units, question.place.gym)
    asked = RampAsked(
        reps=reps,
        singles=singles,
        chain_from=chain_from,
        after=after,
        missed=missed,
        missed_before=missed_before,
        reps_left=reps_left,
        bar_speed=bar_speed,
        attempt=attempt,
    )
    view = view_ramp(answer_ramp(ramp_question(question, asked)), shown)
    if as_json:
        print_json(view)
        return
    from topheavy.present.ramp.terminal import render_ramp

    print_view(view, render_ramp)
