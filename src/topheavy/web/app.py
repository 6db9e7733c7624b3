"""The application: routes, headers and errors put together, new for each gym that is served."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Final

from fastapi import FastAPI
from starlette.middleware.gzip import GZipMiddleware
from starlette.middleware.trustedhost import TrustedHostMiddleware
from starlette.staticfiles import StaticFiles

import topheavy.present
from topheavy import __version__
from topheavy.web.api import api_routes
from topheavy.web.headers import SafeHeaders
from topheavy.web.house import House
from topheavy.web.pages import page_routes
from topheavy.web.problems import answer_errors

if TYPE_CHECKING:
    from topheavy.web.gyms import GymSource

LOOPBACK: Final = ("127.0.0.1", "localhost", "::1")
"""Names of this machine for itself: no other is listened to, and none is answered."""

_STATIC: Final = Path(__file__).parent / "static"
_FONTS: Final = Path(topheavy.present.__path__[0]) / "fonts"


def make_app(source: GymSource) -> FastAPI:
    """Make the application for a gym.

    Parameters
    ----------
    source : GymSource
        Where the gym comes from.
    """
    app = FastAPI(
        title="topheavy",
        version=__version__,
        summary="Hang chain on a barbell so that it loads the lifter where the lifter is strong",
        openapi_url="/api/openapi.json",
        docs_url=None,
        redoc_url=None,
    )
    house = House(source)
    app.include_router(page_routes(house))
    app.include_router(api_routes(house))
    app.mount("/static/fonts", StaticFiles(directory=_FONTS))
    app.mount("/static", StaticFiles(directory=_STATIC))
    answer_errors(app)
    app.add_middleware(GZipMiddleware, minimum_size=2000, compresslevel=5)
    app.add_middleware(TrustedHostMiddleware, allowed_hosts=[*LOOPBACK, "[::1]"])
    app.add_middleware(SafeHeaders)
    return app
