"""Slack dragged out to one side: a catenary down to the floor, the rest laid along it."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from topheavy.present.picture.links import LYING_WIDTHS, OUTSIDE_WIDTHS, Link

if TYPE_CHECKING:
    from topheavy.mechanics.links import LinkCount
    from topheavy.present.picture.links import Piece, Point


@dataclass(frozen=True, slots=True, kw_only=True)
class Sag:
    """How one strand runs from its head to the floor and along it.

    Parameters
    ----------
    above_m : float
        Height of the head above the floor [m]; negative when it lies.
    free_m : float
        Length of the catenary [m], at least `above_m`.
    reach_m : float
        How far to the side the drawing has room [m]; longer slack is drawn doubled back.
    lie_m, row_m : float
        Height of a lying link's middle, and of each row that doubles back [m].
    """

    above_m: float
    free_m: float
    reach_m: float
    lie_m: float
    row_m: float

    @property
    def pull_m(self) -> float:
        """Horizontal pull as a length of chain [m]: (s2 - h2) / 2h of a catenary."""
        if self.above_m <= 0:
            return 0.0
        return max(0.0, (self.free_m**2 - self.above_m**2) / (2 * self.above_m))

    def place(self, along_m: float) -> Point:
        """Place (x from the head, height) [m] of the point so far along the strand [m]."""
        free_m = max(0.0, self.free_m)
        if self.above_m <= 0 or along_m >= free_m:
            start_m = self._across(free_m) if self.above_m > 0 else 0.0
            return self._on_floor(start_m, along_m - free_m)
        rest_m, pull_m = free_m - along_m, self.pull_m
        if pull_m < 1e-6:
            return 0.0, max(self.above_m - along_m, self.lie_m)
        height_m = math.hypot(pull_m, rest_m) - pull_m
        return self._across(free_m) - self._across(rest_m), max(height_m, self.lie_m)

    def _across(self, rest_m: float) -> float:
        """Distance from touching down to a point `rest_m` up the chain [m], squeezed to fit."""
        pull_m = self.pull_m
        if pull_m < 1e-6:
            return 0.0
        whole_m = pull_m * math.asinh(max(self.free_m, 0.0) / pull_m)
        squeeze = min(1.0, 0.75 * self.reach_m / whole_m) if whole_m > 0 else 1.0
        return squeeze * pull_m * math.asinh(rest_m / pull_m)

    def _on_floor(self, start_m: float, beyond_m: float) -> Point:
        room_m = max(self.reach_m - start_m, 1e-3)
        row, along_m = divmod(beyond_m, room_m)
        x_m = start_m + (along_m if row % 2 == 0 else room_m - along_m)
        return x_m, self.lie_m + row * self.row_m


def dragged_links(
    piece: Piece, spans: tuple[float, float, float], count: LinkCount, surface_m: float
) -> list[Link]:
    """Place every link of a piece whose slack is dragged to the right.

    Parameters
    ----------
    piece : Piece
        The piece and its strands.
    spans : tuple of float
        Height of its head above the surface, free length of a strand, room to the side [m].
    count : LinkCount
        How many are off.
    surface_m : float
        Height of what it lies on [m].

    Returns
    -------
    list of Link
        As many as the piece has; the first `count.off` of them are off.
    """
    middle = piece.middle
    strands = len(piece.strand_x_m)
    each = (piece.chain.links - middle) // strands
    off_each = max(0, count.off - middle) // strands
    links: list[Link] = []
    if middle:
        links.append(_laid(piece, _sag(piece, spans, 0), (0, bool(count.off)), surface_m))
    for number in range(strands):
        sag = _sag(piece, spans, number)
        links += [
            _laid(piece, sag, (middle + place, place < off_each), surface_m)
            for place in range(each)
        ]
    return sorted(links, key=lambda link: not link.off)


def _sag(piece: Piece, spans: tuple[float, float, float], strand: int) -> Sag:
    above_m, free_m, reach_m = spans
    lie_m = 0.5 * LYING_WIDTHS * piece.wire_m
    row_m = 1.1 * piece.wire_m
    first_m = lie_m + (2 * piece.index + strand) * 0.5 * row_m
    return Sag(above_m=above_m, free_m=free_m, reach_m=reach_m, lie_m=first_m, row_m=row_m)


def _laid(piece: Piece, sag: Sag, link: tuple[int, bool], surface_m: float) -> Link:
    node, off = link
    pitch_m, wire_m = piece.chain.pitch_m, piece.wire_m
    (ax, ay), (bx, by) = sag.place(node * pitch_m), sag.place((node + 1) * pitch_m)
    face = OUTSIDE_WIDTHS if ay - by > 0.5 * pitch_m else LYING_WIDTHS
    return Link(
        start=(piece.head_x_m + ax, surface_m + ay),
        end=(piece.head_x_m + bx, surface_m + by),
        wire_m=wire_m,
        width_m=wire_m if node % 2 else face * wire_m,
        hang=piece.hang,
        piece=piece.index,
        off=off,
    ).above(surface_m)
