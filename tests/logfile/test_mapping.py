"""What columns are taken for, and what whoever imports a file has to say."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.logfile.files import HEAD, mapped
from topheavy.errors import BadInputError
from topheavy.logfile.mapping import Said
from topheavy.logfile.meanings import MEANINGS, meaning_of

if TYPE_CHECKING:
    from pathlib import Path

ROW = "2026-11-25,Osric,squat,100,3"


def test_headers_in_any_order_and_case(tmp_path: Path) -> None:
    found = mapped(
        tmp_path, "3,100,2026-11-25,x,squat,Osric", head="REPS,Weight [kg],Date,What?,Lift,Lifter"
    )
    words = [column.meaning.word if column.meaning else "" for column in found.columns]
    assert words == ["reps", "straight", "day", "", "lift", "lifter"]
    assert found.columns[1].unit == "kg"


def test_no_header_is_taken_for_two_things() -> None:
    headers = [word for meaning in MEANINGS.values() for word in (meaning.word, *meaning.also)]
    assert len(headers) == len(set(headers))
    assert all(meaning_of(header.upper()) for header in headers)


def test_what_was_said_goes_before_what_is_guessed(tmp_path: Path) -> None:
    said = Said(columns={"kilos": "straight", "Weight": "-"}, units={"": "lb"})
    found = mapped(
        tmp_path,
        "2026-11-25,Osric,squat,80,100,3",
        head="day,lifter,lift,weight,Kilos,reps",
        said=said,
    )
    assert [(c.header, c.unit) for c in found.used if c.unit] == [("Kilos", "lb")]


@pytest.mark.parametrize(
    ("head", "row", "said", "message"),
    [
        ("day,lifter,lift,weight,reps", ROW, Said(), "Nothing says the unit of straight"),
        ("day,lifter,lift,weight,reps", ROW, Said(units={"straight": "stone"}), "Not a unit"),
        (HEAD, ROW, Said(units={"straight": "lb"}), "straight has another unit"),
        ("day,lifter,lift,straight,reps", ROW.replace("100", "100 st"), Said(), "Not a unit"),
        (
            "day,lifter,lift,reps",
            ROW.replace(",100", ""),
            Said(),
            "No column is taken for straight",
        ),
        ("day,lifter,lift,straight,weight,reps", ROW.replace("100", "1,2"), Said(), "Two columns"),
        (HEAD, ROW, Said(columns={"x": "day"}), "No such column"),
        (HEAD, ROW, Said(columns={"day": "dai"}), "No column can mean that"),
        (HEAD, ROW, Said(decimal="x"), "decimal mark"),
        (HEAD, ROW, Said(day_order="ydm"), "order of day"),
    ],
)
def test_what_can_not_be(tmp_path: Path, head: str, row: str, said: Said, message: str) -> None:
    with pytest.raises(BadInputError, match=message):
        mapped(tmp_path, row, head=head, said=said)


def test_mixed_units_in_a_column_are_told_with_their_lines(tmp_path: Path) -> None:
    rows = [ROW.replace("100", cell) for cell in ("100 kg", "220 lb", "225 lbs")]
    head = "day,lifter,lift,straight,reps"
    with pytest.raises(BadInputError, match="Units are mixed") as told:
        mapped(tmp_path, *rows, head=head)
    assert told.value.got == "kg in line 2; lb in line 3, 4"
    with pytest.raises(BadInputError, match="Units are mixed"):
        mapped(tmp_path, rows[0], ROW, head=head)
    with pytest.raises(BadInputError, match="Units are mixed"):
        mapped(tmp_path, rows[1])  # the header says kg
    assert mapped(tmp_path, rows[1], rows[2], head=head).columns[3].unit == "lb"


@pytest.mark.parametrize(
    ("cells", "decimal"),
    [(["100", "102.5"], "."), (["100", '"102,5"'], ","), (["100"], "."), (['"1,25"'], ",")],
)
def test_the_decimal_mark_is_found(tmp_path: Path, cells: list[str], decimal: str) -> None:
    assert mapped(tmp_path, *(ROW.replace("100", cell) for cell in cells)).decimal == decimal


@pytest.mark.parametrize("cells", [['"1,250"'], ["1.250.5"], ['"1,250.5"'], ["102.5", '"102,5"']])
def test_an_open_decimal_mark_has_to_be_said(tmp_path: Path, cells: list[str]) -> None:
    rows = [ROW.replace("100", cell) for cell in cells]
    with pytest.raises(BadInputError, match="not clear which mark"):
        mapped(tmp_path, *rows)
    assert mapped(tmp_path, *rows, said=Said(decimal=",")).decimal == ","


@pytest.mark.parametrize(
    ("days", "order"),
    [
        (["2026-11-05"], "ymd"),
        (["2026/11/05", "2026.1.5"], "ymd"),
        (["05.11.2026", "25.11.2026"], "dmy"),
        (["11/05/2026", "11/25/2026"], "mdy"),
    ],
)
def test_the_order_of_days_is_found(tmp_path: Path, days: list[str], order: str) -> None:
    assert mapped(tmp_path, *(ROW.replace("2026-11-25", day) for day in days)).day_order == order


def test_an_open_order_of_days_has_to_be_said(tmp_path: Path) -> None:
    rows = [ROW.replace("2026-11-25", day) for day in ("05/11/2026", "06/12/2026")]
    with pytest.raises(BadInputError, match="which is the day and which the month"):
        mapped(tmp_path, *rows)
    assert mapped(tmp_path, *rows, said=Said(day_order="dmy")).day_order == "dmy"
    with pytest.raises(BadInputError, match="more than one order"):
        mapped(tmp_path, *rows, *(ROW.replace("2026-11-25", d) for d in ("13/1/2026", "1/13/2026")))
