"""`topheavy weigh`: what hangs against a scale."""

from __future__ import annotations

from functools import partial
from pathlib import Path
from typing import Annotated, Any

from topheavy.cli.described_options import describes_rig
from topheavy.cli.options import JsonOption, UnitsOption, unit_system
from topheavy.cli.panels import option

_READINGS = "What the scale showed"


_option = partial(option, panel=_READINGS)

ReadingOption = Annotated[
    list[str] | None,
    _option("--reading", "HEIGHT=MASS", "Such as 70cm=92.1kg; :up or :down when known; several."),
]
ReadingsFile = Annotated[
    Path | None,
    _option("--readings", "FILE", 'A CSV file: "height [cm],mass [kg],way", then a line each.'),
]
CarriesOption = Annotated[
    str,
    _option("--carries", "WHAT", "bar, left, right (that end), floor, floor left, floor right."),
]
BareOption = Annotated[
    str | None,
    _option("--bare", "MASS", "What it shows with all chain on the floor; 0kg if zeroed so."),
]
ScaleWithin = Annotated[str, _option("--scale-within", "MASS", "How sure the scale is.")]
HeightWithin = Annotated[str, _option("--height-within", "LENGTH", "How sure each height is.")]


@describes_rig
def weigh(
    told: Any,
    reading: ReadingOption = None,
    readings: ReadingsFile = None,
    carries: CarriesOption = "bar",
    bare: BareOption = None,
    scale_within: ScaleWithin = "0.1 kg",
    height_within: HeightWithin = "3 mm",
    units: UnitsOption = None,
    as_json: JsonOption = False,
) -> None:
    """Check what hangs against a scale; say what is off and why.

    Three readings show whether the load is right; six or more over the whole travel can also
    show why not. Come to each height from below. What the scale carries: the bar (both ends on
    it), one end, or the slack on the floor.

    \b
    Examples
      topheavy weigh --left A1+A2 --right A3+A4 --feeder "ring strap:7" \\
        --connector "10 mm screw link" --straight 80kg --lifter Osric \\
        --reading 66cm=80.6kg:up --reading 75cm=81.2kg:up \\
        --reading 84cm=84.7kg:up --reading 93cm=88.5kg:up \\
        --reading 100cm=91.7kg:up --reading 107cm=94.4kg:up
      topheavy weigh --chain "32 x 5/8 in" --hang straight --straight 80kg \\
        --reading 50cm=84.9kg --reading 80cm=88.1kg --reading 110cm=91.3kg
      topheavy rig --lifter Pip --bottom 45kg --top 60kg --json | \\
        topheavy weigh --rig - --reading 63cm=45.4kg --reading 75cm=48.9kg \\
        --reading 88cm=54.9kg --reading 101cm=60.8kg
    """
    from topheavy.asked.weighing import doubt_of, read_typed, weigh_told
    from topheavy.cli.readings import read_csv
    from topheavy.cli.show import print_json, print_view
    from topheavy.present.weigh.terminal import render_weighing
    from topheavy.present.weigh.view import view_weighing

    shown = unit_system(units, told.gym)
    doubt = doubt_of(scale_within, height_within)
    taken = read_typed(reading or (), doubt) + (read_csv(readings, doubt) if readings else [])
    done = weigh_told(told, taken, carries, bare, doubt)
    view = view_weighing(done.answer, done.described, done.dangers, shown, told.title, done.again)
    if as_json:
        print_json(view)
    else:
        print_view(view, render_weighing)
