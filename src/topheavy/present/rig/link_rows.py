"""Links off and on the floor, in rows: piece by piece, and alike pieces together."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from topheavy.gym.stock import ChainPiece
    from topheavy.services.reading import PieceCount


@dataclass(frozen=True, slots=True, kw_only=True)
class PieceRow:
    """Links of one piece: off and on the floor at bottom and top."""

    tag: str
    size: str
    links: int
    off_bottom: int
    on_bottom: int
    off_top: int
    on_top: int


@dataclass(frozen=True, slots=True, kw_only=True)
class LinkRow:
    """Links of pieces that are alike: off the floor at bottom and top, still down at the top."""

    tags: tuple[str, ...]
    size: str
    links: int
    off_bottom: int
    off_top: int
    on_top: int


def piece_rows(
    pieces: tuple[ChainPiece, ...], counts: tuple[PieceCount, ...]
) -> tuple[PieceRow, ...]:
    """Count the links of each piece, a row for each."""
    return tuple(
        PieceRow(
            tag=piece.tag,
            size=piece.size,
            links=count.links,
            off_bottom=count.bottom.off,
            on_bottom=count.bottom.down,
            off_top=count.top.off,
            on_top=count.top.down,
        )
        for piece, count in zip(pieces, counts, strict=True)
    )


def alike(rows: tuple[PieceRow, ...]) -> tuple[LinkRow, ...]:
    """Rows of both ends, pieces that are alike together."""
    groups: dict[tuple[str, int, int, int, int], list[str]] = {}
    for row in rows:
        key = (row.size, row.links, row.off_bottom, row.off_top, row.on_top)
        groups.setdefault(key, []).append(row.tag)
    return tuple(
        LinkRow(
            tags=tuple(tags),
            size=size,
            links=links,
            off_bottom=off_bottom,
            off_top=off_top,
            on_top=on_top,
        )
        for (size, links, off_bottom, off_top, on_top), tags in groups.items()
    )
