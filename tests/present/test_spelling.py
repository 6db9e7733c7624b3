"""Words for terminals that can't show every character."""

from __future__ import annotations

import io

import pytest

from topheavy.present.figure import Figure
from topheavy.present.spelling import HANDLER, spell, spelled


@pytest.mark.parametrize("encoding", ["ascii", "latin-1", "cp437", "cp1252", "utf-8"])
def test_whatever_comes_out_can_be_encoded(encoding: str) -> None:
    for code in [*range(0x20, 0x3000), 0xD800, 0x1F600]:
        assert spell(chr(code), encoding).encode(
            encoding, "strict" if code != 0xD800 else "replace"
        )


def test_letters_lose_their_marks_and_signs_get_words() -> None:
    text = "J\u00f6rn: 1 \u00b1 2 kg, 5 \u00d7 3, 20 \u00b0C \u2026 \u6f22"
    assert spell(text, "ascii") == "Jorn: 1 +- 2 kg, 5 x 3, 20  degC ... ?"
    assert spell("1 \u00b1 2", "latin-1") == "1 \u00b1 2"


def test_a_view_is_spelled_all_through() -> None:
    view = {"a": (Figure(1.0, "kg", "1 \u00b1 2 kg", 2.0), ["left \u00b1"], 3, None)}
    assert spelled(view, "ascii") == {
        "a": (Figure(1.0, "kg", "1 +- 2 kg", 2.0), ["left \u00b1"], 3, None)
    }
    assert spelled(view, "UTF-8") is view


def test_a_stream_with_the_handler_never_fails() -> None:
    raw = io.BytesIO()
    stream = io.TextIOWrapper(raw, encoding="ascii", errors=HANDLER)
    stream.write("5 \u00b1 1 \u2501\u2503 \udcff\u00e9")
    stream.flush()
    assert raw.getvalue() == b"5 +- 1 =# ?e"
    with pytest.raises(UnicodeDecodeError):
        b"\xff".decode("ascii", HANDLER)
