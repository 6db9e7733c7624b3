"""A session on the terminal."""

from __future__ import annotations

from typing import TYPE_CHECKING

from rich.console import Group
from rich.text import Text

from topheavy.present.terminal import ACCENT, QUIET, FirstThatFits, facts, headed, listed, ruled

if TYPE_CHECKING:
    from rich.console import RenderableType
    from rich.table import Table

    from topheavy.present.session.view import SessionView


def render_session(view: SessionView) -> RenderableType:
    """Lay a session out, most wanted first."""
    parts: list[RenderableType] = [
        Text(view.title, style=ACCENT),
        Text(f"{view.gym}. {view.verdict}", style=QUIET),
        headed(f"{view.work}, rest {view.rest} between sets", facts(_work(view))),
        headed("Hang this", facts(_hang(view))),
        headed(f"On the bar{f', of the best {view.best}' if view.best else ''}", _loads(view)),
        headed(
            "Accommodating share, each base", facts((r.base, r.share.text) for r in view.shares)
        ),
    ]
    if view.remarks:
        parts.append(headed("Know", listed(view.remarks)))
    if view.volume:
        total = view.sets * view.reps
        title = f"Volume: {view.reps} a set, {total} in all, against the repetition table"
        parts.append(headed(title, _volume(view), Text(""), Text(view.volume_note, style=QUIET)))
    parts += [headed("Sources", listed(view.sources)), headed("Mind", listed(view.cautions))]
    return Group(*parts)


def _work(view: SessionView) -> tuple[tuple[str, str], ...]:
    return (
        ("how", view.aim),
        ("reserve", view.reps_left),
        ("stop", view.stop),
        ("speed", view.speed),
        ("effort", view.effort),
        ("reps to failure", view.to_failure),
        ("usual load", view.usual),
    )


def _hang(view: SessionView) -> tuple[tuple[str, str], ...]:
    return (
        ("left end", view.hang_left),
        ("right end", view.hang_right),
        ("feeders", view.feeder),
        ("plates a side", view.plates_a_side),
    )


def _loads(view: SessionView) -> Table:
    best = "of the best" if view.best else ""
    table = ruled("load", "on the bar", *((best,) if best else ()))
    for row in view.loads:
        cells = [row.load, row.mass.text]
        table.add_row(*cells, *((row.of_best.text if row.of_best else "",) if best else ()))
    return table


def _volume(view: SessionView) -> RenderableType:
    """The repetition table, or on a narrow terminal a line for each load it was entered with."""
    table = ruled("with", "of best", "row", "a set", "in all", "so")
    for column in table.columns[2:]:
        column.justify = "left"
    for row in view.volume:
        table.add_row(
            row.entered_with, row.of_best.text, row.row, row.set_reps, row.total, row.verdict
        )
    lines = listed(
        f"{row.entered_with} {row.of_best}: {row.row}, {row.set_reps} a set, {row.total} in all: "
        f"{row.verdict}"
        for row in view.volume
    )
    return FirstThatFits((table, lines))
