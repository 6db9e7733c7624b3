"""Page templates and how they are filled: everything escaped, nothing left undefined."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Final

from fastapi.responses import HTMLResponse
from jinja2 import Environment, PackageLoader, StrictUndefined
from markupsafe import Markup

from topheavy import __version__
from topheavy.errors import TopheavyError
from topheavy.web.access.visit import visit_now

if TYPE_CHECKING:
    from collections.abc import Mapping

    from topheavy.web.access.visit import Visit

_PAGES: Final = Environment(
    loader=PackageLoader("topheavy.web", "templates"),
    autoescape=True,
    undefined=StrictUndefined,
    trim_blocks=True,
    lstrip_blocks=True,
)

_FIELD: Final = Markup('<input type="hidden" name="csrf" value="{}">')


def render(name: str, values: Mapping[str, Any], status: int = 200) -> HTMLResponse:
    """Fill a template; every one knows who asks, where they may go, and what is to be said."""
    visit = visit_now()
    token = visit.csrf if visit else str
    known: dict[str, Any] = {
        "version": __version__,
        "csrf_token": token,
        "csrf": lambda: _FIELD.format(token()),
        "visitor": visit.visitor if visit else None,
        "nav": visit.nav if visit else (),
        "here": visit.path if visit else "",
        "asked": visit.whole if visit else "/",
        "desk": visit.desk if visit else None,
        "shown": _shown(visit),
        "gyms": visit.gyms if visit else 0,
        "told": visit.tell() if visit else {},
    }
    text = _PAGES.get_template(name).render(**{**known, **values})
    return HTMLResponse(text, status)


def _shown(visit: Visit | None) -> str:
    """Units that the head shows as chosen; empty when neither the visitor nor the gym says."""
    if visit is None:
        return ""
    if visit.visitor is not None and visit.visitor.units:
        return visit.visitor.units
    try:
        return visit.desk.source.read()[0].units if visit.desk else ""
    except TopheavyError:
        return ""
