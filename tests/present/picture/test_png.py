"""The bitmap: a PNG of the asked width, alike twice, drawn with the packaged typeface."""

from __future__ import annotations

import struct
import zlib

import pytest

from tests.present.picture.scenes import BENCH, SQUAT
from topheavy.errors import BadInputError
from topheavy.present.picture import draw_rig, to_png

SIGNATURE = b"\x89PNG\r\n\x1a\n"


def size(png: bytes) -> tuple[int, int]:
    """Width and height [px] from the header chunk (PNG specification, W3C 2003, section 11.2.2)."""
    assert png.startswith(SIGNATURE)
    width, height = struct.unpack(">II", png[16:24])
    return width, height


def inked(png: bytes) -> int:
    """Bytes of image data that are not the most frequent one: a measure of how much is drawn."""
    data, at = b"", 8
    while at < len(png):
        length, kind = struct.unpack(">I4s", png[at : at + 8])
        if kind == b"IDAT":
            data += png[at + 8 : at + 8 + length]
        at += 12 + length
    raw = zlib.decompress(data)
    return len(raw) - max(raw.count(value) for value in range(256))


@pytest.mark.parametrize("width_px", [300, 1021])
def test_png_has_the_width_that_was_asked_for(width_px: int) -> None:
    svg = draw_rig(BENCH)
    width, height = size(to_png(svg, width_px))
    assert width == pytest.approx(width_px, abs=1)
    assert 0.4 < height / width < 1.0


def test_png_is_the_same_every_time_and_not_empty() -> None:
    svg = draw_rig(SQUAT)
    first = to_png(svg, 600)
    assert first == to_png(svg, 600)
    assert inked(first) > 20_000


def test_the_words_are_drawn() -> None:
    svg = draw_rig(BENCH)
    wordless = svg.replace("<text", "<desc").replace("</text", "</desc")
    assert inked(to_png(svg, 600)) > inked(to_png(wordless, 600)) + 5_000


@pytest.mark.parametrize("width_px", [0, -5, 10_001])
def test_a_width_out_of_range_is_refused(width_px: int) -> None:
    with pytest.raises(BadInputError, match="wide") as caught:
        to_png(draw_rig(BENCH), width_px)
    assert caught.value.field == "width_px"


@pytest.mark.parametrize("svg", ["", "<svg/>", '<svg viewBox="0 0 10 10"><g></svg>'])
def test_what_is_no_picture_is_refused(svg: str) -> None:
    with pytest.raises(BadInputError) as caught:
        to_png(svg, 100)
    assert caught.value.field == "svg"
