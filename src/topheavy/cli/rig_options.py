"""Options of a rig question, and the question they make."""

from __future__ import annotations

import inspect
from typing import TYPE_CHECKING, Annotated, Any, cast, get_args

import typer

from topheavy.cli.evidence_options import (
    IsometricOption,
    MissOption,
    PartialOption,
    SetOption,
    SpeedOption,
    evidence_from,
)
from topheavy.cli.match_options import EffortOption, MatchOption, matching_of, refuse_without_match
from topheavy.cli.options import (
    GymOption,
    LifterOption,
    LiftOption,
    StationOption,
    load_gym,
    load_kg,
    name_in,
)
from topheavy.errors import BadInputError
from topheavy.rigging.limits import DESIGN_FACTOR, Style

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from topheavy.gym.gym import Gym
    from topheavy.gym.lifts import Lift
    from topheavy.gym.people import Lifter, Station
    from topheavy.mechanics.ground import Lay
    from topheavy.rigging.target import Ask
    from topheavy.services.rig import Place

_LOADS = "What you want on the bar: just two of these"
_RULES = "How the chain must lie"
_LIMITS = "Limits"


def _option(name: str, metavar: str, text: str, panel: str) -> typer.models.OptionInfo:
    option: typer.models.OptionInfo = typer.Option(
        name, metavar=metavar, help=text, rich_help_panel=panel
    )
    return option


Bottom = Annotated[
    str | None, _option("--bottom", "LOAD", "Load at the bottom: 80kg, 185lb, 60%.", _LOADS)
]
Top = Annotated[str | None, _option("--top", "LOAD", "Load at the top.", _LOADS)]
Mean = Annotated[str | None, _option("--mean", "LOAD", "Mean load over the lift.", _LOADS)]
Straight = Annotated[
    str | None,
    _option("--straight", "LOAD", "Bar, collars and plates together, kept exactly.", _LOADS),
]
Chain = Annotated[
    str | None, _option("--chain", "SHARE", "How much more at the top, such as 25%.", _LOADS)
]
Of = Annotated[str, _option("--of", "top|bottom|best", "What --chain is a percentage of.", _LOADS)]
Best = Annotated[
    str | None, _option("--best", "LOAD", "Best single, straight weight; else the file's.", _LOADS)
]
Follow = Annotated[
    list[str] | None,
    _option("--follow", "HEIGHT=LOAD", "A point of a curve to follow; give several.", _LOADS),
]
LinksDown = Annotated[
    int | None,
    _option("--links-down", "N", "Links of every strand left down at lockout; else 1.", _RULES),
]
AllClear = Annotated[
    bool, typer.Option("--all-clear", help="Every link clear at lockout.", rich_help_panel=_RULES)
]
PartDeload = Annotated[
    bool,
    typer.Option("--part-deload", help="Chain may hang at the bottom too.", rich_help_panel=_RULES),
]
Dragged = Annotated[
    bool,
    typer.Option("--dragged", help="The slack is laid out to the side.", rich_help_panel=_RULES),
]
Hang = Annotated[
    list[str] | None,
    _option("--hang", "STYLE", "doubled (the rule), draped, straight; give several.", _LIMITS),
]
MostPieces = Annotated[
    int, _option("--most-pieces", "N", "Chain pieces to handle, both ends.", _LIMITS)
]
Bands = Annotated[
    int,
    _option("--bands", "N", "Bands on each end, 0 to 2; alone with --most-pieces 0.", _LIMITS),
]
Today = Annotated[
    str | None,
    _option("--today", "DAY", "The day it is, for bands to read again: 2026-11-25.", _LIMITS),
]
DesignFactor = Annotated[
    float, _option("--design-factor", "X", "Rated load over what hangs on it.", _LIMITS)
]
Imbalance = Annotated[
    str, _option("--most-imbalance", "MASS", "Difference between the ends at the top.", _LIMITS)
]
Within = Annotated[
    str | None, _option("--within", "MASS", "Largest miss that counts as met.", _LIMITS)
]
Size = Annotated[
    list[str] | None, _option("--size", "SIZE", "Only chain of this size; give several.", _LIMITS)
]


def read_question(
    gym: GymOption = None,
    lifter: LifterOption = None,
    lift: LiftOption = "bench press",
    station: StationOption = None,
    bottom: Bottom = None,
    top: Top = None,
    mean: Mean = None,
    straight: Straight = None,
    chain: Chain = None,
    of: Of = "top",
    best: Best = None,
    follow: Follow = None,
    links_down: LinksDown = None,
    all_clear: AllClear = False,
    part_deload: PartDeload = False,
    dragged: Dragged = False,
    hang: Hang = None,
    most_pieces: MostPieces = 8,
    bands: Bands = 0,
    design_factor: DesignFactor = DESIGN_FACTOR,
    most_imbalance: Imbalance = "0.5 kg",
    within: Within = None,
    size: Size = None,
    today: Today = None,
    match: MatchOption = False,
    effort: EffortOption = None,
    sets: SetOption = None,
    partial: PartialOption = None,
    miss: MissOption = None,
    isometric: IsometricOption = None,
    speeds: SpeedOption = None,
) -> Any:
    """Make the `RigQuestion` that was typed."""
    from topheavy.cli.size_words import own_sizes
    from topheavy.cli.today import the_day
    from topheavy.rigging.limits import Limits
    from topheavy.services.rig import RigQuestion, Rules

    place = place_of(gym, lifter, lift, station, lay="dragged" if dragged else "piled")
    best_kg = load_kg(best, "--best") or place.measured.best_kg
    loads = {"bottom": bottom, "top": top, "mean": mean, "straight": straight}
    loads_kg = {name: load_kg(text, f"--{name}", best_kg) for name, text in loads.items()}
    evidence = evidence_from(
        place,
        best=best,
        sets=sets,
        partial=partial,
        miss=miss,
        isometric=isometric,
        speed=speeds,
    )
    aims = {"--bottom": bottom, "--top": top, "--mean": mean, "--chain": chain, "--follow": follow}
    return RigQuestion(
        place=place,
        ask=_ask(loads_kg, chain, of, best_kg),
        rules=Rules(
            follow=_points(follow or [], best_kg),
            full_deload=not part_deload,
            links_down=_links_down(links_down, all_clear=all_clear),
            all_clear=all_clear,
        ),
        limits=Limits(
            most_pieces=most_pieces,
            most_bands=bands,
            design_factor=design_factor,
            most_imbalance_kg=load_kg(most_imbalance, "--most-imbalance") or 0.0,
            styles=_styles(hang or []),
            sizes=own_sizes(size or [], place.gym.stock),
        ),
        tolerance_kg=load_kg(within, "--within"),
        today=the_day(today),
        matching=matching_of(place, evidence, effort, aims) if match else None,
        evidence=evidence,
    )


def asks_for_rig(command: Callable[..., None]) -> Callable[..., None]:
    """Give a command every option of a rig question; it gets the question itself.

    The command's first parameter is the question; its others stay its own options. What says how
    strong the lifter is counts only with ``--match``.
    """
    return _asking(command, strength=False)


def asks_of_lifter(command: Callable[..., None]) -> Callable[..., None]:
    """Do as `asks_for_rig` for a command that wants to know the lifter's strength in any case."""
    return _asking(command, strength=True)


def _asking(command: Callable[..., None], *, strength: bool) -> Callable[..., None]:
    own = list(inspect.signature(command, eval_str=True).parameters.values())[1:]
    own_names = {option.name for option in own}
    asks = [option for name, option in _QUESTION.parameters.items() if name not in own_names]
    options = [*asks, *own]

    def typed(**words: Any) -> None:
        asked = {name: words[name] for name in _QUESTION.parameters}
        if not strength:
            refuse_without_match(asked)
        command(read_question(**asked), **{option.name: words[option.name] for option in own})

    typed.__name__, typed.__doc__ = command.__name__, command.__doc__
    typed.__signature__ = inspect.Signature(options)  # type: ignore[attr-defined]
    typed.__annotations__ = {option.name: option.annotation for option in options}
    return typed


def place_of(
    gym_file: Path | None, who: str | None, what: str, where: str | None, *, lay: Lay = "piled"
) -> Place:
    """Find lifter, lift and station in the gym; the first lifter when none is named."""
    from topheavy.gym.lifts import lift_named
    from topheavy.services.rig import Place

    who, where = name_in(who, "--lifter"), name_in(where, "--station")
    gym, lift = load_gym(gym_file), lift_named(what)
    lifter = gym.lifter(who) if who else gym.first_lifter(lift)
    station = _station(gym, where, lifter, lift)
    return Place(gym=gym, lifter=lifter, lift=lift, station=station, lay=lay)


def _station(gym: Gym, name: str | None, lifter: Lifter, lift: Lift) -> Station:
    """As named, else where the lifter was measured, else the first that suits."""
    name = name or lifter.measured(lift).station
    return gym.station(name) if name else gym.station_for(lift)


def _ask(
    loads_kg: dict[str, float | None], chain: str | None, of: str, best_kg: float | None
) -> Ask:
    from topheavy.rigging.target import Ask, Base
    from topheavy.units import parse_quantity

    if of not in get_args(Base):
        raise BadInputError(
            "Unknown base of a share", field="--of", got=repr(of), wanted=", ".join(get_args(Base))
        )
    return Ask(
        bottom_kg=loads_kg["bottom"],
        top_kg=loads_kg["top"],
        mean_kg=loads_kg["mean"],
        straight_kg=loads_kg["straight"],
        chain_share=None if chain is None else parse_quantity(chain, "share", field="--chain"),
        base=cast("Base", of),
        best_kg=best_kg,
    )


def _links_down(typed: int | None, *, all_clear: bool) -> int | None:
    """Links that stay down: one when nobody said, none when all shall be clear or 0 was typed."""
    if typed is not None and all_clear:
        raise BadInputError(
            "Links can't stay down at lockout and be all clear of the floor",
            field="--links-down and --all-clear",
            got=f"--links-down {typed} and --all-clear",
            wanted="one of the two",
        )
    if typed is not None and typed < 0:
        raise BadInputError(
            "Fewer than no links can't stay down",
            field="--links-down",
            got=typed,
            wanted="0 or more; 1 is usual",
        )
    return None if all_clear or typed == 0 else (1 if typed is None else typed)


def _points(follow: list[str], best_kg: float | None) -> tuple[tuple[float, float], ...]:
    points = tuple(_point(text, best_kg) for text in follow)
    if len(points) == 1:
        raise BadInputError(
            "One point makes no curve",
            field="--follow",
            got=repr(follow[0]),
            wanted="two points or more: --follow 66cm=80kg --follow 107cm=105kg",
        )
    return points


def _point(text: str, best_kg: float | None) -> tuple[float, float]:
    from topheavy.units import parse_quantity

    height, equals, load = text.partition("=")
    if not equals:
        raise BadInputError(
            "A point to follow is a height and a load",
            field="--follow",
            got=repr(text),
            wanted="such as 70cm=90kg",
        )
    height_m = parse_quantity(height, "length", field="--follow")
    return height_m, load_kg(load, "--follow", best_kg) or 0.0


def _styles(hang: list[str]) -> tuple[Style, ...]:
    unknown = [style for style in hang if style not in get_args(Style)]
    if unknown:
        raise BadInputError(
            "Unknown way to hang chain",
            field="--hang",
            got=repr(unknown[0]),
            wanted=", ".join(get_args(Style)),
        )
    return tuple(cast("Style", style) for style in hang) or ("doubled",)


_QUESTION = inspect.signature(read_question, eval_str=True)
