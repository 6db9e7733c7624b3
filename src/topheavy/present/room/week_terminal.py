"""A planned week on the terminal: the days at a glance, who is left out, then board by board."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from rich.console import Group as Lines
from rich.text import Text

from topheavy.present.room.terminal import render_room
from topheavy.present.terminal import ACCENT, headed, listed, ruled

if TYPE_CHECKING:
    from rich.console import RenderableType
    from rich.table import Table

    from topheavy.present.room.week_view import WeekView


def render_week(view: WeekView) -> RenderableType:
    """Lay the week out."""
    parts: list[RenderableType] = [
        Text(f"{view.gym}, {view.title}", style=ACCENT),
        Text(view.verdict),
        Text(""),
        _days(view),
    ]
    if view.left_out:
        parts.append(headed("On no day", listed(view.left_out)))
    if view.in_a_row:
        parts.append(headed("Hard days in a row", listed(view.in_a_row)))
    for day in view.days:
        if day.plan is not None:
            parts += [Text(""), render_room(replace(day.plan, cautions=()))]
    plans = [day.plan for day in view.days if day.plan is not None]
    cautions = dict.fromkeys(text for plan in plans for text in plan.cautions)
    if cautions:
        parts.append(headed("Mind", listed(tuple(cautions))))
    return Lines(*parts)


def _days(view: WeekView) -> Table:
    table = ruled("day", "lifts", "done by", "closes", "chain hung")
    for day in view.days:
        plan = day.plan
        cells = (plan.finish, plan.closes, f"{plan.changes}") if plan else ("", "", "")
        table.add_row(day.name, f"{day.lifts}", *cells)
    return table
