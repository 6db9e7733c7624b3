"""Taking in sets that were sent: each for itself, idempotent, with no search and no gym to load."""

from __future__ import annotations

import threading
from dataclasses import replace
from functools import partial
from typing import TYPE_CHECKING, Any, Final

from pydantic import ValidationError

from topheavy.errors import BadInputError, TopheavyError
from topheavy.gym.log import LoggedSet, RigThen, check_straight
from topheavy.services.logged import as_known
from topheavy.services.work import with_straight
from topheavy.store.sets import add_each
from topheavy.store.work import find_work
from topheavy.training.work import Work
from topheavy.web.desk import now, today
from topheavy.web.problems import sayable
from topheavy.web.rack.words import SentSet, SetAnswer, SetAnswers, Trouble

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from topheavy.gym.gym import Gym
    from topheavy.store.sets import FindSet, Outcome
    from topheavy.web.access import Visitor
    from topheavy.web.desk import Desk

_KEPT: Final = 500
_TURN: Final = threading.Lock()
"""Writers of this process take turns here: fairer, and quicker, than waiting for the database."""

_Read = tuple[SentSet, "Work | Gym | None"]
"""A set as sent, and what it is filled in from; None for a correction."""

_SAME: Final = ("station", "day", "time", "session", "number", "reps", "reps_left",
                "speed_m_per_s", "missed", "third", "note")  # fmt: skip


class Works:
    """Work of the day by its id; it never changes, so it is fetched once."""

    def __init__(self) -> None:
        self._kept: dict[tuple[int, str], Work] = {}

    def get(self, desk: Desk, work_id: str) -> Work:
        """Find work; raises when there is none."""
        key = (desk.gym_id, work_id)
        found = self._kept.get(key)
        if found is None:
            found = find_work(desk.store, desk.gym_id, work_id).work
            if len(self._kept) >= _KEPT:
                self._kept.clear()
            self._kept[key] = found
        return found


def receive_sets(desk: Desk, visitor: Visitor, sent: Sequence[object], works: Works) -> SetAnswers:
    """Log what was sent and say what became of each.

    Parameters
    ----------
    desk : Desk
        Store and gym.
    visitor : Visitor
        Who sends; a lifter logs only their own.
    sent : sequence
        Sets as they came, not looked at yet.
    works : Works
        Work of the day that was fetched before.
    """
    makes = [partial(_made, visitor, _before(desk, works, one)) for one in sent]
    with _TURN:
        outcomes = add_each(desk.store, desk.gym_id, makes, at=now())
    return SetAnswers(
        answers=[_answer(one, outcome) for one, outcome in zip(sent, outcomes, strict=True)]
    )


def _before(desk: Desk, works: Works, raw: object) -> _Read | TopheavyError:
    """Look at all that can be looked at before the log is opened for writing."""
    try:
        words = SentSet.model_validate(raw)
        if words.corrects:
            return words, None
        return words, works.get(desk, words.work) if words.work else desk.source.read()[0]
    except ValidationError as error:
        return _malformed(error)
    except TopheavyError as error:
        return error


def _made(visitor: Visitor, read: _Read | TopheavyError, find: FindSet) -> LoggedSet:
    if isinstance(read, TopheavyError):
        raise read
    words, found = read
    if found is None:
        old = find(words.corrects)
        visitor.must_see(old.lifter)
        return _corrected(words, old, visitor)
    if words.struck:
        raise BadInputError(
            "Only a set that was logged can be struck out", field="corrects", wanted="its id"
        )
    if isinstance(found, Work):
        visitor.must_see(found.lifter)
        return _of_work(words, found, visitor)
    visitor.must_see(words.lifter)
    return as_known(found, _plain(words, visitor))


def _of_work(words: SentSet, work: Work, visitor: Visitor) -> LoggedSet:
    if words.step is None:
        raise BadInputError(
            "Which set of the work?", field="step", wanted=f"1 to {len(work.steps)}"
        )
    step = work.step(words.step)
    if words.straight_kg is not None:
        check_straight(words.straight_kg)
        step = with_straight(step, round(words.straight_kg, 6))
    return LoggedSet(
        id=words.id,
        lifter=work.lifter,
        lift=work.lift,
        station=work.station,
        day=work.day,
        session=work.session,
        number=words.number or step.number,
        straight_kg=step.straight_kg,
        rig=step.rig,
        by=visitor.name,
        **_how(words),
    )


def _plain(words: SentSet, visitor: Visitor) -> LoggedSet:
    if words.straight_kg is None:
        raise BadInputError(
            "Nobody said what was on the bar", field="straight_kg", wanted="bar, collars, plates"
        )
    return LoggedSet(
        id=words.id,
        lifter=words.lifter,
        lift=words.lift,
        station=words.station,
        day=words.day or today(),
        session=words.session,
        number=words.number,
        straight_kg=words.straight_kg,
        rig=_rig(words),
        by=visitor.name,
        **_how(words),
    )


def _corrected(words: SentSet, old: LoggedSet, visitor: Visitor) -> LoggedSet:
    new = {name: getattr(words, name) for name in _SAME}
    given = {name: value for name, value in new.items() if value not in {None, ""}}
    if words.missed is False:
        given["third"] = None
    if words.straight_kg is not None and old.rig is not None:
        raise BadInputError(
            "The loads were worked out with the old straight weight",
            field="straight_kg",
            got=words.straight_kg,
            wanted="strike the set out and log it anew",
        )
    if words.straight_kg is not None:
        given["straight_kg"] = words.straight_kg
    return replace(old, **given, id=words.id, corrects=old.id, struck=words.struck, by=visitor.name)


def _how(words: SentSet) -> dict[str, Any]:
    if words.reps is None:
        raise BadInputError("Nobody said how many repetitions", field="reps", wanted="a number")
    return {
        "time": words.time,
        "reps": words.reps,
        "reps_left": words.reps_left,
        "speed_m_per_s": words.speed_m_per_s,
        "missed": bool(words.missed) or words.third is not None,
        "third": words.third,
        "note": (words.note or "").strip(),
    }


def _rig(words: SentSet) -> RigThen | None:
    bottom, mean, top = words.bottom_kg, words.mean_kg, words.top_kg
    if bottom is None and mean is None and top is None:
        if words.hung:
            raise BadInputError(
                "Something hung, and no loads are given",
                field="hung",
                got=words.hung[:60],
                wanted="bottom_kg, mean_kg and top_kg as well",
            )
        return None
    if bottom is None or mean is None or top is None:
        raise BadInputError(
            "Not three loads", field="bottom_kg", wanted="bottom_kg, mean_kg and top_kg"
        )
    return RigThen(bottom_kg=bottom, mean_kg=mean, top_kg=top, words=words.hung.strip())


def _malformed(error: ValidationError) -> BadInputError:
    first = error.errors()[0]
    place = first["loc"]
    return BadInputError(
        "Unknown word in a set"
        if first["type"] == "extra_forbidden"
        else "A word of a set can't be taken",
        field=str(place[0]) if place else "set",
        got=repr(first["input"])[:60],
        wanted=str(first["msg"]).removeprefix("Input should be "),
    )


def _answer(raw: object, outcome: Outcome) -> SetAnswer:
    error = outcome.error
    told = None
    if error is not None:
        told = Trouble(
            detail=sayable(error.lines()[0]),
            field=None if error.field is None else sayable(error.field),
            got=None if error.got is None else sayable(str(error.got)),
            wanted=error.wanted,
        )
    state = "refused" if error else "new" if outcome.new else "known"
    return SetAnswer.model_validate({"id": _id_of(raw), "outcome": state, "trouble": told})


def _id_of(raw: object) -> str:
    found: Mapping[str, Any] = raw if isinstance(raw, dict) else {}
    return sayable(str(found.get("id", ""))[:36])
