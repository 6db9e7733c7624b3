"""Words of the gym and of its log are words on every page, whatever signs are in them.

Held against an HTML parser that is not ours (Python's own): nothing that was written down becomes
an element, an attribute, or a script. From memory: OWASP Cross Site Scripting Prevention Cheat
Sheet, and CWE 79.
"""

from __future__ import annotations

import csv
import io
import uuid
from contextlib import closing
from html.parser import HTMLParser
from typing import TYPE_CHECKING, Any, Final

import pytest
from fastapi.routing import iter_route_contexts

from tests.store.samples import DEMO, START, a_set
from tests.web.serving import store_client, written
from topheavy.gym.log import RigThen
from topheavy.gymfile import gym_of_tables
from topheavy.store.gyms import Change, load_gym, save_gym
from topheavy.store.opening import open_store
from topheavy.store.sets import add_sets
from topheavy.web.desk import today

if TYPE_CHECKING:
    from collections.abc import Iterator

    from starlette.testclient import TestClient

EVIL: Final = '<i evil="1">\'&\u202e</script>'
TAG: Final = "<i/evil>&"
CHOICES: Final = {"kind", "form", "lift", "units"}
"""Words of a gym file that are not free."""


def named(value: Any, found: dict[str, str]) -> dict[str, str]:
    """Every name and tag, and what it becomes."""
    if isinstance(value, dict):
        for key, one in value.items():
            if isinstance(one, str) and key in {"name", "tag", "by"}:
                found[one] = (TAG if key == "tag" else EVIL) + one
            if isinstance(one, list) and key == "tags":
                found |= {tag: TAG + tag for tag in one}
            named(one, found)
    elif isinstance(value, list):
        for one in value:
            named(one, found)
    return found


def renamed(value: Any, names: dict[str, str], key: str = "") -> Any:
    """The same tables with other names, wherever they are named."""
    if isinstance(value, dict):
        return {word: renamed(one, names, word) for word, one in value.items()}
    if isinstance(value, list):
        return [renamed(one, names, key) for one in value]
    if isinstance(value, str) and key not in CHOICES:
        return names.get(value, value)
    return value


NAMES: Final = named(DEMO, {})
LIFTER: Final = NAMES["Pip"]


@pytest.fixture(scope="module")
def coach(tmp_path_factory: pytest.TempPathFactory) -> Iterator[TestClient]:
    """The demo gym under hostile names, with sets whose notes mean harm."""
    tables = renamed(DEMO, NAMES)
    gym = gym_of_tables(tables, "test")
    folder = tmp_path_factory.mktemp("escaping")
    with closing(open_store(str(folder / "store.sqlite"))) as store:
        change = Change(author=EVIL, at=START, note=EVIL)
        save_gym(store, tables, gym, change)
        gym_id = load_gym(store, "").id
        hung = RigThen(bottom_kg=50, mean_kg=55, top_kg=60, words=EVIL)
        sets = [
            a_set(lifter=LIFTER, day=today(), note=note, by=EVIL, session=EVIL, station=EVIL,
                  straight_kg=45.0, rig=hung)
            for note in (EVIL, "=1+1", "@SUM(A1)", "+1", "-1", "\t=1")
            if note == note.strip()
        ]  # fmt: skip
        add_sets(store, gym_id, sets, at=START)
        yield store_client(store)


class Elements(HTMLParser):
    """Names of elements and attributes of a page."""

    def __init__(self) -> None:
        super().__init__()
        self.found: set[str] = set()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Keep its name, and those of its attributes."""
        self.found |= {tag, *(name for name, _ in attrs)}
        for name, value in attrs:
            assert not name.startswith("on"), name
            if name in {"href", "src", "action", "formaction"}:
                assert value
                assert value.startswith(("/", "#")), value


def elements(page: str) -> set[str]:
    """Every name of an element or attribute in a page."""
    parser = Elements()
    parser.feed(page)
    parser.close()
    return parser.found


def pages(asking: TestClient) -> list[str]:
    """Paths of every page and part that is read, as the application lists them."""
    app: Any = asking.app
    return [
        str(one.path)
        for one in iter_route_contexts(app.routes)
        if one.methods and "GET" in one.methods and not str(one.path).startswith("/api/")
    ]


WORDS: Final = {
    "lifter": LIFTER, "name": LIFTER, "lift": "bench press", "bottom": "40", "top": "50",
    "station": NAMES["bench 1"], "kind": "lifter", "tag": NAMES["A1"], "whole": "1",
}  # fmt: skip


def test_no_name_becomes_part_of_a_page(coach: TestClient) -> None:
    shown = 0
    for path in pages(coach):
        for words in ({}, WORDS, {"lifter": EVIL, "name": EVIL, "lift": EVIL, "next": EVIL}):
            answer = coach.get(path.replace("{kind}", "csv"), params=words)
            assert answer.status_code != 500, path
            if not answer.headers.get("content-type", "").startswith("text/html"):
                continue
            found = elements(answer.text)
            assert "body" in found or path.startswith("/part/"), path
            assert not {"i", "evil", "evil=", "i/evil"} & found, (path, words)
            shown += "&lt;i evil" in answer.text
    assert shown > 20


def test_a_spreadsheet_takes_no_note_for_a_formula(coach: TestClient) -> None:
    """CWE-1236, and the OWASP page on CSV injection, from memory: = + - @ tab and return."""
    rows = list(csv.reader(io.StringIO(coach.get("/log/export.csv").text)))
    cells = [cell for row in rows[1:] for cell in row]
    assert len(rows) > 4
    assert "'=1+1" in cells
    assert [cell for cell in cells if cell.startswith(("=", "+", "-", "@", "\t", "\r"))] == []


def test_what_was_typed_comes_back_as_words(coach: TestClient) -> None:
    """Forms that are shown again with a mistake keep what was typed, and it stays text."""
    headers = written(coach)
    app: Any = coach.app
    for one in iter_route_contexts(app.routes):
        path = str(one.path)
        if not one.methods or "POST" not in one.methods or path.startswith("/api/"):
            continue
        words = dict.fromkeys(
            ("name", "lifter", "lift", "gym", "note", "day", "hung", "straight", "start", "within",
             "prices", "room-name", "s0-lifter", "bottom", "top", "key", "over", "reps"),
            EVIL,
        )  # fmt: skip
        path = path.replace("{which}", str(uuid.uuid4()))
        answer = coach.post(path, data=words, headers=headers, follow_redirects=False)
        assert answer.status_code != 500, path
        if answer.headers.get("content-type", "").startswith("text/html"):
            assert not {"i", "evil", "i/evil"} & elements(answer.text), path
