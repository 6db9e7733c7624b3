"""A rep on the terminal."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from rich.console import Group
from rich.text import Text

from topheavy.present.terminal import (
    ACCENT,
    LINE,
    MARK,
    QUIET,
    ChartRow,
    FirstThatFits,
    facts,
    headed,
    height_chart,
    listed,
    ruled,
)

if TYPE_CHECKING:
    from rich.console import RenderableType
    from rich.table import Table

    from topheavy.present.rep.motion_figures import Spread
    from topheavy.present.rep.view import PathPoint, RepView, SideView

_ROWS: Final = 9


def render_rep(view: RepView) -> RenderableType:
    """Lay a rep out for the terminal, most wanted first."""
    parts: list[RenderableType] = [
        Text(view.title, style=ACCENT),
        Text(f"{view.gym}. {view.loads}.", style=QUIET),
        Text(view.verdict, style=ACCENT),
        Text(view.as_hard),
        headed("With this rig", listed(view.rig)),
    ]
    if view.mean_speed:
        parts.append(headed("The way up", facts(_up(view))))
    if view.path:
        parts.append(headed("Speed by height", speed_chart(view.path)))
    parts.append(headed("The way down", listed(view.way_down)))
    parts.append(headed("Side by side at equal effort", *_beside(view)))
    parts += [
        headed("When it fails", listed(view.outlook)),
        headed("Mind", listed(view.cautions)),
        headed("How sure this is", listed(view.limits)),
    ]
    return Group(*parts)


def _beside(view: RepView) -> list[RenderableType]:
    parts: list[RenderableType] = [Text(view.effort_words)]
    if view.sides:
        parts += [Text(""), side_table(view.sides)]
    if any(side.this_rig for side in view.sides):
        parts.append(Text("* as this rig hangs", style=QUIET))
    return [*parts, Text(""), listed(view.side_notes)] if view.side_notes else parts


def _up(view: RepView) -> list[tuple[str, str]]:
    return [
        ("mean speed", _ranged(view.mean_speed)),
        ("until it is braked", _ranged(view.propulsive_speed)),
        ("peak speed", _ranged(view.peak_speed)),
        ("time up", _ranged(view.time)),
        ("under load, down and up", view.under_load.text if view.under_load else ""),
        ("where it sticks", view.sticking),
        ("greatest push", view.push),
        ("greatest power", _ranged(view.peak_power)),
        ("mean power", _ranged(view.mean_power)),
        ("work", _ranged(view.work)),
        ("of that", view.work_shares),
    ]


def _ranged(found: Spread | None) -> str:
    return "" if found is None else f"{found.likely} ({found.between})"


def speed_chart(path: tuple[PathPoint, ...]) -> RenderableType:
    """Draw bar speed over height, plain weight of the same effort marked on it.

    Parameters
    ----------
    path : tuple of PathPoint
        From bottom to top.
    """
    step = (len(path) - 1) / (_ROWS - 1)
    picked = [path[round(step * row)] for row in reversed(range(_ROWS))]
    whole = [_chart(picked, cells, beside=4) for cells in (32, 24, 16)]
    return FirstThatFits((*whole, _chart(picked, 20, beside=1), _chart(picked, 8, beside=1)))


def _chart(picked: list[PathPoint], cells: int, *, beside: int) -> Table:
    names = f"{LINE} this rig  {MARK} plain, as hard"
    heads = ("speed", "time", "push", "power")[:beside]
    rows = []
    for point in picked:
        own = (point.speed, point.time, point.push, point.power)[:beside]
        rows.append(
            ChartRow(
                height=point.height.text,
                reach=point.speed.value if point.speed else None,
                mark=point.plain_speed.value if point.plain_speed else None,
                beside=tuple("-" if one is None else one.text for one in own),
            )
        )
    line = names if len(names) <= cells else ""
    return height_chart(rows, cells, heads=("height", line, *heads), least=0.0)


def side_table(sides: tuple[SideView, ...]) -> RenderableType:
    """Show the rigs side by side, a column each; on a narrow terminal two or one at a time.

    Parameters
    ----------
    sides : tuple of SideView
        Plain weight first.
    """
    return FirstThatFits(tuple(_in_groups(sides, size) for size in (len(sides), 2, 1)))


def _in_groups(sides: tuple[SideView, ...], size: int) -> RenderableType:
    groups = [sides[start : start + size] for start in range(0, len(sides), max(size, 1))]
    return Group(*(_table(group) for group in groups))


def _table(sides: tuple[SideView, ...]) -> Table:
    table = ruled("", *(_head(side) for side in sides))
    table.padding = (0, 1, 0, 0)
    for column in table.columns:
        column.no_wrap = True
    for name, cells in _side_rows(sides):
        quiet = QUIET if name.startswith(" ") else ""
        table.add_row(*(Text(words, style=quiet) for words in (name, *cells)))
    return table


def _head(side: SideView) -> str:
    words = side.name.replace(" and ", "\nand ").replace(" ", "\n", 1)
    return f"{words}{'*' if side.this_rig else ''}"


def _side_rows(sides: tuple[SideView, ...]) -> list[tuple[str, list[str]]]:
    def row(name: str, figure: str) -> tuple[str, list[str]]:
        found = [getattr(side, figure) for side in sides]
        return name, ["-" if one is None else str(one) for one in found]

    def likely(name: str, figure: str) -> list[tuple[str, list[str]]]:
        found = [getattr(side, figure) for side in sides]
        between = [one.between.rpartition(" ")[0].replace(" to ", "-") for one in found]
        return [(name, [one.likely.text for one in found]), ("  nine in ten", between)]

    rows = [
        *likely("bar, collars, plates", "straight"),
        row("load at the bottom", "bottom"),
        row("  mean", "mean"),
        row("  at the top", "top"),
        *likely("mean speed", "mean_speed"),
        row("  until braked", "propulsive_speed"),
        row("  at its fastest", "peak_speed"),
        row("time up", "time"),
        row("sticks from", "sticks_from"),
        row("  slowest at", "slowest"),
        row("  of the way up", "slowest_part"),
        row("  until", "sticks_until"),
        row("greatest push", "push"),
        row("greatest power", "peak_power"),
        row("  mean power", "mean_power"),
        row("work", "work"),
        row("  into chain", "chain_share"),
        row("  into band", "band_share"),
        row("lowered, speeds up", "lowered"),
        row("let go, falls at", "let_go"),
        row("  hits bottom with", "let_go_speed"),
    ]
    return [(name, cells) for name, cells in rows if any(cell != "-" for cell in cells)]
