"""The usual cautions, each where it matters."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

import numpy as np

from topheavy.lifter.typical import typical_for
from topheavy.mechanics.hang import Doubled, Draped
from topheavy.services.counting import links_of

if TYPE_CHECKING:
    from collections.abc import Sequence

    from topheavy.gym.lifts import Lift
    from topheavy.gym.people import Travel
    from topheavy.gym.stock import ChainPiece
    from topheavy.mechanics.ground import Ground
    from topheavy.mechanics.hang import Hang
    from topheavy.mechanics.rig import Rig


@dataclass(frozen=True, slots=True)
class Caution:
    """Something to mind.

    Parameters
    ----------
    code : str
        A short name that never changes.
    text : str
        What to do, in a sentence or two.
    """

    code: str
    text: str


_MUCH_SLACK_M: Final = 0.05
_THIN_M: Final = 0.011
_MOSTLY_USED: Final = 0.35
_MOST_USED: Final = 0.48

_ALWAYS: Final = (
    Caution(
        "collars", "Collars on, every set. Hang the loops where they can't walk off the sleeve."
    ),
    Caution("alike", "Both ends alike: same links, same setting, same side of the collar."),
    Caution(
        "ratings",
        "Only marked, rated connectors, loaded along their long axis. An assembly is as strong "
        "as its weakest part.",
    ),
    Caution(
        "inspect",
        "Look the chain over first. Retire any piece with a crack, bend, twist or gouge, a pitch "
        "3 % longer or a section worn by 10 %.",
    ),
    Caution(
        "familiarise",
        "New to chain? Learn it light. Chain on from the first warm-ups, so the top set is no "
        "surprise.",
    ),
    Caution(
        "defer",
        "Pain, illness, youth: ask licensed people first. Local rules and the makers' "
        "instructions come before anything printed here.",
    ),
)

_BY_STATION: Final = {
    "bench": Caution(
        "spotter",
        "Never bench alone without safeties. A spotter and safety arms at chest height: people "
        "have died under the bar.",
    ),
    "rack": Caution(
        "safeties", "Set the safeties just below the bottom of the lift. Spotters ready."
    ),
    "platform": Caution(
        "clear",
        "Keep feet and hands away from the pile: chain comes down where it went up.",
    ),
}

_OVERHEAD: Final = Caution(
    "overhead",
    "The bar passes over the head: chain of Grade 30, 43 or 70 is not made for lifting overhead. "
    "Nobody stands below, the rack's safeties stay in.",
)
_SWING: Final = Caution(
    "swing",
    "At lockout no link is left on the floor: the chain will swing. Raise slowly, or use longer "
    "pieces, so that a link or two stays down and steadies it.",
)
_DRAG: Final = Caution(
    "drag",
    "Slack laid out to the side adds load and pulls the bar sideways. Better pile it under the "
    "bar, and have the loads worked out anew.",
)
_FLIMSY: Final = Caution(
    "nothing lifts",
    "The fold never leaves the floor: the feeder is too long for this lift, and the chain adds "
    "nothing.",
)
_SAME: Final = Caution(
    "no change",
    "The chain hangs clear of the floor all the way: it weighs the same at every height and "
    "changes nothing over the lift. Lower it until it lies on the floor at the bottom.",
)
NO_COLLARS: Final = Caution(
    "no collars",
    "No pair of collars is listed, so none is counted. Never lift without: list them, and ask "
    "again.",
)
_SLACK: Final = Caution(
    "slack feeder",
    "The feeder hangs slack at the bottom: the chain comes on only higher up, and the feeder goes "
    "taut with a jerk when the bar is fast. A shorter setting brings it on sooner.",
)
_HANGS: Final = Caution(
    "fold hangs",
    "The fold hangs clear of the floor at the bottom: part of the chain is on the bar all the way, "
    "and it may swing. Lengthen the feeder for a full deload.",
)


_BANDS: Final = (
    Caution(
        "never let go",
        "Never let go of the bar or drop it: bands pull it down faster than it falls. Spotters "
        "and safeties ready for that.",
    ),
    Caution(
        "bands",
        "Look each band over before every use: nicks, cracks, thin or sticky places. Retire it "
        "at the first one.",
    ),
    Caution(
        "pegs",
        "Only pegs that hold the pull and that a band can't slip off, the same on both sides. "
        "Bands inside of the collars, so that they can't come off the sleeve.",
    ),
    Caution(
        "whip",
        "Keep face and hands out of line with a stretched band: it whips when it breaks or slips.",
    ),
)
"""Common practice, no source; that a band adds force and no mass is mechanics."""

_CHAIN_ONLY: Final = ("alike", "ratings", "inspect", "familiarise")
_NEW_TO_BANDS: Final = Caution(
    "familiarise",
    "New to bands? Learn them light, on from the first warm-ups, so the top set is no surprise.",
)
_FROM_ABOVE: Final = Caution(
    "bands from above",
    "A band from above carries part of the bar: if it breaks, all of it is on the lifter at once. "
    "Safeties just below the bottom of the lift.",
)


def cautions_when_testing(lift: Lift) -> tuple[Caution, ...]:
    """Choose the cautions for a single at straight weight, full range or from pins."""
    always = (c for c in _ALWAYS if c.code == "defer")
    where = _FLOOR if lift.station == "platform" else _BY_STATION[lift.station]
    return (where, _PINS, Caution("collars", "Collars on, every set."), *always)


def cautions_by_words(lift: Lift, hung: str) -> tuple[Caution, ...]:
    """Choose the cautions for a lift with a rig that is known by its description alone.

    Parameters
    ----------
    lift : Lift
        Which lift.
    hung : str
        What hangs, in words; empty with straight weight. Bands are told by their name.

    Examples
    --------
    >>> from topheavy.gym.lifts import lift_named
    >>> [one.code for one in cautions_by_words(lift_named("bench"), "")]
    ['spotter', 'collars', 'defer']
    >>> [one.code for one in cautions_by_words(lift_named("bench"), "two red bands")][1]
    'never let go'
    """
    where = _FLOOR if lift.station == "platform" else _BY_STATION[lift.station]
    if not hung:
        return (where, *(one for one in _ALWAYS if one.code in {"collars", "defer"}))
    return (where, *(_BANDS if "band" in hung.casefold() else ()), *_ALWAYS)


_FLOOR: Final = Caution(
    "floor",
    "Clear floor all round, nobody close. If it does not go, set it down with the hands on.",
)
_PINS: Final = Caution(
    "pins",
    "Pins, boards and blocks rated for the load, the same on both sides, at a height that was "
    "measured. Warm up to a single in steps, rest long, stop when the form goes: a miss is never "
    "the aim.",
)
"""Both common practice, no source."""


def cautions_for(
    lift: Lift | None, rig: Rig, travel: Travel | None, ground: Ground
) -> tuple[Caution, ...]:
    """Choose the cautions for a lift and a rig; the most urgent first.

    Without a lift those of no station are given; without a travel [m] those of no height.
    """
    found = []
    if lift is not None:
        found.append(_BY_STATION[lift.station])
        if lift.overhead:
            found.append(_OVERHEAD)
    if ground.lay == "dragged":
        found.append(_DRAG)
    bands = (*rig.left.bands, *rig.right.bands)
    if bands:
        found += _BANDS
        if any(np.any(band.upright(band.travel_m) < 0) for band in bands):
            found.append(_FROM_ABOVE)
    if travel is not None:
        found += _about_chain(rig, travel, ground)
    if bands and not _hangs(rig):
        return (*found, *(c for c in _ALWAYS if c.code not in _CHAIN_ONLY), _NEW_TO_BANDS)
    return (*found, *_ALWAYS)


def _about_chain(rig: Rig, travel: Travel, ground: Ground) -> list[Caution]:
    found: list[Caution] = []
    if not _hangs(rig):
        return found
    clears = _clears(rig, travel, ground)
    if not _lifts(rig, travel, ground):
        found.append(_FLIMSY)
    elif clears and _rise_kg(rig, travel, ground) <= 0.01 * (rig.left.mass_kg + rig.right.mass_kg):
        found.append(_SAME)
    if clears:
        found.append(_SWING)
    if _hangs_clear(rig, travel, ground):
        found.append(_HANGS)
    if _feeder_slack_m(rig, travel, ground) > _MUCH_SLACK_M:
        found.append(_SLACK)
    return found


def _lifts(rig: Rig, travel: Travel, ground: Ground) -> bool:
    """Whether any link leaves the floor at the top."""
    return any(
        links_of(hang, chain, travel.top_m, ground).off > 0
        for hang in _hangs(rig)
        for chain in hang.chains
    )


def _rise_kg(rig: Rig, travel: Travel, ground: Ground) -> float:
    """How much more hangs at the top than at the bottom [kg], heaps left out."""
    low_kg, high_kg = rig.hung_curve(ground, "still").at((travel.bottom_m, travel.top_m))
    return float(high_kg - low_kg)


def _clears(rig: Rig, travel: Travel, ground: Ground) -> bool:
    """Whether some piece leaves the floor altogether at the top."""
    for hang in _hangs(rig):
        if any(links_of(hang, chain, travel.top_m, ground).down == 0 for chain in hang.chains):
            return True
    return False


def _hangs_clear(rig: Rig, travel: Travel, ground: Ground) -> bool:
    """Whether a fold is more than a hand's width above the floor at the bottom."""
    folds = [h.suspension.fold_m for h in _hangs(rig) if isinstance(h, Doubled)]
    folds += [h.drop_m for h in _hangs(rig) if isinstance(h, Draped) and h.drop_m > 0]
    return any(travel.bottom_m - ground.surface_m - fold_m > 0.10 for fold_m in folds)


def _feeder_slack_m(rig: Rig, travel: Travel, ground: Ground) -> float:
    """Most slack of a feeder at the bottom [m], its connector lying on the floor."""
    feeders = [h.suspension.feeder_m for h in _hangs(rig) if isinstance(h, Doubled)]
    return max((f - (travel.bottom_m - ground.surface_m) for f in feeders), default=0.0)


def thin_chain(pieces: Sequence[ChainPiece]) -> tuple[Caution, ...]:
    """Say which chain is too thin to matter: common practice, 5/8 in or heavier."""
    thin = dict.fromkeys(p.size for p in pieces if p.wire_diameter_m < _THIN_M)
    if not thin:
        return ()
    words = f"Too thin to matter much: {', '.join(thin)} chain. 5/8 in or heavier does the job."
    return (Caution("thin chain", words),)


def much_hung(
    rig: Rig, travel: Travel, ground: Ground, best_kg: float | None
) -> tuple[Caution, ...]:
    """Say when chain and bands change the bar more than studies did.

    Shares of the best in studies: mostly 10 to 35 %, 48 % at most (Shi et al. 2022, their table of
    protocols, read in part).

    Parameters
    ----------
    rig, travel, ground : Rig, Travel, Ground
        What hangs, over which heights, over what.
    best_kg : float or None
        The lifter's straight-weight best [kg].
    """
    if not best_kg:
        return ()
    low_kg, high_kg = rig.curve(ground).at((travel.bottom_m, travel.top_m))
    share = float(high_kg - low_kg) / best_kg
    if share <= _MOSTLY_USED:
        return ()
    here, mostly, most = (f"{100 * part:.0f} %" for part in (share, _MOSTLY_USED, _MOST_USED))
    words = (
        f"Much hung: from bottom to top it adds {here} of the best. Studies mostly went to "
        f"{mostly}, at most to {most}. Come to it in small steps."
    )
    return (Caution("much hung", words),)


def above_best(
    lift: Lift, rig: Rig, travel: Travel, ground: Ground, best_kg: float | None
) -> tuple[Caution, ...]:
    """Say when a rig is more than the best single where lifters are weakest.

    There the best single is all that the lifter can move. Where that is, is taken from the typical
    shape of the lift, so that no more need be known of the lifter.

    Parameters
    ----------
    lift : Lift
        Which lift.
    rig, travel, ground : Rig, Travel, Ground
        What is on the bar, over which heights, over what.
    best_kg : float or None
        The lifter's straight-weight best [kg].
    """
    if not best_kg:
        return ()
    part = typical_for(lift.name).shape.weakest
    weakest_m = travel.bottom_m + part * travel.travel_m
    share = float(rig.curve(ground).at(weakest_m)) / best_kg
    if share <= 1.0:
        return ()
    words = (
        f"Too heavy by the numbers: {100 * part:.0f} % of the way up, where a typical lifter is "
        f"weakest, {100 * share:.0f} % of the best single is on the bar. Take weight off, unless "
        "that best is out of date."
    )
    return (Caution("above best", words),)


def _hangs(rig: Rig) -> tuple[Hang, ...]:
    """What hangs on both ends, which need not be alike."""
    return (*rig.left.hangs, *rig.right.hangs)
