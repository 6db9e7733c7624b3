"""Tables that more than one screen shows: loads by height, and links off the floor."""

from __future__ import annotations

from typing import TYPE_CHECKING

from rich.text import Text

from topheavy.present.terminal import QUIET, FirstThatFits, ruled

if TYPE_CHECKING:
    from collections.abc import Sequence

    from rich.console import RenderableType
    from rich.table import Table

    from topheavy.present.rig.band_rows import BandRow
    from topheavy.present.rig.link_rows import LinkRow
    from topheavy.present.rig.view import LoadRow


def load_table(rows: Sequence[LoadRow], *, straight: bool = True) -> RenderableType:
    """Show loads raising and lowering, and those of the same chain hung straight if wanted.

    On a narrow terminal those hung straight are left out, so that a row stays on its line.
    """
    ways = [_loads(rows, straight=True)] if straight else []
    plain, tight = _loads(rows, straight=False), _loads(rows, straight=False)
    tight.padding = 0
    return FirstThatFits((*ways, plain, tight))


def _loads(rows: Sequence[LoadRow], *, straight: bool) -> Table:
    table = ruled("", "height", "raising", "lowering", *(("hung straight",) if straight else ()))
    for row in rows:
        cells = [
            row.place,
            row.height.text if row.height else "",
            row.raising.text,
            row.lowering.text if row.lowering else "",
        ]
        table.add_row(*cells, *((row.straight.text,) if straight else ()))
    return table


def band_table(rows: Sequence[BandRow]) -> RenderableType:
    """Show what each band pulls at both ends of the lift, and how far it is stretched.

    On a narrow terminal the stretch is left out.
    """
    return FirstThatFits((_bands(rows, stretch=True), _bands(rows, stretch=False)))


def _bands(rows: Sequence[BandRow], *, stretch: bool) -> Table:
    more = ("stretched to", "read to") if stretch else ()
    table = ruled("band", "peg", "pulls at bottom", "at top", *more)
    table.columns[1].justify = "left"
    table.columns[0].overflow = table.columns[1].overflow = "fold"
    for row in rows:
        longest = max(row.length_bottom, row.length_top, key=lambda figure: figure.value)
        cells = [f"{row.side} {row.tag}", row.peg + (", doubled" if row.way == "doubled" else "")]
        cells += [row.bottom.text, row.top.text]
        table.add_row(*cells, *((longest.text, row.longest.text) if stretch else ()))
    return table


def link_table(rows: Sequence[LinkRow]) -> Table:
    """Show links off the floor and still down, a row for each sort of piece."""
    table = ruled("pieces", "chain", "links", "off at bottom", "off at top", "still down")
    table.columns[0].overflow = table.columns[1].overflow = "fold"
    for row in rows:
        counts = (row.links, row.off_bottom, row.off_top, row.on_top)
        table.add_row(
            Text(" ".join(dict.fromkeys(row.tags)), style="" if row.off_top else QUIET),
            row.size,
            *(str(count) for count in counts),
        )
    return table
