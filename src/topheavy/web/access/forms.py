"""What the door's forms share: where they come from, and showing one again with its mistake."""

from __future__ import annotations

from http import HTTPStatus
from typing import TYPE_CHECKING, Any

from topheavy.web.access.refusals import RefusedError
from topheavy.web.templates import render

if TYPE_CHECKING:
    from fastapi import Request
    from fastapi.responses import Response

    from topheavy.errors import TopheavyError


def address_of(request: Request) -> str:
    """Give the network address a request came from; empty when nobody knows."""
    return request.client.host if request.client else ""


def told_again(template: str, values: dict[str, Any], error: TopheavyError) -> Response:
    """Show a form once more with what was wrong in it."""
    status = error.status if isinstance(error, RefusedError) else HTTPStatus.UNPROCESSABLE_ENTITY
    answer = render(template, values, status)
    if isinstance(error, RefusedError):
        answer.headers.update(error.headers)
    return answer
