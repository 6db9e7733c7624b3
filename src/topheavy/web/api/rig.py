"""Routes about one rig: found, chosen, printed, drawn."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

from fastapi import APIRouter, Query
from fastapi.responses import JSONResponse, Response

from topheavy.asked.matching import refuse_without_match
from topheavy.present.jsonable import plain
from topheavy.present.rig.view import RigView, view_rig
from topheavy.web.api.schemas import PDF, answered
from topheavy.web.api.services import service_routes
from topheavy.web.asked import AskedWords  # noqa: TC001 - the routes are read when they are made
from topheavy.web.choices import Choices, choices_of
from topheavy.web.words import (  # noqa: TC001 - the routes are read when they are made
    ChosenWords,
    MotionWords,
    RigWords,
    StageWords,
)

if TYPE_CHECKING:
    from topheavy.services.rig import RigAnswer
    from topheavy.web.house import House


def api_routes(house: House) -> APIRouter:
    """Make the routes under ``/api`` that are about one rig, and those that ask the services."""
    api = APIRouter(prefix="/api")

    @api.get(
        "/gym",
        summary="Lifters with their lifts and stations, and what hangs",
        responses=answered(Choices, "What can be asked for."),
    )
    def gym() -> JSONResponse:
        return JSONResponse(plain(choices_of(house.gym, house.units())))

    @api.get(
        "/rig",
        summary="Find the best rig for a lifter, a lift and a target",
        responses=answered(RigView, "The best rig, proven best, and others beside it."),
    )
    def rig(words: Annotated[AskedWords, Query()]) -> JSONResponse:
        refuse_without_match({**words.model_dump(), "match": words.way == "match"})
        return _viewed(house.found(words), house, words)

    @api.get("/rig/card", summary="Print its card", responses=PDF, response_class=Response)
    def card(words: Annotated[AskedWords, Query()]) -> Response:
        refuse_without_match({**words.model_dump(), "match": words.way == "match"})
        return pdf(house, house.found(words), words)

    @api.get(
        "/rig/chosen",
        summary="Read a rig whose parts you choose",
        responses=answered(RigView, "The same of that rig; nothing was searched."),
    )
    def chosen(words: Annotated[ChosenWords, Query()]) -> JSONResponse:
        return _viewed(house.chosen(words), house, words)

    @api.get("/rig/chosen/card", summary="Print its card", responses=PDF, response_class=Response)
    def chosen_card(words: Annotated[ChosenWords, Query()]) -> Response:
        return pdf(house, house.chosen(words), words)

    @api.get(
        "/rig/stage",
        summary="Its load curve, links by height, and one pose of its drawing",
        responses=answered("Stage", "What a page needs to let the bar be dragged."),
    )
    def stage(words: Annotated[StageWords, Query()]) -> JSONResponse:
        return JSONResponse(house.stage(words))

    @api.get(
        "/rig/motion",
        summary="Its drawing at every height of the bar",
        responses=answered("Motion", "The drawing, bottom to top."),
    )
    def motion(words: Annotated[MotionWords, Query()]) -> JSONResponse:
        return JSONResponse(house.motion(words))

    api.include_router(service_routes(house))
    return api


def pdf(house: House, answer: RigAnswer, words: RigWords) -> Response:
    """Answer with the card, to be shown or saved."""
    name = "rig-card.pdf"
    return Response(
        house.card(answer, house.units(words)),
        media_type="application/pdf",
        headers={"Content-Disposition": f'inline; filename="{name}"'},
    )


def _viewed(answer: RigAnswer, house: House, words: RigWords) -> JSONResponse:
    return JSONResponse(plain(view_rig(answer, house.units(words))))
