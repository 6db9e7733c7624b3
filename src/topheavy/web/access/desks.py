"""The desk that a route writes at, or a plain word why there is none."""

from __future__ import annotations

from http import HTTPStatus
from typing import Annotated

from fastapi import Depends

from topheavy.web.access.refusals import RefusedError
from topheavy.web.access.visit import visit_now
from topheavy.web.desk import Desk


async def _open_desk() -> Desk:
    visit = visit_now()
    if visit is None or visit.desk is None:
        raise RefusedError(
            "This gym is served from a file, so nothing can be written down",
            HTTPStatus.CONFLICT,
            field="gym",
            wanted="topheavy gym load FILE brings it into the store; then serve it from there",
        )
    return visit.desk


OpenDesk = Annotated[Desk, Depends(_open_desk)]
"""For routes that read or write the store: the desk; 409 while a gym file is served."""
