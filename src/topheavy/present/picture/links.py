"""Where each link of a hanging strand is: its two bearing points, its wire and how it is seen."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Final

from topheavy.mechanics.hang import Doubled

if TYPE_CHECKING:
    from topheavy.mechanics.chain import Chain
    from topheavy.mechanics.hang import Hang
    from topheavy.mechanics.links import LinkCount

    Point = tuple[float, float]

OUTSIDE_WIDTHS: Final = 3.35
"""Outside width of a link in wire diameters, as in DIN 764 (largest 3.6)."""

LYING_WIDTHS: Final = 2.5
"""Seen width of a link that lies on its side, in wire diameters: it leans, so less is seen."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Link:
    """One link as it is drawn.

    Parameters
    ----------
    start, end : tuple of float
        Where the neighbours bear on it: x and height [m]. Between them lies one pitch.
    wire_m : float
        Wire diameter [m].
    width_m : float
        Width that is seen [m]: outside width face-on, wire diameter edge-on.
    hang, piece : int
        Which chain it belongs to.
    off : bool
        Whether its top has left the floor.
    """

    start: Point
    end: Point
    wire_m: float
    width_m: float
    hang: int
    piece: int
    off: bool

    @property
    def edge_on(self) -> bool:
        """Whether only the wire is seen."""
        return self.width_m <= self.wire_m

    def caps(self) -> tuple[Point, Point]:
        """Centres [m] of the two round ends of its outline."""
        (ax, ay), (bx, by) = self.start, self.end
        length = math.hypot(bx - ax, by - ay)
        if length == 0:
            return self.start, self.end
        inset = min(0.5 * self.width_m - self.wire_m, 0.5 * length)
        ux, uy = (bx - ax) / length * inset, (by - ay) / length * inset
        return (ax + ux, ay + uy), (bx - ux, by - uy)

    @property
    def low_m(self) -> float:
        """Height of its lowest point [m]."""
        return min(cap[1] for cap in self.caps()) - 0.5 * self.width_m

    def above(self, surface_m: float) -> Link:
        """The same link, raised by the little that it would cut into a surface [m]."""
        cut_m = surface_m - self.low_m
        if cut_m <= 0:
            return self
        (ax, ay), (bx, by) = self.start, self.end
        return replace(self, start=(ax, ay + cut_m), end=(bx, by + cut_m))


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """A chain piece on its hang, and where its strands hang.

    Parameters
    ----------
    hang, index : int
        Which hang of the end, which piece of the hang.
    chain : Chain
        The piece.
    wire_m : float
        Wire diameter [m].
    head_x_m : float
        Where the piece bears on its connector or bar [m].
    strand_x_m : tuple of float
        Where each strand hangs once clear of its neighbours [m].
    near_m : float
        How far from `head_x_m` the first link of a strand may be [m].
    """

    hang: int
    index: int
    chain: Chain
    wire_m: float
    head_x_m: float
    strand_x_m: tuple[float, ...]
    near_m: float

    @property
    def folded(self) -> bool:
        """Whether it hangs as two strands."""
        return len(self.strand_x_m) > 1

    @property
    def middle(self) -> int:
        """Links that hang above both strands: 1 when an odd number is folded, else 0."""
        return self.chain.links % 2 if self.folded else 0


def fold_offset_m(hang: Hang) -> float:
    """How far below the bar centre the chain of a hang begins [m]."""
    return hang.suspension.fold_m if isinstance(hang, Doubled) else hang.drop_m


def hanging_links(piece: Piece, above_m: float, count: LinkCount, surface_m: float) -> list[Link]:
    """Place the links of a piece that are off the floor, hanging straight down.

    Parameters
    ----------
    piece : Piece
        The piece and its strands.
    above_m : float
        Height of its head above the surface it lies on [m].
    count : LinkCount
        How many are off.
    surface_m : float
        Height of that surface [m].

    Returns
    -------
    list of Link
        As many as `count.off`, heads first.
    """
    middle = piece.middle
    each = max(0, count.off - middle) // len(piece.strand_x_m)
    links: list[Link] = []
    if middle and count.off:
        links += _run(piece, [piece.head_x_m] * 2, (0, 1, each), above_m, surface_m)
    for strand, x_m in enumerate(piece.strand_x_m):
        nest = 0 if middle else (2 * piece.index + strand) % 2
        across = [_fan(piece, x_m, node) for node in range(each + 1)]
        links += _run(piece, across, (middle, each, 0), above_m, surface_m, nest)
    return links


def _fan(piece: Piece, strand_x_m: float, node: int) -> float:
    """Place of a node across the strand: from near the head out to its own place, gently."""
    aside_m = strand_x_m - piece.head_x_m
    nodes = max(3, math.ceil(3 * abs(aside_m) / piece.chain.pitch_m))
    share = min(1.0, node / nodes)
    near_m = math.copysign(min(abs(aside_m), piece.near_m), aside_m)
    return piece.head_x_m + near_m + (aside_m - near_m) * share * share * (3 - 2 * share)


def _run(
    piece: Piece,
    across: list[float],
    span: tuple[int, int, int],
    above_m: float,
    surface_m: float,
    nest: int = 0,
) -> list[Link]:
    """Chain `span` (first node, links, links that follow) down from a head `above_m` up.

    The last link before the floor leans over, as a real one does. Neighbouring strands nest:
    where one shows a link face-on, the next shows it edge-on.
    """
    first, links, after = span
    pitch_m, wire_m = piece.chain.pitch_m, piece.wire_m
    run: list[Link] = []
    for place in range(links):
        top_m = max(above_m - (first + place) * pitch_m, wire_m)
        low_m = max(above_m - (first + place + 1) * pitch_m, wire_m)
        x_m, next_x_m = across[place], across[place + 1]
        follows = links - 1 - place + after
        face = OUTSIDE_WIDTHS
        if not follows and above_m < (first + place + 1) * pitch_m + wire_m:
            low_m = min(top_m, wire_m * (0.5 + 0.5 * min(1.0, top_m / pitch_m)))
            lean_m = math.sqrt(max(0.0, pitch_m**2 - (top_m - low_m) ** 2))
            next_x_m = x_m + math.copysign(lean_m, across[-1] - piece.head_x_m or 1.0)
            face = LYING_WIDTHS
        run.append(
            Link(
                start=(x_m, surface_m + top_m),
                end=(next_x_m, surface_m + low_m),
                wire_m=wire_m,
                width_m=face * wire_m if (follows + nest) % 2 else wire_m,
                hang=piece.hang,
                piece=piece.index,
                off=True,
            ).above(surface_m)
        )
    return run
