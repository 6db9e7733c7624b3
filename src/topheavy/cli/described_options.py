"""Options that describe a rig and where it stands, and the rig they make."""

from __future__ import annotations

import inspect
import re
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any, Final

import typer

from topheavy.cli.options import (
    WHERE,
    GymOption,
    length_m,
    load_gym,
    load_kg,
    name_in,
)
from topheavy.errors import BadInputError

if TYPE_CHECKING:
    from collections.abc import Callable

    from topheavy.gym.gym import Gym
    from topheavy.gym.lifts import Lift
    from topheavy.gym.people import Lifter, Station, Travel
    from topheavy.mechanics.ground import Ground
    from topheavy.services.described import DescribedRig

_HANGS = "What hangs (HANG: PIECES [straight|draped] [on FEEDER] [with CONNECTOR])"
_BAR = "What is on the bar: --straight, or bar and plates"


def _option(name: str, metavar: str, text: str, panel: str) -> Any:
    return typer.Option(name, metavar=metavar, help=text, rich_help_panel=panel)


LeftOption = Annotated[
    list[str] | None,
    _option("--left", "HANG", "Left end: tags such as A1+A2; none for bare; several.", _HANGS),
]
RightOption = Annotated[
    list[str] | None, _option("--right", "HANG", "The same for the right end.", _HANGS)
]
ChainOption = Annotated[
    list[str] | None,
    _option(
        "--chain",
        "HANG",
        'Chain of no gym, on both ends alike: "32 x 5/8 in", or '
        '"32 links, 593 mm over ten links, 9.5 kg"; several.',
        _HANGS,
    ),
]
LeftBandOption = Annotated[
    list[str] | None,
    _option(
        "--left-band",
        "BAND",
        "Band on the left end: red-1 on low; red-1 doubled on low; several.",
        _HANGS,
    ),
]
RightBandOption = Annotated[
    list[str] | None, _option("--right-band", "BAND", "The same for the right end.", _HANGS)
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
    _option(
        "--feeder",
        "FEEDER",
        'What doubled chain hangs from: "ring strap:7", 62cm, or "62 cm, 0.24 kg, rated 250 kg".',
        _HANGS,
    ),
]
ConnectorOption = Annotated[
    str | None,
    _option(
        "--connector",
        "CONNECTOR",
        'What holds the fold: a name, or "175 g, 72 mm, rated 850 kg".',
        _HANGS,
    ),
]
HangOption = Annotated[
    str, _option("--hang", "STYLE", "doubled, draped or straight, for what does not say.", _HANGS)
]
RigFileOption = Annotated[
    Path | None,
    _option("--rig", "FILE", "All of this from what rig --json printed; - reads a pipe.", _HANGS),
]
StraightOption = Annotated[
    str | None, _option("--straight", "LOAD", "Bar, collars and plates together.", _BAR)
]
BarOption = Annotated[
    str | None,
    _option("--bar", "BAR", "A bar by name, or the mass of bar and collars.", _BAR),
]
PlatesOption = Annotated[
    str | None, _option("--plates", "PLATES", "Plates of one side: 25kg + 2x10kg.", _BAR)
]
WhoOption = Annotated[
    str | None, _option("--lifter", "NAME", "Whose bottom and top, whose best.", WHERE)
]
WhatOption = Annotated[
    str | None, _option("--lift", "LIFT", "Which lift; bench press for a lifter.", WHERE)
]
StationWhere = Annotated[
    str | None, _option("--station", "NAME", "Which station, for its bar and floor.", WHERE)
]
MatOption = Annotated[
    str | None,
    _option("--mat", "HEIGHT", "Mat or block under the chain; else the station's.", WHERE),
]
DraggedOption = Annotated[
    bool,
    typer.Option("--dragged", help="The slack is laid out to the side.", rich_help_panel=WHERE),
]
FrictionOption = Annotated[
    float, _option("--friction", "MU", "Of chain on this floor, for slack laid out.", WHERE)
]
BestOption = Annotated[
    str | None, _option("--best", "LOAD", "Best single, straight weight; else the file's.", WHERE)
]
FactorOption = Annotated[
    float, _option("--design-factor", "X", "Rated load over what hangs on it.", WHERE)
]
TodayOption = Annotated[
    str | None,
    _option("--today", "DAY", "The day it is, for bands to read again: 2026-11-25.", WHERE),
]

_PLATE: Final = re.compile(r"\s*(?:(\d{1,3})\s*[x*\u00d7]\s*)?(.+)", re.DOTALL)


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """A rig as it was described, and where it stands.

    Parameters
    ----------
    gym : Gym
        The gym in use.
    described : DescribedRig
        What hangs, and on what bar.
    ground : Ground
        Where the chain lies.
    lifter, lift, station : Lifter, Lift, Station or None
        Who, what and where, as far as anybody said.
    best_kg : float or None
        Straight-weight best [kg].
    design_factor : float
        A part is used up to its rating over this factor [-].
    today : str
        The day it is.
    """

    gym: Gym
    described: DescribedRig
    ground: Ground
    lifter: Lifter | None
    lift: Lift | None
    station: Station | None
    best_kg: float | None
    design_factor: float
    today: str = ""

    @property
    def title(self) -> str:
        """Who, what and where, as far as anybody said."""
        named = [one.name for one in (self.lifter, self.lift, self.station) if one is not None]
        return ", ".join(named) or "A rig as described"

    @property
    def travel(self) -> Travel | None:
        """Bottom and top of the lifter [m]; None when nobody was named."""
        if self.lifter is None or self.lift is None or self.station is None:
            return None
        return self.gym.travel(self.lifter, self.lift, self.station)


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
    from topheavy.cli.band_words import read_bands
    from topheavy.cli.hang_words import HangWords, read_ends
    from topheavy.cli.today import the_day
    from topheavy.services.described import DescribedRig, check_counts

    lifter, station = name_in(lifter, "--lifter"), name_in(station, "--station")
    lift = name_in(lift, "--lift")
    house = load_gym(gym)
    words = HangWords(
        left=tuple(left or ()),
        right=tuple(right or ()),
        both=tuple(chain or ()),
        feeder=feeder,
        connector=connector,
        style=hang,
        left_bands=tuple(left_band or ()),
        right_bands=tuple(right_band or ()),
    )
    if rig is not None:
        from topheavy.cli.rig_file import read_rig_file

        kept = read_rig_file(rig, words, house)
        words = kept.words
        straight = straight or (None if bar or plates else kept.straight)
        lifter, lift = lifter or kept.lifter, lift or kept.lift
        station, dragged = station or kept.station, dragged or kept.dragged
    who, what, where = _place(house, lifter, lift, station)
    best_kg = load_kg(best, "--best") or _best_kg(who, what)
    bar_kg, plates_kg = _bar_and_plates(house, where, straight, bar, plates, best_kg=best_kg)
    on_left, on_right = read_ends(words, house.stock)
    left_bands, right_bands = (
        read_bands(texts, f"--{side}-band", house.stock, where, beyond=beyond)
        for side, texts in (("left", words.left_bands), ("right", words.right_bands))
    )
    described = DescribedRig(
        bar_kg=bar_kg,
        plates_kg=plates_kg,
        left=on_left,
        right=on_right,
        left_bands=left_bands,
        right_bands=right_bands,
    )
    check_counts(described, house.stock)
    told = Told(
        gym=house,
        described=described,
        ground=_ground(where, mat, dragged=dragged, friction=friction),
        lifter=who,
        lift=what,
        station=where,
        best_kg=best_kg,
        design_factor=design_factor,
        today=the_day(today),
    )
    travel = told.travel
    if travel is None:
        return told
    return replace(told, described=described.over(travel.bottom_m, travel.top_m))


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


def _place(
    gym: Gym, who: str | None, what: str | None, where: str | None
) -> tuple[Lifter | None, Lift | None, Station | None]:
    """Find who, what and where; a lifter without a lift benches, and lifts where measured."""
    from topheavy.gym.lifts import lift_named

    lift = lift_named(what) if what else (lift_named("bench press") if who else None)
    lifter = gym.lifter(who) if who else None
    if where is None and lifter is not None and lift is not None:
        where = lifter.measured(lift).station or gym.station_for(lift).name
    return lifter, lift, gym.station(where) if where else None


def _best_kg(lifter: Lifter | None, lift: Lift | None) -> float | None:
    if lifter is None or lift is None:
        return None
    return lifter.measured(lift).best_kg


def _bar_and_plates(
    gym: Gym,
    station: Station | None,
    straight: str | None,
    bar: str | None,
    plates: str | None,
    *,
    best_kg: float | None,
) -> tuple[float, float]:
    """Mass of bar with collars, and of all plates [kg]."""
    straight_kg = load_kg(straight, "--straight", best_kg)
    if straight_kg is not None and plates is not None:
        raise BadInputError(
            "The plates are given twice",
            field="--straight and --plates",
            wanted="one of them; the straight weight counts the plates",
        )
    if straight_kg is not None and bar is None and not gym.stock.bars:
        return straight_kg, 0.0
    bar_kg = _bar_kg(gym, station, bar)
    if straight_kg is None:
        return bar_kg, 2 * _plates_kg(plates)
    if straight_kg >= bar_kg:
        return bar_kg, straight_kg - bar_kg
    if bar is None:
        return straight_kg, 0.0
    raise BadInputError(
        "The straight weight is less than the bar",
        field="--straight",
        got=repr(straight),
        wanted=f"{bar_kg:g} kg or more: bar, collars and plates together",
    )


def _bar_kg(gym: Gym, station: Station | None, bar: str | None) -> float:
    """A bar of the gym with its collars, or what was said [kg]."""
    from topheavy.cli.facts import dimension_of

    known = [one.name for one in gym.stock.bars]
    if bar is not None and bar not in known and dimension_of(bar) == "mass":
        return load_kg(bar, "--bar") or 0.0
    if bar is not None:
        chosen = gym.stock.bar(bar)
    elif station is not None:
        chosen = gym.bar_at(station)
    elif gym.stock.bars:
        chosen = gym.stock.bars[0]
    else:
        raise BadInputError(
            "Nothing says what bar it is", field="--bar", wanted="--bar 20kg, or --straight 80kg"
        )
    collar = next((collar for collar in gym.stock.collars if collar.count >= 2), None)
    return chosen.mass_kg + (2 * collar.mass_kg if collar else 0.0)


def _plates_kg(plates: str | None) -> float:
    """Plates of one side together [kg]."""
    from topheavy.cli.facts import amount

    total_kg = 0.0
    for text in [] if plates is None else plates.split("+"):
        found = _PLATE.fullmatch(text)
        if found is None:
            raise BadInputError(
                "A plate is missing", field="--plates", got=repr(plates), wanted="25kg + 2x10kg"
            )
        total_kg += int(found[1] or 1) * amount(found[2], "mass", "--plates")
    return total_kg


def _ground(station: Station | None, mat: str | None, *, dragged: bool, friction: float) -> Ground:
    from topheavy.mechanics.ground import Ground

    surface_m = length_m(mat, "--mat")
    if surface_m is None:
        surface_m = station.surface_m if station else 0.0
    if not -1 <= surface_m <= 1:
        raise BadInputError(
            "No chain lies that far from the floor",
            field="--mat",
            got=repr(mat),
            wanted="up to 1 m; below zero for a lifter who stands higher than the chain lies",
        )
    return Ground(surface_m=surface_m, lay="dragged" if dragged else "piled", friction=friction)


_DESCRIPTION: Final = inspect.signature(read_described, eval_str=True)
