"""Where the parts of a bar end stand [m], the same at the bottom and at the top of the lift."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from topheavy.mechanics.hang import Doubled, Straight
from topheavy.present.picture.drag import dragged_links
from topheavy.present.picture.links import (
    OUTSIDE_WIDTHS,
    Link,
    Piece,
    fold_offset_m,
    hanging_links,
)
from topheavy.present.picture.pile import Fallen, heap, heap_half_m, heap_width_m
from topheavy.services.counting import length_off_m, links_of

if TYPE_CHECKING:
    from collections.abc import Sequence

    from topheavy.mechanics.banded import Banded
    from topheavy.mechanics.hang import Hang
    from topheavy.mechanics.links import LinkCount
    from topheavy.present.picture.scene import Disc, Scene

SHAFT_M: Final = 0.11
"""Length of shaft shown inside the sleeve [m]; broken off there."""

FLANGE_M: Final = 0.03
SHAFT_RADIUS_M: Final = 0.014
SLEEVE_RADIUS_M: Final = 0.025
"""Shaft 28 mm, sleeve 50 mm, inner flange about 30 mm wide: IWF rules (from memory)."""

_GAP_M: Final = 0.03
_NESTED_WIDTHS: Final = 1.15 * 0.5 * (OUTSIDE_WIDTHS + 1)
"""From strand to strand in wire diameters, where face-on links nest beside edge-on ones."""

_INSIDE_CONNECTOR_M: Final = 0.02
_FEEDER_ROOM_M: Final = 0.06
_BAND_ROOM_M: Final = 0.05
_DRAG_REACH_M: Final = (0.4, 1.1)
_HEAP_CLEAR_M: Final = 0.25


@dataclass(frozen=True, slots=True, kw_only=True)
class HungAt:
    """One hang and where it stands.

    Parameters
    ----------
    number : int
        Which hang of the end.
    hang : Hang
        The hang.
    x_m : float
        Where it is attached to the sleeve, from the figure's left edge [m].
    half_m : float
        Half the width of its strands side by side [m].
    pieces : tuple of Piece
        Its chain pieces.
    """

    number: int
    hang: Hang
    x_m: float
    half_m: float
    pieces: tuple[Piece, ...]

    @property
    def has_feeder(self) -> bool:
        """Whether a feeder and a connector hold it."""
        return isinstance(self.hang, Doubled)


@dataclass(frozen=True, slots=True, kw_only=True)
class BandAt:
    """One band and where it stands on the sleeve, from the figure's left edge [m]."""

    number: int
    banded: Banded
    x_m: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """Distances from the left edge of a figure [m].

    Parameters
    ----------
    discs : tuple of (Disc, float)
        Plates and the left face of each.
    plates_end_m, collar_x_m : float
        Right face of the last plate, and left face of the collar outside the loops.
    sleeve_end_m : float
        End of the sleeve.
    hangs : tuple of HungAt
        What hangs.
    bands : tuple of BandAt
        Bands.
    heap_left_m : float
        Where a heap may begin.
    block_left_m : float
        Where a mat or block under the chain begins.
    drag_reach_m : float
        How far to the side dragged slack may reach; 0 when it is piled.
    width_m : float
        Right edge of everything.
    """

    discs: tuple[tuple[Disc, float], ...]
    plates_end_m: float
    collar_x_m: float
    sleeve_end_m: float
    hangs: tuple[HungAt, ...]
    bands: tuple[BandAt, ...]
    heap_left_m: float
    block_left_m: float
    drag_reach_m: float
    width_m: float


def plan(scene: Scene) -> Plan:
    """Set plates, hangs, bands and collar side by side: the collar holds all loops."""
    discs, plates_end_m = _stacked(scene)
    edge_m = collar_x_m = plates_end_m
    hangs: list[HungAt] = []
    for number in range(len(scene.drawn_end.hangs)):
        hung = _hung_at(scene, number, edge_m)
        hangs.append(hung)
        edge_m = hung.x_m + hung.half_m + _GAP_M
        loop_m = 0.5 * _FEEDER_ROOM_M if isinstance(hung.hang, Doubled) else hung.half_m
        collar_x_m = hung.x_m + loop_m
    bands: list[BandAt] = []
    for number, banded in enumerate(scene.drawn_end.bands):
        x_m = max(edge_m, collar_x_m) + 0.5 * _BAND_ROOM_M
        bands.append(BandAt(number=number, banded=banded, x_m=x_m))
        edge_m = collar_x_m = x_m + 0.5 * _BAND_ROOM_M
    sleeve_end_m = max(SHAFT_M + FLANGE_M + scene.sleeve_m, collar_x_m + scene.collar_m)
    heap_left_m = _heap_left(scene, plates_end_m)
    half_m = heap_half_m(_fallen(scene, hangs, scene.bottom_m))
    heap_x_m = _heap_centre(hangs, half_m, heap_left_m)
    reach_m = _drag_reach_m(scene, hangs)
    right = [hung.x_m + hung.half_m + 0.12 + reach_m for hung in hangs]
    return Plan(
        discs=discs,
        plates_end_m=plates_end_m,
        collar_x_m=collar_x_m,
        sleeve_end_m=sleeve_end_m,
        hangs=tuple(hangs),
        bands=tuple(bands),
        heap_left_m=heap_left_m,
        block_left_m=max(min(plates_end_m - 0.015, heap_x_m - half_m - 0.03), 0.0),
        drag_reach_m=reach_m,
        width_m=max([sleeve_end_m, heap_x_m + half_m, *right]) + 0.02,
    )


def links_at(scene: Scene, placed: Plan, bar_m: float) -> tuple[list[Link], list[Link]]:
    """Place every link with the bar at `bar_m` [m]: those lying, those hanging.

    Both in the order to draw them.
    """
    ground = scene.ground
    hanging: list[Link] = []
    lying: list[Link] = []
    for hung in placed.hangs:
        above_m = bar_m - fold_offset_m(hung.hang) - ground.surface_m
        for piece in hung.pieces:
            count = links_of(hung.hang, piece.chain, bar_m, ground)
            if ground.lay == "piled":
                hanging += hanging_links(piece, above_m, count, ground.surface_m)
                continue
            free_m = length_off_m(hung.hang, piece.chain, bar_m, ground)
            spans = (above_m, free_m, placed.drag_reach_m)
            laid = dragged_links(piece, spans, count, ground.surface_m)
            hanging += [link for link in laid if link.off]
            lying += [link for link in laid if not link.off]
    if ground.lay == "piled":
        fallen = _fallen(scene, placed.hangs, bar_m)
        centre_m = _heap_centre(placed.hangs, heap_half_m(fallen), placed.heap_left_m)
        lying = heap(fallen, centre_m, heap_width_m(fallen), ground.surface_m)
    return lying, sorted(hanging, key=lambda link: link.edge_on)


def counts_at(scene: Scene, placed: Plan, bar_m: float) -> list[LinkCount]:
    """Count the links of every piece of the drawn end, bar at `bar_m` [m]."""
    return [
        links_of(hung.hang, piece.chain, bar_m, scene.ground)
        for hung in placed.hangs
        for piece in hung.pieces
    ]


def _stacked(scene: Scene) -> tuple[tuple[tuple[Disc, float], ...], float]:
    x_m = SHAFT_M + FLANGE_M
    placed = []
    for disc in scene.drawn_discs():
        placed.append((disc, x_m))
        x_m += disc.width_m + 0.002
    return tuple(placed), x_m


def _hung_at(scene: Scene, number: int, edge_m: float) -> HungAt:
    hang, note = scene.drawn_end.hangs[number], scene.note(number)
    wires = [note.wire_of(index, chain) for index, chain in enumerate(hang.chains)]
    strands = 1 if isinstance(hang, Straight) else 2
    spaces = [
        wire * (OUTSIDE_WIDTHS if chain.links % 2 else _NESTED_WIDTHS)
        for wire, chain in zip(wires, hang.chains, strict=True)
        for _ in range(strands)
    ]
    half_m = 0.5 * max(sum(spaces) + max(wires), _FEEDER_ROOM_M)
    x_m = edge_m + half_m
    if number == 0 and isinstance(hang, Doubled) and not _plates_come_down(scene):
        x_m = edge_m + 0.5 * _FEEDER_ROOM_M
    places, left_m = [], x_m - 0.5 * sum(spaces)
    for space in spaces:
        places.append(left_m + 0.5 * space)
        left_m += space
    pieces = []
    for index, chain in enumerate(hang.chains):
        own = tuple(places[strands * index : strands * (index + 1)])
        doubled = isinstance(hang, Doubled)
        middle_m = sum(own) / len(own)
        head_m = middle_m if not doubled else x_m + _gathered(middle_m - x_m, half_m)
        near = 0.35 if strands == 2 and chain.links % 2 else 0.75
        piece = Piece(
            hang=number,
            index=index,
            chain=chain,
            wire_m=wires[index],
            head_x_m=head_m,
            strand_x_m=own,
            near_m=near * wires[index] if doubled or near < 0.5 else math.inf,
        )
        pieces.append(piece)
    return HungAt(number=number, hang=hang, x_m=x_m, half_m=half_m, pieces=tuple(pieces))


def _gathered(aside_m: float, half_m: float) -> float:
    """Distance from the middle [m] at which a piece bears on the connector."""
    return aside_m / half_m * min(half_m, _INSIDE_CONNECTOR_M)


def _fallen(scene: Scene, hangs: Sequence[HungAt], bar_m: float) -> list[Fallen]:
    return [
        Fallen(piece, links_of(hung.hang, piece.chain, bar_m, scene.ground).down)
        for hung in hangs
        for piece in hung.pieces
    ]


def _drag_reach_m(scene: Scene, hangs: Sequence[HungAt]) -> float:
    """Room to the side for dragged slack [m]: the longest strand, within reason; 0 when piled."""
    if scene.ground.lay == "piled":
        return 0.0
    longest_m = max((s.length_m for h in hangs for s in h.hang.strands() if s.chain), default=0.0)
    return min(max(longest_m, _DRAG_REACH_M[0]), _DRAG_REACH_M[1])


def _heap_left(scene: Scene, plates_end_m: float) -> float:
    """Where a heap may begin [m]: clear of plates that come down to it."""
    return plates_end_m if _plates_come_down(scene) else 0.0


def _plates_come_down(scene: Scene) -> bool:
    """Whether the plates come down to the heap at the bottom of the lift."""
    radius_m = max((0.5 * disc.diameter_m for disc in scene.drawn_discs()), default=0.0)
    return scene.bottom_m - radius_m - scene.ground.surface_m < _HEAP_CLEAR_M


def _heap_centre(hangs: Sequence[HungAt], half_m: float, left_m: float) -> float:
    """Middle of a heap [m]: under what hangs, or as near as its room allows."""
    if not hangs:
        return left_m
    centre_m = sum(hung.x_m for hung in hangs) / len(hangs)
    return max(centre_m, left_m + half_m)
