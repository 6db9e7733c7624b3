"""A question for a rig, out of the words it was asked in."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, cast, get_args

from topheavy.asked.evidence import evidence_from
from topheavy.asked.matching import matching_of
from topheavy.asked.quantities import load_kg, name_in
from topheavy.asked.size_words import own_sizes
from topheavy.errors import BadInputError
from topheavy.gym.lifts import lift_named
from topheavy.rigging.limits import DESIGN_FACTOR, Limits, Style
from topheavy.rigging.target import Ask, Base
from topheavy.services.rig import Place, RigQuestion, Rules
from topheavy.units import parse_quantity

if TYPE_CHECKING:
    from topheavy.gym.gym import Gym
    from topheavy.gym.lifts import Lift
    from topheavy.gym.people import Lifter, Station
    from topheavy.mechanics.ground import Lay


@dataclass(frozen=True, slots=True, kw_only=True)
class RigAsked:
    """What was said of the rig that is wanted; each as its option of ``topheavy rig`` says it.

    Parameters
    ----------
    lifter, lift, station : str or None
        Who, what and where.
    bottom, top, mean, straight, chain, of, best : str or None
        Loads, and the share that chain adds, as quantities in words.
    follow : tuple of str
        Points to follow, ``HEIGHT=LOAD``.
    links_down, all_clear, part_deload, dragged : int or bool
        How the chain must lie.
    hang, size : tuple of str
        Ways to hang, and sizes, to search; all of the usual when empty.
    most_pieces, bands, design_factor, most_imbalance, within
        Limits of the search.
    today : str
        The day it is, year-month-day.
    match : bool
        Match the lifter's strength instead of loads.
    effort : str or None
        Share of strength to use.
    sets, partial, miss, isometric, speeds : tuple of str
        What tells how strong the lifter is.
    """

    lifter: str | None = None
    lift: str = "bench press"
    station: str | None = None
    bottom: str | None = None
    top: str | None = None
    mean: str | None = None
    straight: str | None = None
    chain: str | None = None
    of: str = "top"
    best: str | None = None
    follow: tuple[str, ...] = ()
    links_down: int | None = None
    all_clear: bool = False
    part_deload: bool = False
    dragged: bool = False
    hang: tuple[str, ...] = ()
    most_pieces: int = 8
    bands: int = 0
    design_factor: float = DESIGN_FACTOR
    most_imbalance: str = "0.5 kg"
    within: str | None = None
    size: tuple[str, ...] = ()
    today: str = ""
    match: bool = False
    effort: str | None = None
    sets: tuple[str, ...] = ()
    partial: tuple[str, ...] = ()
    miss: tuple[str, ...] = ()
    isometric: tuple[str, ...] = ()
    speeds: tuple[str, ...] = ()


def rig_question(gym: Gym, asked: RigAsked) -> RigQuestion:
    """Make the question that was asked.

    Parameters
    ----------
    gym : Gym
        The gym it is asked of.
    asked : RigAsked
        The words.

    Raises
    ------
    BadInputError, NotInStockError
        Words not understood, or something the gym does not have; names the option.
    """
    lay: Lay = "dragged" if asked.dragged else "piled"
    place = place_in(gym, asked.lifter, asked.lift, asked.station, lay=lay)
    best_kg = load_kg(asked.best, "--best") or place.measured.best_kg
    loads = {name: getattr(asked, name) for name in ("bottom", "top", "mean", "straight")}
    loads_kg = {name: load_kg(text, f"--{name}", best_kg) for name, text in loads.items()}
    evidence = evidence_from(
        place,
        best=asked.best,
        sets=asked.sets,
        partial=asked.partial,
        miss=asked.miss,
        isometric=asked.isometric,
        speed=asked.speeds,
    )
    aims = {f"--{name}": getattr(asked, name) for name in _AIMS}
    return RigQuestion(
        place=place,
        ask=_ask(loads_kg, asked.chain, asked.of, best_kg),
        rules=Rules(
            follow=_points(asked.follow, best_kg),
            full_deload=not asked.part_deload,
            links_down=_links_down(asked.links_down, all_clear=asked.all_clear),
            all_clear=asked.all_clear,
        ),
        limits=Limits(
            most_pieces=asked.most_pieces,
            most_bands=asked.bands,
            design_factor=asked.design_factor,
            most_imbalance_kg=load_kg(asked.most_imbalance, "--most-imbalance") or 0.0,
            styles=_styles(asked.hang),
            sizes=own_sizes(asked.size, gym.stock),
        ),
        tolerance_kg=load_kg(asked.within, "--within"),
        today=asked.today,
        matching=matching_of(place, evidence, asked.effort, aims) if asked.match else None,
        evidence=evidence,
    )


_AIMS = ("bottom", "top", "mean", "chain", "follow")


def place_in(
    gym: Gym, who: str | None, what: str, where: str | None, *, lay: Lay = "piled"
) -> Place:
    """Find lifter, lift and station in a gym; the first lifter when none is named."""
    who, where = name_in(who, "--lifter"), name_in(where, "--station")
    lift = lift_named(what)
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


def _points(follow: tuple[str, ...], best_kg: float | None) -> tuple[tuple[float, float], ...]:
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


def _styles(hang: tuple[str, ...]) -> tuple[Style, ...]:
    unknown = [style for style in hang if style not in get_args(Style)]
    if unknown:
        raise BadInputError(
            "Unknown way to hang chain",
            field="--hang",
            got=repr(unknown[0]),
            wanted=", ".join(get_args(Style)),
        )
    return tuple(cast("Style", style) for style in hang) or ("doubled",)
