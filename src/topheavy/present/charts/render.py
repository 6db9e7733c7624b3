"""Charts to SVG for a page, and to PNG and PDF: always from the one description."""

from __future__ import annotations

import json
import re
from functools import lru_cache
from typing import TYPE_CHECKING, Any, Final
from xml.sax.saxutils import escape

from topheavy.errors import BadInputError
from topheavy.present.charts.chart import SCHEMA
from topheavy.present.charts.inks import LIGHT, OF_PAGE, inked, looks
from topheavy.present.charts.printed import drawings_pdf
from topheavy.present.charts.sizes import PAGE, PAPER
from topheavy.present.picture.lettering import printable, wrapped
from topheavy.present.picture.png import FONTS, to_png

if TYPE_CHECKING:
    from collections.abc import Mapping

    from topheavy.present.charts.chart import Chart
    from topheavy.present.charts.sizes import Size
    from topheavy.units import UnitSystem

_LANGUAGE: Final = "6.1"
_KEPT: Final = 256
_HEAD: Final = re.compile(
    r"<svg [^>]*?(width=\"[\d.]+\" height=\"[\d.]+\" viewBox=\"[^\"]*\")[^>]*>"
)
_SPOKEN: Final = re.compile(r' (?:role|aria-[a-z]+|class)="[^"]*"')
_CLIP: Final = re.compile(r"\bclip(\d+)\b")


def spec_of(
    chart: Chart, size: Size, inks: Mapping[str, str] = LIGHT, *, titled: bool = False
) -> dict[str, Any]:
    """Write the whole Vega-Lite description of a chart, at a size and in inks.

    Parameters
    ----------
    chart : Chart
        What to draw.
    size : Size
        How large.
    inks : mapping
        `LIGHT`, `DARK` or `OF_PAGE`.
    titled : bool
        Whether the title is lettered above it, as a file of its own needs.
    """
    tall = max(chart.tall, size.least_tall)
    whole = {
        "$schema": SCHEMA,
        "background": "@ground",
        "padding": 6,
        "width": size.width - 12,
        "height": round(size.width * tall) - 12,
        "autosize": {"type": "fit", "contains": "content"},
        "config": looks(size.type_size, size.keys),
        **(
            {"title": {"text": wrapped(chart.title, size.type_size, 0.85 * size.width)}}
            if titled
            else {}
        ),
        **chart.marks,
    }
    found: dict[str, Any] = inked(whole, inks)
    return found


def chart_svg(
    chart: Chart,
    size: Size = PAGE,
    inks: Mapping[str, str] = OF_PAGE,
    *,
    titled: bool = False,
) -> str:
    """Draw a chart as SVG.

    Parameters
    ----------
    chart : Chart
        What to draw.
    size : Size
        How large: `PHONE`, `PAGE` or `PAPER`.
    inks : mapping
        `OF_PAGE` to stand within a page, whose style sheet then says the colours; else `LIGHT` or
        `DARK`.
    titled : bool
        Whether the title is lettered above it, as a file of its own needs.

    Returns
    -------
    str
        SVG with a title and a description in words, nothing from outside, no script, no style.
        The same chart gives the same text.

    Raises
    ------
    BadInputError
        The library that draws is not installed.
    """
    spec = spec_of(chart, size, inks, titled=titled)
    svg = _drawn(json.dumps(spec, ensure_ascii=False, allow_nan=False))
    prefix = f"{chart.name}-{size.width:g}"
    return _named(svg, prefix, printable(chart.title), printable(chart.words))


def chart_png(chart: Chart, size: Size = PAPER, inks: Mapping[str, str] = LIGHT) -> bytes:
    """Draw a chart as a bitmap with its title, three pixels for each unit of its size.

    Raises
    ------
    BadInputError
        The library that draws is not installed.
    """
    return to_png(chart_svg(chart, size, inks, titled=True), round(3 * size.width))


def chart_pdf(charts: Chart | tuple[Chart, ...], units: UnitSystem) -> bytes:
    """Print charts below each other, each with its words, as `drawings_pdf` does.

    Raises
    ------
    BadInputError
        The library that draws is not installed.
    """
    several = charts if isinstance(charts, tuple) else (charts,)
    inks = {**LIGHT, "ground": "none"}
    return drawings_pdf(tuple(chart_svg(one, PAPER, inks) for one in several), units)


@lru_cache(maxsize=_KEPT)
def _drawn(spec: str) -> str:
    """Have the library draw; the same description is drawn once."""
    converter = _library()
    try:
        svg: str = converter.vegalite_to_svg(spec, vl_version=_LANGUAGE, allowed_base_urls=[])
    except ValueError as error:
        raise BadInputError(f"The chart can't be drawn: {error}", field="marks") from error
    return svg


@lru_cache(maxsize=1)
def _library() -> Any:
    try:
        import vl_convert  # noqa: PLC0415 - large, and only charts need it
    except ImportError:
        raise BadInputError(
            "Drawing a chart needs a library that is not installed",
            field="vl-convert-python",
            wanted="pip install 'topheavy[charts]'",
        ) from None
    vl_convert.register_font_directory(str(FONTS))
    return vl_convert


def _named(svg: str, prefix: str, title: str, words: str) -> str:
    """Give a drawing its title and its words, and ids that no other on the page has."""
    numbers: dict[str, int] = {}
    body = _CLIP.sub(lambda m: f"{prefix}-clip{numbers.setdefault(m[1], len(numbers))}", svg)
    head = _HEAD.match(body)
    if head is None:
        raise BadInputError("Not a drawing of the library", field="svg", wanted="its size")
    told = (
        f'<svg xmlns="http://www.w3.org/2000/svg" version="1.1" {head[1]} role="img" '
        f'aria-labelledby="{prefix}-title {prefix}-desc">'
        f'<title id="{prefix}-title">{escape(title)}</title>'
        f'<desc id="{prefix}-desc">{escape(words)}</desc>'
    )
    return told + _SPOKEN.sub("", body[head.end() :])
