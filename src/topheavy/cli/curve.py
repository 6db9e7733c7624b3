"""`topheavy curve`: the load at any height of a rig that somebody describes."""

from __future__ import annotations

from functools import partial
from typing import Annotated, Any

from topheavy.cli.charts import ChartOption, check_chart, write_chart
from topheavy.cli.described_options import describes_rig
from topheavy.cli.options import JsonOption, UnitsOption, unit_system
from topheavy.cli.panels import option

_HEIGHTS = "Heights of the bar centre above the floor"


_option = partial(option, panel=_HEIGHTS)

BottomOption = Annotated[
    str | None, _option("--bottom", "HEIGHT", "Where the lift turns round; else the lifter's.")
]
TopOption = Annotated[
    str | None, _option("--top", "HEIGHT", "Where it locks out; else the lifter's.")
]
AtOption = Annotated[
    list[str] | None, _option("--at", "HEIGHT", "One more height to read; give several.")
]
ReachOption = Annotated[
    list[str] | None, _option("--reach", "LOAD", "Say at what height this load is; give several.")
]


@describes_rig
def curve(
    told: Any,
    bottom: BottomOption = None,
    top: TopOption = None,
    at: AtOption = None,
    reach: ReachOption = None,
    chart: ChartOption = None,
    units: UnitsOption = None,
    as_json: JsonOption = False,
) -> None:
    """Show the load at any height of a rig you describe.

    \b
    Examples
      topheavy curve --left A1+A2 --right A3+A4 --feeder "ring strap:7" \\
        --connector "10 mm screw link" --straight 80kg --lifter Osric --at 80cm
      topheavy curve --chain "32 x 5/8 in" --chain "32 x 5/8 in" --feeder 62cm \\
        --straight 80kg --bottom 66cm --top 107cm --reach 100kg
      topheavy curve --chain "32 links, 593mm over ten links, 9.5kg" \\
        --hang straight --straight 185lb --at 28in --at 40in --units lb
      topheavy curve --left "A1 on ring strap:5" --left "B1 on ring strap:7" \\
        --right "A2 on ring strap:5" --right "B2 on ring strap:7" --lifter Osric
      topheavy curve --left-band "red-1 on low" --right-band "red-3 on low" \\
        --straight 60kg --lifter Wren --station "bench 1"
      topheavy rig --lifter Pip --bottom 45kg --top 60kg --json | \\
        topheavy curve --rig - --at 80cm --chart loads.svg
    """
    from topheavy.asked.curve import curve_question
    from topheavy.present.loads.view import view_curve
    from topheavy.services.curve import answer_curve

    check_chart(chart)
    shown = unit_system(units, told.gym)
    question = curve_question(told, bottom=bottom, top=top, at=at or (), reach=reach or ())
    view = view_curve(answer_curve(question), shown, told.title)
    if chart is not None:
        from topheavy.present.charts.by_height import loads_chart

        write_chart(chart, loads_chart(view, shown), shown)
    if as_json:
        from topheavy.cli.show import print_json

        print_json(view)
        return
    from topheavy.cli.show import print_view
    from topheavy.present.loads.terminal import render_curve

    print_view(view, render_curve)
