"""A review to print: one page for each lifter and lift, with its charts."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any, Final

from topheavy.errors import BadInputError
from topheavy.present.charts.inks import LIGHT
from topheavy.present.charts.over_time import trend_chart, work_chart
from topheavy.present.charts.render import chart_svg
from topheavy.present.charts.sizes import PAPER, Size
from topheavy.present.review.words import day_words, span_words
from topheavy.present.typeset import INKS, paper_for, typeset
from topheavy.present.weeks.sheet import halves

if TYPE_CHECKING:
    from topheavy.present.charts.chart import Chart
    from topheavy.present.review.rows import LiftReview, NextRow, ReviewView
    from topheavy.units import UnitSystem

_SIZES_PT: Final = (9.8, 9.4, 9.0, 8.6, 8.2, 7.8, 7.4, 7.0)
"""Sizes of the type [pt], the largest that keeps each review on its page; no text is ever cut."""

_HALF: Final = Size(width=250, type_size=9.5, least_tall=0.55, keys=2)
_BESTS: Final = 4
_TEMPLATE: Final = Path(__file__).with_name("sheet.typ")


def review_pdf(view: ReviewView, units: UnitSystem) -> bytes:
    """Set a review: A4 in kg and US Letter in lb, a page for each lifter and lift.

    Parameters
    ----------
    view : ReviewView
        What is on it.
    units : UnitSystem
        Those of the view.

    Returns
    -------
    bytes
        A PDF as `topheavy.present.typeset.typeset` makes it.

    Raises
    ------
    BadInputError
        Nothing to print, or names too long for a page; or what draws charts is not installed.
    """
    if not view.lifts:
        raise BadInputError(
            "There is nothing to print",
            field="review",
            got="no sets",
            wanted="sets in the log of these days",
        )
    pictures: dict[str, str] = {}
    pages = [_page(lift, number, units, pictures) for number, lift in enumerate(view.lifts)]
    data = {
        "paper": paper_for(units),
        "inks": INKS,
        "title": view.title,
        "gym": view.gym,
        "sizes_pt": list(_SIZES_PT),
        "pages": pages,
        "sources": list(view.sources),
        "cautions": halves([*view.cautions, view.promise]),
    }
    refused = BadInputError("No room on the page", field="review", wanted="shorter names")
    return typeset(_TEMPLATE, data, pictures, refused)


def _page(
    lift: LiftReview, number: int, units: UnitSystem, pictures: dict[str, str]
) -> dict[str, Any]:
    """Words, numbers and names of drawings of one page."""
    trend = _drawn(trend_chart(lift, units, f"trend-{number}"), PAPER, pictures)
    work = _drawn(work_chart(lift, f"work-{number}"), _HALF, pictures)
    return {
        "title": lift.title,
        "about": f"{lift.sets} sets, {span_words(lift.first_day, lift.last_day)}",
        "trend": trend,
        "trend_words": lift.trend.words,
        "next": _next(lift.next) if lift.next else None,
        "bests": [
            {
                "lifted": row.lifted,
                "rig": row.rig,
                "day": day_words(row.day),
                "equals": row.equals.text if row.told else f"at least {row.equals}",
                "range": f"{row.low.text.partition(' ')[0]} to {row.high}",
            }
            for row in lift.bests[:_BESTS]
        ],
        "more": max(len(lift.bests) - _BESTS, 0),
        "work": work,
        "work_words": lift.work_words,
        "stops": [{"third": row.third, "words": row.words} for row in reversed(lift.stops)],
        "stops_words": lift.stops_words,
        "shares": [
            {
                "share": row.share,
                "when": f"{day_words(row.first_day)} to {day_words(row.last_day)}, {row.days} days",
                "slope": f"{row.per_week} a week, {row.low.text.partition(' ')[0]} to {row.high}",
            }
            for row in lift.shares
        ],
        "shares_words": lift.shares_words,
        "remarks": list(lift.remarks),
    }


def _drawn(chart: Chart | None, size: Size, pictures: dict[str, str]) -> dict[str, str] | None:
    """Draw a chart, and say by which name the template finds it and what it shows."""
    if chart is None:
        return None
    pictures[chart.name] = chart_svg(chart, size, {**LIGHT, "ground": "none"})
    return {"name": chart.name, "title": chart.title, "alt": f"{chart.title}. {chart.words}"}


def _next(row: NextRow) -> dict[str, Any]:
    loads = [("bottom", row.bottom), ("mean", row.mean), ("top", row.top)]
    hung = row.bottom is not None and row.top is not None and row.bottom != row.top
    return {
        "kind": row.kind,
        "work": row.work,
        "straight": row.straight.text,
        "loads": [[name, load.text] for name, load in loads if hung and load],
        "rig": row.rig,
        "plates": row.plates_a_side,
        "of_best": row.of_best,
        "why": " ".join(row.reasons),
    }
