"""A plain search of everything, for checking the fast one.

It shares no code with the fast search beyond the domain's values: nested loops over every way to
hang, every piece left, right or on its hook, and every pile of plates. Loads are read off the
curves of real rigs. It is slow and meant to be seen through at a glance.
"""

from __future__ import annotations

import itertools
import math
from collections import Counter
from dataclasses import dataclass, replace
from functools import cache
from typing import TYPE_CHECKING

from tests.rigging.exhaustive_bands import OnTheBar, bands_on
from topheavy.mechanics.hang import Doubled, Draped, Straight, Suspension
from topheavy.mechanics.rig import End, Rig, strand_curve

if TYPE_CHECKING:
    from collections.abc import Iterator

    from topheavy.gym.stock import ChainPiece, Stock
    from topheavy.mechanics.banded import Banded
    from topheavy.mechanics.hang import Hang, Strand, Way
    from topheavy.rigging.limits import Limits, Style
    from topheavy.rigging.problem import Setup
    from topheavy.rigging.target import Target

TOUCH = 1e-9
Pieces = tuple["ChainPiece", ...]


@dataclass(frozen=True)
class Holder:
    """A way to hold chain on an end, and what one end may carry."""

    style: Style
    held: Suspension | None = None
    most_kg: float = math.inf

    def end(self, pieces: Pieces, bands: tuple[Banded, ...] = ()) -> End:
        if not pieces:
            return End(bands=bands)
        chains = tuple(piece.chain for piece in pieces)
        hangs: tuple[Hang, ...]
        if self.style == "straight":
            hangs = tuple(Straight(chain=chain) for chain in chains)
        elif self.held is None:
            hangs = (Draped(chains=chains),)
        else:
            hangs = (Doubled(chains=chains, suspension=self.held),)
        return End(hangs, bands)


@dataclass(frozen=True)
class EndReading:
    """What one end puts on the bar: at each aim, and at the top of the lift."""

    aims_kg: tuple[float, ...]
    top_kg: float
    keeps_rules: bool


@dataclass(frozen=True)
class Best:
    """The cheapest rig of all."""

    cost_kg: float
    rig: Rig
    rigs: int


def best_of_everything(setup: Setup, target: Target, limits: Limits) -> Best | None:
    """Try every rig; None when none keeps the limits."""
    found = [
        _best_beside(on, chain, setup, target, limits)
        for chain in _chain_alone(setup, target, limits)
        for on in bands_on(setup, limits)
    ]
    rigs = sum(one.rigs for one in found if one)
    best = min((one for one in found if one), key=lambda one: one.cost_kg, default=None)
    return None if best is None else replace(best, rigs=rigs)


@dataclass(frozen=True)
class Deals:
    """Every deal of chain under one holder, and what each end then puts on the bar."""

    holder: Holder
    deals: list[tuple[Pieces, Pieces]]
    ends: dict[Pieces, EndReading]


def _chain_alone(setup: Setup, target: Target, limits: Limits) -> Iterator[Deals]:
    """No chain, and all chain in every way."""
    nothing = read_end(End(), math.inf, setup, target)
    yield Deals(Holder("straight"), [((), ())], {(): nothing})
    deals = list(deals_of(setup.stock, limits))
    for holder in holders(setup.stock, limits):
        sides = {side for deal in deals for side in deal}
        ends = {side: read_end(holder.end(side), holder.most_kg, setup, target) for side in sides}
        yield Deals(holder, deals, ends)


def _best_beside(
    on: OnTheBar, chain: Deals, setup: Setup, target: Target, limits: Limits
) -> Best | None:
    """Try every rig with these bands on, under one holder; a bare bar is no rig."""
    best_kg, best, rigs = math.inf, None, 0
    here, there = (
        read_end(End(bands=bands), math.inf, setup, target) for bands in (on.left, on.right)
    )
    bands_kg = [a + b for a, b in zip(here.aims_kg, there.aims_kg, strict=True)]
    for left, right in chain.deals:
        if not (left or on.left):
            continue
        lefts, rights = chain.ends[left], chain.ends[right]
        if not (lefts.keeps_rules and rights.keeps_rules):
            continue
        lean_kg = abs(lefts.top_kg - rights.top_kg + here.top_kg - there.top_kg)
        if lean_kg > limits.most_imbalance_kg + TOUCH:
            continue
        fixed_kg = lean_kg + limits.band_price_kg * on.price
        if left:
            fixed_kg += price_kg(chain.holder, (*left, *right), setup, limits)
        for total_kg in _totals_kg(setup, limits, target, len(on.left) + bool(left)):
            rigs += 1
            hung = zip(lefts.aims_kg, rights.aims_kg, bands_kg, strict=True)
            loads_kg = [sum(loads) + setup.bar_kg + total_kg for loads in hung]
            cost_kg = fixed_kg + miss_kg(loads_kg, target)
            if cost_kg < best_kg:
                best_kg, best = cost_kg, (left, right, total_kg)
    if best is None:
        return None
    left, right, total_kg = best
    ends = chain.holder.end(left, on.left), chain.holder.end(right, on.right)
    return Best(best_kg, Rig(setup.bar_kg, total_kg, *ends), rigs)


def wanted(target: Target) -> tuple[float, ...]:
    """Load wanted at each aim [kg], the mean last."""
    return (*target.loads_kg, *(() if target.mean_kg is None else (target.mean_kg,)))


def miss_kg(loads_kg: list[float], target: Target) -> float:
    """Largest miss over the aims [kg]; where loads are limits, inf above any of them."""
    over_kg = [load - want for load, want in zip(loads_kg, wanted(target), strict=True)]
    if not target.under_per_kg:
        return max(map(abs, over_kg))
    if max(over_kg) > TOUCH:
        return math.inf
    return max(-over / count for over, count in zip(over_kg, target.under_per_kg, strict=True))


def holders(stock: Stock, limits: Limits) -> Iterator[Holder]:
    """Every way to hold chain alike on both ends, of parts that are rated and come in twos."""
    for style in limits.styles:
        if style != "doubled":
            yield Holder(style)
            continue
        for feeder, connector in itertools.product(stock.feeders, stock.connectors):
            if feeder.count < 2 or connector.count < 2:
                continue
            if feeder.rating_kg is None or connector.rating_kg is None:
                continue
            most_kg = min(
                connector.rating_kg / limits.design_factor,
                feeder.rating_kg / limits.design_factor - connector.mass_kg,
            )
            for setting in feeder.settings:
                held = Suspension(
                    feeder_m=setting.length_m,
                    feeder_density_kg_per_m=feeder.density_kg_per_m,
                    feeder_whole_m=max(feeder.whole_m, setting.length_m),
                    connector_m=connector.length_m,
                    connector_kg=connector.mass_kg,
                )
                yield Holder("doubled", held, most_kg)


def deals_of(stock: Stock, limits: Limits) -> Iterator[tuple[Pieces, Pieces]]:
    """Every way to deal fit pieces to left, right or neither, both ends alike kind by kind."""
    fit = [
        p for p in stock.chains if not p.retired and (not limits.sizes or p.size in limits.sizes)
    ]
    for places in itertools.product("-LR", repeat=len(fit)):
        each_end = places.count("L")
        if each_end != places.count("R") or not 0 < 2 * each_end <= limits.most_pieces:
            continue
        left = tuple(p for p, place in zip(fit, places, strict=True) if place == "L")
        right = tuple(p for p, place in zip(fit, places, strict=True) if place == "R")
        if Counter(_kind(p) for p in left) == Counter(_kind(p) for p in right):
            yield left, right


def _kind(piece: ChainPiece) -> tuple[str, int, float]:
    return piece.size, piece.chain.links, piece.chain.pitch_m


@cache
def _totals_kg(setup: Setup, limits: Limits, target: Target, loops: int) -> list[float]:
    return list(plate_totals_kg(setup, limits, target, loops))


def plate_totals_kg(
    setup: Setup, limits: Limits, target: Target, loops: int = 1
) -> Iterator[float]:
    """Every total that pairs of plates make within the sleeve [kg], beside so many loops."""
    collar_m = setup.collar.width_m if setup.collar else 0.0
    room_m = setup.bar.sleeve_m - collar_m - loops * limits.loop_width_m
    plates = setup.stock.plates
    for counts in itertools.product(*(range(plate.count // 2 + 1) for plate in plates)):
        pairs = list(zip(plates, counts, strict=True))
        if sum(plate.width_m * count for plate, count in pairs) > room_m + TOUCH:
            continue
        total_kg = 2 * sum(plate.mass_kg * count for plate, count in pairs)
        fixed_kg = target.straight_weight_kg
        if fixed_kg is None or abs(setup.bar_kg + total_kg - fixed_kg) < 5e-4:
            yield total_kg


def read_end(end: End, most_kg: float, setup: Setup, target: Target) -> EndReading:
    """Read the curve of an end, and whether it keeps the rules and holds its chain."""
    curve = end.curve(setup.ground, "raising")
    travel = setup.travel
    aims = [float(load) for load in curve.at(target.heights_m)]
    if target.mean_kg is not None:
        aims.append(curve.mean(travel.bottom_m, travel.top_m))
    chains = [chain for hang in end.hangs for chain in hang.chains]
    mass_kg = sum(chain.mass_kg for chain in chains)
    keeps = mass_kg <= most_kg + TOUCH and keeps_rules(end, setup, target)
    return EndReading(tuple(aims), float(curve.at(travel.top_m)), keeps)


def keeps_rules(end: End, setup: Setup, target: Target) -> bool:
    """Whether an end keeps the rules on deload and on links at lockout, strand by strand.

    The middle link of an odd piece, a strand by itself above the other two, has no say in what
    lies on the floor at lockout.
    """
    if not (target.full_deload or target.all_clear or target.links_down is not None):
        return True
    travel, ground = setup.travel, setup.ground
    for strand in end.strands():
        chain = strand.chain
        if chain is None:
            continue
        if target.full_deload and travel.bottom_m - ground.surface_m > strand.offset_m + TOUCH:
            return False
        if chain.links % 2 == 1 and strand.length_m == chain.pitch_m:
            continue
        if target.all_clear and _down_m(strand, setup, "raising") > TOUCH:
            return False
        lying = _down_m(strand, setup, "still") / chain.pitch_m
        if target.links_down is not None and lying < target.links_down - 1e-6:
            return False
    return True


def _down_m(strand: Strand, setup: Setup, way: Way) -> float:
    load_kg = float(strand_curve(strand, setup.ground, way).at(setup.travel.top_m))
    return strand.length_m - load_kg / strand.density_kg_per_m


def price_kg(holder: Holder, pieces: Pieces, setup: Setup, limits: Limits) -> float:
    """What the pieces, their kinds and a fold far from the floor cost [kg]."""
    price = limits.piece_price_kg * len(pieces)
    price += limits.kind_price_kg * len({_kind(piece) for piece in pieces})
    if holder.held is not None:
        above_m = setup.travel.bottom_m - setup.ground.surface_m - holder.held.fold_m
        price += limits.fold_price_kg_per_m * abs(above_m)
    return price


def miss_and_lean_kg(rig: Rig, setup: Setup, target: Target) -> tuple[float, float]:
    """Largest miss over the aims, and imbalance at the top, of a whole rig [kg]."""
    curve = rig.curve(setup.ground, "raising")
    loads = [float(load) for load in curve.at(target.heights_m)]
    travel = setup.travel
    if target.mean_kg is not None:
        loads.append(curve.mean(travel.bottom_m, travel.top_m))
    tops = [
        float(end.curve(setup.ground, "raising").at(travel.top_m)) for end in (rig.left, rig.right)
    ]
    return miss_kg(loads, target), abs(tops[0] - tops[1])
