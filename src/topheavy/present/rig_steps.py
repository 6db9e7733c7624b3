"""Setting a rig up, step by step, and how to see that it is right."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from topheavy.present.figure import plate_mark

if TYPE_CHECKING:
    from topheavy.gym.stock import ChainPiece
    from topheavy.rigging.built import BuiltRig
    from topheavy.services.reading import PieceCount
    from topheavy.services.rig import RigAnswer
    from topheavy.units import UnitSystem


@dataclass(frozen=True, slots=True, kw_only=True)
class EndsText:
    """What hangs on each end, in a few words."""

    left: str
    right: str
    feeder: str
    connector: str


def ends_text(best: BuiltRig) -> EndsText:
    """Name the pieces of each end, the feeder with its setting, and the connector."""
    held = best.fixture
    feeder = (
        f"{held.feeder.name}, {_setting(held.setting.label)}"
        if held.feeder and held.setting
        else ""
    )
    return EndsText(
        left=pieces_text(best.left),
        right=pieces_text(best.right),
        feeder=feeder,
        connector=held.connector.name if held.connector else "",
    )


def _setting(label: str) -> str:
    """A bare number or letter is the name of a ring."""
    return f"ring {label}" if label.isalnum() and len(label) <= 2 else label


def pieces_text(pieces: tuple[ChainPiece, ...]) -> str:
    """Name pieces by tag, grouped by kind.

    Such as ``A1 + A2 (5/8 in, 32 links)``.
    """
    groups: dict[tuple[str, int], list[str]] = {}
    for piece in pieces:
        groups.setdefault((piece.size, piece.chain.links), []).append(piece.tag)
    return ", ".join(
        f"{' + '.join(tags)} ({size}, {links} links)" for (size, links), tags in groups.items()
    )


def steps(answer: RigAnswer, units: UnitSystem) -> tuple[str, ...]:
    """Say how to set the rig up, in the order of doing it."""
    best = answer.best
    plates = [f"{plate_mark(p.mass_kg)} x {count}" for p, count in best.loading.per_side]
    station = answer.question.place.station
    first = f"Load each side, heaviest first: {', '.join(plates)}." if plates else "No plates."
    lines = [first]
    if station.surface_m > 0:
        lines.append(
            f"Mat or block of {units.length(station.surface_m)} under the chain, both sides."
        )
    lines += _hanging(best, units)
    lines.append("Collars on, outside the loops, both ends alike.")
    lines.append("Pile the slack straight under the bar. Never drag it out to the side.")
    return tuple(lines)


def _hanging(best: BuiltRig, units: UnitSystem) -> list[str]:
    held = best.fixture
    lay_out = f"Left end: {pieces_text(best.left)}. Right end: {pieces_text(best.right)}."
    if held.feeder is None or held.setting is None or held.connector is None:
        how = "Lay each piece across its end of the bar, both tails even."
        if held.style == "straight":
            how = "Hang each piece from its first link, straight down."
        return [lay_out, how]
    set_to = f"{held.feeder.name} at {_setting(held.setting.label)}"
    from_bar = f"{units.length(held.setting.length_m)} from the middle of the bar"
    clip = f"Clip the fold into the {held.connector.name}, gate closed and locked"
    return [
        lay_out,
        f"Feeders on the sleeves: {set_to} ({from_bar}).",
        f"Fold each piece in half: {_fold(best.left)}. {clip}, and that to the feeder.",
    ]


def _fold(pieces: tuple[ChainPiece, ...]) -> str:
    """Which link goes on the connector, for each length of chain."""
    lengths = dict.fromkeys(piece.chain.links for piece in pieces)
    return "; ".join(
        f"of {links} links, number {links // 2 + 1}, counted from either end"
        if links % 2
        else f"of {links} links, numbers {links // 2} and {links // 2 + 1} together"
        for links in lengths
    )


def signs(answer: RigAnswer, units: UnitSystem) -> tuple[str, ...]:
    """Say what to see when the rig is right."""
    reading, lift = answer.reading, answer.question.place.lift
    lines = []
    if reading.fold_gap_m:
        lines.append(
            f"At the bottom ({lift.bottom_at}): {_fold_sign(reading.fold_gap_m[0], units)}."
        )
    lines.append(f"Locked out: {_lockout(answer.best.left, reading.left)}.")
    lines.append("Both ends alike: same count of links off the floor, bar level.")
    return tuple(lines)


def _fold_sign(gap_m: float, units: UnitSystem) -> str:
    if abs(gap_m) <= 0.01:
        return "the connector just meets the floor"
    if gap_m > 0:
        return f"the fold hangs {units.length(gap_m)} above the floor"
    return f"the connector lies on the floor, and the feeder has {units.length(-gap_m)} of slack"


def _lockout(pieces: tuple[ChainPiece, ...], counts: tuple[PieceCount, ...]) -> str:
    said: dict[str, None] = {}
    for piece, count in zip(pieces, counts, strict=True):
        left = f"{count.top.down} still down" if count.top.down else "all clear of the floor"
        key = f"{count.top.off} of {count.links} links of {piece.size} chain off the floor, {left}"
        said.setdefault(key, None)
    return "; ".join(said)
