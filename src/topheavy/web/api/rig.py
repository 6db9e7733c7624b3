"""The same answers for programs: JSON over HTTP, described by OpenAPI."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated, Any, Final

from fastapi import APIRouter, Query
from fastapi.responses import JSONResponse, Response

from topheavy.present.jsonable import plain
from topheavy.present.rig_view import view_rig
from topheavy.web.choices import choices_of
from topheavy.web.problems import PROBLEM
from topheavy.web.words import (  # noqa: TC001 - the routes are read when they are made
    ChosenWords,
    MotionWords,
    RigWords,
    StageWords,
)

if TYPE_CHECKING:
    from topheavy.services.rig import RigAnswer
    from topheavy.web.house import House

_PDF: Final[dict[int | str, dict[str, Any]]] = {
    200: {"content": {"application/pdf": {}}, "description": "One page for the rack."},
    **PROBLEM,
}


def api_routes(house: House) -> APIRouter:
    """Make the routes under ``/api``."""
    api = APIRouter(prefix="/api", responses=PROBLEM)

    @api.get("/gym", summary="Lifters with their lifts and stations, and what hangs")
    def gym() -> JSONResponse:
        return JSONResponse(plain(choices_of(house.gym)))

    @api.get("/rig", summary="Find the best rig for a lifter, a lift and a target")
    def rig(words: Annotated[RigWords, Query()]) -> JSONResponse:
        return _viewed(house.found(words), house, words)

    @api.get("/rig/card", summary="Print its card", responses=_PDF, response_class=Response)
    def card(words: Annotated[RigWords, Query()]) -> Response:
        return pdf(house, house.found(words), words)

    @api.get("/rig/chosen", summary="Read a rig whose parts you choose")
    def chosen(words: Annotated[ChosenWords, Query()]) -> JSONResponse:
        return _viewed(house.chosen(words), house, words)

    @api.get("/rig/chosen/card", summary="Print its card", responses=_PDF, response_class=Response)
    def chosen_card(words: Annotated[ChosenWords, Query()]) -> Response:
        return pdf(house, house.chosen(words), words)

    @api.get("/rig/stage", summary="Its load curve, links by height, and one pose of its drawing")
    def stage(words: Annotated[StageWords, Query()]) -> JSONResponse:
        return JSONResponse(house.stage(words))

    @api.get("/rig/motion", summary="Its drawing at every height of the bar")
    def motion(words: Annotated[MotionWords, Query()]) -> JSONResponse:
        return JSONResponse(house.motion(words))

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
