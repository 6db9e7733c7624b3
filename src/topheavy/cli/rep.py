"""`topheavy rep`: how the bar moves with the rig that is found, beside others of equal effort."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated, Any

import typer

from topheavy.cli.charts import ChartOption, check_chart, write_chart
from topheavy.cli.options import JsonOption, UnitsOption, unit_system
from topheavy.cli.rig_options import asks_of_lifter
from topheavy.cli.waiting import waiting

if TYPE_CHECKING:
    from topheavy.lifter.strength import StrengthCurve

_MOVES = "How the bar moves"

EffortOption = Annotated[
    str | None,
    typer.Option(
        "--effort",
        metavar="SHARE",
        help="Side by side at this share of the best, such as 90%; else at the rig's own. With "
        "--match also the effort to match.",
        rich_help_panel=_MOVES,
    ),
]
LowerOption = Annotated[
    float,
    typer.Option(
        "--lower",
        metavar="SECONDS",
        help="How long the bar takes down under control.",
        rich_help_panel=_MOVES,
    ),
]


@asks_of_lifter
def rep(
    question: Any,
    effort: EffortOption = None,
    lower: LowerOption = 2.0,
    chart: ChartOption = None,
    units: UnitsOption = None,
    as_json: JsonOption = False,
) -> None:
    """Show how the bar moves with a rig, and beside others as hard.

    Speed, push and power up the lift, where it sticks, the way down, where it fails and what a
    spotter should expect; then plain weight, the same chain straight and doubled, and a band, all
    at the same effort. Bench press, squat and deadlift.

    \b
    Examples
      topheavy rep --lifter Osric --bottom 85kg --top 115kg --chart rep.png
      topheavy rep --lifter Runa --lift squat --bottom 60% --chain 25% \\
        --effort 90%
      topheavy rep --lifter Pip --lift deadlift --straight 80kg --chain 20% --json
    """
    from topheavy.present.rep.view import view_rep
    from topheavy.services.reps.rep import RepQuestion, answer_rep
    from topheavy.services.reps.rig import found_rig
    from topheavy.units import parse_quantity

    check_chart(chart)
    place = question.place
    shown = unit_system(units, place.gym)
    share = None if effort is None else parse_quantity(effort, "share", field="--effort")
    strength = strength_for(question)
    with waiting("Finding the rig"):
        found = found_rig(question)
    asked = RepQuestion(
        place=place, rig=found.best.rig, strength=strength, effort=share, lower_s=lower
    )
    with waiting("Moving the bar"):
        answer = answer_rep(asked)
    view = view_rep(answer, found, shown)
    if chart is not None:
        from topheavy.present.charts.by_height import rep_chart

        write_chart(chart, rep_chart(view, shown), shown)
    if as_json:
        from topheavy.cli.show import print_json

        print_json(view)
        return
    from topheavy.cli.show import print_view
    from topheavy.present.rep.terminal import render_rep

    print_view(view, render_rep)


def strength_for(question: Any) -> StrengthCurve:
    """Take what is known of the lifter's strength; a lift without a model is refused first."""
    from topheavy.lifter.motion_model import model_for
    from topheavy.services.strength import strength_asked

    model_for(question.place.lift.name)
    return strength_asked(question)
