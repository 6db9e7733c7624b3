"""Widths of words against the packaged fonts' own tables, and cutting lines to fit."""

from __future__ import annotations

import struct

import pytest

from topheavy.present.picture.lettering import printable, shortened, text_width, wrapped
from topheavy.present.picture.png import FONTS


def advance_widths(weight: int) -> dict[str, float]:
    """Advance of each ASCII letter in thousandths of the size.

    From the font file: tables ``head``, ``hhea``, ``hmtx`` and ``cmap`` format 4, as laid down in
    the OpenType specification (from memory).
    """
    data = (FONTS / f"BarlowSemiCondensed-{weight}.ttf").read_bytes()
    tables = {}
    for entry in range(struct.unpack_from(">H", data, 4)[0]):
        tag, _, offset, _ = struct.unpack_from(">4sLLL", data, 12 + 16 * entry)
        tables[tag] = offset
    per_em = struct.unpack_from(">H", data, tables[b"head"] + 18)[0]
    metrics = struct.unpack_from(">H", data, tables[b"hhea"] + 34)[0]
    glyphs = glyph_of(data, tables[b"cmap"])
    widths = {}
    for code in range(32, 127):
        glyph = min(glyphs[code], metrics - 1)
        advance = struct.unpack_from(">H", data, tables[b"hmtx"] + 4 * glyph)[0]
        widths[chr(code)] = 1000 * advance / per_em
    return widths


def glyph_of(data: bytes, cmap: int) -> dict[int, int]:
    for entry in range(struct.unpack_from(">H", data, cmap + 2)[0]):
        start = cmap + struct.unpack_from(">L", data, cmap + 8 + 8 * entry)[0]
        if struct.unpack_from(">H", data, start)[0] == 4:
            return segments(data, start)
    pytest.fail("no character map of format 4")


def segments(data: bytes, start: int) -> dict[int, int]:
    double = struct.unpack_from(">H", data, start + 6)[0]
    count = double // 2
    ends = struct.unpack_from(f">{count}H", data, start + 14)
    starts = struct.unpack_from(f">{count}H", data, start + 16 + double)
    deltas = struct.unpack_from(f">{count}h", data, start + 16 + 2 * double)
    offsets_at = start + 16 + 3 * double
    offsets = struct.unpack_from(f">{count}H", data, offsets_at)
    found = {}
    for place in range(count):
        for code in range(starts[place], min(ends[place], 126) + 1):
            glyph = code
            if offsets[place]:
                at = offsets_at + 2 * place + offsets[place] + 2 * (code - starts[place])
                glyph = struct.unpack_from(">H", data, at)[0]
            found[code] = (glyph + deltas[place]) % 65536
    return found


@pytest.mark.parametrize(("weight", "bold"), [(400, False), (700, True)])
def test_widths_are_those_of_the_packaged_font(weight: int, *, bold: bool) -> None:
    for letter, advance in advance_widths(weight).items():
        assert text_width(letter, 1000, bold=bold) == pytest.approx(advance, abs=0.5)


def test_letters_the_font_lacks_are_taken_wide() -> None:
    assert text_width("\u0416", 10) > text_width("W", 10)
    assert text_width("kg \u0416", 10) > text_width("kg ", 10) + 10


@pytest.mark.parametrize("room", [0, 3, 20, 55, 400])
def test_a_shortened_line_fits(room: float) -> None:
    cut = shortened("feeder at ring number nine", 8, room)
    assert text_width(cut, 8) <= room
    assert cut == "" or cut.endswith("...") or room == 400


def test_wrapped_lines_fit_and_lose_no_word() -> None:
    text = "pieces A3 + A4, 32 links each, doubled, feeder at ring 9"
    lines = wrapped(text, 8, 80)
    assert len(lines) > 1
    assert " ".join(lines) == text
    assert all(text_width(line, 8) <= 80 for line in lines)


def test_one_endless_word_is_cut() -> None:
    (line,) = wrapped("x" * 200, 8, 60)
    assert text_width(line, 8) <= 60


def test_what_xml_cannot_carry_is_replaced() -> None:
    assert printable("a\x00b\ud800c\ufffe") == "a\ufffdb\ufffdc\ufffd"
    assert printable(" two\n lines\t") == "two lines"
