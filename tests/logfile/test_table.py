"""Files that are CSV, and those that are none."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.logfile.files import HEAD, table
from topheavy.errors import FileError
from topheavy.logfile import table as module
from topheavy.logfile.table import LogFileError, read_table

if TYPE_CHECKING:
    from pathlib import Path


@pytest.mark.parametrize("mark", list(",;\t|"))
def test_cells_are_apart_by_one_mark(tmp_path: Path, mark: str) -> None:
    found = table(tmp_path, mark.join(["2026-11-25", '"a, b"', "x"]), head=mark.join("abc"))
    assert (found.delimiter, found.header) == (mark, ["a", "b", "c"])
    assert found.rows == [(2, ["2026-11-25", "a, b", "x"])]


def test_lines_are_told_as_an_editor_counts_them(tmp_path: Path) -> None:
    found = table(tmp_path, '1,"two', 'lines"', "", "3,4", "", head="a,b")
    assert [line for line, _ in found.rows] == [2, 5]


def test_a_byte_order_mark_is_no_letter(tmp_path: Path) -> None:
    path = tmp_path / "x.csv"
    path.write_bytes(b"\xef\xbb\xbfday,reps\r\n2026-11-25,3\r\n")
    assert read_table(path).header == ["day", "reps"]


@pytest.mark.parametrize(
    ("content", "message"),
    [
        (b"", "not CSV"),
        (b"\x89PNG\r\n\x1a\n\x00\x00", "not CSV"),
        (b"\xff\xfed\x00a\x00y\x00", "not CSV"),
        (b"just some words\non two lines\n", "not CSV"),
        (b"{}\n", "not CSV"),
        (b"day,reps\n", "no set in the file"),
        (b"day,reps\n,\n", "no set in the file"),
        (b"day,note\n2026-11-25,caf\xe9\n", "not UTF-8"),
        (b'day,note\n2026-11-25,"open\n', "Not valid CSV"),
        (b"," * 300 + b"\n", "not CSV"),
    ],
)
def test_a_file_that_is_no_csv(tmp_path: Path, content: bytes, message: str) -> None:
    path = tmp_path / "x.csv"
    path.write_bytes(content)
    with pytest.raises(FileError, match=message):
        read_table(path)


def test_files_that_are_not_there(tmp_path: Path) -> None:
    with pytest.raises(FileError, match="no such file"):
        read_table(tmp_path / "none.csv")
    with pytest.raises(FileError, match="can't be read"):
        read_table(tmp_path)


def test_a_file_of_100_mb_is_refused_unread(tmp_path: Path) -> None:
    path = tmp_path / "large.csv"
    with path.open("wb") as file:
        file.truncate(100_000_000)
    with pytest.raises(FileError, match="too large") as told:
        read_table(path)
    assert "at most 80 MB" in str(told.value.wanted)


def test_too_many_rows(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(module, "MOST_ROWS", 3)
    with pytest.raises(FileError, match="Too many sets"):
        table(tmp_path, *["1,2"] * 4, head="a,b")


def test_rows_with_other_than_the_headers_cells_are_all_told(tmp_path: Path) -> None:
    good = "2026-11-25,Osric,squat,100,3"
    with pytest.raises(LogFileError) as told:
        table(tmp_path, good, "2026-11-25,Osric", good, good + ",,", head=HEAD)
    assert [(one.field, one.got) for one in told.value.problems] == [("line 3", 2), ("line 5", 7)]
    assert "nothing was imported" in str(told.value)
