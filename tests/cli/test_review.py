"""`topheavy review` and the example log, as a coach calls them."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.cli.calling import call, refused
from topheavy.gymfile import demo_text

if TYPE_CHECKING:
    from pathlib import Path


@pytest.fixture
def barn(tmp_path: Path) -> Path:
    """The built-in gym in the store, without a log."""
    path = tmp_path / "barn.toml"
    path.write_text(demo_text(), encoding="utf-8")
    assert call("gym", "load", str(path)).code == 0
    return tmp_path


@pytest.fixture
def logged(barn: Path) -> Path:
    """The same with the example log."""
    sets = barn / "sets.csv"
    sets.write_text(call("log", "example").out, encoding="utf-8")
    done = call("log", "import", str(sets), "--yes")
    assert "220 new sets" in done.out, done.err
    return barn


def test_from_nothing_to_a_review(barn: Path) -> None:
    empty = call("review", "--today", "2026-11-25")
    assert empty.code == 0
    assert "Nothing to review yet" in empty.out
    assert "log import" in empty.out
    refused(call("review", "--pdf", str(barn / "x.pdf")), "nothing to print")
    assert not (barn / "x.pdf").exists()
    sets = barn / "sets.csv"
    sets.write_text(call("log", "example").out, encoding="utf-8")
    assert call("log", "import", str(sets), "--yes").code == 0
    assert "Imported: 0 new" in call("log", "import", str(sets), "--yes").out
    news = call("review", "--today", "2026-11-25").out
    for line in ("Runa, squat", "Wren, squat", "next week  A light week", "--lifter NAME"):
        assert line in news


def test_one_lifter_whole_on_80_columns_as_json_and_on_paper(logged: Path) -> None:
    done = call("review", "--lifter", "osric", "--units", "lb", "--pdf", str(logged / "o.pdf"))
    assert done.code == 0, done.err
    for head in ("Trend", "Next week", "Bests, on", "Work", "Where lifts", "Which share", "Mind"):
        assert f"\n{head}" in done.out, head
    assert "lb" in done.out
    assert max(len(line) for line in done.out.splitlines() if str(logged) not in line) <= 80
    assert (logged / "o.pdf").read_bytes().startswith(b"%PDF")
    (lift,) = call("review", "--lifter", "Osric", "--json").json["lifts"]
    assert lift["trend"]["verdict"] == "up"
    assert len(lift["work"]) == 18
    assert lift["bests"][0]["equals"]["kg"] > 142.5


@pytest.mark.usefixtures("logged")
def test_days_lift_and_noise_narrow_it() -> None:
    few = call("review", "--lifter", "Pip", "--since", "2026-11-01", "--json").json["lifts"][0]
    assert few["trend"]["verdict"] == "few"
    assert few["first_day"] >= "2026-11-01"
    early = call("review", "--lift", "bench", "--until", "2026-08-01", "--json").json
    assert (early["until"], len(early["lifts"])) == ("2026-08-01", 2)
    wide = call("review", "--lifter", "Pip", "--noise", "12 %", "--json").json["lifts"][0]
    assert wide["trend"]["verdict"] == "level"


@pytest.mark.usefixtures("barn")
def test_what_makes_no_sense_is_refused() -> None:
    for words, said in (
        (("--lifter", "Nobody"), "No lifter"),
        (("--lifter", " "), "no name"),
        (("--lift", "curl"), "lift"),
        (("--since", "yesterday"), "Not a day"),
        (("--since", "2026-11-02", "--until", "2026-11-01"), "before the first"),
        (("--noise", "0.5%"), "1.4 to 12.1 %"),
        (("--noise", "much"), "--noise"),
        (("--gym", "barn.toml"), "store:NAME"),
        (("--pdf", "review.docx"), ".pdf"),
    ):
        refused(call("review", *words), said)
