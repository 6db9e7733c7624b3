"""Files that can't be read, and texts that are no TOML."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.gymfile.samples import HEAD
from topheavy.errors import FileError
from topheavy.gymfile import GymFileError, parse_gym, read_gym

if TYPE_CHECKING:
    from pathlib import Path


def test_a_file_is_read_from_its_path(tmp_path: Path) -> None:
    path = tmp_path / "gym.toml"
    path.write_text(HEAD, encoding="utf-8")
    assert read_gym(path).name == read_gym(str(path)).name == "The Shed"


def test_byte_order_mark_and_windows_line_ends_are_no_mistake(tmp_path: Path) -> None:
    path = tmp_path / "gym.toml"
    path.write_bytes(b"\xef\xbb\xbf" + HEAD.replace("\n", "\r\n").encode())
    assert read_gym(path).name == "The Shed"


def test_a_missing_file(tmp_path: Path) -> None:
    with pytest.raises(FileError) as caught:
        read_gym(tmp_path / "none.toml")
    assert caught.value.message == "There is no such file"
    assert str(caught.value.field).endswith("none.toml")


def test_a_directory(tmp_path: Path) -> None:
    with pytest.raises(FileError, match="That is a directory"):
        read_gym(tmp_path)


def test_a_file_used_as_a_directory(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("")
    with pytest.raises(FileError, match="can't be read"):
        read_gym(tmp_path / "file" / "gym.toml")


def test_a_path_no_system_has() -> None:
    with pytest.raises(FileError, match="can't be read"):
        read_gym("gym\0.toml")


def test_a_file_that_is_not_utf_8(tmp_path: Path) -> None:
    path = tmp_path / "gym.toml"
    path.write_bytes(b'[gym]\nname = "Caf\xe9"\n')
    with pytest.raises(FileError) as caught:
        read_gym(path)
    assert caught.value.message == "The file is not UTF-8 text"
    assert str(caught.value.field).endswith("gym.toml, line 2")
    assert caught.value.got == "byte 0xe9"


def test_a_file_that_is_too_large(tmp_path: Path) -> None:
    path = tmp_path / "gym.toml"
    path.write_bytes(b"#" * 5_000_001)
    with pytest.raises(FileError, match="too large") as caught:
        read_gym(path)
    assert caught.value.got == "more than 5 MB"
    with pytest.raises(FileError, match="too large"):
        parse_gym("#" * 5_000_001)


@pytest.mark.parametrize(
    ("text", "message", "field", "got"),
    [
        ('[gym]\nname "x"\n', "Expected '=' after a key", "shed.toml, line 2, column 6", 'name'),
        ("[gym]\nname = x\n", "Invalid value", "shed.toml, line 2, column 8", "name = x"),
        ("[gym\n", "Expected ']'", "shed.toml, line 1, column 5", "[gym"),
        ('[gym]\nname = "x', "Unterminated string", "shed.toml, at its end", ""),
        ("[gym]\n[gym]\n", "Cannot declare", "shed.toml, line 2, column 5", "[gym]"),
        ('[gym]\nname = "a"\nname = "b"\n', "Cannot overwrite a value", "line 3", 'name = "b"'),
        ("x = " + "9" * 5000, "too many digits", "shed.toml", ""),
    ],
)  # fmt: skip
def test_malformed_toml_says_line_and_column(text: str, message: str, field: str, got: str) -> None:
    with pytest.raises(FileError) as caught:
        parse_gym(text, "shed.toml")
    assert caught.value.message.startswith("Not valid TOML: ")
    assert message in caught.value.message
    assert field in str(caught.value.field)
    assert got in str(caught.value.got or "")
    assert "sys." not in str(caught.value)


def test_tables_nested_too_deep() -> None:
    with pytest.raises(FileError, match="nested too deep"):
        parse_gym("x = " + "[" * 100_000)


@pytest.mark.parametrize(
    "text", ["{} = 1", "[{}]", "gym = {{ {} = 1 }}"], ids=["key", "table", "inline table"]
)
@pytest.mark.parametrize("part", ["a", '"a b"', "'a'"])
def test_a_key_of_very_many_parts(text: str, part: str) -> None:
    """The parser's work grows with the square of their number: it never gets to see them."""
    with pytest.raises(FileError, match="nested too deep"):
        parse_gym(text.format(" . ".join([part] * 3000)))
    with pytest.raises(GymFileError):
        parse_gym(text.format(".".join([part] * 20)))


@pytest.mark.parametrize(
    ("line", "plain"),
    [
        ("mass = 5 kg", "are quotes missing"),
        ('tags = ["A1" "A2"]', "is a comma missing in the list"),
        ('tags = ["A1", "A2"', "or its closing ]"),
        ("mass = ", "is the value missing"),
        ("bench press = 1", "is the = missing"),
        ("[[chain]", "is a closing bracket missing"),
        ('mass = "5 kg\n', "is the closing quote missing"),
        ("mass = '5 kg\n", "is the closing quote missing"),
        ('mass = "5 kg', "is the closing quote missing"),
        ('mass = "1"\nmass = "2"', "the same key stands twice"),
        ("[gym]", "the same table stands twice"),
        ("lift = { top = 1 bottom = 2 }", "is a comma missing between the braces"),
        ("! A1", "starts with a key"),
        ('mass = "5\\kg"', "two backslashes"),
    ],
)
def test_what_is_no_toml_is_told_plainly_too(line: str, plain: str) -> None:
    with pytest.raises(FileError) as caught:
        parse_gym(HEAD + line)
    assert caught.value.message.startswith("Not valid TOML: ")
    assert plain in caught.value.message
