"""The work of the day as frozen views: for the phone, the terminal and programs alike."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING

from topheavy.present.figure import Figure, mass
from topheavy.present.ramp.words import rest_text
from topheavy.present.work.words import (
    change_lines,
    done_words,
    goal_words,
    hung_words,
    kind_words,
    stack_words,
    stop_words,
)
from topheavy.training.bar_changes import changes
from topheavy.training.on_bar import BARE

if TYPE_CHECKING:
    from topheavy.gym.log import LoggedSet
    from topheavy.services.after_attempt import Advice
    from topheavy.services.at_the_rack import LeftOn, Standing
    from topheavy.training.on_bar import OnBar
    from topheavy.training.work import Step, Work
    from topheavy.units import UnitSystem


@dataclass(frozen=True, slots=True, kw_only=True)
class StepView:
    """One set to do.

    `change` is what to do to the bar since the set before it, `state` which of the work's bars is
    loaded, from 1.
    """

    number: int
    kind: str
    state: int
    plates: str
    hung: str
    straight: Figure
    bottom: Figure
    mean: Figure
    top: Figure
    reps: int
    goal: str
    stop: str
    rest: str
    rest_s: float
    change: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class WorkView:
    """Work of one lifter; `changes[a][b]` leads from bar a to bar b, where bar 0 is bare."""

    id: str
    day: str
    lifter: str
    lift: str
    station: str
    kind: str
    aim: str
    at: str
    source: str
    session: str
    steps: tuple[StepView, ...]
    changes: tuple[tuple[tuple[str, ...], ...], ...]
    cautions: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class DoneRow:
    """A set of it in the log."""

    id: str
    number: int | None
    time: str
    straight: Figure
    top: Figure
    words: str
    note: str
    by: str


@dataclass(frozen=True, slots=True, kw_only=True)
class AdviceView:
    """What to try after an attempt; no step: stop."""

    reason: str
    step: StepView | None


@dataclass(frozen=True, slots=True, kw_only=True)
class LeftView:
    """What the last set left on the bar, and the way from there to each bar of the work.

    Only where somebody else lifted it, or where it is no bar of this work.
    """

    lifter: str
    time: str
    known: bool
    changes: tuple[tuple[str, ...], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class RackView:
    """Work, what was done of it, and what comes next."""

    work: WorkView
    done: tuple[DoneRow, ...]
    next_number: int | None
    advice: AdviceView | None
    left: LeftView | None


@dataclass(frozen=True, slots=True, kw_only=True)
class DayView:
    """The work of a day, with what was done of it."""

    day: str
    work: tuple[RackView, ...]


@lru_cache(maxsize=512)
def view_work(work: Work, units: UnitSystem) -> WorkView:
    """Put work into words and figures.

    Parameters
    ----------
    work : Work
        Of the day.
    units : UnitSystem
        What the user wants to see.
    """
    bars = (BARE, *work.bars)
    before = BARE
    steps = []
    for step in work.steps:
        steps.append(step_view(step, before, bars.index(step.bar), work.lift, units))
        before = step.bar
    return WorkView(
        id=work.id,
        day=work.day,
        lifter=work.lifter,
        lift=work.lift,
        station=work.station,
        kind=kind_words(work),
        aim=work.aim,
        at=work.at,
        source=work.source,
        session=work.session,
        steps=tuple(steps),
        changes=tuple(_ways(bar, work) for bar in bars),
        cautions=tuple(remark.say(units) for remark in work.cautions),
    )


def step_view(step: Step, before: OnBar, state: int, lift: str, units: UnitSystem) -> StepView:
    """Put one set into words and figures."""
    return StepView(
        number=step.number,
        kind=step.kind,
        state=state,
        plates=stack_words(step.bar.plates_kg),
        hung=hung_words(step.bar.hung),
        straight=mass(units, step.straight_kg),
        bottom=mass(units, step.bottom_kg),
        mean=mass(units, step.mean_kg),
        top=mass(units, step.top_kg),
        reps=step.reps,
        goal=goal_words(step),
        stop=stop_words(step),
        rest=rest_text(step.rest_s) if step.rest_s else "",
        rest_s=step.rest_s,
        change=change_lines(changes(before, step.bar), lift),
    )


def view_rack(
    standing: Standing, left: LeftOn | None, advice: Advice | None, units: UnitSystem
) -> RackView:
    """Put together what a phone at the rack shows.

    Parameters
    ----------
    standing : Standing
        Work and what was done of it.
    left : LeftOn or None
        What the last set at the station left on the bar.
    advice : Advice or None
        What to try after an attempt.
    units : UnitSystem
        What the user wants to see.
    """
    work = standing.work
    strange = left is not None and (left.lifter != work.lifter or left.bar not in work.bars)
    other = left if strange else None
    return RackView(
        work=view_work(work, units),
        done=tuple(_done(one, units) for one in standing.done),
        next_number=standing.next_number,
        advice=_advice(advice, standing, left, units) if advice else None,
        left=_left(other, work) if other else None,
    )


def _ways(bar: OnBar, work: Work) -> tuple[tuple[str, ...], ...]:
    """From a bar to every bar of the work; the first, bare one is never gone back to."""
    return ((), *(change_lines(changes(bar, one), work.lift) for one in work.bars))


def _left(left: LeftOn, work: Work) -> LeftView:
    return LeftView(
        lifter=left.lifter,
        time=left.logged.time,
        known=left.bar is not None,
        changes=_ways(left.bar or BARE, work),
    )


def _advice(
    advice: Advice, standing: Standing, left: LeftOn | None, units: UnitSystem
) -> AdviceView:
    reason = advice.reason.say(units)
    reason = f"{reason[0].upper()}{reason[1:]}."
    if advice.step is None:
        return AdviceView(reason=reason, step=None)
    before = left.bar if left and left.bar else BARE
    return AdviceView(
        reason=reason, step=step_view(advice.step, before, 0, standing.work.lift, units)
    )


def _done(one: LoggedSet, units: UnitSystem) -> DoneRow:
    return DoneRow(
        id=one.id,
        number=one.number,
        time=one.time,
        straight=mass(units, one.straight_kg),
        top=mass(units, one.rig.top_kg if one.rig else one.straight_kg),
        words=done_words(one),
        note=one.note,
        by=one.by,
    )
