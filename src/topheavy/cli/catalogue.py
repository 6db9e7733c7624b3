"""`topheavy catalogue`: chain by standard, grade and size, or by caliper readings."""

from __future__ import annotations

from typing import Annotated

from topheavy.cli.options import JsonOption, UnitsOption, unit_system
from topheavy.cli.panels import option

_NAMES = "Which chain (with readings: what it was when new)"
_READINGS = "Readings: wire, and the length of links pulled straight"
_JOB = "The job that it must be heavy enough for"


StandardOption = Annotated[
    str | None, option("--standard", "NAME", "DIN 764, EN 818-2, ASTM A413, ...", _NAMES)
]
GradeOption = Annotated[
    str | None, option("--grade", "MARK", "Grade, or the mark on the link.", _NAMES)
]
SizeOption = Annotated[str | None, option("--size", "SIZE", "5/8 in, 16 mm, 16 x 56 mm.", _NAMES)]
WireOption = Annotated[
    str | None, option("--wire", "LENGTH", "Wire diameter, away from the weld.", _READINGS)
]
OutsideOption = Annotated[
    str | None,
    option("--outside", "LENGTH", "Outer face to outer face over some links.", _READINGS),
]
OverOption = Annotated[int, option("--links-over", "N", "How many links that is.", _READINGS)]
PitchOption = Annotated[
    str | None, option("--pitch", "LENGTH", "Inside length of one link, instead.", _READINGS)
]
WidthOption = Annotated[
    str | None, option("--width", "LENGTH", "Inside width of a link.", _READINGS)
]
WireWithin = Annotated[
    str,
    option("--wire-within", "LENGTH", "How sure the wire is.", _READINGS),
]
LengthWithin = Annotated[
    str, option("--outside-within", "LENGTH", "How sure the outside length is.", _READINGS)
]
TravelOption = Annotated[
    str | None, option("--travel", "LENGTH", "Bottom to top of the lift; else 40 cm.", _JOB)
]
BestOption = Annotated[str | None, option("--best", "LOAD", "Best single; else 100 kg.", _JOB)]
ShareOption = Annotated[
    str, option("--share", "SHARE", "Chain wanted at the top, of the best.", _JOB)
]


def catalogue(
    standard: StandardOption = None,
    grade: GradeOption = None,
    size: SizeOption = None,
    wire: WireOption = None,
    outside: OutsideOption = None,
    links_over: OverOption = 10,
    pitch: PitchOption = None,
    width: WidthOption = None,
    wire_within: WireWithin = "0.3 mm",
    outside_within: LengthWithin = "2 mm",
    travel: TravelOption = None,
    best: BestOption = None,
    share: ShareOption = "10 %",
    units: UnitsOption = None,
    as_json: JsonOption = False,
) -> None:
    """Tell what chain weighs, what it is and what it is good for.

    \b
    Examples
      topheavy catalogue --size "5/8 in"
      topheavy catalogue --standard "DIN 764" --units lb
      topheavy catalogue --grade 80 --travel 60cm --best 180kg --share 25%
      topheavy catalogue --wire 15.8mm --width 21mm --outside 592mm
      topheavy catalogue --wire 15.5mm --links-over 5 --outside 311mm \\
        --size "16 mm" --standard "DIN 764"
    """
    from topheavy.asked.catalogue import ChainAsked, answer_chain
    from topheavy.cli.show import print_json, print_view
    from topheavy.present.catalogue.terminal import render_calipers, render_look_up
    from topheavy.present.catalogue.view import view_calipers, view_look_up
    from topheavy.services.catalogue import LookUp

    asked = ChainAsked(
        standard=standard,
        grade=grade,
        size=size,
        wire=wire,
        outside=outside,
        links_over=links_over,
        pitch=pitch,
        width=width,
        wire_within=wire_within,
        outside_within=outside_within,
        travel=travel,
        best=best,
        share=share,
    )
    shown, found = unit_system(units), answer_chain(asked)
    if isinstance(found, LookUp):
        sizes = view_look_up(found, shown)
        return print_json(sizes) if as_json else print_view(sizes, render_look_up)
    view = view_calipers(found, shown)
    return print_json(view) if as_json else print_view(view, render_calipers)
