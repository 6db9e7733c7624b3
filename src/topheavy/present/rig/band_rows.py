"""Bands in words and rows: which on which peg, what each pulls, how alike the ends are."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from topheavy.present.figure import Figure, force, length, mass
from topheavy.services.bands import REST_STEP_M
from topheavy.services.described import MOST_IMBALANCE_KG

if TYPE_CHECKING:
    from collections.abc import Sequence

    from topheavy.rigging.hung_band import HungBand
    from topheavy.services.bands import BandReading, BandsReading, PairReading
    from topheavy.units import UnitSystem


@dataclass(frozen=True, slots=True, kw_only=True)
class BandRow:
    """One band over the lift: what it pulls, how long it is, how long it was ever read.

    `way` is ``single`` or ``doubled``; a pull below zero is upwards. `longer_rest` is the change
    of the pull at the top if the band were a centimetre longer at rest.
    """

    tag: str
    side: str
    peg: str
    way: str
    bottom: Figure
    top: Figure
    length_bottom: Figure
    length_top: Figure
    longest: Figure
    longer_rest: Figure
    side_pull: Figure


def band_rows(read: BandsReading, units: UnitSystem) -> tuple[BandRow, ...]:
    """Show every band of a rig, a row for each."""
    return tuple(_row(one, units) for one in read.each)


def _row(one: BandReading, units: UnitSystem) -> BandRow:
    bottom, top = one.bottom, one.top
    return BandRow(
        tag=one.hung.band.tag,
        side=one.side,
        peg=one.hung.peg.name,
        way=one.hung.way,
        bottom=mass(units, bottom.load_kg, bottom.u_kg),
        top=mass(units, top.load_kg, top.u_kg),
        length_bottom=length(units, bottom.length_m),
        length_top=length(units, top.length_m),
        longest=length(units, one.longest_m),
        longer_rest=mass(units, top.longer_rest_kg),
        side_pull=force(units, one.side_pull_n),
    )


def hung_words(hungs: Sequence[HungBand]) -> tuple[str, ...]:
    """Say which bands are on one end, a line for each peg and way.

    Such as ``bands red-1 + red-2 on peg low, doubled``.
    """
    groups: dict[tuple[str, bool], list[str]] = {}
    for hung in hungs:
        groups.setdefault((hung.peg.name, hung.doubled), []).append(hung.band.tag)
    return tuple(
        f"band{'s' if len(tags) > 1 else ''} {' + '.join(tags)} on peg {peg}"
        + (", doubled" if doubled else "")
        for (peg, doubled), tags in groups.items()
    )


def pair_words(left: HungBand, right: HungBand) -> str:
    """Say which band goes left and right, on which peg.

    Such as ``bands red-1 left, red-3 right, on peg low``.
    """
    way = "doubled " if left.doubled else ""
    return f"bands {left.band.tag} left, {right.band.tag} right, {way}on peg {left.peg.name}"


def band_notes(read: BandsReading, units: UnitSystem) -> tuple[str, ...]:
    """Say how alike the bands of both ends are, and what a centimetre of rest length does."""
    said = [_pair(pair, units) for pair in read.pairs]
    if any(one.top.longer_rest_kg for one in read.each):
        most = min(read.each, key=lambda one: one.top.longer_rest_kg)
        less = units.mass(abs(most.top.longer_rest_kg))
        said.append(
            f"{units.length(REST_STEP_M)} more or less at rest is {less} less or more at the top "
            f"({most.hung.band.tag}): a band that looks alike is not, so go by the tag."
        )
    return tuple(said)


def _pair(pair: PairReading, units: UnitSystem) -> str:
    both, off = f"{pair.left.band.tag} and {pair.right.band.tag}", units.mass(pair.worst_kg)
    if pair.worst_kg <= MOST_IMBALANCE_KG:
        return f"{both} pull alike within {off} over the lift."
    return f"{both} differ by up to {off} over the lift: the bar will tip. Pair like bands."
