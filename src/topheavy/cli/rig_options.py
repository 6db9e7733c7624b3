"""Options of a rig question, and the question they make."""

from __future__ import annotations

import inspect
from typing import TYPE_CHECKING, Annotated, Any

import typer

from topheavy.cli.evidence_options import (
    IsometricOption,
    MissOption,
    PartialOption,
    SetOption,
    SpeedOption,
)
from topheavy.cli.match_options import EffortOption, MatchOption
from topheavy.cli.options import (
    GymOption,
    LifterOption,
    LiftOption,
    StationOption,
    load_gym,
)
from topheavy.cli.panels import option
from topheavy.rigging.limits import DESIGN_FACTOR

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from topheavy.services.rig import Place

_LOADS = "What you want on the bar: just two of these"
_RULES = "How the chain must lie"
_LIMITS = "Limits"


Bottom = Annotated[
    str | None, option("--bottom", "LOAD", "Load at the bottom: 80kg, 185lb, 60%.", _LOADS)
]
Top = Annotated[str | None, option("--top", "LOAD", "Load at the top.", _LOADS)]
Mean = Annotated[str | None, option("--mean", "LOAD", "Mean load over the lift.", _LOADS)]
Straight = Annotated[
    str | None,
    option("--straight", "LOAD", "Bar, collars and plates together, kept exactly.", _LOADS),
]
Chain = Annotated[
    str | None, option("--chain", "SHARE", "How much more at the top, such as 25%.", _LOADS)
]
Of = Annotated[str, option("--of", "top|bottom|best", "What --chain is a percentage of.", _LOADS)]
Best = Annotated[
    str | None, option("--best", "LOAD", "Best single, straight weight; else the file's.", _LOADS)
]
Follow = Annotated[
    list[str] | None,
    option("--follow", "HEIGHT=LOAD", "A point of a curve to follow; give several.", _LOADS),
]
LinksDown = Annotated[
    int | None,
    option("--links-down", "N", "Links of every strand left down at lockout; else 1.", _RULES),
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
    option("--hang", "STYLE", "doubled (the rule), draped, straight; give several.", _LIMITS),
]
MostPieces = Annotated[
    int, option("--most-pieces", "N", "Chain pieces to handle, both ends.", _LIMITS)
]
Bands = Annotated[
    int,
    option("--bands", "N", "Bands on each end, 0 to 2; alone with --most-pieces 0.", _LIMITS),
]
Today = Annotated[
    str | None,
    option("--today", "DAY", "The day it is, for bands to read again: 2026-11-25.", _LIMITS),
]
DesignFactor = Annotated[
    float, option("--design-factor", "X", "Rated load over what hangs on it.", _LIMITS)
]
Imbalance = Annotated[
    str, option("--most-imbalance", "MASS", "Difference between the ends at the top.", _LIMITS)
]
Within = Annotated[
    str | None, option("--within", "MASS", "Largest miss that counts as met.", _LIMITS)
]
Size = Annotated[
    list[str] | None, option("--size", "SIZE", "Only chain of this size; give several.", _LIMITS)
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
    from topheavy.asked.rig import RigAsked, rig_question
    from topheavy.cli.today import the_day

    return rig_question(
        load_gym(gym),
        RigAsked(
            lifter=lifter,
            lift=lift,
            station=station,
            bottom=bottom,
            top=top,
            mean=mean,
            straight=straight,
            chain=chain,
            of=of,
            best=best,
            follow=tuple(follow or ()),
            links_down=links_down,
            all_clear=all_clear,
            part_deload=part_deload,
            dragged=dragged,
            hang=tuple(hang or ()),
            most_pieces=most_pieces,
            bands=bands,
            design_factor=design_factor,
            most_imbalance=most_imbalance,
            within=within,
            size=tuple(size or ()),
            today=the_day(today),
            match=match,
            effort=effort,
            sets=tuple(sets or ()),
            partial=tuple(partial or ()),
            miss=tuple(miss or ()),
            isometric=tuple(isometric or ()),
            speeds=tuple(speeds or ()),
        ),
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
            from topheavy.asked.matching import refuse_without_match

            refuse_without_match(asked)
        command(read_question(**asked), **{option.name: words[option.name] for option in own})

    typed.__name__, typed.__doc__ = command.__name__, command.__doc__
    typed.__signature__ = inspect.Signature(options)  # type: ignore[attr-defined]
    typed.__annotations__ = {option.name: option.annotation for option in options}
    return typed


def place_of(gym_file: Path | None, who: str | None, what: str, where: str | None) -> Place:
    """Find lifter, lift and station in a gym; the first lifter when none is named."""
    from topheavy.asked.rig import place_in

    return place_in(load_gym(gym_file), who, what, where)


_QUESTION = inspect.signature(read_question, eval_str=True)
