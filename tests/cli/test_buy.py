"""`topheavy buy`: the shopping list on the screen and as JSON."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.cli.calling import call, refused

if TYPE_CHECKING:
    from pathlib import Path

ONE = """
[room]
opens = "18:00"
closes = "19:00"
[[session]]
lifter = "Pip"
lift = "deadlift"
bottom = "75 kg"
top = "95 kg"
within = "0.3 kg"
"""


@pytest.fixture
def lifts(tmp_path: Path) -> str:
    path = tmp_path / "lifts.toml"
    path.write_text(ONE)
    return str(path)


def test_the_list_says_what_to_buy_and_why(lifts: str) -> None:
    done = call("buy", "list", lifts)
    assert done.code == 0, done.err
    for words in ("EUR make 1 of 1 lifts possible (0 now): proven cheapest.", "Then possible too"):
        assert words in done.out
    assert "1/4 in, 54 links: too thin" in done.out
    assert "ASTM A413" in done.out
    assert max(len(line) for line in done.out.splitlines()) <= 80


def test_nothing_to_buy_is_said(lifts: str) -> None:
    view = call("buy", "list", lifts, "--within", "2kg", "--json").json
    assert view["verdict"] == "Nothing: the lift can be rigged with what you own."
    assert view["lines"] == []


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("--within", "0kg"), "--within"),
        (("--prices", "none.toml"), "no such file"),
        (("none.toml",), "no such file"),
        (("--gym", "none.toml"), "no such file"),
    ],
)
def test_mistakes_are_told(words: tuple[str, ...], said: str) -> None:
    refused(call("buy", "list", *words), said)
