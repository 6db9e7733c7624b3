"""Gyms and the log in the store, from the terminal, as a coach works with them."""

from __future__ import annotations

import json
import uuid
from typing import TYPE_CHECKING

import pytest

from tests.cli.calling import Called, call, refused, run
from topheavy.gymfile import demo_gym, demo_text, read_gym

if TYPE_CHECKING:
    from pathlib import Path

OSRIC = ("--lifter", "Osric", "--lift", "bench press")
RIG = (
    "--station", "bench 1", "--left", "A1+A2", "--right", "A3+A4", "--feeder", "ring strap:7",
    "--connector", "10 mm screw link",
)  # fmt: skip


@pytest.fixture
def mine(tmp_path: Path) -> Path:
    """The built-in gym as a file, and in the store."""
    path = tmp_path / "mine.toml"
    path.write_text(demo_text(), encoding="utf-8")
    assert call("gym", "load", str(path), "--by", "Coach").code == 0
    return path


def add(*words: str) -> str:
    """Log a set; return its id."""
    done = call("log", "add", *words, "--json")
    assert done.code == 0, done.err
    return str(done.json["sets"][0]["id"])


def listed(*words: str) -> list[dict[str, object]]:
    return list(call("log", "list", *words, "--json").json["sets"])


def test_a_gym_goes_in_and_comes_back(mine: Path, tmp_path: Path) -> None:
    back = tmp_path / "back.toml"
    assert "version 1" in call("gym", "save", str(back)).out
    assert read_gym(back) == demo_gym()
    refused(call("gym", "save", str(back)), "such a file already", "--replace")
    assert call("gym", "save", str(back), "--replace").code == 0
    back.write_text(back.read_text(encoding="utf-8").replace("power bar", "good bar"), "utf-8")
    refused(call("gym", "load", str(back)), "in the store already", "--over", "by Coach")
    assert "version 2" in call("gym", "load", str(back), "--over", "1", "--by", "Pip").out
    refused(call("gym", "load", str(mine), "--over", "1"), "changed since version 1", "by Pip")
    (gym,) = call("gym", "stored", "--json").json["gyms"]
    assert [(one["number"], one["author"]) for one in gym["versions"]] == [(1, "Coach"), (2, "Pip")]
    then = tmp_path / "then.toml"
    call("gym", "save", str(then), "--version", "1", "--name", "the tarnfell barbell barn")
    assert read_gym(then) == demo_gym()


@pytest.mark.usefixtures("mine")
def test_every_command_takes_a_gym_of_the_store() -> None:
    words = ("strength", "--lifter", "Osric", "--json")
    stored = call(*words, "--gym", "store:The Tarnfell Barbell Barn")
    assert stored.json == call(*words, "--gym", "store:").json == call(*words).json
    refused(call(*words, "--gym", "store:Nowhere"), "No such gym", "Tarnfell")


def test_the_store_is_where_the_option_says(mine: Path, tmp_path: Path) -> None:
    there = ("--store", str(tmp_path / "there.sqlite"))
    assert call(*there, "gym", "stored", "--json").json["gyms"] == []
    call(*there, "gym", "load", str(mine))
    assert len(call(*there, "gym", "stored", "--json").json["gyms"]) == 1
    refused(call("--store", "ftp://x", "gym", "stored"), "--store", "sqlite:///")


@pytest.mark.usefixtures("mine")
def test_a_hard_set_in_the_log_tells_of_strength() -> None:
    add(*OSRIC, "--straight", "120kg", "--reps", "5", "--reps-left", "1")
    add(*OSRIC, "--straight", "150kg", "--reps", "0", "--third", "middle")
    said = call("strength", "--gym", "store:", "--lifter", "Osric").out
    assert said.count("(logged ") == 2
    assert "a miss of 150.0 kg at 86.5 cm (logged " in said


@pytest.mark.usefixtures("mine")
def test_what_hung_is_frozen_with_the_loads_that_curve_tells() -> None:
    add(*OSRIC, *RIG, "--straight", "85kg", "--reps", "3")
    (one,) = listed()
    curve = call("curve", *RIG, "--straight", "85kg", "--lifter", "Osric", "--json").json
    for place in ("bottom", "top"):
        (row,) = [row for row in curve["loads"] if row["place"] == place]
        assert one[place]["kg"] == pytest.approx(row["raising"]["kg"], abs=1e-3)  # type: ignore[index]  # a figure
    assert "A1 + A2 (5/8 in, 32 links), folded on ring strap" in str(one["hung"])


@pytest.mark.usefixtures("mine")
def test_a_found_rig_is_logged_as_it_was_found() -> None:
    rig = call("rig", "--gym", "store:", "--lifter", "Pip", "--bottom", "45kg", "--top", "60kg",
               "--json")  # fmt: skip
    done = call("log", "add", "--rig", "-", "--reps", "3", "--json", stdin=rig.out)
    (one,) = done.json["sets"]
    assert (one["lifter"], one["lift"], one["station"]) == ("Pip", "bench press", "bench 2")
    assert one["top"]["kg"] == pytest.approx(60.0, abs=0.5)


@pytest.mark.usefixtures("mine")
def test_sending_again_is_said_and_does_not_double() -> None:
    words = ("log", "add", *OSRIC, "--straight", "100kg", "--reps", "3", "--id", str(uuid.uuid4()))
    assert call(*words).out.startswith("Logged.")
    assert call(*words).out.startswith("It is in the log already.")
    refused(call(*words, "--reps-left", "2"), "stands for another set")
    assert len(listed()) == 1


@pytest.mark.usefixtures("mine")
def test_corrections_and_strikes_leave_what_was_logged() -> None:
    first = add(*OSRIC, "--straight", "100kg", "--reps", "3", "--note", "slow")
    assert call("log", "correct", first[:8], "--reps", "4").code == 0
    (one,) = listed()
    assert (one["reps"], one["note"], one["corrects"]) == (4, "slow", first)
    refused(call("log", "correct", first, "--reps", "5"), "corrected this set already")
    assert call("log", "strike", str(one["id"])).code == 0
    assert listed() == []
    everything = listed("--all")
    assert [(row["corrected"], row["struck"]) for row in everything] == [
        (True, False), (True, False), (False, True)
    ]  # fmt: skip
    assert "struck out" in call("log", "list", "--all").out


@pytest.mark.usefixtures("mine")
@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["add"], "--straight is missing"),
        (["add", "--straight", "100kg", "--reps", "3"], "--lifter is missing"),
        (["add", *OSRIC, "--straight", "100kg"], "--reps is missing"),
        (["add", *OSRIC, "--straight", "100", "--reps", "3"], "Not a mass"),
        (["add", *OSRIC, "--straight", "100kg", "--reps", "-3"], "can't be so"),
        (["add", *OSRIC, "--straight", "100kg", "--reps", "3", "--day", "2026-02-30"], "Not a day"),
        (
            ["add", *OSRIC, "--straight", "100kg", "--reps", "3", "--loads", "1kg/2kg"],
            "three loads",
        ),
        (
            ["add", *OSRIC, "--straight", "100kg", "--reps", "3", "--hung", "x"],
            "no loads are given",
        ),
        (["add", *OSRIC, *RIG, "--straight", "85kg", "--reps", "3", "--loads", "1/2/3"], "twice"),
        (["add", *RIG, "--straight", "85kg", "--reps", "3"], "Nobody's lift is named"),
        (
            ["add", "--lifter", "Zed", "--lift", "squat", "--straight", "1kg", "--reps", "1"],
            "'Zed'",
        ),
        (["correct", "5d5a"], "Nothing is corrected"),
        (["correct", "5d5a", "--reps", "3"], "No such set"),
        (["correct", "", "--reps", "3"], "No such set"),
        (["strike", "%"], "No such set"),
        (["list", "--lifter", "Zed"], "'Zed'"),
        (["list", "--since", "yesterday"], "Not a day"),
        (["list", "--most", "0"], "Fewer than one"),
        (["list", "--gym", "mine.toml"], "belongs to a gym in the store"),
        (["export", "sets.doc"], "Unknown kind of file"),
        (["export", "no/such/sets.csv"], "no such folder"),
        (["import", "none.csv"], "no such file"),
    ],
)
def test_what_can_not_be_logged(words: list[str], said: str) -> None:
    refused(call("log", *words), said)
    assert listed("--all") == []


@pytest.mark.usefixtures("mine")
def test_import_looks_first_then_takes_all_or_nothing(tmp_path: Path) -> None:
    path = tmp_path / "sets.csv"
    good = (
        "reps;Weight;Date;Lifter;Lift\n5;120,5;25.11.2026;osric;bench\n3;80;26.10.2026;Pip;squat\n"
    )
    path.write_text(good, encoding="utf-8")
    refused(
        call("log", "import", str(path)),
        "Nothing says the unit of straight",
        "--unit straight=kg or lb",
    )
    look = call("log", "import", str(path), "--unit", "kg")
    assert look.code == 0
    assert "Nothing is imported yet" in look.out
    assert "day, month, year" in look.out
    assert listed() == []
    path.write_text(good + "3;80;31.11.2026;Pip;squat\n", encoding="utf-8")
    refused(call("log", "import", str(path), "--unit", "kg", "--yes"), "line 4", "31.11.2026")
    assert listed() == []
    path.write_text(good, encoding="utf-8")
    assert call("log", "import", str(path), "--unit", "kg", "--yes", "--json").json["known"] == 0
    assert [row["straight"]["kg"] for row in listed()] == [80.0, 120.5]  # type: ignore[index]  # figures
    again = call("log", "import", str(path), "--unit", "kg", "--yes").out
    assert "2, not doubled" in again
    assert len(listed("--all")) == 2


@pytest.mark.usefixtures("mine")
def test_export_and_import_into_another_store(tmp_path: Path, mine: Path) -> None:
    add(*OSRIC, *RIG, "--straight", "85kg", "--reps", "3", "--note", "=1+1")
    old = add(*OSRIC, "--straight", "100kg", "--reps", "3")
    call("log", "correct", old, "--reps", "2", "--day", "2026-01-01")
    out = tmp_path / "all.csv"
    assert "3 sets of The Tarnfell Barbell Barn" in call("log", "export", str(out), "--all").out
    there = ("--store", str(tmp_path / "there.sqlite"))
    call(*there, "gym", "load", str(mine))
    assert call(*there, "log", "import", str(out), "--yes").code == 0
    rows = call(*there, "log", "list", "--all", "--json").json["sets"]
    assert rows == listed("--all")
    lines = tmp_path / "all.jsonl"
    call("log", "export", str(lines))
    assert [json.loads(line)["note"] for line in lines.read_text("utf-8").splitlines()] == [
        "", "=1+1"
    ]  # fmt: skip


def test_a_store_that_can_not_be_opened_is_told_plainly(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("x" * 5_000)
    refused(run("--store", str(tmp_path / "file"), "gym", "stored"), "The file is not a store")
    done: Called = run("--store", str(tmp_path / "file" / "s.sqlite"), "log", "list")
    refused(done, "can't be opened")
