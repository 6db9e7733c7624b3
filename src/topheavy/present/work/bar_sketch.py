"""One end of the bar as a small sketch: what goes on, from inside out. Not to scale."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final
from xml.sax.saxutils import escape, quoteattr

from topheavy.present.figure import plate_mark
from topheavy.present.rig.steps import setting_text
from topheavy.present.work.words import hung_words, stack_words

if TYPE_CHECKING:
    from topheavy.training.on_bar import Item, OnBar

_WIDE: Final = 340
_HIGH: Final = 150
_MIDDLE: Final = 56
_START: Final = 104
_HEAVY_KG: Final = 25.0
_LINKS: Final = 5


def bar_sketch(bar: OnBar) -> str:
    """Draw one end of a bar; the other is alike.

    Parameters
    ----------
    bar : OnBar
        What is on it.

    Returns
    -------
    str
        An SVG with the same in words for those who can't see it; its looks come from a style
        sheet.
    """
    shapes = [
        _box("shaft", 0, _MIDDLE - 4, _START - 8, 8),
        _box("shoulder", _START - 8, _MIDDLE - 14, 8, 28),
        _box("sleeve", _START, _MIDDLE - 8, _WIDE - _START - 6, 16),
    ]
    x = float(_START + 3)
    for item in bar.stack:
        drawn, wide = _drawn(item, bar, x)
        shapes += drawn
        x += wide + 2
    words = f"One end of the bar: {stack_words(bar.plates_kg)}, {hung_words(bar.hung)}."
    return (
        f'<svg class="sketch" viewBox="0 0 {_WIDE} {_HIGH}" role="img" '
        f"aria-label={quoteattr(words)}>{''.join(shapes)}</svg>"
    )


def _drawn(item: Item, bar: OnBar, x: float) -> tuple[list[str], float]:
    if item.kind == "plate":
        return _plate(item.mass_kg, x)
    if item.kind == "collar":
        return [_box("collar", x, _MIDDLE - 15, 12, 30)], 12.0
    if item.kind == "bands":
        line = f'<path class="band" d="M{x + 4:.0f} {_MIDDLE}V{_HIGH - 12}"/>'
        return [line, _text(x + 4, _HIGH - 2, "band")], 8.0
    label = setting_text(bar.setting) if item.kind == "loop" else "chain"
    links = [
        f'<ellipse class="link" cx="{x + 5:.0f}" cy="{_MIDDLE + 20 + 11 * n}" '
        f'rx="{4 if n % 2 else 2}" ry="7"/>'
        for n in range(_LINKS)
    ]
    loop = _box("loop", x + 1, _MIDDLE - 11, 8, 24)
    return [loop, *links, _text(x + 5, _HIGH - 2, label)], 10.0


def _plate(mass_kg: float, x: float) -> tuple[list[str], float]:
    share = min(mass_kg / _HEAVY_KG, 1.0)
    wide, high = 9 + 9 * share, 26 + 78 * share**0.5
    mark = plate_mark(mass_kg)
    middle = x + wide / 2
    turned = f"rotate(-90 {middle:.1f} {_MIDDLE})"
    label = (
        f'<text class="mark" x="{middle:.1f}" y="{_MIDDLE + 4}" transform="{turned}">'
        f"{escape(mark.split(' ')[0])}</text>"
    )
    return [_box("plate", x, _MIDDLE - high / 2, wide, high), label], wide


def _box(kind: str, x: float, y: float, wide: float, high: float) -> str:
    return (
        f'<rect class="{kind}" x="{x:.1f}" y="{y:.1f}" width="{wide:.1f}" height="{high:.1f}" '
        'rx="2"/>'
    )


def _text(x: float, y: float, words: str) -> str:
    return f'<text class="label" x="{x:.1f}" y="{y:.1f}">{escape(words)}</text>'
