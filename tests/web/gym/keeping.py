"""A gym in a store, and a coach at its pages."""

from __future__ import annotations

import html
import itertools
import re
import threading
import tomllib
from contextlib import closing, contextmanager
from datetime import UTC, datetime, timedelta
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import TYPE_CHECKING, Any, Final

from tests.web.serving import forget_applications, store_client, text_of, written
from topheavy.gymfile import demo_text, gym_of_tables
from topheavy.store.gyms import Change, load_gym, save_gym
from topheavy.store.migrating import upgrade
from topheavy.store.opening import open_store
from topheavy.web.gyms import BEHIND

if TYPE_CHECKING:
    from collections.abc import Iterator

    from starlette.testclient import TestClient

    from topheavy.gym.gym import Gym
    from topheavy.store.opening import Store

DEMO: Final[dict[str, Any]] = tomllib.loads(demo_text())
_SECONDS = itertools.count()


class Coach:
    """A coach who keeps a gym: what they post, and what stands in the store then."""

    def __init__(self, store: Store, client: TestClient) -> None:
        self.store, self.client = store, client
        self.headers = written(client)

    @property
    def version(self) -> int:
        """The version that stands."""
        return load_gym(self.store).version.number

    @property
    def tables(self) -> dict[str, Any]:
        """The tables that stand."""
        return load_gym(self.store).tables

    @property
    def gym(self) -> Gym:
        """The gym that stands."""
        return load_gym(self.store).gym

    def get(self, path: str) -> Any:
        """Open a page."""
        return self.client.get(path)

    def post(self, path: str, words: dict[str, str], over: int | None = None) -> Any:
        """Send a form, made from the version that stands unless another is said."""
        sent = {**words, "over": str(self.version if over is None else over)}
        return self.client.post(path, data=sent, headers=self.headers, follow_redirects=True)

    def undo(self, page: Any) -> Any:
        """Press the Undo button of a page."""
        form = re.search(r'<form method="post" action="(/gym/undo)">(.*?)</form>', page.text, re.S)
        assert form, page.text
        words = dict(re.findall(r'name="([^"]*)" value="([^"]*)"', form[2]))
        return self.client.post(form[1], data=words, follow_redirects=True)


@cache
def _begun() -> bytes:
    """A store with the demonstration's gym in it, made once."""
    with TemporaryDirectory() as folder:
        path = Path(folder) / "store.sqlite"
        with closing(open_store(str(path))) as store:
            begin(store, DEMO)
        return path.read_bytes()


@cache
def _bench(name: str) -> tuple[TemporaryDirectory[str], Store]:
    """A store that is filled anew for each test: what it costs to compile queries is paid once."""
    folder = TemporaryDirectory()
    path = Path(folder.name) / f"{name}.sqlite"
    path.write_bytes(_begun())
    return folder, open_store(str(path))


def begin(store: Store, tables: dict[str, Any]) -> None:
    """Put a gym into a store, as its first version."""
    # Each at a time of its own: pages that are still served know a gym by its version.
    at = datetime(2026, 11, 1, tzinfo=UTC) + timedelta(seconds=next(_SECONDS))
    change = Change(author="ada", at=at, note="begun")
    save_gym(store, tables, gym_of_tables(tables, "tables"), change)


@contextmanager
def keeping(bench: str = "one", tables: dict[str, Any] | None = None) -> Iterator[Coach]:
    """Keep a gym: the demonstration's, or that of some tables.

    Two that are kept at the same time need benches of different names.
    """
    folder, store = _bench(bench if tables is None else "own")
    store.close()
    path = Path(folder.name) / f"{bench if tables is None else 'own'}.sqlite"
    for left in Path(folder.name).iterdir():
        left.unlink()
    if tables is None:
        path.write_bytes(_begun())
    else:
        upgrade(store)
        begin(store, tables)
        forget_applications()
    yield Coach(store, store_client(store))
    for thread in threading.enumerate():
        if thread.name == BEHIND:  # it would keep a connection to a file that is gone
            thread.join(20)
    store.close()


def wrong_at(page: str) -> dict[str, str]:
    """What is wrong, by the field it stands beside."""
    found = re.findall(r'<div class="wrong" id="(?:f-)?(.*?)-wrong">(.*?)</div>', page, re.S)
    return {name: text_of(said) for name, said in found}


def inputs_of(page: str) -> dict[str, str]:
    """What the first form of a page would send, as a browser fills it in."""
    form = re.search(r'<form class="sheet-form".*?</form>', page, re.S)
    assert form
    words: dict[str, str] = {}
    for tag in re.findall(r"<input [^>]*>", form[0]):
        name = re.search(r' name="([^"]*)"', tag)
        value = re.search(r' value="([^"]*)"', tag)
        if name and ('type="checkbox"' not in tag or " checked" in tag):
            words[html.unescape(name[1])] = html.unescape(value[1] if value else "")
    for name, body in re.findall(
        r'<textarea id="[^"]*" name="([^"]*)".*?>(.*?)</textarea>', form[0], re.S
    ):
        words[name] = html.unescape(body)
    for name, body in re.findall(
        r'<select id="[^"]*" name="([^"]*)".*?>(.*?)</select>', form[0], re.S
    ):
        chosen = re.search(r'<option value="([^"]*)" selected', body) or re.search(
            r'<option value="([^"]*)"', body
        )
        words[name] = html.unescape(chosen[1]) if chosen else ""
    return words
