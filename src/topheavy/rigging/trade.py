"""Other rigs worth knowing: fewer pieces, another feeder, other chain, each best of its sort."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Final

from topheavy.errors import NotInStockError
from topheavy.rigging.built import BuiltRig, build
from topheavy.rigging.problem import Setup, pose
from topheavy.rigging.search import find

if TYPE_CHECKING:
    from collections.abc import Iterator

    from topheavy.rigging.limits import Limits
    from topheavy.rigging.target import Target


_OTHER_SORT: Final = ("chain only", "with bands")


@dataclass(frozen=True, slots=True, kw_only=True)
class Alternative:
    """Another rig, and how it differs in kind from the best.

    Parameters
    ----------
    differs_by : str
        In a few words.
    built : BuiltRig
        The best rig of that sort, proven like the best of all.
    """

    differs_by: str
    built: BuiltRig


def best_rig(
    setup: Setup, target: Target, limits: Limits, worth_kg: float = math.inf
) -> BuiltRig | None:
    """Find and build the best rig; None when no rig keeps the limits or costs `worth_kg` [kg]."""
    problem = pose(setup, target, limits)
    choice = find(problem, worth_kg).best
    return build(problem, choice) if choice else None


def trade(setup: Setup, target: Target, limits: Limits) -> tuple[BuiltRig, ...]:
    """Trade accuracy against pieces handled.

    Parameters
    ----------
    setup, target, limits
        As for the search.

    Returns
    -------
    tuple of BuiltRig
        The most accurate rig for each number of pieces, fewest first, bands alone before all, left
        out where more pieces come no nearer.
    """
    front: list[BuiltRig] = []
    for pieces in range(0 if limits.most_bands else 2, limits.most_pieces + 1, 2):
        built = best_rig(setup, target, replace(limits, most_pieces=pieces))
        if built is None or built.pieces < pieces:
            continue
        if not front or built.miss_kg + built.imbalance_kg < _off(front[-1]) - 1e-6:
            front.append(built)
    return tuple(front)


def _off(built: BuiltRig) -> float:
    return built.miss_kg + built.imbalance_kg


def alternatives(
    setup: Setup, target: Target, limits: Limits, best: BuiltRig, most: int = 3
) -> tuple[Alternative, ...]:
    """Find the few best rigs that differ in kind from the best one.

    Parameters
    ----------
    setup, target, limits
        As for the search.
    best : BuiltRig
        What they are compared with.
    most : int
        How many at most.

    Returns
    -------
    tuple of Alternative
        By cost; none costs more than the best by `alternatives_within_kg`, and none is another
        in disguise.
    """
    found: list[Alternative] = []
    worth_kg = best.cost_kg + limits.alternatives_within_kg
    for differs_by, other_setup, other_limits in _restrictions(setup, limits, best):
        try:
            built = best_rig(other_setup, target, other_limits, worth_kg)
        except NotInStockError:
            continue
        if built:
            found.append(Alternative(differs_by=differs_by, built=built))
    found.sort(key=lambda other: other.built.cost_kg)
    # Chain or bands is the coach's choice: the best of the other sort is always shown.
    found.sort(key=lambda other: other.differs_by not in _OTHER_SORT)
    kept: list[Alternative] = []
    for other in found:
        if all(_parts(other.built) != _parts(rig) for rig in (best, *(k.built for k in kept))):
            kept.append(other)
    return tuple(sorted(kept[:most], key=lambda other: other.built.cost_kg))


def _parts(built: BuiltRig) -> tuple[object, ...]:
    held = built.fixture
    feeder = (held.feeder.name, held.setting.label) if held.feeder and held.setting else None
    tags = tuple(sorted(piece.tag for piece in (*built.left, *built.right)))
    bands = tuple(sorted((h.band.tag, h.peg.name, h.doubled) for h in built.bands))
    return held.style, feeder, tags, bands, built.loading.total_kg


def _restrictions(
    setup: Setup, limits: Limits, best: BuiltRig
) -> Iterator[tuple[str, Setup, Limits]]:
    """Searches that can't find the best again."""
    stock = setup.stock
    yield from _other_bands(setup, limits, best)
    for feeder in stock.feeders:
        if best.fixture.feeder and feeder.name != best.fixture.feeder.name:
            only = replace(setup, stock=replace(stock, feeders=(feeder,)))
            yield f"on the {feeder.name}", only, limits
    for size in dict.fromkeys(piece.size for piece in stock.fit_chains):
        if (size,) != best.sizes and (not limits.sizes or size in limits.sizes):
            yield f"{size} chain only", setup, replace(limits, sizes=(size,))
    for style in limits.styles:
        if style != best.fixture.style:
            yield f"{style}", setup, replace(limits, styles=(style,))
    if best.pieces > 2:
        yield "fewer pieces", setup, replace(limits, most_pieces=best.pieces - 2)


def _other_bands(
    setup: Setup, limits: Limits, best: BuiltRig
) -> Iterator[tuple[str, Setup, Limits]]:
    """Where bands are allowed: with them or without, with others, or without chain."""
    if not limits.most_bands:
        return
    if not best.bands:
        yield "with bands", setup, replace(limits, least_bands=1)
        return
    if not limits.least_bands and limits.most_pieces:
        yield "chain only", setup, replace(limits, most_bands=0)
    if best.pieces:
        yield "bands only", setup, replace(limits, most_pieces=0)
    if len(best.left_bands) > max(1, limits.least_bands):
        yield "fewer bands", setup, replace(limits, most_bands=len(best.left_bands) - 1)
    taken = {hung.band.tag for hung in best.bands}
    others = tuple(band for band in setup.stock.bands if band.tag not in taken)
    least = max(1, limits.least_bands)
    only = replace(setup, stock=replace(setup.stock, bands=others))
    yield "with other bands", only, replace(limits, least_bands=least)
