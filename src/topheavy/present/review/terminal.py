"""A review on the terminal: the news first, then what it rests on."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from rich.console import Group
from rich.padding import Padding
from rich.text import Text

from topheavy.present.review.words import day_words, span_words
from topheavy.present.terminal import (
    ACCENT,
    LINE,
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
    from collections.abc import Sequence

    from rich.console import RenderableType
    from rich.table import Table

    from topheavy.present.review.rows import BestRow, LiftReview, NextRow, ReviewView, WorkRow

_SHOWN_DAYS: Final = 12
_SHOWN_WORK: Final = 6
_SHOWN_BESTS: Final = 5
_SAME: Final = 5e-4
_CELLS: Final = (26, 18, 10)


def render_review(view: ReviewView) -> RenderableType:
    """Lay a review out for the terminal: one lifter whole, of several the news of each."""
    several = len({lift.lifter for lift in view.lifts}) > 1
    parts: list[RenderableType] = [
        Text(view.title, style=ACCENT),
        Text(f"{view.gym}.", style=QUIET),
    ]
    for lift in view.lifts:
        parts += [Text(""), *(_news(lift) if several else _lift(lift))]
    if several:
        parts += [Text(""), Text("With --lifter NAME all that the log says of one.", style=QUIET)]
    if view.quiet:
        parts.append(headed("Nothing to review yet", listed(view.quiet)))
    if view.lifts:
        parts.append(headed("Sources", listed(view.sources)))
        parts.append(headed("Mind", listed((*view.cautions, view.promise))))
    return Group(*parts)


def _lift(lift: LiftReview) -> list[RenderableType]:
    span = span_words(lift.first_day, lift.last_day)
    parts: list[RenderableType] = [
        Text(lift.title, style=ACCENT),
        Text(f"{lift.sets} sets on {_counted(len(lift.work), 'day')}, {span}.", style=QUIET),
        headed("Trend", Text(lift.trend.words)),
    ]
    if lift.points:
        parts += [Text(""), Padding(_points(lift), (0, 0, 0, 2))]
    if lift.next:
        parts.append(headed(f"Next week: {_lowered(lift.next.kind)}", _next(lift.next)))
    if lift.bests:
        parts.append(headed("Bests, on equal terms", _bests(lift.bests)))
    parts.append(headed("Work", _work(lift.work), Text(lift.work_words, style=QUIET)))
    parts.append(headed("Where lifts fail", *_stops(lift)))
    parts.append(headed("Which share served", *_shares(lift)))
    if lift.remarks:
        parts.append(headed("Know", listed(lift.remarks)))
    return parts


def _lowered(text: str) -> str:
    return text[:1].lower() + text[1:]


def _counted(count: int, what: str) -> str:
    return f"1 {what}" if count == 1 else f"{count} {what}s"


def _news(lift: LiftReview) -> list[RenderableType]:
    """Trend, best and next week of one lifter in a few lines."""
    pairs = [("trend", lift.trend.words)]
    if lift.bests:
        best = lift.bests[0]
        least = "" if best.told else "at least "
        single = f"{least}{best.equals} as a straight single, {_bare(best.low.text)} to {best.high}"
        pairs.append(("best", f"{single}: {best.lifted}, {best.rig}, {day_words(best.day)}"))
    if lift.next:
        pairs.append(("next week", f"{lift.next.kind}: {lift.next.work} with {lift.next.straight}"))
        pairs.append(("why", " ".join(lift.next.reasons)))
    return [Text(lift.title, style=ACCENT), Padding(facts(pairs), (0, 0, 0, 2))]


def _points(lift: LiftReview) -> RenderableType:
    """The last days that tell, a line for each as far as the straight single it stands for."""
    shown = lift.points[-_SHOWN_DAYS:]
    least = min(row.low.value for row in shown)
    rows = [
        ChartRow(
            height=day_words(row.day),
            reach=row.equals.value,
            mark=None,
            beside=(row.equals.text, row.lifted + (" +" if row.hung else "")),
        )
        for row in shown
    ]
    first = min(shown, key=lambda row: row.low.value).low
    plus = ", + with chain or bands" if any(row.hung for row in shown) else ""
    heads = ("", f"{LINE} from {first}", "single", f"lifted{plus}")
    whole = [_drawn(rows, cells, heads, least) for cells in _CELLS]
    bare = [replace(row, beside=row.beside[:1]) for row in rows]
    tight = [_drawn(bare, cells, heads[:3], least) for cells in _CELLS[1:]]
    return FirstThatFits((*whole, *tight))


def _drawn(rows: Sequence[ChartRow], cells: int, heads: tuple[str, ...], least: float) -> Table:
    table = height_chart(rows, cells, heads=heads, least=least)
    table.columns[-1].justify = "left"
    return table


def _next(row: NextRow) -> RenderableType:
    return facts(
        [
            ("do", f"{row.work} with {row.straight} straight weight{_change(row)}"),
            ("hang", row.rig),
            ("on the bar", _loads(row)),
            ("that is", row.of_best),
            ("plates a side", row.plates_a_side),
            ("why", " ".join(row.reasons)),
        ]
    )


def _loads(row: NextRow) -> str:
    if row.bottom is None or row.mean is None or row.top is None or row.bottom == row.top:
        return ""
    return f"{row.bottom} at the bottom, {row.mean} mean, {row.top} at the top"


def _change(row: NextRow) -> str:
    """How much more or less, of the mean load; nothing where it stays."""
    text = row.change.text
    if abs(row.change.value) < _SAME:
        return ""
    return f", {text if text.startswith('-') else f'+{text}'} of the mean load"


def _bests(bests: Sequence[BestRow]) -> RenderableType:
    table = ruled("stands for", "range", "lifted")
    for column in table.columns:
        column.justify = "left"
    for row in bests[:_SHOWN_BESTS]:
        table.add_row(
            row.equals.text if row.told else f"at least {row.equals}",
            f"{_bare(row.low.text)} to {row.high}",
            Text(f"{row.lifted}, {day_words(row.day)}\n", end="").append(row.rig, style=QUIET),
        )
    more = len(bests) - _SHOWN_BESTS
    if more <= 0:
        return table
    return Group(table, Text(f"and {more} rigs more, lower", style=QUIET))


def _bare(text: str) -> str:
    return text.partition(" ")[0]


def _work(work: Sequence[WorkRow]) -> RenderableType:
    table = FirstThatFits((_days(work, whole=True), _days(work, whole=False)))
    more = len(work) - _SHOWN_WORK
    if more <= 0:
        return table
    return Group(table, Text(f"and {more} days before; --json shows them", style=QUIET))


def _days(work: Sequence[WorkRow], *, whole: bool) -> Table:
    """The last days; on a narrow terminal what was reckoned from what is left out."""
    table = ruled("day", "sets", "reps", "raising", "lowering", *(("from",) if whole else ()))
    for row in work[-_SHOWN_WORK:]:
        cells = [
            day_words(row.day),
            str(row.sets),
            str(row.reps),
            row.raising.text if row.raising else "not known",
            row.lowering.text if row.lowering else "",
        ]
        table.add_row(*cells, *((row.basis,) if whole else ()))
    if whole:
        table.columns[-1].justify = "left"
    return table


def _stops(lift: LiftReview) -> list[RenderableType]:
    counted = [
        (f"{row.third} third", row.words) for row in reversed(lift.stops) if row.words != "none"
    ]
    return [*([facts(counted)] if counted else []), Text(lift.stops_words)]


def _shares(lift: LiftReview) -> list[RenderableType]:
    told = [
        (
            row.share,
            (
                f"{row.per_week} a week, {_bare(row.low.text)} to {row.high}; {row.days} days, "
                f"{day_words(row.first_day)} to {day_words(row.last_day)}"
            ),
        )
        for row in lift.shares
    ]
    return [*([facts(told)] if told else []), Text(lift.shares_words)]
