"""Every way to hang bands, plainly: for checking the search that puts bands beside chain."""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from topheavy.mechanics.banded import Banded
from topheavy.mechanics.curve import LoadCurve

if TYPE_CHECKING:
    from collections.abc import Iterator

    from topheavy.gym.people import StationPeg
    from topheavy.rigging.limits import Limits
    from topheavy.rigging.problem import Setup

TOUCH = 1e-9
Pair = tuple[Banded, Banded]


@dataclass(frozen=True)
class OnTheBar:
    """Bands on both ends."""

    left: tuple[Banded, ...] = ()
    right: tuple[Banded, ...] = ()

    @property
    def price(self) -> int:
        """Bands in all."""
        return len(self.left) + len(self.right)


def bands_on(setup: Setup, limits: Limits) -> Iterator[OnTheBar]:
    """No band, and every choice of pairs for pegs, single or doubled, either way round."""
    pairs = [pair for way in _ways(setup) for pair in paired(_usable(setup, *way), limits)]
    for count in range(limits.most_bands + 1):
        if count < limits.least_bands:
            continue
        for chosen in itertools.combinations(pairs, count):
            tags = [band.band.tag for pair in chosen for band in pair]
            if len(set(tags)) < len(tags):
                continue
            for turns in itertools.product((False, True), repeat=count):
                ends = [
                    pair[::-1] if turn else pair for pair, turn in zip(chosen, turns, strict=True)
                ]
                on = OnTheBar(tuple(a for a, _ in ends), tuple(b for _, b in ends))
                if not count or gap_kg(on.left, on.right, setup) <= most_kg(limits):
                    yield on


def most_kg(limits: Limits) -> float:
    return limits.most_imbalance_kg + TOUCH


def gap_kg(left: tuple[Banded, ...], right: tuple[Banded, ...], setup: Setup) -> float:
    """Largest difference over the lift [kg]."""
    here, there = (LoadCurve.total([b.curve() for b in bands]) for bands in (left, right))
    return here.worst_gap(there, setup.travel.bottom_m, setup.travel.top_m)


def _ways(setup: Setup) -> list[tuple[StationPeg, bool]]:
    return [(peg, doubled) for peg in setup.pegs for doubled in (False, True)]


def _usable(setup: Setup, peg: StationPeg, doubled: bool) -> list[Banded]:
    """Fit bands that the lift keeps taut, and stretches no further than they were read."""
    strands = 2 if doubled else 1
    found = []
    for band in setup.stock.bands:
        ends_m = (setup.travel.bottom_m, setup.travel.top_m)
        lengths_m = [
            strands * math.hypot(height_m - peg.peg.height_m, peg.peg.offset_m)
            for height_m in ends_m
        ]
        fit = band.fit()
        if band.retired or max(lengths_m) > fit.law.longest_m + TOUCH:
            continue
        if min(lengths_m) < fit.law.rest_m - TOUCH:
            continue
        second = peg.peg if doubled else None
        found.append(Banded(band=fit, peg=peg.peg, travel_m=ends_m, second=second))
    return found


def paired(bands: list[Banded], limits: Limits) -> list[Pair]:
    """Match bands that pull alike within the limit: as many as may, then as alike as can be."""
    ends_m = bands[0].travel_m if bands else (0.0, 1.0)
    gaps = {
        (a, b): bands[a].curve().worst_gap(bands[b].curve(), *ends_m)
        for a, b in itertools.combinations(range(len(bands)), 2)
    }
    near = {edge: gap for edge, gap in gaps.items() if gap <= most_kg(limits)}
    found: list[Pair] = []
    for group in _joined(len(bands), list(near)):
        edges = [edge for edge in near if edge[0] in group]
        matchings = [
            some
            for count in range(len(group) // 2 + 1)
            for some in itertools.combinations(edges, count)
            if len({place for edge in some for place in edge}) == 2 * count
        ]
        best = min(
            matchings,
            key=lambda some: (
                -len(some),
                round(max((near[e] for e in some), default=0), 9),
                sum(near[e] for e in some),
            ),
        )
        found += [(bands[a], bands[b]) for a, b in best]
    return found


def _joined(count: int, edges: list[tuple[int, int]]) -> list[set[int]]:
    groups = [{place} for place in range(count)]
    for a, b in edges:
        touched = [group for group in groups if a in group or b in group]
        groups = [group for group in groups if group not in touched]
        groups.append(set().union(*touched))
    return groups
