"""A weighing on the terminal."""

from __future__ import annotations

from typing import TYPE_CHECKING

from rich.console import Group
from rich.text import Text

from topheavy.present.terminal import ACCENT, QUIET, facts, headed, listed, ruled

if TYPE_CHECKING:
    from rich.console import RenderableType
    from rich.table import Table

    from topheavy.present.weigh.view import CauseRow, NumberRow, WeighView

_OTHERS = 3
_EXPLAINED = {"shifted", "cause", "causes"}


def render_weighing(view: WeighView) -> RenderableType:
    """Lay a weighing out: the verdict, the readings, the likely cause, the rig's numbers."""
    parts: list[RenderableType] = [Text(view.title, style=ACCENT), Text(view.verdict)]
    if view.dangers:
        parts.append(headed("STOP: not safe as described", listed(view.dangers)))
    parts += [
        headed("Readings", _readings(view), Text(_summary(view), style=QUIET)),
        *_causes(view),
        headed("What the scale says of the rig", _numbers(view.numbers)),
    ]
    if view.leaning:
        parts.append(headed("Not to be told apart by these readings", _numbers(view.leaning)))
    if view.mended:
        parts.append(headed("The same, with the likely cause put right", _numbers(view.mended)))
    if view.notes:
        parts.append(headed("Of these readings", listed(view.notes)))
    if view.hidden:
        parts.append(headed("These readings could not have shown", listed(view.hidden)))
    hangs = [("left end", "; ".join(view.hang_left)), ("right end", "; ".join(view.hang_right))]
    parts += [headed("As described", facts(hangs)), headed("Mind", listed(view.cautions))]
    return Group(*parts)


def _readings(view: WeighView) -> Table:
    table = ruled("height", "way", "scale", "predicted", "difference", "fit", "")
    table.columns[1].justify = table.columns[-1].justify = "left"
    table.columns[0].justify = "right"
    for row in view.readings:
        marks = ["OFF"] if row.off else []
        marks += ["outside the lift"] if row.outside_the_lift else []
        table.add_row(
            row.height.text,
            row.way,
            row.reading.text,
            row.predicted.text,
            row.difference.text,
            row.fitted.text,
            ", ".join(marks),
        )
    return table


def _summary(view: WeighView) -> str:
    said = f"Scale less prediction: {view.mean} in the mean, {view.worst} at worst, {view.rms} rms."
    if view.left_out:
        numbers = ", ".join(str(number) for number in view.left_out)
        said += f" Not used for the fit: reading {numbers}."
    return said


def _causes(view: WeighView) -> list[RenderableType]:
    likely = [cause for cause in view.causes if cause.likely]
    others = [cause for cause in view.causes if not cause.likely][:_OTHERS]
    parts = []
    if likely:
        title = "Likely cause" if len(likely) == 1 else "Any of these explains it"
        if view.outcome == "shifted":
            title = "Any of these explains it; check these first"
        parts.append(headed(title, listed(_words(cause) for cause in likely)))
    if others and view.outcome not in _EXPLAINED:
        parts.append(headed("Tried, none of them fits", listed(_words(cause) for cause in others)))
    return parts


def _words(cause: CauseRow) -> str:
    return f"{cause.what} {cause.what_to_do} Left over: {cause.left_over} rms."


def _numbers(rows: tuple[NumberRow, ...]) -> Table:
    table = ruled("", "fitted", "as stated", "known from")
    table.columns[-1].justify = "left"
    for row in rows:
        table.add_row(row.name, row.fitted.text, row.stated.text, row.known_from)
    return table
