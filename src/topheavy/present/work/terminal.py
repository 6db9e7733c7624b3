"""The work of the day on the terminal: who does what, and one lifter's sets with what to change."""

from __future__ import annotations

from typing import TYPE_CHECKING

from rich.console import Group
from rich.text import Text

from topheavy.present.terminal import ACCENT, QUIET, headed, listed, ruled
from topheavy.present.work.words import NOTHING_TO_CHANGE

if TYPE_CHECKING:
    from rich.console import RenderableType

    from topheavy.present.work.view import DayView, RackView, StepView

_ID_SHOWN = 8


def render_day(view: DayView) -> RenderableType:
    """List everybody's work of a day."""
    parts: list[RenderableType] = [Text(f"Work of {view.day}", style=ACCENT)]
    if not view.work:
        parts.append(Text("Nobody has work. topheavy work give --help says how.", style=QUIET))
        return Group(*parts)
    table = ruled("lifter", "lift", "where", "what", "done", "id")
    for column in table.columns:
        column.justify = "left"
    for one in view.work:
        work = one.work
        done = f"{len(one.done)} of {len(work.steps)}"
        table.add_row(work.lifter, work.lift, work.station, work.kind, done, work.id[:_ID_SHOWN])
    return Group(*parts, table)


def render_rack(view: RackView) -> RenderableType:
    """Show one lifter's work: each set, its loads, and what to change on the bar for it."""
    work = view.work
    where = f"{work.day}, {work.station}: {work.kind}" + (f", from {work.at}" if work.at else "")
    parts: list[RenderableType] = [
        Text(f"{work.lifter}: {work.lift}", style=ACCENT),
        Text(where, style=QUIET),
        headed("Sets", _sets(view)),
    ]
    if view.advice is not None:
        step = view.advice.step
        said = [view.advice.reason]
        said.append("Stop here." if step is None else f"Next attempt: {_loads(step)}.")
        parts.append(headed("After that attempt", listed(said)))
    parts += [
        headed(f"Before set {step.number}", listed(step.change, numbered=True))
        for step in work.steps
        if step.change != (NOTHING_TO_CHANGE,)
    ]
    parts += [headed("Know", Text(work.aim)), headed("Mind", listed(work.cautions))]
    return Group(*parts)


def _sets(view: RackView) -> RenderableType:
    table = ruled("set", "bottom", "top", "reps", "rest", "log")
    for column in table.columns[3:]:
        column.justify = "left"
    done = {one.number: one.words for one in view.done}
    for step in view.work.steps:
        mark = "next" if step.number == view.next_number else done.get(step.number, "")
        table.add_row(str(step.number), step.bottom.text, step.top.text, step.goal, step.rest, mark)
    return table


def _loads(step: StepView) -> str:
    return f"{step.straight} straight weight, {step.bottom} to {step.top}"
