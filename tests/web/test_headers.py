"""What goes with every answer, and who is answered."""

from __future__ import annotations

import pytest

from tests.web.serving import client
from topheavy.web.headers import HEADERS


@pytest.mark.parametrize(
    "path", ["/rig", "/api/gym", "/nowhere", "/api/rig?bottom=x", "/static/js/rig.js", "/static/no"]
)
def test_every_answer_has_the_headers(path: str) -> None:
    answer = client().get(path)
    assert {name: answer.headers.get(name) for name in HEADERS} == HEADERS


def test_the_policy_lets_nothing_inline_and_nothing_from_elsewhere() -> None:
    policy = dict(rule.split(" ", 1) for rule in HEADERS["Content-Security-Policy"].split("; "))
    assert policy["default-src"] == "'none'"
    assert set(policy.values()) == {"'none'", "'self'"}


def test_what_was_worked_out_is_not_kept_and_files_are_asked_for_again() -> None:
    assert client().get("/rig").headers["cache-control"] == "no-store"
    first = client().get("/static/js/rig.js")
    assert first.headers["cache-control"] == "no-cache"
    again = client().get("/static/js/rig.js", headers={"If-None-Match": first.headers["etag"]})
    assert again.status_code == 304


@pytest.mark.parametrize("name", ["elsewhere.example", "127.0.0.1.elsewhere.example"])
def test_only_this_machine_s_own_names_are_answered(name: str) -> None:
    assert client().get("/rig", headers={"Host": name}).status_code == 400


@pytest.mark.parametrize("name", ["127.0.0.1", "localhost:8477", "[::1]:8477", "127.0.0.1:1"])
def test_with_and_without_a_port(name: str) -> None:
    assert client().get("/rig", headers={"Host": name}).status_code == 200


@pytest.mark.parametrize(
    "path", ["/static/../app.py", "/static/%2e%2e/app.py", "/static/js/..%2f..%2fapp.py"]
)
def test_no_file_outside_is_given(path: str) -> None:
    assert client().get(path).status_code == 404
