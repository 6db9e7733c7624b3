"""Going on to a page after a write, with a short word of what was done."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fastapi.responses import RedirectResponse

from topheavy.web.access.visit import visit_now

if TYPE_CHECKING:
    from collections.abc import Mapping


def back_to(
    path: str, said: str = "", *, undo: str = "", fields: Mapping[str, str] | None = None
) -> RedirectResponse:
    """Go on to a page (303) that says what was done.

    Parameters
    ----------
    path : str
        Of this program, from ``/`` on.
    said : str
        Shown once, at the top of that page.
    undo : str
        Where an Undo button posts to; none when empty.
    fields : mapping, optional
        What it posts.
    """
    answer = RedirectResponse(path, 303)
    visit = visit_now()
    if visit is not None and said:
        told = {"said": said, "undo": undo, "fields": dict(fields or {})}
        answer.headers.append("Set-Cookie", visit.keys.cookie("said", visit.keys.pack(told), 120))
    return answer


def safe_path(text: str, otherwise: str = "/") -> str:
    r"""Take a path to go on to from a question only when it stays with us.

    >>> safe_path("/rack?lifter=Pip"), safe_path("//elsewhere.example"), safe_path("/\\elsewhere")
    ('/rack?lifter=Pip', '/', '/')
    """
    odd = not text.isprintable() or "\\" in text or len(text) > 2000
    return otherwise if odd or not text.startswith("/") or text.startswith("//") else text
