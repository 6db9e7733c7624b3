"""`topheavy rig`, `card` and `demo`: what is printed, and what is written."""

from __future__ import annotations

import os
import re
import shlex
import stat
import sys
from pathlib import Path

import pytest

from tests.cli.calling import TINY, call, refused

ASK = ("--gym", TINY, "--bottom", "65kg", "--top", "84kg")
HARD = ("--gym", TINY, "--bottom", "40kg", "--top", "160kg")


def test_json_and_terminal_say_the_same() -> None:
    shown, view = call("rig", *ASK), call("rig", *ASK, "--json").json
    text = " ".join(shown.out.split())
    assert view["meets"]
    for row in view["loads"]:
        assert row["raising"]["shown"] in text
    assert view["hang_left"] in text
    assert max(len(line) for line in shown.out.splitlines()) <= 80


def test_pounds() -> None:
    metric, pounds = call("rig", *ASK, "--json").json, call("rig", *ASK, "--units", "lb", "--json")
    for one, other in zip(metric["loads"], pounds.json["loads"], strict=True):
        assert one["raising"]["kg"] == other["raising"]["kg"]
        assert other["raising"]["shown"].endswith(" lb")
    shown = call("rig", *ASK, "--units", "lb").out
    table = shown.partition("On the bar")[2].partition("Load by height")[0]
    assert " lb" in table
    assert " kg" not in table


def test_a_target_out_of_reach_is_no_mistake_and_says_so() -> None:
    done = call("rig", *HARD)
    assert done.code == 0
    assert "does not reach the target" in " ".join(done.out.split())
    assert not call("rig", *HARD, "--json").json["meets"]


def test_the_command_that_checks_it_can_be_pasted() -> None:
    """As printed, over several lines, with readings put in."""
    view = call("rig", *ASK, "--json").json
    printed = call("rig", *ASK).out.partition("Check it on a scale\n")[2]
    assert not re.search(r"\\ +\n", printed)
    words = shlex.split(printed.replace("\\\n", " "))
    assert words[:2] == ["topheavy", "weigh"]
    loads = {row["place"]: row for row in view["loads"]}
    typed = [
        f"{loads[place]['height']['m']}m={loads[place]['raising']['kg']:.2f}kg:up"
        for place in ("bottom", "top")
    ]
    readings = ["--reading", typed[0], "--reading", typed[1]]
    done = call("weigh", "--gym", TINY, *words[2:-2], *readings, "--json")
    assert done.code == 0, done.err
    assert done.json["title"] == view["title"]
    assert done.json["outcome"] == "agrees"


def test_a_picture_is_written_whole(tmp_path: Path) -> None:
    picture = tmp_path / "rig.svg"
    done = call("rig", *ASK, "--picture", str(picture))
    assert done.code == 0
    assert picture.read_text(encoding="utf-8").startswith("<svg")
    assert stat.S_IMODE(picture.stat().st_mode) == 0o644 or sys.platform == "win32"
    assert [path.name for path in tmp_path.iterdir()] == ["rig.svg"]


@pytest.mark.parametrize("kind", ["gif", "", "pdf"])
def test_a_picture_of_no_known_kind(tmp_path: Path, kind: str) -> None:
    picture = tmp_path / f"rig.{kind}"
    refused(call("rig", *ASK, "--picture", str(picture)), "--picture", ".svg or .png")
    assert not list(tmp_path.iterdir())


def test_output_that_can_not_be_written(tmp_path: Path) -> None:
    refused(
        call("rig", *ASK, "--picture", str(tmp_path / "nowhere" / "rig.svg")),
        "no such folder",
        "nowhere",
    )
    (tmp_path / "rig.svg").mkdir()
    refused(call("rig", *ASK, "--picture", str(tmp_path / "rig.svg")), "That is a folder")
    assert [path.name for path in tmp_path.iterdir()] == ["rig.svg"]


def test_a_mistake_leaves_the_old_file_alone(tmp_path: Path) -> None:
    picture = tmp_path / "rig.svg"
    picture.write_text("the old one")
    refused(call("rig", *ASK, "--top", "60kg", "--picture", str(picture)), "top")
    assert picture.read_text() == "the old one"


def test_a_write_that_fails_half_way_leaves_the_old_file_alone(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    picture = tmp_path / "rig.svg"
    picture.write_text("the old one")

    def full(*_: Path) -> Path:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(Path, "replace", full)
    refused(call("rig", *ASK, "--picture", str(picture)), "No space left on device")
    assert picture.read_text() == "the old one"
    assert [path.name for path in tmp_path.iterdir()] == ["rig.svg"]


def test_a_folder_that_may_not_be_written_to(tmp_path: Path) -> None:
    locked = tmp_path / "locked"
    locked.mkdir()
    locked.chmod(0o500)
    if os.access(locked, os.W_OK):
        pytest.skip("this user may write anywhere")
    refused(call("rig", *ASK, "--picture", str(locked / "rig.svg")), "Can't write")


def test_the_card_is_a_pdf(tmp_path: Path) -> None:
    card = tmp_path / "card.pdf"
    done = call("card", *ASK, "--out", str(card))
    assert (done.code, done.out) == (0, f"Wrote {card}\n")
    assert card.read_bytes().startswith(b"%PDF-")
    told = call("card", *ASK, "--out", str(card), "--json")
    assert told.json == call("rig", *ASK, "--json").json


def test_the_demo_writes_card_and_pictures(tmp_path: Path) -> None:
    out = tmp_path / "deep" / "demo-out"
    done = call("demo", "--out", str(out))
    assert done.code == 0, done.err
    assert {path.name for path in out.iterdir()} == {"rig-card.pdf", "rig.svg", "rig.png"}
    assert "Osric, bench press, bench 1" in done.out


def test_a_demo_that_can_not_be_written(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("in the way")
    done = call("demo", "--out", str(tmp_path / "file" / "demo-out"))
    assert done.code == 2
    assert "Can't write" in done.err
