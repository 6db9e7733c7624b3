"""What to try after a single that was logged: the next attempt, loaded with the gym's plates."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from topheavy.errors import TopheavyError
from topheavy.gym.lifts import lift_named
from topheavy.rigging.limits import Limits
from topheavy.services.at_the_rack import left_on, stand
from topheavy.services.rig import Place
from topheavy.services.top_set import gear_under
from topheavy.services.work import with_straight
from topheavy.training.attempt_plates import load_attempt
from topheavy.training.attempts import LastAttempt, next_attempt

if TYPE_CHECKING:
    from collections.abc import Sequence

    from topheavy.gym.gym import Gym
    from topheavy.gym.log import LoggedSet
    from topheavy.phrase import Phrase
    from topheavy.services.at_the_rack import LeftOn
    from topheavy.training.work import Step, Work


_SAME_KG = 1e-3


@dataclass(frozen=True, slots=True, kw_only=True)
class Advice:
    """What to do after an attempt.

    Parameters
    ----------
    step : Step or None
        The next attempt; None: stop here.
    reason : Phrase
        Why.
    """

    step: Step | None
    reason: Phrase


def after_attempt(work: Work, gym: Gym, sets: Sequence[LoggedSet]) -> Advice | None:
    """Say what to try next.

    Parameters
    ----------
    work : Work
        Of the day.
    gym : Gym
        Its bars and plates.
    sets : sequence of LoggedSet
        This work's sets in the log, in the order they were lifted, none that was struck out.

    Returns
    -------
    Advice or None
        None where the last set was no attempt, and where plates make no such step.

    Notes
    -----
    Sets of work other than singles up to a max have no advice of their own: the kind of day says
    how many reps to leave, and the coach decides.
    """
    if work.limit_hung_kg is None or not sets:
        return None
    firsts = [step.number for step in work.steps if step.kind in {"attempt", "top set"}]
    tried = [one for one in sets if one.number is not None and one.number >= firsts[0]]
    if not tried or tried[-1] is not sets[-1]:
        return None
    last = tried[-1]
    step = work.steps[-1]
    place = Place(
        gym=gym,
        lifter=gym.lifter(work.lifter),
        lift=lift_named(work.lift),
        station=gym.station(work.station),
    )
    hung = step.bar.hung
    loops = (bool(hung.left or hung.right) + len(hung.bands)) if hung else 0
    gear = gear_under(place.setup, Limits().loop_width_m, loops)
    done = LastAttempt(
        load_kg=last.straight_kg + work.limit_hung_kg,
        made=not last.missed,
        number=len(tried),
        missed_before=len(tried) > 1 and tried[-2].missed,
        reps_left=None if last.missed else last.reps_left,
    )
    try:
        found = load_attempt(next_attempt(done), last.straight_kg, work.limit_hung_kg, gear)
    except TopheavyError:
        return None  # other plates were on than the gym has: nobody can say
    if found.plates is None:
        return Advice(step=None, reason=found.advice.reason)
    other = with_straight(step, round(found.plates.straight_kg, 6))
    plates_kg = tuple(plate.mass_kg for plate in found.plates.stack)
    return Advice(
        step=replace(
            other,
            number=(last.number or 0) + 1,
            kind="attempt",
            bar=replace(other.bar, plates_kg=plates_kg),
            rest_s=found.advice.rest_s,
        ),
        reason=found.advice.reason,
    )


def left_at(
    works: Sequence[Work], sets: Sequence[LoggedSet], station: str, gym: Gym
) -> LeftOn | None:
    """Say what the last set at a station left on its bar; knows attempts that were advised too.

    Parameters
    ----------
    works : sequence of Work
        Everybody's of the day.
    sets : sequence of LoggedSet
        Of the day, in the order they were lifted.
    station : str
        Where.
    gym : Gym
        Its bars and plates.
    """
    left = left_on(works, sets, station)
    if left is None or left.bar is not None:
        return left
    for work in works:
        done = stand(work, sets).done
        if done and done[-1] is left.logged:
            before = after_attempt(work, gym, done[:-1])
            step = before.step if before else None
            if step and abs(step.straight_kg - left.logged.straight_kg) < _SAME_KG:
                return replace(left, bar=step.bar)
    return left
