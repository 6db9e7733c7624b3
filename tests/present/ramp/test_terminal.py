"""A ramp and a session on terminals, in kg and lb."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

import pytest

from tests.present.figures import figures
from tests.present.printing import printed
from tests.services.training import ramp, session
from topheavy.present.jsonable import plain
from topheavy.present.ramp.terminal import render_ramp
from topheavy.present.ramp.view import view_ramp
from topheavy.present.session.terminal import render_session
from topheavy.present.session.view import view_session
from topheavy.services.ramp import RampAnswer, Tried
from topheavy.training.days import DAY_NAMES
from topheavy.units import METRIC, POUNDS, UnitSystem

if TYPE_CHECKING:
    from topheavy.services.session import SessionAnswer

RAMPS = {
    "plain": ramp(),
    "no best": ramp(best_kg=None),
    "late chain": ramp(chain_from=3),
    "singles": ramp(singles=True),
    "missed": ramp(singles=True, tried=Tried(straight_kg=65.0, made=False)),
    "stop": ramp(singles=True, tried=Tried(straight_kg=65.0, made=True, reps_left=0)),
}
SESSIONS = {name: session(name) for name in DAY_NAMES} | {
    "nobody": session(best_kg=None),
    "too heavy": session(best_kg=60.0),
}
BOTH = pytest.mark.parametrize("units", [METRIC, POUNDS], ids=["kg", "lb"])
EACH_RAMP = pytest.mark.parametrize("answer", RAMPS.values(), ids=RAMPS)
EACH_SESSION = pytest.mark.parametrize("answer", SESSIONS.values(), ids=SESSIONS)


def _plain(text: str) -> str:
    return re.sub(r"\s+", " ", text)


@BOTH
@EACH_RAMP
@pytest.mark.parametrize("width", [40, 80, 120])
def test_a_ramp_fits(answer: RampAnswer, units: UnitSystem, width: int) -> None:
    text = printed(render_ramp(view_ramp(answer, units)), width)
    assert max(len(line.rstrip()) for line in text.splitlines()) <= width
    assert "\u2026" not in text


@BOTH
@EACH_RAMP
def test_all_of_a_ramp_is_told(answer: RampAnswer, units: UnitSystem) -> None:
    view = view_ramp(answer, units)
    text = _plain(printed(render_ramp(view)))
    words = [view.title, view.verdict, view.shares, view.between, view.hang_left, view.proof]
    words += [*view.remarks, *view.cautions, *view.protocol]
    for row in view.rows:
        rest = f" {row.rest.text}" if row.rest else ""
        loads = " ".join(one.text.split(" ")[0] for one in (row.bottom, row.mean, row.top))
        words += [f"{row.reps} {row.change} {loads} {row.share.text}{rest}", row.plates_a_side]
    for percent in view.percents:
        words.append(f"{percent.load} {percent.mass.text} {percent.of_best.text}")
    if view.next_attempt is not None:
        words += [view.next_attempt.reason, view.next_attempt.plates_a_side]
        assert ("Stop." in text) == view.next_attempt.stops
    for said in words:
        assert _plain(said) in text, said


@BOTH
def test_changes_lead_from_stack_to_stack(units: UnitSystem) -> None:
    """Read off the words alone: what is off was outermost, what is on is outside then."""
    rows = view_ramp(ramp(), units).rows
    stack: list[str] = []
    for row in rows:
        for part in row.change.split("; "):
            word, _, marks = part.partition(" ")
            if word == "off":
                for mark in marks.split(", "):
                    assert stack.pop() == mark
            elif word == "on":
                stack += marks.split(", ")
        assert row.plates_a_side == (" + ".join(stack) or "no plates")


@BOTH
@EACH_SESSION
@pytest.mark.parametrize("width", [40, 80])
def test_a_session_fits(answer: SessionAnswer, units: UnitSystem, width: int) -> None:
    text = printed(render_session(view_session(answer, units)), width)
    assert max(len(line.rstrip()) for line in text.splitlines()) <= width
    assert "\u2026" not in text


@BOTH
@EACH_SESSION
def test_all_of_a_session_is_told(answer: SessionAnswer, units: UnitSystem) -> None:
    view = view_session(answer, units)
    text = _plain(printed(render_session(view), 200))
    words = [view.title, view.work, view.rest, view.aim, view.reps_left, view.stop, view.speed]
    words += [view.effort, view.to_failure, view.usual, view.plates_a_side, view.volume_note]
    words += [*view.remarks, *view.sources, *view.cautions]
    for load in view.loads:
        of_best = f" {load.of_best.text}" if load.of_best else ""
        words.append(f"{load.load} {load.mass.text}{of_best}")
    for row in view.volume:
        words.append(f"{row.entered_with} {row.of_best.text} {row.row} {row.set_reps} {row.total}")
        words.append(row.verdict)
    words += [f"{row.base} {row.share.text}" for row in view.shares]
    for said in words:
        assert _plain(said) in text, said


@EACH_SESSION
def test_the_weakness_of_the_table_is_said_wherever_it_is_used(answer: SessionAnswer) -> None:
    view = view_session(answer, METRIC)
    assert bool(view.volume) == ("Known weakness" in view.volume_note)


@EACH_RAMP
def test_pounds_are_the_same_masses(answer: RampAnswer) -> None:
    metric, pounds = view_ramp(answer, METRIC), view_ramp(answer, POUNDS)
    pairs = zip(figures(metric), figures(pounds), strict=True)
    assert all(one.value == other.value for one, other in pairs)
    assert not any(one.text.endswith(" kg") for one in figures(pounds))


def test_views_become_json() -> None:
    for view in (view_ramp(RAMPS["missed"], METRIC), view_session(SESSIONS["speed"], METRIC)):
        assert plain(view)["lifter"] == "Ansa"
