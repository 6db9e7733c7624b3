"""`topheavy room`: the plan on the screen, as JSON, on paper, kept and made anew."""

from __future__ import annotations

import json
import sys
from typing import TYPE_CHECKING

import pytest

from tests.cli.calling import call, refused
from tests.present.pdf import open_pdf, read_page
from topheavy.errors import BadInputError
from topheavy.room.model_parts import solver_library

if TYPE_CHECKING:
    from pathlib import Path

TWO = """
[room]
name = "Short"
opens = "18:00"
closes = "18:45"
spotters = 3
within = "2.5 kg"
stations = ["bench 1", "rack"]
[[session]]
lifter = "Runa"
lift = "squat"
bottom = "100 kg"
top = "135 kg"
sets = 2
[[session]]
lifter = "Pip"
lift = "bench press"
bottom = "40 kg"
top = "52.5 kg"
sets = 2
"""


@pytest.fixture
def short(tmp_path: Path) -> str:
    path = tmp_path / "short.toml"
    path.write_text(TWO)
    return str(path)


def test_the_board_says_who_where_when_and_on_what(short: str) -> None:
    done = call("room", "plan", short, "--seconds", "3")
    assert done.code == 0, done.err
    for words in ("Runa, squat", "Pip, bench press", "bench 1", "rack", "hang from 18:00", "left"):
        assert words in done.out
    assert "Proven: no plan costs less." in done.out
    assert "spotter" in done.out
    assert max(len(line) for line in done.out.splitlines()) <= 80


def test_the_same_facts_as_json_and_in_pounds(short: str) -> None:
    view = call("room", "plan", short, "--seconds", "3", "--json", "--units", "lb").json
    assert view["possible"] is True
    (runa,) = next(s for s in view["stations"] if s["name"] == "rack")["groups"][0]["members"]
    assert abs(runa["bottom"]["kg"] - 100) <= 2.5
    assert runa["bottom"]["shown"].endswith(" lb")
    assert runa["turns"][0] == "18:04"
    assert {slip["lifter"] for slip in view["slips"]} == {"Runa", "Pip"}


def test_sheets_have_board_stations_and_slips(short: str, tmp_path: Path) -> None:
    paper = tmp_path / "room.pdf"
    done = call("room", "plan", short, "--seconds", "3", "--sheets", str(paper))
    assert f"Wrote {paper}" in done.out
    pdf = paper.read_bytes()
    pages = " ".join(read_page(pdf, n).text for n in range(len(open_pdf(pdf).pages)))
    for words in ("Short: 18:00 to 18:45", "bench 1", "Runa", "2 x 3"):
        assert words in pages


def test_a_kept_plan_is_kept_to(short: str, tmp_path: Path) -> None:
    kept = tmp_path / "plan.json"
    assert call("room", "plan", short, "--seconds", "3", "--save", str(kept)).code == 0
    assert len(json.loads(kept.read_text())["lifts"]) == 2
    done = call("room", "plan", short, "--seconds", "3", "--from", str(kept))
    assert "Nobody moves." in done.out
    done = call("room", "plan", short, "--seconds", "3", "--from", str(kept), "--late", "Pip=18:20")
    assert "Pip, bench press: bench 1 18:20, was bench 1 18:04" in done.out


def test_too_short_says_what_would_do(tmp_path: Path) -> None:
    path = tmp_path / "shorter.toml"
    path.write_text(TWO.replace("18:45", "18:10"))
    done = call("room", "plan", str(path), "--seconds", "2", "--sheets", str(tmp_path / "no.pdf"))
    assert done.code == 0
    assert "This can't be done as asked." in done.out
    assert "longer: until 18:12." in done.out
    assert not (tmp_path / "no.pdf").exists()


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("--seconds", "0"), "--seconds"),
        (("--sheets", "room.txt"), "--sheets"),
        (("--broken", "Z9"), "Z9"),
        (("--late", "Pip"), "--late"),
        (("--from", "none.json"), "no such file"),
        (("--gym", "none.toml"), "no such file"),
    ],
)
def test_mistakes_are_told(words: tuple[str, ...], said: str) -> None:
    refused(call("room", "plan", *words), said)


def test_without_the_solver_it_says_what_to_install(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "ortools.sat.python", None)
    with pytest.raises(BadInputError, match="solver"):
        solver_library()


WEEK = TWO.replace('name = "Short"', 'name = "Week 12"').replace(
    "[[session]]", '[[day]]\nname = "Monday"\n[[day]]\nname = "Thursday"\n[[session]]', 1
)


def test_a_week_is_shown_day_by_day_and_written_one_pdf_a_day(tmp_path: Path) -> None:
    path, paper = tmp_path / "week.toml", tmp_path / "week.pdf"
    path.write_text(WEEK + TWO[TWO.index("[[session]]") :])
    done = call("room", "plan", str(path), "--seconds", "4", "--sheets", str(paper))
    assert done.code == 0, done.err
    for words in ("All 4 lifts have a day.", "Monday", "Thursday: 18:00 to 18:45", "Runa, squat"):
        assert words in done.out
    assert max(len(line) for line in done.out.splitlines() if str(tmp_path) not in line) <= 80
    assert [one.name for one in sorted(tmp_path.glob("*.pdf"))] == ["week-1.pdf", "week-2.pdf"]
    view = call("room", "plan", str(path), "--seconds", "4", "--json", "--broken", "A3").json
    assert (view["planned"], view["left_out"]) == (4, [])
    assert [day["lifts"] for day in view["days"]] == [2, 2]
    for option, value in (("--late", "Pip=18:20"), ("--save", str(tmp_path / "plan.json"))):
        refused(call("room", "plan", str(path), option, value), option)
