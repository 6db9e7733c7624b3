"""The application in this process, on a gym with next to nothing in it."""

from __future__ import annotations

import html
import re
from functools import cache, lru_cache
from pathlib import Path
from typing import TYPE_CHECKING, Final
from urllib.parse import urlencode

from starlette.testclient import TestClient

from tests.cli.calling import TINY
from topheavy.web.app import Serving, make_app
from topheavy.web.desk import Shelf
from topheavy.web.gyms import GymSource

if TYPE_CHECKING:
    from collections.abc import Mapping

    from fastapi import FastAPI

    from topheavy.store.opening import Store

ASKED: Final = {"lifter": "Ansa", "lift": "bench press", "bottom": "65", "top": "85"}
CHOSEN: Final = {
    **ASKED,
    "left": ["A1", "A2"],
    "right": ["A3", "A4"],
    "feeder": "strap",
    "setting": "2",
    "connector": "screw link",
    "plate": ["20"],
}


def client_of(gym: Path | None) -> TestClient:
    """A client of an application for a gym file; a broken answer is an answer too."""
    return TestClient(
        make_app(GymSource(gym)), base_url="http://127.0.0.1", raise_server_exceptions=False
    )


@cache
def client() -> TestClient:
    """A client of the tiny gym."""
    return client_of(Path(TINY))


def at(path: str, words: Mapping[str, object] | None = None) -> str:
    """An address with its question."""
    return f"{path}?{urlencode(words, doseq=True)}" if words else path


def written(asking: TestClient) -> dict[str, str]:
    """Headers that a write of this client needs; its cookies go along by themselves."""
    return {"X-Csrf-Token": asking.get("/api/me").json()["csrf"]}


def text_of(page: str) -> str:
    """What a page says, tags left out."""
    return " ".join(html.unescape(re.sub(r"<[^>]+>", " ", page)).split())


def store_client(
    store: Store, *, gym: int | None = None, beyond: bool = False, secure: bool = False
) -> TestClient:
    """A client of an application for the gyms in a store."""
    app = _app(store, gym, beyond=beyond, secure=secure)
    return TestClient(app, base_url="http://127.0.0.1", raise_server_exceptions=False)


def forget_applications() -> None:
    """Make applications anew: one that was made keeps a gym for a second."""
    _app.cache_clear()


@lru_cache(maxsize=4)
def _app(store: Store, gym: int | None, *, beyond: bool, secure: bool) -> FastAPI:
    return make_app(None, Serving(shelf=Shelf(store, gym), beyond=beyond, secure=secure))
