"""What the description of the API says of answers: every view, the drawing, and every mistake."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Final

from fastapi.openapi.utils import get_openapi

from topheavy.present.schema import WHERE, Schemas
from topheavy.web.problems import MEDIA_TYPE

if TYPE_CHECKING:
    from fastapi import FastAPI

_UNSAFE: Final = frozenset({"post", "put", "patch", "delete"})

_MISTAKES: Final = {
    401: "Nobody is signed in, and somebody must be.",
    403: "Who asks may not, or what was sent came from no page of ours.",
    409: "No gym was chosen yet, or somebody else changed it meanwhile.",
    413: "More was sent than is read.",
    422: "Something in the question is wrong, or the gym does not have it.",
    503: "Gym file or store can't be read, or something in it is wrong.",
}
_WHEN_WRITING: Final = frozenset({413})

_PROBLEM: Final[dict[str, Any]] = {
    "type": "object",
    "description": "A mistake, in the one shape that all have (RFC 9457): `detail` says it, "
    "`field` where, `got` what came, `wanted` what would be right.",
    "required": ["type", "title", "status", "detail"],
    "properties": {
        "type": {"const": "about:blank"},
        "title": {"type": "string"},
        "status": {"type": "integer", "minimum": 400, "maximum": 599},
        "detail": {"type": "string"},
        "field": {"type": "string"},
        "got": {"type": "string"},
        "wanted": {"type": "string"},
    },
    "additionalProperties": False,
    "examples": [
        {
            "type": "about:blank",
            "title": "Unprocessable Entity",
            "status": 422,
            "detail": "Not a mass.",
            "field": "bottom",
            "got": "'heavy'",
            "wanted": "a number with kg, g, lb, lbs or oz",
        }
    ],
}

_NUMBER: Final = {"type": "number"}
_WHOLE: Final = {"type": "integer", "minimum": 0}
_CORNERS: Final = {
    "type": "array",
    "description": "Corners of a curve, straight between them: height [m] and load [kg].",
    "items": {"type": "array", "items": _NUMBER, "minItems": 2, "maxItems": 2},
}
_LOOKS: Final = {
    "type": "array",
    "description": "Looks that shapes share: part, fill, stroke, chain.",
    "items": {"type": "array", "items": {"type": "string"}, "minItems": 4, "maxItems": 4},
}
_SHAPES: Final = {
    "type": "array",
    "description": "Shapes: kind (box, line, trace, disc, link or path), number of the look, then "
    "numbers in drawing units (250 a metre), and the outline of a path.",
    "items": {"type": "array", "items": {"type": ["number", "string"]}, "minItems": 2},
}
_TRACKS: Final = {
    "type": "array",
    "description": "The same shapes moved: each number stays, or is a list with one for every "
    "height.",
    "items": {
        "type": "array",
        "items": {"type": ["number", "string", "array"], "items": _NUMBER},
        "minItems": 2,
    },
}


def _made(about: str, /, **properties: Any) -> dict[str, Any]:
    return {
        "type": "object",
        "description": about,
        "required": list(properties),
        "properties": properties,
        "additionalProperties": False,
    }


_DRAWN: Final[dict[str, dict[str, Any]]] = {
    "Problem": _PROBLEM,
    "Stage": _made(
        "A rig to be dragged: heights [m], masses [kg], and one pose of its drawing.",
        **dict.fromkeys(
            ("bottom_m", "top_m", "low_m", "high_m", "width_m", "surface_m", "sleeve_end_m"),
            _NUMBER,
        ),
        straight_weight_kg=_NUMBER,
        **dict.fromkeys(("raising", "lowering", "straight", "wanted"), _CORNERS),
        kinds={
            "type": "array",
            "items": _made(
                "Pieces of one kind, and from which heights on how many links are off the floor.",
                size={"type": "string"},
                links=_WHOLE,
                pieces=_WHOLE,
                steps=_CORNERS,
            ),
        },
        still=_SHAPES,
        pose=_SHAPES,
        looks=_LOOKS,
        bar_m=_NUMBER,
        title={"type": "string"},
        description={"type": "string"},
    ),
    "Motion": _made(
        "A drawing at every height, stretch by stretch.",
        looks=_LOOKS,
        stretches={
            "type": "array",
            "items": _made(
                "Shapes between heights; in a stretch they are the same ones, moved.",
                heights_m={"type": "array", "items": _NUMBER},
                shapes=_TRACKS,
            ),
        },
    ),
}

_VIEWS: Final = Schemas()


def answered(view: type | str, description: str) -> dict[int | str, dict[str, Any]]:
    """Say of a route what it answers.

    Parameters
    ----------
    view : type or str
        The view, or the name of what is drawn.
    description : str
        In a sentence.
    """
    schema = {"$ref": WHERE + view} if isinstance(view, str) else _VIEWS.of(view)
    return {200: {"description": description, "content": {"application/json": {"schema": schema}}}}


def answered_either(*views: type, description: str) -> dict[int | str, dict[str, Any]]:
    """Say of a route that it answers with one of several views."""
    schema = {"anyOf": [_VIEWS.of(view) for view in views]}
    return {200: {"description": description, "content": {"application/json": {"schema": schema}}}}


PDF: Final[dict[int | str, dict[str, Any]]] = {
    200: {
        "description": "One page for the rack.",
        "content": {"application/pdf": {"schema": {"type": "string", "format": "binary"}}},
    }
}


def describe(app: FastAPI) -> None:
    """Let an application describe itself: every answer, and every mistake in its one shape."""

    def described() -> dict[str, Any]:
        if app.openapi_schema is None:
            app.openapi_schema = _described(app)
        return app.openapi_schema

    app.openapi = described  # type: ignore[method-assign]  # FastAPI's own way to change it


def _described(app: FastAPI) -> dict[str, Any]:
    page = get_openapi(
        title=app.title,
        version=app.version,
        summary=app.summary,
        description=_ABOUT,
        routes=app.routes,
    )
    parts = page.setdefault("components", {}).setdefault("schemas", {})
    parts |= {**_VIEWS.found, **_DRAWN}
    for name in ("HTTPValidationError", "ValidationError"):
        parts.pop(name, None)
    for path in page["paths"].values():
        for method, operation in path.items():
            _tell_mistakes(operation, writes=method in _UNSAFE)
    return page


def _tell_mistakes(operation: dict[str, Any], *, writes: bool) -> None:
    answers = operation["responses"]
    for status, words in _MISTAKES.items():
        if status in _WHEN_WRITING and not writes:
            continue
        told = answers.setdefault(str(status), {})
        told["description"] = told.get("description") or words
        if told["description"] == "Validation Error":
            told["description"] = words
        told["content"] = {MEDIA_TYPE: {"schema": {"$ref": WHERE + "Problem"}}}
    if writes:
        operation.setdefault("parameters", []).append(_TOKEN)


_TOKEN: Final[dict[str, Any]] = {
    "name": "X-Csrf-Token",
    "in": "header",
    "required": True,
    "schema": {"type": "string"},
    "description": "What `GET /api/me` answers as `csrf`, sent with the cookie it set.",
}

_ABOUT: Final = """The services of the commands of the same names: a question in the words of a
coach, the answer that the command prints with `--json`. Every number stands in SI beside how it is
shown. Loads and heights are quantities with their unit; several are said by giving the word again.

The work can hurt people: show the cautions that an answer brings, and what must come down first."""
