"""Options that describe a rig and where it stands, and the rig they make."""

from __future__ import annotations

import inspect
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any, Final

import typer

from topheavy.cli.options import WHERE, GymOption, load_gym, name_in
from topheavy.cli.panels import option

if TYPE_CHECKING:
    from collections.abc import Callable

_HANGS = "What hangs (HANG: PIECES [straight|draped] [on FEEDER] [with CONNECTOR])"
_BAR = "What is on the bar: --straight, or bar and plates"


LeftOption = Annotated[
    list[str] | None,
    option("--left", "HANG", "Left end: tags such as A1+A2; none for bare; several.", _HANGS),
]
RightOption = Annotated[
    list[str] | None, option("--right", "HANG", "The same for the right end.", _HANGS)
]
ChainOption = Annotated[
    list[str] | None,
    option(
        "--chain",
        "HANG",
        'Chain of no gym, on both ends alike: "32 x 5/8 in", or '
        '"32 links, 593 mm over ten links, 9.5 kg"; several.',
        _HANGS,
    ),
]
LeftBandOption = Annotated[
    list[str] | None,
    option(
        "--left-band",
        "BAND",
        "Band on the left end: red-1 on low; red-1 doubled on low; several.",
        _HANGS,
    ),
]
RightBandOption = Annotated[
    list[str] | None, option("--right-band", "BAND", "The same for the right end.", _HANGS)
]
BeyondOption = Annotated[
    bool,
    typer.Option(
        "--beyond",
        help="Let bands stretch further than they were read: a guess.",
        rich_help_panel=_HANGS,
    ),
]
FeederOption = Annotated[
    str | None,
    option(
        "--feeder",
        "FEEDER",
        'What doubled chain hangs from: "ring strap:7", 62cm, or "62 cm, 0.24 kg, rated 250 kg".',
        _HANGS,
    ),
]
ConnectorOption = Annotated[
    str | None,
    option(
        "--connector",
        "CONNECTOR",
        'What holds the fold: a name, or "175 g, 72 mm, rated 850 kg".',
        _HANGS,
    ),
]
HangOption = Annotated[
    str, option("--hang", "STYLE", "doubled, draped or straight, for what does not say.", _HANGS)
]
RigFileOption = Annotated[
    Path | None,
    option("--rig", "FILE", "All of this from what rig --json printed; - reads a pipe.", _HANGS),
]
StraightOption = Annotated[
    str | None, option("--straight", "LOAD", "Bar, collars and plates together.", _BAR)
]
BarOption = Annotated[
    str | None,
    option("--bar", "BAR", "A bar by name, or the mass of bar and collars.", _BAR),
]
PlatesOption = Annotated[
    str | None, option("--plates", "PLATES", "Plates of one side: 25kg + 2x10kg.", _BAR)
]
WhoOption = Annotated[
    str | None, option("--lifter", "NAME", "Whose bottom and top, whose best.", WHERE)
]
WhatOption = Annotated[
    str | None, option("--lift", "LIFT", "Which lift; bench press for a lifter.", WHERE)
]
StationWhere = Annotated[
    str | None, option("--station", "NAME", "Which station, for its bar and floor.", WHERE)
]
MatOption = Annotated[
    str | None,
    option("--mat", "HEIGHT", "Mat or block under the chain; else the station's.", WHERE),
]
DraggedOption = Annotated[
    bool,
    typer.Option("--dragged", help="The slack is laid out to the side.", rich_help_panel=WHERE),
]
FrictionOption = Annotated[
    float, option("--friction", "MU", "Of chain on this floor, for slack laid out.", WHERE)
]
BestOption = Annotated[
    str | None, option("--best", "LOAD", "Best single, straight weight; else the file's.", WHERE)
]
FactorOption = Annotated[
    float, option("--design-factor", "X", "Rated load over what hangs on it.", WHERE)
]
TodayOption = Annotated[
    str | None,
    option("--today", "DAY", "The day it is, for bands to read again: 2026-11-25.", WHERE),
]


def read_described(
    left: LeftOption = None,
    right: RightOption = None,
    chain: ChainOption = None,
    feeder: FeederOption = None,
    connector: ConnectorOption = None,
    hang: HangOption = "doubled",
    left_band: LeftBandOption = None,
    right_band: RightBandOption = None,
    beyond: BeyondOption = False,
    rig: RigFileOption = None,
    straight: StraightOption = None,
    bar: BarOption = None,
    plates: PlatesOption = None,
    gym: GymOption = None,
    lifter: WhoOption = None,
    lift: WhatOption = None,
    station: StationWhere = None,
    best: BestOption = None,
    mat: MatOption = None,
    dragged: DraggedOption = False,
    friction: FrictionOption = 0.7,
    design_factor: FactorOption = 4.0,
    today: TodayOption = None,
) -> Any:
    """Make the rig that was described, `Told`."""
    from topheavy.asked.described import RigDescribed, read_rig
    from topheavy.cli.today import the_day

    said = RigDescribed(
        left=tuple(left or ()),
        right=tuple(right or ()),
        chain=tuple(chain or ()),
        feeder=feeder,
        connector=connector,
        hang=hang,
        left_band=tuple(left_band or ()),
        right_band=tuple(right_band or ()),
        beyond=beyond,
        straight=straight,
        bar=bar,
        plates=plates,
        lifter=name_in(lifter, "--lifter"),
        lift=name_in(lift, "--lift"),
        station=name_in(station, "--station"),
        best=best,
        mat=mat,
        dragged=dragged,
        friction=friction,
        design_factor=design_factor,
        today=the_day(today),
    )
    house = load_gym(gym)
    if rig is not None:
        from topheavy.cli.rig_file import read_rig_file

        said = read_rig_file(rig, said, house)
    return read_rig(house, said)


def describes_rig(command: Callable[..., None]) -> Callable[..., None]:
    """Give a command every option that describes a rig; it gets what was `Told`.

    The command's first parameter is that; its others stay its own options.
    """
    own = list(inspect.signature(command, eval_str=True).parameters.values())[1:]
    options = [*_DESCRIPTION.parameters.values(), *own]

    def typed(**words: Any) -> None:
        told = {name: words.pop(name) for name in _DESCRIPTION.parameters}
        command(read_described(**told), **words)

    typed.__name__, typed.__doc__ = command.__name__, command.__doc__
    typed.__signature__ = inspect.Signature(options)  # type: ignore[attr-defined]
    typed.__annotations__ = {option.name: option.annotation for option in options}
    return typed


_DESCRIPTION: Final = inspect.signature(read_described, eval_str=True)
