"""`topheavy explain`: two sheets or nothing, and JSON beside them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tests.cli.calling import TINY, call, refused
from tests.present.pdf import read_page

if TYPE_CHECKING:
    from pathlib import Path

ASK = ("--gym", TINY, "--bottom", "65kg", "--top", "84kg")


def test_two_sheets_are_written_and_named(tmp_path: Path) -> None:
    out = tmp_path / "page.pdf"
    done = call("explain", *ASK, "--out", str(out))
    assert (done.code, done.err) == (0, "")
    assert done.out == f"Wrote {out}\n"
    assert read_page(out.read_bytes()).pages == 2
    assert [path.name for path in tmp_path.iterdir()] == ["page.pdf"]


def test_who_writes_them_is_warned_as_the_lifter_is_and_told_to_read_bands_again(
    tmp_path: Path,
) -> None:
    out = str(tmp_path / "page.pdf")
    heavy = call("explain", *ASK, "--out", out, "--best", "60kg").out
    assert heavy.startswith(f"Wrote {out}\nToo heavy: ")
    bands = ("--lifter", "Osric", "--bottom", "85kg", "--top", "115kg", "--bands", "1")
    told = call("explain", *bands, "--most-pieces", "0", "--today", "2027-06-01", "--out", out).out
    assert " ".join(told.split()).count("days ago: read it again") == 2


def test_json_says_what_the_page_says(tmp_path: Path) -> None:
    out = tmp_path / "page.pdf"
    view = call("explain", *ASK, "--out", str(out), "--json", "--units", "lb").json
    rig = call("rig", *ASK, "--json").json
    loads = {row["place"]: row["raising"]["kg"] for row in rig["loads"]}
    stands = view["stands"]
    assert [stands[0]["raising"]["kg"], stands[2]["raising"]["kg"]] == [
        loads["bottom"],
        loads["top"],
    ]
    text = read_page(out.read_bytes()).text
    for stand in stands:
        assert stand["raising"]["shown"].endswith(" lb")
        assert stand["raising"]["shown"] in text


def test_a_best_that_is_typed_shows_strength(tmp_path: Path) -> None:
    out = str(tmp_path / "page.pdf")
    ask = ("--gym", TINY, "--bottom", "65kg", "--top", "84kg", "--out", out, "--json")
    view = call("explain", *ask, "--best", "110kg").json
    assert view["known"]
    assert view["weakest"]["kg"] == 110.0
    assert view["stands"][1]["of_strength"]["fraction"] < 1


def test_what_can_not_be_written_is_refused_before_the_search(tmp_path: Path) -> None:
    refused(call("explain", *ASK, "--out", str(tmp_path / "page.svg")), "--out", ".pdf")
    refused(call("explain", *ASK, "--out", str(tmp_path / "no" / "page.pdf")), "--out", "folder")
    refused(call("explain", "--gym", TINY, "--lifter", "Nobody"), "Nobody")
    assert not list(tmp_path.iterdir())


def test_a_mistake_in_the_question_writes_nothing(tmp_path: Path) -> None:
    out = tmp_path / "page.pdf"
    done = call("explain", "--gym", TINY, "--bottom", "500kg", "--top", "400kg", "--out", str(out))
    refused(done)
    assert not out.exists()
