"""Page templates and how they are filled: everything escaped, nothing left undefined."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Final

from fastapi.responses import HTMLResponse
from jinja2 import Environment, PackageLoader, StrictUndefined

from topheavy import __version__

if TYPE_CHECKING:
    from collections.abc import Mapping

_PAGES: Final = Environment(
    loader=PackageLoader("topheavy.web", "templates"),
    autoescape=True,
    undefined=StrictUndefined,
    trim_blocks=True,
    lstrip_blocks=True,
)


def render(name: str, values: Mapping[str, Any], status: int = 200) -> HTMLResponse:
    """Fill a template."""
    text = _PAGES.get_template(name).render(version=__version__, **values)
    return HTMLResponse(text, status)
