"""Setting a rig up, step by step, and how to see that it is right."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from topheavy.present.figure import length, plate_mark, says_length
from topheavy.present.rig.band_rows import hung_words, pair_words

if TYPE_CHECKING:
    from collections.abc import Iterable

    from topheavy.gym.stock import ChainPiece
    from topheavy.rigging.built import BuiltRig
    from topheavy.rigging.plates import Loading
    from topheavy.services.reading import PieceCount
    from topheavy.services.rig import RigAnswer
    from topheavy.units import UnitSystem

_MEETS_M = 0.01
"""Closer than this [m], a connector is said to meet the floor."""


@dataclass(frozen=True, slots=True, kw_only=True)
class EndsText:
    """What hangs on each end, in a few words."""

    left: str
    right: str
    feeder: str
    connector: str


def ends_text(best: BuiltRig) -> EndsText:
    """Name the pieces and bands of each end, the feeder with its setting, and the connector."""
    held = best.fixture
    left, right = (
        "; ".join(filter(None, (pieces_text(pieces), *hung_words(bands))))
        for pieces, bands in ((best.left, best.left_bands), (best.right, best.right_bands))
    )
    feeder = (
        f"{held.feeder.name}, {setting_text(held.setting.label)}"
        if held.feeder and held.setting
        else ""
    )
    return EndsText(
        left=left,
        right=right,
        feeder=feeder,
        connector=held.connector.name if held.connector else "",
    )


def setting_text(label: str) -> str:
    """Name a feeder's setting; a bare number or letter is the name of a ring.

    >>> setting_text("7"), setting_text("link 21"), setting_text("66.5 cm")
    ('ring 7', 'link 21', '66.5 cm')
    """
    return f"ring {label}" if label.isalnum() and len(label) <= 2 else label


def pieces_text(pieces: tuple[ChainPiece, ...]) -> str:
    """Name pieces by tag, grouped by kind.

    Such as ``A1 + A2 (5/8 in, 32 links)``.
    """
    return ", ".join(
        f"{' + '.join(tags)} ({size}, {links} links)" for (size, links), tags in _alike(pieces)
    )


def both_ends_text(best: BuiltRig) -> str:
    """Name the pieces of both ends in a line, grouped by kind, and the bands.

    Such as ``A1 + A2 left, A3 + A4 right (5/8 in, 32 links)``.
    """
    left, right = dict(_alike(best.left)), dict(_alike(best.right))
    lines = []
    for kind in {**left, **right}:
        ends = ((left.get(kind), "left"), (right.get(kind), "right"))
        said = ", ".join(f"{' + '.join(tags)} {end}" for tags, end in ends if tags)
        lines.append(f"{said} ({kind[0]}, {kind[1]} links)")
    pairs = zip(best.left_bands, best.right_bands, strict=True)
    return "; ".join([*lines, *(pair_words(*pair) for pair in pairs)])


def _alike(pieces: tuple[ChainPiece, ...]) -> Iterable[tuple[tuple[str, int], list[str]]]:
    """Tags by size and links, in the order they first come."""
    groups: dict[tuple[str, int], list[str]] = {}
    for piece in pieces:
        groups.setdefault((piece.size, piece.chain.links), []).append(piece.tag)
    return groups.items()


def plates_text(best: BuiltRig) -> str:
    """Plates of one side of a rig, as `loading_text`."""
    return loading_text(best.loading)


def loading_text(loading: Loading) -> str:
    """Plates of one side, heaviest first, as marked on them.

    Such as ``25 + 25 + 2.5 kg``; plates marked in kg and in lb keep a unit each.
    """
    marks = [plate_mark(p.mass_kg) for p, count in loading.per_side for _ in range(count)]
    units = {mark.split(" ")[1] for mark in marks}
    if len(units) != 1:
        return " + ".join(marks) or "no plates"
    return f"{' + '.join(mark.split(' ')[0] for mark in marks)} {units.pop()}"


def steps(answer: RigAnswer, units: UnitSystem) -> tuple[str, ...]:
    """Say how to set the rig up, in the order of doing it."""
    best = answer.best
    surface_m = answer.question.place.station.surface_m
    lines = [
        f"Each side, the heaviest inside: {plates_text(best)}."
        if best.loading.per_side
        else "No plates."
    ]
    if best.pieces and surface_m > 0:
        lines.append(f"A mat or block of {units.length(surface_m)} under the chain, both sides.")
    if best.pieces and surface_m < 0:
        lines.append(f"Stand {units.length(-surface_m)} higher than the chain lies.")
    lines += _hanging(best, units) if best.pieces else []
    lines += _bands_over(best)
    lines.append("Collars on outside the loops, both ends alike: they keep plates and loops on.")
    if best.pieces:
        lines.append(
            "Pile the slack straight under the bar. Never drag it out to the side."
            if answer.question.place.lay == "piled"
            else "Lay the slack out straight to the side, both ends alike: these loads count on it."
        )
    lines += _bands_taut(best)
    return tuple(lines)


def _bands_over(best: BuiltRig) -> list[str]:
    """Loops go inside of the collars; so bands go over the sleeve before those, still loose."""
    if not best.bands:
        return []
    left, right = (
        " + ".join(hung.band.tag for hung in bands) for bands in (best.left_bands, best.right_bands)
    )
    return [f"Bands over the sleeves, still loose: {left} left, {right} right."]


def _bands_taut(best: BuiltRig) -> list[str]:
    """Bands are stretched last of all, with everything else in its place."""
    if not best.bands:
        return []
    pairs = zip(best.left_bands, best.right_bands, strict=True)
    which = "; ".join(pair_words(left, right) for left, right in pairs)
    line = (
        f"Last, with the bar on its hooks: {which}. Both ends at the same time; pull each by hand: "
        "it must not slip."
    )
    return [line]


def _hanging(best: BuiltRig, units: UnitSystem) -> list[str]:
    held = best.fixture
    lay_out = f"Left end: {pieces_text(best.left)}. Right end: {pieces_text(best.right)}."
    if held.feeder is None or held.setting is None or held.connector is None:
        how = "Lay each piece across its end of the bar, both tails even."
        if held.style == "straight":
            how = "Hang each piece from its end of the bar by its last link, straight down."
        return [lay_out, how]
    long, setting = length(units, held.setting.length_m), setting_text(held.setting.label)
    at = f"at {setting}" if says_length(setting, long) else f"at {setting}: {long}"
    clip = f"Clip an end's folds into its {held.connector.name}, gate closed and locked"
    return [
        lay_out,
        f"A {held.feeder.name} on each sleeve, {at} from the middle of the bar down.",
        f"Fold each piece in half. On the connector: {_fold((*best.left, *best.right))}.",
        f"{clip}, and that into the feeder.",
    ]


def _fold(pieces: tuple[ChainPiece, ...]) -> str:
    """Which links go on the connector, for each length of chain."""
    lengths = dict.fromkeys(piece.chain.links for piece in pieces)
    return ", ".join(_middle(links) for links in lengths)


def _middle(links: int) -> str:
    if links == 1:
        return "the one link of 1"
    if links % 2:
        return f"link {links // 2 + 1} of {links}"
    return f"links {links // 2} and {links // 2 + 1} of {links}"


def signs(answer: RigAnswer, units: UnitSystem) -> tuple[str, ...]:
    """Say what to see when the rig is right."""
    reading, place = answer.reading, answer.question.place
    under = "mat" if place.station.surface_m > 0 else "floor"
    pieces = tuple(zip(answer.best.left, reading.left, strict=True))
    lines = []
    if pieces:
        bottom = _bottom(answer, pieces, units, under)
        lines.append(f"At the bottom ({place.lift.bottom_at}): {bottom}.")
        lines.append(f"Locked out: {_lockout(pieces, under)}.")
    lines += _stretched(answer, units)
    same = "same count of links off, " if pieces else ""
    lines.append(f"Both ends alike: {same}bar level.")
    return tuple(lines)


def _stretched(answer: RigAnswer, units: UnitSystem) -> list[str]:
    """How long the bands are at bottom and top, those of one length together."""
    tags: dict[str, list[str]] = {}
    for one in answer.bands.each:
        bottom, top = (length(units, pull.length_m) for pull in (one.bottom, one.top))
        back = " and back" if one.hung.doubled else ""
        said = f"{bottom} from peg to middle of the bar{back} at the bottom, {top} locked out"
        tags.setdefault(said, []).append(one.hung.band.tag)
    return [
        f"Band{'s' if len(some) > 1 else ''} {', '.join(some)}: {said}."
        for said, some in tags.items()
    ]


_Counted = tuple[tuple["ChainPiece", "PieceCount"], ...]


def _bottom(answer: RigAnswer, pieces: _Counted, units: UnitSystem, under: str) -> str:
    said = []
    held = answer.best.fixture
    if answer.reading.fold_gap_m and held.connector:
        gap_m = answer.reading.fold_gap_m[0]
        said.append(_connector_sign(gap_m, held.connector.length_m, units, under))
    if any(count.bottom.off for _, count in pieces):
        said += dict.fromkeys(
            f"{count.bottom.off} of {count.links} links of {piece.size} chain off the {under}"
            for piece, count in pieces
        )
    else:
        said.append(f"all chain on the {under}")
    return ", ".join(said)


def _connector_sign(gap_m: float, connector_m: float, units: UnitSystem, under: str) -> str:
    """Where the connector is; `gap_m` [m] from the floor up to the fold that it holds."""
    slack_m = -gap_m - connector_m
    if gap_m > _MEETS_M:
        return f"the fold hangs {units.length(gap_m)} above the {under}"
    if slack_m > _MEETS_M:
        return f"the connector lies on the {under}, the feeder {units.length(slack_m)} slack"
    if gap_m >= -_MEETS_M:
        return f"the connector just meets the {under}"
    return f"the connector rests on the {under}"


def _lockout(pieces: _Counted, under: str) -> str:
    return "; ".join(
        dict.fromkeys(
            f"{count.top.off} of {count.links} links of {piece.size} chain off the {under}, "
            + (f"{count.top.down} still down" if count.top.down else "none left on it")
            for piece, count in pieces
        )
    )
