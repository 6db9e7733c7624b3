"""One chart of each sort, of our own invention, that the tests share."""

from __future__ import annotations

import datetime as dt
from functools import cache
from typing import TYPE_CHECKING

from tests.present.answers import ANSWERS
from tests.services.reps.cases import rep_of, rig_of
from topheavy.present.charts.by_height import loads_chart, rep_chart, strength_chart
from topheavy.present.charts.over_time import stops_chart, trend_chart, work_chart
from topheavy.present.charts.weeks import weeks_charts
from topheavy.present.figure import Figure, mass
from topheavy.present.loads.points import curve_points
from topheavy.present.loads.view import CurveView
from topheavy.present.rep.view import view_rep
from topheavy.present.review.rows import LiftReview, PointRow, StopRow, TrendRow, WorkRow
from topheavy.present.strength.view import StrengthView, view_strength
from topheavy.present.weeks.view import SessionRow, WeekRow, WeeksView
from topheavy.services.strength import answer_strength
from topheavy.units import METRIC

if TYPE_CHECKING:
    from topheavy.present.charts import Chart
    from topheavy.units import UnitSystem

DAYS = tuple(
    (dt.date(2026, 9, 1) + dt.timedelta(days=after)).isoformat() for after in (0, 6, 14, 21, 30)
)
EQUALS_KG = (118.2, 121.0, 119.5, 123.4, 122.8)
WORK_J = (9000.0, 9400.0, 0.0, 10250.0, 9800.0)
LOADS_KG = ((80.0, 96.0, 110.0), (84.0, 100.0, 114.0), (60.0, 70.0, 79.0))


def curve_view(units: UnitSystem = METRIC) -> CurveView:
    """The shared bench rig read over its lift; only what a chart reads is told."""
    answer = ANSWERS["bench"]
    return CurveView(
        title="Osric & co, bench press",
        dangers=(),
        hang_left=(),
        hang_right=(),
        straight_weight=mass(units, 80.0),
        surface="",
        loads=(),
        reached=(),
        over_the_lift=None,
        links=(),
        bands=(),
        band_notes=(),
        curve=curve_points(answer.reading, answer.straight, units),
        cautions=(),
    )


@cache
def strength_view(units: UnitSystem = METRIC) -> StrengthView:
    """What is known of the lifter of the shared bench rig."""
    return view_strength(answer_strength(ANSWERS["bench"].question.place), units)


def review(units: UnitSystem = METRIC) -> LiftReview:
    """A month of squats: one day without known work, chain from the third day on."""
    points = tuple(
        PointRow(
            day=day,
            equals=mass(units, equals),
            low=mass(units, equals - 4),
            high=mass(units, equals + 5),
            lifted="3 x 110",
            hung=number > 1,
            rig="A1" if number > 1 else "",
        )
        for number, (day, equals) in enumerate(zip(DAYS, EQUALS_KG, strict=True))
    )
    work = tuple(
        WorkRow(
            day=day,
            sets=5,
            reps=15,
            raising=Figure(done, "J", f"{done / 1e3:.1f} kJ") if done else None,
            lowering=None,
            basis="heights",
            unknown=int(number == 1),
        )
        for number, (day, done) in enumerate(zip(DAYS, WORK_J, strict=True))
    )
    trend = TrendRow(
        verdict="level",
        words="No change beyond noise.",
        first_day=DAYS[0],
        last_day=DAYS[-1],
        noise=mass(units, 2.4),
        first=mass(units, 119.0),
        last=mass(units, 123.0),
        band_low=mass(units, 116.6),
        band_high=mass(units, 121.4),
    )
    return LiftReview(
        title="Runa, squat",
        lifter="Runa",
        lift="squat",
        sets=25,
        first_day=DAYS[0],
        last_day=DAYS[-1],
        work=work,
        work_words="",
        bests=(),
        points=points,
        trend=trend,
        stops=(_stop("lower", 3, 0, 1), _stop("middle", 1, 2, 0)),
        stops_words="",
        shares=(),
        shares_words="",
        next=None,
        remarks=(),
    )


def _stop(third: str, straight: int, hung: int, tired: int) -> StopRow:
    return StopRow(
        third=third,
        straight=straight,
        hung=hung,
        tired=tired,
        height=None,
        load=None,
        hung_there=None,
        hung_top=None,
        words="",
    )


def weeks_view(units: UnitSystem = METRIC) -> WeeksView:
    """Two weeks of one lifter in one lift: two days, then a deload."""
    days = ((1, "heavy"), (1, "speed"), (2, "heavy, deload"))
    rows = tuple(
        _session(week, kind, tuple(mass(units, load) for load in loads))
        for (week, kind), loads in zip(days, LOADS_KG, strict=True)
    )
    return WeeksView(
        title="Winter",
        gym="A gym",
        block="Winter",
        shown="Runa",
        mass_unit=units.mass_unit,
        lifters=("Runa",),
        weeks=tuple(_week(number) for number in (1, 2)),
        sessions=rows,
        numbers=(),
        flags=(),
        flags_elsewhere=0,
        sources=(),
        cautions=(),
        promise="",
    )


def _week(number: int) -> WeekRow:
    return WeekRow(
        number=number,
        iso_week="",
        monday="",
        sunday="",
        dates="",
        wave="",
        week_of_wave="",
        deload=False,
        test=False,
    )


def _session(week: int, kind: str, loads: tuple[Figure, ...]) -> SessionRow:
    return SessionRow(
        week=week,
        date="2026-11-25",
        weekday="Wednesday",
        time="",
        lasts_min=60,
        day=0,
        of_weekday=1,
        lifter="Runa",
        lift="squat",
        station="rack 1",
        kind=kind,
        deload="deload" in kind,
        sets=5,
        reps=3,
        work="5 x 3",
        reserve="",
        planned="",
        of_planned="",
        plan_of="",
        rig="",
        straight=loads[0],
        bottom=loads[0],
        mean=loads[1],
        top=loads[2],
        plates_a_side="",
        share=None,
        share_of="",
        of_best=None,
        effort=None,
        work_done=None,
        note="",
    )


@cache
def all_charts(units: UnitSystem = METRIC) -> dict[str, Chart]:
    """Every sort of chart by name."""
    lift = review(units)
    over_time = (trend_chart(lift, units), work_chart(lift), stops_chart(lift))
    charts = (
        loads_chart(curve_view(units), units),
        strength_chart(strength_view(units), units),
        rep_chart(view_rep(rep_of(), rig_of(), units), units),
        *(chart for chart in over_time if chart is not None),
        *weeks_charts(weeks_view(units), units),
    )
    return {chart.name: chart for chart in charts}
