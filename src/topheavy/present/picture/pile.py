"""Links on the floor: a tidy heap under the bar that grows with their number."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from topheavy.present.picture.links import LYING_WIDTHS, Link

if TYPE_CHECKING:
    from topheavy.present.picture.links import Piece

_ROW_WIDTHS: Final = 0.43
"""How far each row shows above the one before it, in seen widths of a lying link."""

_SLENDER: Final = 6.4
"""Width of a heap over its height, roughly as heaps of chain fall."""

_SHIFT: Final = 0.22
"""How far each row is shifted to one side, in pitches."""

_TILT: Final = 0.16
"""Largest slope of a lying link [-]."""


@dataclass(frozen=True, slots=True)
class Fallen:
    """Links of one piece that lie on the floor: how many."""

    piece: Piece
    links: int

    @property
    def length_m(self) -> float:
        """Length they take in a row [m]."""
        return self.links * self.piece.chain.pitch_m

    @property
    def row_m(self) -> float:
        """How far one row of them shows above the row before [m]."""
        return _ROW_WIDTHS * LYING_WIDTHS * self.piece.wire_m


def heap_width_m(fallen: list[Fallen]) -> float:
    """Width of the lowest row [m] of a heap; 0 when nothing lies."""
    lying = [one for one in fallen if one.links]
    if not lying:
        return 0.0
    row_m = max(one.row_m for one in lying)
    length_m = sum(one.length_m for one in lying)
    longest_m = max(one.piece.chain.pitch_m for one in lying)
    return max(1.2 * math.sqrt(_SLENDER * row_m * length_m), 2 * longest_m)


def heap_half_m(fallen: list[Fallen]) -> float:
    """From the middle of a heap to its farthest edge [m]; 0 when nothing lies."""
    lying = [one.piece for one in fallen if one.links]
    beyond_m = (_SHIFT * piece.chain.pitch_m + piece.wire_m for piece in lying)
    return 0.5 * heap_width_m(fallen) + max(beyond_m, default=0.0)


def heap(fallen: list[Fallen], centre_m: float, width_m: float, surface_m: float) -> list[Link]:
    """Lay links in rows, the longest row in front on the floor, shorter ones behind it.

    Parameters
    ----------
    fallen : list of Fallen
        What lies.
    centre_m, width_m : float
        Middle and width of the lowest row [m].
    surface_m : float
        Height of what it lies on [m].

    Returns
    -------
    list of Link
        As many as lie, those farthest back first: the order to draw them in.
    """
    rows: list[list[Link]] = []
    low_m = surface_m
    planned = max(2.0, sum(one.length_m for one in fallen) / max(0.75 * width_m, 1e-9))
    for one in fallen:
        left = one.links
        while left > 0:
            room_m = width_m * max(0.4, 1.0 - 0.55 * (len(rows) / planned) ** 2)
            most = max(2, int(room_m / one.piece.chain.pitch_m))
            here = _even_row(left, most)
            rows.append(_row(one.piece, here, centre_m, low_m, len(rows)))
            low_m += one.row_m
            left -= here
    return [link for row in reversed(rows) for link in row]


def _even_row(left: int, most: int) -> int:
    """Links for the next row: all that fit, but never a single one left for the last row."""
    return most - 1 if left == most + 1 and most > 2 else min(left, most)


def _row(piece: Piece, links: int, centre_m: float, low_m: float, row: int) -> list[Link]:
    pitch_m, wire_m = piece.chain.pitch_m, piece.wire_m
    half_m = 0.5 * LYING_WIDTHS * wire_m
    left_m = centre_m - 0.5 * links * pitch_m + (_SHIFT if row % 2 else -_SHIFT) * pitch_m
    heights = [
        low_m + half_m + _TILT * pitch_m * 0.5 * (1 + _wander(3 * row + node))
        for node in range(links + 1)
    ]
    return [
        Link(
            start=(left_m + place * pitch_m, heights[place]),
            end=(left_m + (place + 1) * pitch_m, heights[place + 1]),
            wire_m=wire_m,
            width_m=wire_m if (place + row) % 2 else LYING_WIDTHS * wire_m,
            hang=piece.hang,
            piece=piece.index,
            off=False,
        ).above(low_m)
        for place in range(links)
    ]


def _wander(step: int) -> float:
    """Give a number in -1 to 1 that looks like chance and is always the same."""
    return math.sin(12.9898 * step + 4.1414 * (step % 7))
