"""`topheavy speed`: speed work, chain against plain weight."""

from __future__ import annotations

from typing import Annotated, Any

import typer

from topheavy.cli.options import JsonOption, UnitsOption, unit_system
from topheavy.cli.rep import strength_for
from topheavy.cli.rig_options import asks_of_lifter
from topheavy.cli.waiting import waiting

ShareOption = Annotated[
    list[str] | None,
    typer.Option(
        "--share",
        metavar="SHARE",
        help="Plain weight as a share of the best, such as 60%; give several. Else 45 to 75 %.",
        rich_help_panel="Speed work",
    ),
]


@asks_of_lifter
def speed(
    question: Any,
    share: ShareOption = None,
    units: UnitsOption = None,
    as_json: JsonOption = False,
) -> None:
    """Compare bar speed with chain and without, load by load.

    At equal load at the top and at equal mean load, since these answer different questions. The
    chain is that of the rig you ask for; the plates are set anew for every load.

    \b
    Examples
      topheavy speed --lifter Osric --bottom 70kg --top 90kg
      topheavy speed --lifter Runa --lift squat --bottom 50% --chain 20%
      topheavy speed --lifter Pip --straight 30kg --chain 20% \\
        --share 50% --share 60% --units lb
    """
    from topheavy.lifter.speed_work import SHARES
    from topheavy.present.speed.view import view_speed
    from topheavy.services.reps.rig import found_rig
    from topheavy.services.reps.speed import SpeedQuestion, answer_speed
    from topheavy.units import parse_quantity

    place = question.place
    shown = unit_system(units, place.gym)
    shares = tuple(parse_quantity(text, "share", field="--share") for text in share or ())
    strength = strength_for(question)
    with waiting("Finding the rig"):
        found = found_rig(question)
    asked = SpeedQuestion(
        place=place, rig=found.best.rig, strength=strength, shares=shares or SHARES
    )
    with waiting("Moving the bar"):
        answer = answer_speed(asked)
    view = view_speed(answer, found, shown)
    if as_json:
        from topheavy.cli.show import print_json

        print_json(view)
        return
    from topheavy.cli.show import print_view
    from topheavy.present.speed.terminal import render_speed

    print_view(view, render_speed)
