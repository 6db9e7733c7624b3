"""The catalogue on the terminal."""

from __future__ import annotations

from itertools import groupby
from typing import TYPE_CHECKING

from rich.console import Group
from rich.table import Table
from rich.text import Text

from topheavy.present.terminal import ACCENT, QUIET, facts, headed, listed, ruled

if TYPE_CHECKING:
    from rich.console import RenderableType

    from topheavy.present.catalogue.view import (
        CaliperView,
        LookUpView,
        SizeRow,
        VerdictView,
        WearView,
    )
    from topheavy.present.figure import Figure

_FEW = 3
"""Up to so many sizes are told in full."""

_COLUMNS = ("", "wire", "pitch", "mass per length", "a link", "limit", "enough?")
_UNRATED = "Not rated: do not load it."
_ENOUGH = {"heavy enough": "yes", "light": "light", "too thin": "too thin"}


def render_look_up(view: LookUpView) -> RenderableType:
    """Lay sizes out for the terminal; few of them in full."""
    parts: list[RenderableType] = [
        Text(view.title, style=ACCENT),
        Text(f"Judged for {view.job}.", style=QUIET),
        Text(""),
        _sizes(view.rows),
    ]
    if len(view.rows) <= _FEW:
        parts += [_in_full(row) for row in view.rows]
    parts.append(headed("Mind", listed(view.cautions)))
    return Group(*parts)


def render_calipers(view: CaliperView) -> RenderableType:
    """Lay out what readings tell; chain to retire first."""
    parts: list[RenderableType] = [Text(view.title, style=ACCENT)]
    if view.wear is not None and view.wear.judgement == "retire":
        parts.append(headed("STOP: retire this chain", listed(view.wear.reasons)))
    parts += [headed("It weighs", _masses(view)), headed("It is most like", _likely(view))]
    if view.wear is not None:
        parts.append(headed("Wear", _wear(view.wear)))
    parts += [
        headed("Heavy enough?", Text(view.verdict.words), listed(view.verdict.reasons)),
        headed("Rated", Text(_rated(view.limit, view.rating))),
    ]
    if view.remarks:
        parts.append(headed("Of these readings", listed(view.remarks)))
    parts.append(headed("Mind", listed(view.cautions)))
    return Group(*parts)


def _sizes(rows: tuple[SizeRow, ...]) -> RenderableType:
    """Sizes below their standards, all in columns of one width."""
    lines = [_cells(row) for row in rows]
    widths = [max(map(len, column)) for column in zip(_COLUMNS, *lines, strict=True)]
    head = _table(widths)
    head.add_row(*_COLUMNS, style=QUIET)
    parts: list[RenderableType] = [head]
    together = groupby(zip(rows, lines, strict=True), key=lambda pair: pair[0].standard)
    for standard, group in together:
        table = _table(widths)
        for _, cells in group:
            table.add_row(*cells)
        parts += [Text(standard, style=ACCENT), table]
    return Group(*parts)


def _table(widths: list[int]) -> Table:
    table = Table.grid(padding=(0, 1))
    for place, width in enumerate(widths):
        table.add_column(justify="right" if place else "left", width=width, no_wrap=True)
    return table


def _cells(row: SizeRow) -> tuple[str, ...]:
    figures = (row.wire, row.pitch, row.density, row.link_mass)
    shown = (figure.text if figure else "-" for figure in figures)
    limit = row.limit.text if row.limit else "not rated"
    enough = _ENOUGH[row.verdict.judgement] if row.verdict else "unknown"
    return f"  {row.size}", *shown, limit, enough


def _in_full(row: SizeRow) -> RenderableType:
    pairs = [
        ("mass known by", row.known_by or "no pitch printed: put calipers to it"),
        ("table seen", row.how_seen),
        ("rated", _rated(row.limit, row.rating)),
        ("heavy enough?", row.verdict.words if row.verdict else "unknown, without its mass"),
    ]
    return headed(row.name, facts(pairs), *_reasons(row.verdict))


def _reasons(verdict: VerdictView | None) -> list[RenderableType]:
    return [] if verdict is None else [listed(verdict.reasons)]


def _rated(limit: Figure | None, reason: str) -> str:
    words = f"{reason[:1].upper()}{reason[1:]}."
    return f"{limit} working load limit. {words}" if limit else f"{_UNRATED} {words}"


def _masses(view: CaliperView) -> RenderableType:
    return facts(
        [
            ("mass per length", view.density.text),
            ("one link", view.link_mass.text),
            ("most of the doubt", view.mostly),
            ("wire", view.wire.text),
            ("pitch", view.pitch.text),
            ("inside width", view.inside_width.text),
        ]
    )


def _likely(view: CaliperView) -> Table:
    table = ruled("published size", "misfit", "wire off by", "pitch off by", "near")
    for row in view.likely:
        cells = (row.misfit.text, row.wire_off.text, row.pitch_off.text)
        table.add_row(row.name, *cells, "yes" if row.near else "no")
    return table


def _wear(wear: WearView) -> RenderableType:
    guess = "" if wear.named else ", if that is what it was"
    return Group(
        Text(f"{wear.judgement.capitalize()}, against {wear.against}{guess}."),
        listed(wear.reasons),
    )
