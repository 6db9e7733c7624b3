"""The application: routes, headers, the door and errors put together."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from secrets import token_urlsafe
from typing import TYPE_CHECKING, Final

from fastapi import FastAPI
from starlette.middleware.gzip import GZipMiddleware
from starlette.middleware.trustedhost import TrustedHostMiddleware
from starlette.staticfiles import StaticFiles

import topheavy.present
from topheavy import __version__
from topheavy.store.accounts import server_secret
from topheavy.web.access.gate import Gate, Rules
from topheavy.web.access.keys import Keys
from topheavy.web.access.nav import places_among
from topheavy.web.access.own import own_routes
from topheavy.web.access.people import people_routes
from topheavy.web.access.routes import access_routes
from topheavy.web.api import api_routes
from topheavy.web.api.schemas import describe
from topheavy.web.begin.routes import begin_routes, gyms_routes
from topheavy.web.gym.routes import gym_routes
from topheavy.web.gyms import GymSource
from topheavy.web.headers import AlsoHead, SafeHeaders
from topheavy.web.house import House
from topheavy.web.log import log_routes
from topheavy.web.pages import page_routes
from topheavy.web.problems import answer_errors
from topheavy.web.rack import rack_routes
from topheavy.web.review import review_routes
from topheavy.web.room import room_routes
from topheavy.web.weeks import weeks_routes

if TYPE_CHECKING:
    from fastapi import APIRouter

    from topheavy.web.desk import Shelf

LOOPBACK: Final = ("127.0.0.1", "localhost", "::1")
"""Names of this machine for itself: no other is listened to, and none is answered."""

_STATIC: Final = Path(__file__).parent / "static"
_FONTS: Final = Path(topheavy.present.__path__[0]) / "fonts"


@dataclass(frozen=True, slots=True, kw_only=True)
class Serving:
    """How the pages are served.

    Parameters
    ----------
    names : tuple of str
        Names and addresses by which this server may be asked for, besides `LOOPBACK`; a name that
        nobody listed is not answered.
    beyond : bool
        Whether others than this machine are listened to: then nothing is open without an account.
    secure : bool
        Whether over TLS.
    coach : str
        What whoever sits at this machine is called while there are no accounts.
    shelf : Shelf or None
        The store, when accounts or gyms come from it.
    """

    names: tuple[str, ...] = ()
    beyond: bool = False
    secure: bool = False
    coach: str = "coach"
    shelf: Shelf | None = None


def make_app(source: GymSource | None = None, serving: Serving | None = None) -> FastAPI:
    """Make the application.

    Parameters
    ----------
    source : GymSource or None
        Where the gym comes from, for one that is not in the store; None: from the store.
    serving : Serving, optional
        How it is served; left out: to this machine alone.
    """
    serving = serving or Serving()
    if source is None and serving.shelf is None:
        source = GymSource()
    app = FastAPI(
        title="topheavy",
        version=__version__,
        summary="Hang chain on a barbell so that it loads the lifter where the lifter is strong",
        openapi_url="/api/openapi.json",
        docs_url=None,
        redoc_url=None,
    )
    house = House(source or GymSource())
    routers = _routers(house, serving, stocked=source is None)
    for router in routers:
        app.include_router(router)
    app.mount("/static/fonts", StaticFiles(directory=_FONTS))
    app.mount("/static", StaticFiles(directory=_STATIC))
    answer_errors(app)
    describe(app)
    app.add_middleware(Gate, rules=_rules(serving, routers, stocked=source is None))
    app.add_middleware(AlsoHead)
    app.add_middleware(GZipMiddleware, minimum_size=2000, compresslevel=5)
    app.add_middleware(
        TrustedHostMiddleware,
        allowed_hosts=[*LOOPBACK, "[::1]", *serving.names],
        www_redirect=False,
    )
    app.add_middleware(SafeHeaders)
    return app


def _routers(house: House, serving: Serving, *, stocked: bool) -> list[APIRouter]:
    """Everything that is answered; each subject adds its line here."""
    return [
        page_routes(house),
        api_routes(house),
        access_routes(serving.shelf),
        *_store_routes(serving.shelf, stocked=stocked),
        *rack_routes(house),
        *room_routes(house),
        gym_routes(house),
        review_routes(house),
        *log_routes(house),
        *weeks_routes(house),
    ]


def _store_routes(shelf: Shelf | None, *, stocked: bool) -> list[APIRouter]:
    if shelf is None:
        return []
    doors = [own_routes(shelf), people_routes(shelf)]
    return [*doors, begin_routes(shelf), gyms_routes(shelf)] if stocked else doors


def _rules(serving: Serving, routers: list[APIRouter], *, stocked: bool) -> Rules:
    paths = [route.path for router in routers for route in router.routes if hasattr(route, "path")]
    secret = server_secret(serving.shelf.store) if serving.shelf else token_urlsafe()
    return Rules(
        keys=Keys(secret, secure=serving.secure),
        shelf=serving.shelf,
        stocked=stocked,
        open_without_accounts=not serving.beyond,
        coach=serving.coach,
        places=places_among(paths),
    )
