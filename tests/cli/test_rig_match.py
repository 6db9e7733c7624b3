"""`topheavy rig --match`: the rig for a lifter's strength."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.cli.calling import call, refused

if TYPE_CHECKING:
    from pathlib import Path

ASK = ("rig", "--lifter", "Pip", "--match", "--most-pieces", "4")


def test_json_and_terminal_say_the_same() -> None:
    view = call(*ASK, "--json").json
    text = " ".join(call(*ASK).out.split())
    match = view["match"]
    assert view["verdict"] in text
    assert match["wanted"]["shown"] == "90 %"
    assert match["sides"][0]["name"] == "plain weight"
    for row in match["rows"]:
        assert row["load"]["shown"] in text
        assert row["effort"]["shown"] in text
    assert "How evenly it uses the lifter" in text


def test_loads_alone_have_no_match() -> None:
    view = call("rig", "--lifter", "Pip", "--bottom", "45kg", "--top", "60kg", "--json").json
    assert view["match"] is None


def test_pounds() -> None:
    done = call(*ASK, "--units", "lb")
    chart = done.out[done.out.index("How evenly") : done.out.index("Links, each piece")]
    assert " lb " in chart
    assert " kg" not in chart


def test_a_lifter_with_a_set_typed_here() -> None:
    words = ("rig", "--lifter", "Wren", "--match", "--most-pieces", "4", "--json")
    view = call(*words, "--set", "5x50kg@2").json
    assert 50 < view["match"]["best"]["kg"] < 70
    assert any("stands for" in note for note in view["match"]["notes"])


@pytest.mark.parametrize("kind", [".svg", ".png"])
def test_curves_over_curves(tmp_path: Path, kind: str) -> None:
    file = tmp_path / f"curves{kind}"
    assert call(*ASK, "--curves", str(file)).code == 0
    content = file.read_bytes()
    assert content[:4] == (b"<svg" if kind == ".svg" else b"\x89PNG")
    if kind == ".svg":
        for name in ("Pip's strength", "plain weight", "chain", "90 % of strength"):
            assert name in content.decode()


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("--match", "--bottom", "40kg"), ("--match and --bottom", "one of the two")),
        (("--match", "--follow", "66cm=40kg", "--follow", "90cm=50kg"), ("--follow",)),
        (("--match", "--effort", "120%"), ("--effort", "at most 100 %")),
        (("--match", "--effort", "0%"), ("--effort",)),
        (("--match", "--effort", "90"), ("--effort",)),
        (("--match", "--effort", "20%"), ("bar with its collars", "a lighter bar")),
        (("--match", "--partial", "3m=80kg"), ("--partial",)),
        (("--match", "--partial", "85cm=40kg"), ("a best of 40.0 kg from 85.0 cm",)),
        (("--match", "--bottom", "40kg", "--top", "50kg"), ("--match",)),
        (("--bottom", "40kg", "--top", "50kg", "--effort", "90%"), ("--effort", "--match")),
        (("--bottom", "40kg", "--top", "50kg", "--set", "5x50kg"), ("--set", "--match")),
        (("--bottom", "40kg", "--top", "50kg", "--curves", "x.svg"), ("--curves", "--match")),
        (("--match", "--curves", "x.txt"), ("--curves", ".svg")),
    ],
)
def test_questions_that_make_no_sense(words: tuple[str, ...], said: tuple[str, ...]) -> None:
    refused(call("rig", "--lifter", "Pip", *words), *said)


def test_nothing_known_of_the_lifter() -> None:
    refused(call("rig", "--lifter", "Wren", "--match"), "Nothing says how strong Wren is")
