"""Mistakes told in one shape: problem+json to programs, a plain page or a few lines to people."""

from __future__ import annotations

from http import HTTPStatus
from typing import TYPE_CHECKING, Any, Final

from fastapi.exceptions import RequestValidationError
from fastapi.responses import JSONResponse, Response
from starlette.exceptions import HTTPException

from topheavy.asked.typed import in_sent_words
from topheavy.errors import BadInputError, FileError, NotInStockError, TopheavyError
from topheavy.store.problems import StaleError, StoreError
from topheavy.web.access.refusals import RefusedError
from topheavy.web.templates import render

if TYPE_CHECKING:
    from fastapi import FastAPI, Request

MEDIA_TYPE: Final = "application/problem+json"

_STATUS: Final[dict[type[TopheavyError], HTTPStatus]] = {
    BadInputError: HTTPStatus.UNPROCESSABLE_ENTITY,
    NotInStockError: HTTPStatus.UNPROCESSABLE_ENTITY,
    FileError: HTTPStatus.SERVICE_UNAVAILABLE,
    StoreError: HTTPStatus.SERVICE_UNAVAILABLE,
    StaleError: HTTPStatus.CONFLICT,
}

PROBLEM: Final[dict[int | str, dict[str, Any]]] = {
    status: {
        "description": words,
        "content": {
            MEDIA_TYPE: {
                "schema": {
                    "type": "object",
                    "required": ["type", "title", "status", "detail"],
                    "properties": {
                        "type": {"type": "string"},
                        "title": {"type": "string"},
                        "status": {"type": "integer"},
                        "detail": {"type": "string"},
                        "field": {"type": "string"},
                        "got": {"type": "string"},
                        "wanted": {"type": "string"},
                    },
                }
            }
        },
    }
    for status, words in (
        (422, "Something in the question is wrong, or the gym does not have it."),
        (503, "The gym file can't be read, or something in it is wrong."),
    )
}
"""What the description of the API says of errors; all have this one shape (RFC 9457)."""


def answer_errors(app: FastAPI) -> None:
    """Answer every kind of mistake in that shape."""
    app.add_exception_handler(TopheavyError, _own)
    app.add_exception_handler(RequestValidationError, _malformed)
    app.add_exception_handler(HTTPException, _http)
    app.add_exception_handler(Exception, _broken)


def _own(request: Request, error: Exception) -> Response:
    if not isinstance(error, TopheavyError):
        raise error
    return answer_mistake(request, error)


def answer_mistake(request: Request, error: TopheavyError) -> Response:
    """Answer with a mistake of ours, as the place that was asked tells it."""
    if isinstance(error, RefusedError):
        answer = _answer(request, error.status, error)
        answer.headers.update(error.headers)
        return answer
    return _answer(request, _STATUS.get(type(error), HTTPStatus.UNPROCESSABLE_ENTITY), error)


def _malformed(request: Request, error: Exception) -> Response:
    first = error.errors()[0] if isinstance(error, RequestValidationError) else {}
    place = first.get("loc", ("query",))
    unknown = first.get("type") == "extra_forbidden"
    said = str(first.get("msg", "")).removeprefix("Input should be ") or None
    told = BadInputError(
        "Unknown word in the question" if unknown else "A word of the question can't be taken",
        field=str(place[1] if len(place) > 1 else place[0]),
        got=_short(first.get("input")),
        wanted="one of those that /api/openapi.json lists" if unknown else said,
    )
    return _answer(request, HTTPStatus.UNPROCESSABLE_ENTITY, told)


def _http(request: Request, error: Exception) -> Response:
    code = error.status_code if isinstance(error, HTTPException) else 500
    words = {404: "There is nothing at this address", 405: "This address does not take that"}
    told = TopheavyError(words.get(code, HTTPStatus(code).phrase), field=request.url.path)
    answer = _answer(request, HTTPStatus(code), told)
    # What may be asked instead goes with a 405 (RFC 9110, section 15.5.6).
    answer.headers.update((isinstance(error, HTTPException) and error.headers) or {})
    return answer


def _broken(request: Request, error: Exception) -> Response:
    told = TopheavyError(
        "Something in topheavy broke",
        got=type(error).__name__,
        wanted="please report what you asked for",
    )
    return _answer(request, HTTPStatus.INTERNAL_SERVER_ERROR, told)


def _answer(request: Request, status: HTTPStatus, error: TopheavyError) -> Response:
    """Tell a mistake as the place that was asked tells it."""
    path = request.url.path
    if path.startswith("/api/"):
        told = problem(status, in_sent_words(error, _sent(request)))
        return JSONResponse(told, status.value, media_type=MEDIA_TYPE)
    if path.startswith("/part/"):
        return render("trouble.html", {"error": error}, status.value)
    return render("error.html", {"error": error, "status": status}, status.value)


def _sent(request: Request) -> dict[str, str | list[str]]:
    """Words of the query; those that came once as they are."""
    query = request.query_params
    found = {name: query.getlist(name) for name in query}
    return {name: some[0] if len(some) == 1 else some for name, some in found.items()}


def problem(status: HTTPStatus, error: TopheavyError) -> dict[str, Any]:
    """Write a mistake as RFC 9457 has it, with our field, got and wanted.

    >>> problem(HTTPStatus.NOT_FOUND, TopheavyError("Not here", field="/x"))["detail"]
    'Not here.'
    """
    told = {"field": error.field, "got": error.got, "wanted": error.wanted}
    return {
        "type": "about:blank",
        "title": status.phrase,
        "status": status.value,
        "detail": sayable(error.lines()[0]),
        **{key: sayable(str(value)) for key, value in told.items() if value is not None},
    }


def sayable(text: str) -> str:
    r"""Write half a character, which no answer can carry, as what it is.

    >>> sayable("bar \ud83d")
    'bar \\ud83d'
    """
    return text.encode("utf-8", "backslashreplace").decode()


def _short(value: object) -> str:
    text = repr(value)
    return text if len(text) <= 60 else f"{text[:60]}..."
