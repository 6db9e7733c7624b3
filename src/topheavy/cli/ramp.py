"""`topheavy ramp`: from the empty bar to the day's top set, and the next attempt."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated, Any

import typer

from topheavy.cli.options import JsonOption, UnitsOption, load_kg, unit_system
from topheavy.cli.rig_options import asks_of_lifter
from topheavy.errors import BadInputError

if TYPE_CHECKING:
    from topheavy.services.ramp import Tried

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
    from topheavy.cli.show import print_json, print_view
    from topheavy.present.ramp_view import view_ramp
    from topheavy.services.ramp import RampQuestion, answer_ramp

    shown = unit_system(units, question.place.gym)
    how = {
        "--missed": missed,
        "--missed-before": missed_before,
        "--reps-left": reps_left is not None,
        "--bar-speed": bar_speed is not None,
        "--attempt": attempt != 1,
    }
    tried = _tried(
        load_kg(after, "--after", question.ask.best_kg),
        how,
        made=not missed,
        number=attempt,
        missed_before=missed_before,
        reps_left=reps_left,
        speed_m_per_s=bar_speed,
    )
    asked = RampQuestion(
        rig=question,
        reps=_reps(reps, singles=singles),
        singles=singles,
        chain_from=chain_from,
        tried=tried,
    )
    view = view_ramp(answer_ramp(asked), shown)
    if as_json:
        print_json(view)
        return
    from topheavy.present.ramp_terminal import render_ramp

    print_view(view, render_ramp)


def _reps(reps: int | None, *, singles: bool) -> int:
    if reps is None:
        return 1 if singles else 3
    return reps


def _tried(straight_kg: float | None, how: dict[str, bool], **facts: Any) -> Tried | None:
    """The last single, if one was told."""
    from topheavy.services.ramp import Tried

    if straight_kg is None:
        told = [option for option, given in how.items() if given]
        if told:
            raise BadInputError(
                "Of which single?",
                field=told[0],
                got=f"{told[0]} without --after",
                wanted="--after with the straight weight that was on the bar",
            )
        return None
    return Tried(straight_kg=straight_kg, **facts)
