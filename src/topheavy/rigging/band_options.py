"""Every way the gym's bands may be hung beside chain: matched pairs, on pegs, single or doubled."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from functools import lru_cache
from itertools import combinations, product
from typing import TYPE_CHECKING, Final

import numpy as np

from topheavy.errors import BadInputError
from topheavy.mechanics.band_pairs import MOST_BANDS, match_pairs
from topheavy.mechanics.curve import LoadCurve
from topheavy.phrase import Amount, Phrase, literal
from topheavy.rigging.hung_band import HungBand
from topheavy.rigging.lifts import Aims

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from numpy.typing import NDArray

    from topheavy.gym.people import Travel
    from topheavy.mechanics.ground import Ground
    from topheavy.rigging.hung_band import Span
    from topheavy.rigging.limits import Limits
    from topheavy.rigging.problem import Setup

    Floats = NDArray[np.float64]
    ReadAt = tuple[tuple[float, ...], bool, Travel, Ground]

_HAIR_KG: Final = 1e-9
_HAIR_M: Final = 1e-9

Pair = tuple[HungBand, HungBand]
"""Bands of the left and of the right end, hung alike."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class BandOption:
    """Bands that go on together.

    Parameters
    ----------
    pairs : tuple of (HungBand, HungBand)
        One or more pairs: left band, right band.
    load_kg : array, shape (j,)
        What all of them add at each aim [kg].
    lean_kg : float
        Left less right at the top of the lift [kg].
    price_kg : float
        Price of the bands [kg].
    """

    pairs: tuple[Pair, ...]
    load_kg: Floats
    lean_kg: float
    price_kg: float

    @property
    def each_end(self) -> int:
        """Bands on each end."""
        return len(self.pairs)

    @property
    def left(self) -> tuple[HungBand, ...]:
        """Bands on the left end."""
        return tuple(left for left, _ in self.pairs)

    @property
    def right(self) -> tuple[HungBand, ...]:
        """Bands on the right end, in the order of their partners."""
        return tuple(right for _, right in self.pairs)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class BandOptions:
    """What may be hung, and what was refused.

    Parameters
    ----------
    options : tuple of BandOption
        Fewest bands first.
    refused : tuple of Phrase
        Ways to hang bands that were left out, and why.
    """

    options: tuple[BandOption, ...] = ()
    refused: tuple[Phrase, ...] = ()


def band_options(setup: Setup, aims: Aims, limits: Limits) -> BandOptions:
    """List the ways to hang bands, up to `most_bands` on each end.

    Bands are paired once for each peg and way, among those that pull alike as many as may and as
    alike as can be; a pair goes on together or not at all, for a gym keeps its pairs. Left out:
    retired bands, bands that the lift would stretch beyond their longest reading, bands slack
    anywhere in the lift, which may slip off their pegs, pairs that differ by more than the
    imbalance limit anywhere in the lift, and bands without a partner.

    Parameters
    ----------
    setup : Setup
        Bands of the stock, pegs of the station.
    aims : Aims
        Where the load is read.
    limits : Limits
        How many bands, their price, and how far the ends may differ.
    """
    if not limits.most_bands:
        return BandOptions()
    refused: list[Phrase] = []
    pairs: list[Pair] = []
    span_m = (setup.travel.bottom_m, setup.travel.top_m)
    for peg, doubled in product(setup.pegs, (False, True)):
        hungs = tuple(
            HungBand(band=band, peg=peg, doubled=doubled) for band in setup.stock.fit_bands
        )
        found, why = _pairs(hungs, span_m, limits.most_imbalance_kg)
        pairs += found
        refused += why
    if not setup.pegs:
        refused.append(Phrase("Bands: this station has no band pegs."))
    read_at = aims.heights_m, aims.has_mean, aims.travel, aims.ground
    free = _options(tuple(pairs), read_at, limits.most_bands, limits.most_imbalance_kg)
    options = (
        replace(option, price_kg=2 * limits.band_price_kg * option.each_end) for option in free
    )
    return BandOptions(options=tuple(options), refused=tuple(dict.fromkeys(refused)))


@lru_cache(maxsize=64)
def _pairs(
    hungs: tuple[HungBand, ...], span_m: Span, most_imbalance_kg: float
) -> tuple[tuple[Pair, ...], tuple[Phrase, ...]]:
    """Pair bands that would all hang alike, and say why others are left out."""
    usable: list[HungBand] = []
    why: dict[Phrase, list[HungBand]] = {}
    for hung in hungs:
        reason = unusable(hung, span_m)
        if reason is None:
            usable.append(hung)
        else:
            why.setdefault(reason, []).append(hung)
    pairs = _matched(usable, span_m, most_imbalance_kg)
    used = {hung.band.tag for pair in pairs for hung in pair}
    alone = [hung for hung in usable if hung.band.tag not in used]
    if alone:
        why[_no_partner(most_imbalance_kg)] = alone
    return tuple(pairs), tuple(_about(some, reason) for reason, some in why.items())


def _no_partner(most_imbalance_kg: float) -> Phrase:
    if math.isinf(most_imbalance_kg):
        return Phrase("no partner left.")
    limit = (Amount(most_imbalance_kg, "mass"),)
    return Phrase("no partner left that pulls alike within {} over the lift.", limit)


def unusable(hung: HungBand, span_m: Span) -> Phrase | None:
    """Say why a band can't be used so between two heights [m]; None when it can."""
    try:
        banded = replace(hung, beyond=True).over(span_m)
    except BadInputError:
        return Phrase("the bar would run into the peg while it pulls.")
    longest_m, law = float(np.max(banded.length_m(span_m))), banded.band.law
    if longest_m > law.longest_m + _HAIR_M:
        amounts = tuple(Amount(length_m, "length") for length_m in (longest_m, law.longest_m))
        return Phrase("stretched to {} in this lift, and read to {} only.", amounts)
    shortest_m = float(np.min(banded.length_m(span_m)))
    if shortest_m < law.rest_m - _HAIR_M:
        slack = (Amount(law.rest_m - shortest_m, "length"),)
        return Phrase("slack by {} in this lift, so it may slip off its peg.", slack)
    return None


def _about(hungs: Sequence[HungBand], why: Phrase) -> Phrase:
    tags = ", ".join(hung.band.tag for hung in hungs)
    where = f"Band{'s' if len(hungs) > 1 else ''} {tags} {hungs[0].way} on peg {hungs[0].peg.name}"
    return Phrase(f"{literal(where)}: {why.text}", why.amounts)


def _matched(hungs: Sequence[HungBand], span_m: Span, most_imbalance_kg: float) -> list[Pair]:
    """Pair bands hung alike: as many pairs as pull alike within the limit, the nearest first."""
    pairs: list[Pair] = []
    for group in _groups(hungs, span_m, most_imbalance_kg):
        by_tag = {hung.band.tag: hung for hung in group}
        banded = [hung.over(span_m) for hung in group]
        for count in range(len(group) // 2, 0, -1):
            found = match_pairs(banded, count)
            if found[-1].worst_kg <= most_imbalance_kg + _HAIR_KG:
                pairs += [(by_tag[p.left.band.tag], by_tag[p.right.band.tag]) for p in found]
                break
    return pairs


def _groups(hungs: Sequence[HungBand], span_m: Span, most_kg: float) -> Iterator[list[HungBand]]:
    """Split into groups that pull alike: within the limit of some other of the group.

    A group of more than `MOST_BANDS` is cut, in order of the pull at the top.
    """
    curves = {hung.band.tag: hung.over(span_m).curve() for hung in hungs}
    left = sorted(hungs, key=lambda hung: float(curves[hung.band.tag].at(span_m[1])))
    while left:
        group, found = [], [left.pop(0)]
        while found:
            one = found.pop()
            group.append(one)
            near = [
                other
                for other in left
                if curves[one.band.tag].worst_gap(curves[other.band.tag], *span_m)
                <= most_kg + _HAIR_KG
            ]
            found += near
            left = [other for other in left if other not in near]
        for start in range(0, len(group), MOST_BANDS):
            yield group[start : start + MOST_BANDS]


@lru_cache(maxsize=16)
def _options(
    pairs: tuple[Pair, ...], read_at: ReadAt, most_bands: int, most_imbalance_kg: float
) -> tuple[BandOption, ...]:
    """List the choices of pairs, without a price, fewest first."""
    aims = Aims(heights_m=read_at[0], has_mean=read_at[1], travel=read_at[2], ground=read_at[3])
    return tuple(
        option
        for count in range(1, most_bands + 1)
        for chosen in combinations(pairs, count)
        for option in _together(chosen, aims, most_imbalance_kg)
    )


def _together(
    chosen: tuple[Pair, ...], aims: Aims, most_imbalance_kg: float
) -> Iterator[BandOption]:
    """Put some pairs on together, each after the first either way round, where the ends agree.

    All of them turned round is the mirror image of a rig that is looked at anyway.
    """
    tags = [hung.band.tag for pair in chosen for hung in pair]
    if len(set(tags)) < len(tags):
        return
    first, *others = chosen
    turned = [[pair, (pair[1], pair[0])] for pair in others]
    bottom_m, top_m = aims.travel.bottom_m, aims.travel.top_m
    for rest in product(*turned):
        pairs = (first, *rest)
        left, right = (
            LoadCurve.total([pair[end].over((bottom_m, top_m)).curve() for pair in pairs])
            for end in (0, 1)
        )
        if left.worst_gap(right, bottom_m, top_m) > most_imbalance_kg + _HAIR_KG:
            continue
        load_kg = aims.read(left + right, np.zeros(1))[0, :-1]
        load_kg.setflags(write=False)
        yield BandOption(
            pairs=pairs,
            load_kg=load_kg,
            lean_kg=float(left.at(top_m) - right.at(top_m)),
            price_kg=0.0,
        )
