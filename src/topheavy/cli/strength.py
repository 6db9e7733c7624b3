"""`topheavy strength`: how strong a lifter is at each height, and what would tell more."""

from __future__ import annotations

from topheavy.cli.charts import ChartOption, check_chart, write_chart
from topheavy.cli.evidence_options import (
    BestOption,
    IsometricOption,
    MissOption,
    PartialOption,
    SetOption,
    SpeedOption,
)
from topheavy.cli.options import (
    GymOption,
    JsonOption,
    LifterOption,
    LiftOption,
    StationOption,
    UnitsOption,
    unit_system,
)
from topheavy.cli.rig_options import place_of


def strength(
    gym: GymOption = None,
    lifter: LifterOption = None,
    lift: LiftOption = "bench press",
    station: StationOption = None,
    best: BestOption = None,
    sets: SetOption = None,
    partial: PartialOption = None,
    miss: MissOption = None,
    isometric: IsometricOption = None,
    speed: SpeedOption = None,
    chart: ChartOption = None,
    units: UnitsOption = None,
    as_json: JsonOption = False,
) -> None:
    """Say how strong a lifter is at each height, and how sure that is.

    From the best and the records of the gym file, the lifter's bests from pins, boards and blocks,
    and what is typed here.

    \b
    Examples
      topheavy strength --lifter Osric --chart strength.svg
      topheavy strength --lifter Runa --lift squat --partial 130cm=230kg
      topheavy strength --lifter Wren --set 5x50kg@2 --miss middle=62.5kg
      topheavy strength --lifter Pip --speed 55kg=0.40 --units lb
      topheavy strength --lifter Pip --isometric 75cm=165kg-85kg --json
    """
    from topheavy.asked.evidence import evidence_from
    from topheavy.present.strength.view import view_strength
    from topheavy.services.strength import answer_strength

    check_chart(chart)
    place = place_of(gym, lifter, lift, station)
    extra = evidence_from(
        place,
        best=best,
        sets=sets,
        partial=partial,
        miss=miss,
        isometric=isometric,
        speed=speed,
    )
    shown = unit_system(units, place.gym)
    view = view_strength(answer_strength(place, extra), shown)
    if chart is not None:
        from topheavy.present.charts.by_height import strength_chart

        write_chart(chart, strength_chart(view, shown), shown)
    if as_json:
        from topheavy.cli.show import print_json

        print_json(view)
        return
    from topheavy.cli.show import print_view
    from topheavy.present.strength.terminal import render_strength

    print_view(view, render_strength)
