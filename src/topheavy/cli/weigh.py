"""`topheavy weigh`: what hangs against a scale."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from topheavy.cli.described_options import describes_rig
from topheavy.cli.options import JsonOption, UnitsOption, length_m, mass_kg, unit_system
from topheavy.errors import BadInputError

if TYPE_CHECKING:
    from topheavy.asked.described import Told
    from topheavy.cli.readings import Doubt
    from topheavy.services.weighing.weigh import Scale, ScaleReading, Suspects

_READINGS = "What the scale showed"


def _option(name: str, metavar: str, text: str) -> Any:
    return typer.Option(name, metavar=metavar, help=text, rich_help_panel=_READINGS)


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
    from topheavy.cli.readings import Doubt
    from topheavy.cli.show import print_json, print_view
    from topheavy.present.weigh_terminal import render_weighing
    from topheavy.present.weigh_view import view_weighing
    from topheavy.services.bands import band_remarks
    from topheavy.services.described import dangers
    from topheavy.services.weighing.weigh import weigh as weighed

    shown = unit_system(units, told.gym)
    doubt = Doubt(
        height_u_m=length_m(height_within, "--height-within") or 0.0,
        mass_u_kg=mass_kg(scale_within, "--scale-within") or 0.0,
    )
    taken = _readings(reading, readings, doubt)
    described = told.described.over(*(one.height_m for one in taken), *_ends_m(told))
    answer = weighed(
        described.rig,
        told.ground,
        taken,
        _scale(carries, bare, doubt),
        _suspects(told),
        told.travel,
    )
    found = dangers(described, design_factor=told.design_factor)
    again = band_remarks(described.bands, told.today)
    view = view_weighing(answer, described, found, shown, told.title, again)
    if as_json:
        print_json(view)
    else:
        print_view(view, render_weighing)


def _ends_m(told: Told) -> tuple[float, ...]:
    """Bottom and top of the lifter, where one was named [m]."""
    return (told.travel.bottom_m, told.travel.top_m) if told.travel else ()


def _readings(typed: list[str] | None, file: Path | None, doubt: Doubt) -> list[ScaleReading]:
    from topheavy.cli.readings import MOST, read_csv, read_typed

    found = read_typed(typed or [], doubt) + (read_csv(file, doubt) if file else [])
    if not 0 < len(found) <= MOST:
        raise BadInputError(
            "No readings of the scale" if not found else "Too many readings",
            field="--reading",
            got=None if not found else f"{len(found)} readings",
            wanted="--reading 70cm=92.1kg, several times; or --readings FILE",
        )
    return found


def _scale(carries: str, bare: str | None, doubt: Doubt) -> Scale:
    """What the scale carries; a bare reading is as sure as the scale."""
    from topheavy.services.weighing.weigh import Scale

    bare_kg = mass_kg(bare, "--bare")
    return Scale(
        carries=" ".join(carries.lower().split()),  # type: ignore[arg-type]  # it checks the word
        straight_kg=bare_kg,
        straight_u_kg=None if bare_kg is None else doubt.mass_u_kg,
    )


def _suspects(told: Told) -> Suspects:
    """What this gym has that could have been taken by mistake."""
    from topheavy.services.described import UNNAMED_FEEDER
    from topheavy.services.weighing.weigh import Suspects

    feeders = [hanging.fixture.feeder for hanging in told.described.hangings]
    used = next((f for f in feeders if f is not None and f.name != UNNAMED_FEEDER), None)
    surfaces = {station.surface_m for station in told.gym.stations} | {0.0}
    return Suspects(
        settings=() if used is None else tuple(_named(s) for s in used.settings),
        plates_kg=tuple(sorted({plate.mass_kg for plate in told.gym.stock.plates})),
        surfaces_m=tuple(sorted(surfaces - {told.ground.surface_m})),
        pegs=told.station.pegs if told.station else (),
        bands=told.gym.stock.bands if told.described.bands else (),
    )


def _named(setting: Any) -> Any:
    """A setting under the name that stands in a sentence."""
    from topheavy.phrase import literal
    from topheavy.present.rig_steps import setting_text

    name = setting_text(setting.label)
    return replace(setting, label=literal(f"mark {name}" if name[0].isdigit() else name))
