"""What the phone's page is filled with: every set of the work, the one that is next shown."""

from __future__ import annotations

import json
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any
from urllib.parse import urlencode

from topheavy.gym.lifts import lift_named
from topheavy.present.work.bar_sketch import bar_sketch
from topheavy.services.at_the_rack import stand
from topheavy.web.rack.today import rack_view, read_today

if TYPE_CHECKING:
    from topheavy.present.work.view import RackView, StepView
    from topheavy.training.work import Work
    from topheavy.units import UnitSystem
    from topheavy.web.access import Visitor
    from topheavy.web.desk import Desk
    from topheavy.web.rack.today import Today

_SPOT = frozenset({"spotter", "safeties", "clear"})


@dataclass(frozen=True, slots=True, kw_only=True)
class Shown:
    """A set on the page: itself, its bar as a sketch, and whether it is the one to do now."""

    step: StepView
    sketch: str
    now: bool
    planned: str = ""


def live_values(
    desk: Desk, visitor: Visitor, units: UnitSystem, *, lifter: str, lift: str, step: int | None
) -> dict[str, Any]:
    """Fill the page of one lifter.

    Parameters
    ----------
    desk : Desk
        Store and gym.
    visitor : Visitor
        Who looks; a lifter sees their own.
    units : UnitSystem
        What to show.
    lifter, lift : str
        Whose and which; the first that is not done when the lift is left out.
    step : int or None
        Which set to show instead of the next.
    """
    name = lifter or visitor.lifter
    visitor.must_see(name)
    today = read_today(desk)
    mine = today.of(visitor, name)
    values: dict[str, Any] = {"lifter": mine[0].lifter if mine else name, "day": today.day}
    if not mine:
        part = f"/part/rack?{urlencode({'lifter': name})}"
        return {**values, "rack": None, "lifts": (), "back": "/rack", "part": part}
    work = _chosen(mine, today, lift)
    view = rack_view(desk, today, work, units)
    shown = _shown(view, work, step)
    back = _address(visitor, work)
    return {
        **values,
        "rack": view,
        "lifts": tuple((one.lift, _address(visitor, one), one is work) for one in mine),
        "back": back,
        "part": back.replace("/rack", "/part/rack", 1),
        "sets": shown,
        "current": next((one for one in shown if one.now), None),
        "data": json.dumps(_data(view, work)),
        "spot": [one.say(units) for one in work.cautions if one.code in _SPOT],
        "on_floor": lift_named(work.lift).station == "platform",
    }


def _chosen(mine: tuple[Work, ...], today: Today, lift: str) -> Work:
    named = [one for one in mine if one.lift == lift]
    unfinished = [one for one in mine if stand(one, today.sets).next_number is not None]
    return (*named, *unfinished, *mine)[0]


def _address(visitor: Visitor, work: Work) -> str:
    words = {"lifter": work.lifter} if visitor.coach else {}
    return f"/rack?{urlencode({**words, 'lift': work.lift})}"


def _shown(view: RackView, work: Work, step: int | None) -> tuple[Shown, ...]:
    number = step if step and step <= len(work.steps) else view.next_number
    advice = view.advice
    if step is None and advice is not None:
        number = None
    state = _state(view)
    found = []
    for one, planned in zip(view.work.steps, work.steps, strict=True):
        lines = view.left.changes[one.state] if view.left else view.work.changes[state][one.state]
        found.append(
            Shown(
                step=replace(one, change=lines),
                sketch=bar_sketch(planned.bar),
                now=one.number == number,
            )
        )
    if step is None and advice is not None and advice.step is not None:
        kg = f"{advice.step.straight.value:.10g} kg"
        found.append(Shown(step=advice.step, sketch="", now=True, planned=kg))
    return tuple(found)


def _state(view: RackView) -> int:
    """Which bar the last logged set left, from 1; 0 before the first."""
    states = {one.number: one.state for one in view.work.steps}
    last = view.done[-1].number if view.done else None
    return states.get(last or 0, 0)


def _data(view: RackView, work: Work) -> dict[str, Any]:
    """What the page's scripts know, so that they can go on without the network."""
    return {
        "work": work.id,
        "lifter": work.lifter,
        "lift": work.lift,
        "session": work.session,
        "steps": [
            {"number": one.number, "state": one.state, "reps": one.reps, "rest_s": one.rest_s}
            for one in view.work.steps
        ],
        "changes": view.work.changes,
        "left": {"lifter": view.left.lifter, "changes": view.left.changes} if view.left else None,
        "done": [{"id": one.id, "number": one.number} for one in view.done],
        "advised": bool(view.advice),
    }
