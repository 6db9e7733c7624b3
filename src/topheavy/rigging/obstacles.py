"""When nothing fits: which limit blocks, and the smallest addition that would do."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Final

from topheavy.errors import NotInStockError
from topheavy.gym.stock import ChainPiece
from topheavy.rigging.built import BuiltRig, build
from topheavy.rigging.limits import MOST_BANDS
from topheavy.rigging.offers import MOST_PAIRS, Offer, offers
from topheavy.rigging.problem import pose
from topheavy.rigging.reach import within_reach
from topheavy.rigging.search import find

if TYPE_CHECKING:
    from collections.abc import Iterator

    from topheavy.rigging.limits import Limits
    from topheavy.rigging.problem import Setup
    from topheavy.rigging.target import Target


_MANY_PIECES: Final = 2 * MOST_PAIRS


@dataclass(frozen=True, slots=True, kw_only=True)
class Blocker:
    """A limit or rule without which the target could be met.

    Parameters
    ----------
    limit : str
        Which one, in a few words.
    built : BuiltRig
        A rig that could be built without it.
    """

    limit: str
    built: BuiltRig


@dataclass(frozen=True, slots=True, kw_only=True)
class Addition:
    """Something to add to the stock that would do.

    Parameters
    ----------
    offer : Offer
        What, and how many.
    built : BuiltRig
        A rig that could then be built; with more chain it may take more pieces than the limit says.
    """

    offer: Offer
    built: BuiltRig


@dataclass(frozen=True, slots=True, kw_only=True)
class Obstacles:
    """Why the target is not met.

    Parameters
    ----------
    blockers : tuple of Blocker
        Each limit that, dropped by itself, would let the target be met.
    additions : tuple of Addition
        Single additions that would do, lightest first.
    """

    blockers: tuple[Blocker, ...]
    additions: tuple[Addition, ...]


def explain(setup: Setup, target: Target, limits: Limits, tolerance_kg: float) -> Obstacles:
    """Say which limit blocks, how near the stock comes, and what would do.

    Parameters
    ----------
    setup, target, limits
        As for the search.
    tolerance_kg : float
        Largest miss that counts as met [kg].
    """
    blockers = tuple(_blockers(setup, target, limits, tolerance_kg))
    room = replace(limits, most_pieces=max(limits.most_pieces, _MANY_PIECES))
    if any(blocker.limit == _pieces_limit(limits) for blocker in blockers):
        room = limits  # more chain is not what is missing
    additions = _additions(setup, target, (limits, room), tolerance_kg)
    return Obstacles(
        blockers=blockers,
        additions=tuple(sorted(additions, key=lambda addition: addition.offer.added_kg)),
    )


def _pieces_limit(limits: Limits) -> str:
    return f"at most {limits.most_pieces} pieces"


def _bands_limit(limits: Limits) -> str:
    return f"at most {limits.most_bands} bands on an end" if limits.most_bands else "chain only"


def _within(setup: Setup, target: Target, limits: Limits, tolerance_kg: float) -> BuiltRig | None:
    """Some rig whose miss and imbalance stay within tolerance [kg], whatever its pieces."""
    free = replace(
        limits,
        piece_price_kg=0.0,
        band_price_kg=0.0,
        kind_price_kg=0.0,
        fold_price_kg_per_m=0.0,
    )
    try:
        problem = pose(setup, target, free)
    except NotInStockError:
        return None
    near = within_reach(problem, tolerance_kg)
    choice = near and find(near, worth_kg=tolerance_kg, enough_kg=tolerance_kg).best
    return build(problem, choice) if choice else None


def _blockers(
    setup: Setup, target: Target, limits: Limits, tolerance_kg: float
) -> Iterator[Blocker]:
    named = set()
    for limit, other_setup, other_target, other_limits in _relaxed(setup, target, limits):
        if limit in named:
            continue
        built = _within(other_setup, other_target, other_limits, tolerance_kg)
        if built is not None:
            named.add(limit)
            yield Blocker(limit=limit, built=built)


def _relaxed(
    setup: Setup, target: Target, limits: Limits
) -> Iterator[tuple[str, Setup, Target, Limits]]:
    """The same question with one limit or rule dropped at a time; of pieces the fewest first."""
    most = min(len(setup.stock.fit_chains), max(2 * limits.most_pieces, _MANY_PIECES))
    for pieces in range(2 * (limits.most_pieces // 2 + 1), most + 1, 2):
        yield _pieces_limit(limits), setup, target, replace(limits, most_pieces=pieces)
    if setup.pegs and limits.most_bands < MOST_BANDS and len(setup.stock.fit_bands) >= 2:
        more = replace(limits, most_bands=MOST_BANDS)
        yield _bands_limit(limits), setup, target, more
    yield "design factor", setup, target, replace(limits, design_factor=1.0)
    yield "imbalance", setup, target, replace(limits, most_imbalance_kg=math.inf)
    if limits.sizes:
        yield "sizes", setup, target, replace(limits, sizes=())
    longer = replace(setup, bar=replace(setup.bar, sleeve_m=3 * setup.bar.sleeve_m))
    yield "sleeve room", longer, target, limits
    if target.full_deload:
        yield "full deload", setup, replace(target, full_deload=False), limits
    if target.links_down is not None:
        yield "links on the floor", setup, replace(target, links_down=None), limits
    if target.all_clear:
        yield "all clear", setup, replace(target, all_clear=False), limits
    if target.straight_weight_kg is not None:
        yield "straight weight", setup, replace(target, straight_weight_kg=None), limits


def _additions(
    setup: Setup, target: Target, limits: tuple[Limits, Limits], tolerance_kg: float
) -> Iterator[Addition]:
    """The smallest addition of each family that brings the target within reach.

    The second limits hold for more chain, which takes more pieces to handle.
    """

    def would_do(offer: Offer) -> Addition | None:
        room = limits[isinstance(offer.thing, ChainPiece)]
        built = _within(replace(setup, stock=offer.stock), target, room, tolerance_kg)
        return Addition(offer=offer, built=built) if built else None

    for family in offers(setup, limits[0]):
        # More chain can do whatever less can: if the most of it won't do, none will.
        if not family or (isinstance(family[0].thing, ChainPiece) and not would_do(family[-1])):
            continue
        found = next(filter(None, map(would_do, family)), None)
        if found is not None:
            yield found
