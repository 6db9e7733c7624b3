"""The rig page, and the parts of it that are fetched again when something changes."""

from __future__ import annotations

import json
from dataclasses import asdict, dataclass
from typing import TYPE_CHECKING, Annotated, Any
from urllib.parse import urlencode

from fastapi import APIRouter, Query
from fastapi.responses import HTMLResponse, RedirectResponse, Response

from topheavy.present.figure import mass
from topheavy.present.jsonable import plain
from topheavy.present.rig.facts import hang_facts, share_facts
from topheavy.present.rig.picture import rig_picture
from topheavy.present.rig.view import view_rig
from topheavy.services.chosen import parts_of
from topheavy.web.access.visit import visit_now
from topheavy.web.api import pdf
from topheavy.web.choices import choices_of
from topheavy.web.question import place_of
from topheavy.web.templates import render
from topheavy.web.words import ChosenWords, RigWords

if TYPE_CHECKING:
    from topheavy.rigging.built import BuiltRig
    from topheavy.services.rig import RigAnswer
    from topheavy.units import UnitSystem
    from topheavy.web.house import House

_START = {"bottom": "60%", "top": "80%"}
"""Loads of a page that nobody filled in yet, where a best is known: a place to begin, no advice."""


class PageWords(RigWords):
    """The question of a page; `whole` asks for the answer in it, for browsers without scripts."""

    whole: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class OtherCard:
    """Another rig beside the best: its line, its loads, and its parts for the drawing."""

    differs_by: str
    hang: str
    off: str
    bottom: str
    top: str
    parts: str


def page_routes(house: House) -> APIRouter:
    """Make the routes of pages."""
    pages = APIRouter(include_in_schema=False)

    @pages.get("/")
    def home() -> Response:
        return RedirectResponse("/rig", 307)

    @pages.get("/rig")
    def rig(words: Annotated[PageWords, Query()]) -> HTMLResponse:
        return _page(house, words)

    @pages.get("/part/found")
    def found(words: Annotated[RigWords, Query()]) -> HTMLResponse:
        return render("answer.html", _answered(house, house.found(words), words))

    @pages.get("/part/chosen")
    def chosen(words: Annotated[ChosenWords, Query()]) -> HTMLResponse:
        return render("answer.html", _answered(house, house.chosen(words), words))

    @pages.get("/rig/card.pdf")
    def card(words: Annotated[RigWords, Query()]) -> Response:
        return pdf(house, house.found(words), words)

    @pages.get("/rig/chosen-card.pdf")
    def chosen_card(words: Annotated[ChosenWords, Query()]) -> Response:
        return pdf(house, house.chosen(words), words)

    return pages


def _page(house: House, words: PageWords) -> HTMLResponse:
    gym, units = house.gym, house.units(words)
    choices = choices_of(gym, units)
    place = place_of(gym, words) if choices.lifters else None
    if place:
        # What was named must go together before the page says that it does.
        _ = place.travel
    filled = words.model_dump()
    if place and not (words.bottom or words.top) and place.measured.best_kg is not None:
        filled |= _START
    values: dict[str, Any] = {
        "gym": gym.name,
        "words": filled,
        "units": units,
        "place": place,
        "choices": choices,
        "choices_json": json.dumps(plain(choices)),
        "answer": None,
    }
    if words.whole and place:
        asked = RigWords(**{name: filled[name] for name in RigWords.model_fields})
        values["answer"] = _answered(house, house.found(asked), asked)
    return render("rig.html", values)


def _answered(house: House, answer: RigAnswer, words: RigWords) -> dict[str, Any]:
    """Everything that the answer's template shows."""
    units = house.units(words)
    view = view_rig(answer, units)
    query = urlencode(words.model_dump(exclude_defaults=True), doseq=True)
    card = "chosen-card.pdf" if answer.chosen else "card.pdf"
    return {
        "view": view,
        "hang": hang_facts(view),
        "shares": share_facts(view),
        "picture": rig_picture(answer, units),
        "parts": _parts_json(answer.best),
        "others": [_other(one.built, one.differs_by, answer, units) for one in answer.alternatives],
        "dangers": [remark.say(units) for remark in answer.dangers],
        "chosen": answer.chosen,
        "card": "" if answer.dangers else f"/rig/{card}?{query}",
        "give": f"/rack/give?{query}" if _may_give() and not answer.dangers else "",
    }


def _may_give() -> bool:
    """Whether whoever asks gives work: a coach, with a gym that is in the store."""
    visit = visit_now()
    return bool(visit and visit.desk and visit.visitor and visit.visitor.coach)


def _other(built: BuiltRig, differs_by: str, answer: RigAnswer, units: UnitSystem) -> OtherCard:
    view = next(o for o in view_rig(answer, units).alternatives if o.differs_by == differs_by)
    place = answer.question.place
    ends_m = (place.travel.bottom_m, place.travel.top_m)
    bottom_kg, top_kg = built.rig.curve(place.ground, "raising").at(ends_m).tolist()
    return OtherCard(
        differs_by=differs_by,
        hang=view.hang,
        off=view.miss.text,
        bottom=mass(units, bottom_kg).text,
        top=mass(units, top_kg).text,
        parts=_parts_json(built),
    )


def _parts_json(built: BuiltRig) -> str:
    parts = asdict(parts_of(built))
    return json.dumps({**parts, "plates_kg": list(parts["plates_kg"])})
