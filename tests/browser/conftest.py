"""A real browser on the served pages: Debian's Chromium, driven by Playwright.

Without one these tests are left out and say so; where CI is set that is a failure.
"""

from __future__ import annotations

import os
import shutil
import socket
import threading
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final

import pytest
import uvicorn
from playwright.sync_api import sync_playwright

from tests.cli.calling import TINY
from topheavy.web.app import make_app
from topheavy.web.gyms import GymSource

if TYPE_CHECKING:
    from collections.abc import Iterator

    from fastapi import FastAPI
    from playwright.sync_api import Browser, BrowserContext, Page

PATIENCE_MS: Final = 60_000
SIZES: Final[dict[str, dict[str, Any]]] = {
    "phone": {
        "viewport": {"width": 360, "height": 740},
        "has_touch": True,
        "is_mobile": True,
        "device_scale_factor": 2,
    },
    "desktop": {"viewport": {"width": 1280, "height": 860}},
}


def _left_out(why: str) -> None:
    said = f"no browser tests: {why}"
    if os.environ.get("CI"):
        pytest.fail(said, pytrace=False)
    pytest.skip(said)


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """Start Chromium."""
    path = shutil.which("chromium") or shutil.which("chromium-browser")
    if path is None:
        _left_out("there is no chromium here; on Debian: apt-get install chromium")
    with sync_playwright() as play:
        found = play.chromium.launch(executable_path=path, args=["--no-sandbox"])
        yield found
        found.close()


@contextmanager
def serving(app: FastAPI) -> Iterator[str]:
    """Serve an application on a free port of this machine; gives its address."""
    door = socket.socket()
    door.bind(("127.0.0.1", 0))
    server = uvicorn.Server(uvicorn.Config(app, log_level="warning", access_log=False))
    thread = threading.Thread(target=server.run, kwargs={"sockets": [door]}, daemon=True)
    thread.start()
    yield f"http://127.0.0.1:{door.getsockname()[1]}"
    server.should_exit = True
    thread.join(20)
    door.close()


@pytest.fixture(scope="session")
def address() -> Iterator[str]:
    """Serve the tiny gym on a free port of this machine."""
    with serving(make_app(GymSource(Path(TINY)))) as found:
        yield found


@dataclass
class Heard:
    """What a page complained of, and whom it asked."""

    complaints: list[str] = field(default_factory=list)
    expected: tuple[str, ...] = ("status of 422",)
    asked: list[str] = field(default_factory=list)


class Opened:
    """Opens pages in a size; afterwards none may have complained or asked elsewhere."""

    def __init__(self, browser: Browser, address: str) -> None:
        self.browser, self.address = browser, address
        self.heard = Heard()
        self.contexts: list[BrowserContext] = []

    def page(self, size: str, **settings: Any) -> Page:
        """Open an empty page."""
        context = self.browser.new_context(
            base_url=self.address, reduced_motion="reduce", **{**SIZES[size], **settings}
        )
        self.contexts.append(context)
        context.set_default_timeout(PATIENCE_MS)
        context.on("request", lambda request: self.heard.asked.append(request.url))
        page = context.new_page()
        page.on("pageerror", lambda error: self.heard.complaints.append(str(error)))
        page.on("console", self._listen)
        return page

    def _listen(self, message: Any) -> None:
        # A refused question is answered with 422, and the browser writes that down.
        expected = any(words in message.text for words in self.heard.expected)
        if message.type in {"error", "warning"} and not expected:
            self.heard.complaints.append(message.text)

    def close(self) -> None:
        """Close everything."""
        for context in self.contexts:
            context.close()


@pytest.fixture
def opened(browser: Browser, address: str) -> Iterator[Opened]:
    """Pages, and the promise that they stay at home and complain of nothing."""
    one = Opened(browser, address)
    yield one
    one.close()
    assert one.heard.complaints == []
    # The browser's own viewer of PDFs is part of the browser.
    away = [url for url in one.heard.asked if url.startswith(("http", "ws"))]
    assert [url for url in away if not url.startswith(f"{address}/")] == []
