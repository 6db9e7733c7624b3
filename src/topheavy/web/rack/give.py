"""Giving work: from the rig page or from scratch, replacing, taking away and putting back."""

from __future__ import annotations

import json
import uuid
from dataclasses import replace
from http import HTTPStatus
from typing import TYPE_CHECKING, Annotated, Any, Literal
from urllib.parse import urlencode

from fastapi import APIRouter, Form, Query
from pydantic import ConfigDict, Field

from topheavy.errors import BadInputError, TopheavyError
from topheavy.gym.day import day_number
from topheavy.present.jsonable import plain
from topheavy.present.work.words import hung_words, kind_words
from topheavy.services.work import WorkAsk, hung_of, work_of
from topheavy.store.gyms import Change
from topheavy.store.work import find_work, give_work, take_work, todays_work
from topheavy.training.days import DAYS, day_named
from topheavy.training.session import Plan
from topheavy.training.weeks_slots import TEST
from topheavy.web.access import Coach, back_to
from topheavy.web.access.desks import OpenDesk  # noqa: TC001 - read by the routes
from topheavy.web.choices import choices_of
from topheavy.web.desk import now, today
from topheavy.web.question import place_of
from topheavy.web.templates import render
from topheavy.web.words import ChosenWords, RigWords

if TYPE_CHECKING:
    from fastapi.responses import HTMLResponse, Response

    from topheavy.services.rig import Place, RigAnswer
    from topheavy.store.work import GivenWork
    from topheavy.training.work import Work
    from topheavy.web.desk import Desk
    from topheavy.web.house import House

_START = {"bottom": "60%", "top": "80%"}
_DIGITS = 3
_MOST_AHEAD_DAYS = 366
WorkId = Annotated[str, Form(max_length=36)]


class GiveWords(ChosenWords):
    """A rig, found or chosen, and the day to do with it."""

    model_config = ConfigDict(extra="ignore", frozen=True)

    kind: Literal["heavy", "speed", "repetition", "technique", "test"] = "heavy"
    sets: str = Field(default="", max_length=_DIGITS)
    reps: str = Field(default="", max_length=_DIGITS)
    day: str = Field(default="", max_length=10)
    at: str = Field(default="", max_length=5)
    replaces: str = Field(default="", max_length=36)

    @property
    def chosen(self) -> bool:
        """Whether the parts of the rig are given, and nothing is searched."""
        return bool(self.left or self.right or self.left_band or self.right_band or self.plate)

    def plan(self) -> Plan | None:
        """Kind of day, sets and reps; None for singles up to a max."""
        if self.kind == TEST:
            return None
        return Plan.of(
            day_named(self.kind), sets=_count(self.sets, "sets"), reps=_count(self.reps, "reps")
        )


def give_routes(house: House) -> APIRouter:
    """Make the pages by which a coach gives work."""
    pages = APIRouter(include_in_schema=False)

    @pages.get("/rack/give")
    def form(visitor: Coach, desk: OpenDesk, words: Annotated[GiveWords, Query()]) -> HTMLResponse:  # noqa: ARG001 - a coach's page
        return _form(house, desk, words)

    @pages.post("/rack/give")
    def give(visitor: Coach, desk: OpenDesk, words: Annotated[GiveWords, Form()]) -> Response:
        try:
            work = _made(house, words)
            there = _there(desk, work)
            if there is not None and words.replaces != there.work.id:
                return _form(house, desk, words, there=there, status=HTTPStatus.CONFLICT)
            change = Change(author=visitor.name, at=now())
            give_work(desk.store, desk.gym_id, work, change, replaces=words.replaces)
        except TopheavyError as error:
            return _form(house, desk, words, error=error, status=HTTPStatus.UNPROCESSABLE_ENTITY)
        when = "" if work.day == today() else f" for {work.day}"
        return back_to("/rack", f"{work.lifter} has work{when}: {work.lift}, {kind_words(work)}.")

    @pages.post("/rack/take")
    def take(visitor: Coach, desk: OpenDesk, work: WorkId) -> Response:
        gone = find_work(desk.store, desk.gym_id, work).work
        take_work(desk.store, desk.gym_id, work, Change(author=visitor.name, at=now()))
        said = f"Taken away: {gone.lifter}'s {gone.lift}. What was logged of it stays."
        return back_to("/rack", said, undo="/rack/give-back", fields={"work": work})

    @pages.post("/rack/give-back")
    def give_back(visitor: Coach, desk: OpenDesk, work: WorkId) -> Response:
        again = replace(find_work(desk.store, desk.gym_id, work).work, id=str(uuid.uuid4()))
        give_work(desk.store, desk.gym_id, again, Change(author=visitor.name, at=now()))
        return back_to("/rack", f"{again.lifter}'s {again.lift} is back.")

    return pages


def _made(house: House, words: GiveWords) -> Work:
    if words.day:
        _check_day(words.day)
    plan = words.plan()
    ask = WorkAsk(id=str(uuid.uuid4()), day=words.day or today(), plan=plan, at=words.at)
    return work_of(_rig(house, words), ask)


def _check_day(day: str) -> None:
    """Work is for today or for a day that a coach may have meant."""
    ahead = day_number(day, "day") - day_number(today(), "day")
    if not 0 <= ahead <= _MOST_AHEAD_DAYS:
        raise BadInputError(
            "That day is past" if ahead < 0 else "That day is too far ahead",
            field="day",
            got=day,
            wanted=f"today, {today()}, or a day of the year to come",
        )


def _rig(house: House, words: GiveWords) -> RigAnswer:
    kind: type[RigWords] = ChosenWords if words.chosen else RigWords
    asked = kind(**{name: getattr(words, name) for name in kind.model_fields})
    return house.chosen(asked) if isinstance(asked, ChosenWords) else house.found(asked)


def _there(desk: Desk, work: Work) -> GivenWork | None:
    given = todays_work(desk.store, desk.gym_id, work.day, work.lifter)
    return next((one for one in given if one.work.lift == work.lift), None)


def _form(
    house: House,
    desk: Desk,
    words: GiveWords,
    *,
    there: GivenWork | None = None,
    error: TopheavyError | None = None,
    status: HTTPStatus = HTTPStatus.OK,
) -> HTMLResponse:
    gym, units = house.gym, house.units(words)
    choices = choices_of(gym, units)
    place = _place(house, words) if choices.lifters else None
    filled: dict[str, Any] = words.model_dump()
    if place and not (words.bottom or words.top) and place.measured.best_kg is not None:
        filled |= _START
    if there is not None:
        filled["replaces"] = there.work.id
    hidden = []
    if words.chosen:
        names = set(ChosenWords.model_fields) - set(RigWords.model_fields)
        hidden = [
            (name, value)
            for name in sorted(names)
            for value in (filled[name] if isinstance(filled[name], list) else [filled[name]])
        ]
    values = {
        "words": filled,
        "place": place,
        "choices": choices,
        "choices_json": json.dumps(plain(choices)),
        "units": units,
        "kinds": [(day.name, f"{day.name}, {day.sets} x {day.reps}") for day in DAYS.values()],
        "hidden": hidden,
        "hangs": _hangs(house, words) if words.chosen and error is None else "",
        "there": there.work if there else None,
        "there_kind": kind_words(there.work) if there else "",
        "error": error,
        "today": today(),
        "stored": desk.name,
        "again": "/rack/give?" + urlencode({"lifter": words.lifter, "lift": words.lift}),
    }
    return render("rack/give.html", values, status.value)


def _place(house: House, words: GiveWords) -> Place:
    try:
        return place_of(house.gym, words)
    except TopheavyError:
        return place_of(house.gym, RigWords())


def _hangs(house: House, words: GiveWords) -> str:
    best = _rig(house, words).best
    return hung_words(hung_of(best))


def _count(text: str, field: str) -> int | None:
    if not text.strip():
        return None
    try:
        return int(text)
    except ValueError:
        raise BadInputError(
            "Not a number", field=field, got=repr(text), wanted="such as 3, or nothing"
        ) from None
