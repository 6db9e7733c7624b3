"""How wide a word is in the picture's typeface, so that words neither meet nor leave the page."""

from __future__ import annotations

from typing import Final

FAMILY: Final = "Barlow Semi Condensed, Barlow, Arial Narrow, sans-serif"

_FIRST: Final = 32
_REGULAR: Final = (
    200, 285, 249, 624, 488, 815, 600, 125, 241, 241, 379, 471, 221, 354, 234, 367, 504, 303, 469,
    462, 483, 461, 462, 419, 472, 461, 275, 252, 471, 471, 471, 415, 794, 508, 538, 526, 542, 517,
    486, 532, 563, 237, 501, 531, 482, 618, 585, 539, 517, 510, 528, 500, 496, 562, 514, 751, 511,
    496, 472, 341, 367, 341, 423, 430, 188, 462, 484, 461, 484, 470, 317, 474, 482, 232, 223, 453,
    206, 737, 482, 480, 490, 490, 329, 428, 315, 480, 427, 638, 426, 414, 403, 288, 155, 288, 481,
)  # fmt: skip
_BOLD: Final = (
    200, 311, 352, 651, 508, 795, 654, 169, 329, 329, 380, 462, 238, 370, 247, 444, 511, 319, 499,
    487, 544, 488, 488, 451, 490, 482, 319, 274, 462, 462, 462, 479, 786, 577, 545, 536, 547, 511,
    490, 540, 554, 246, 518, 558, 499, 631, 590, 547, 531, 527, 543, 520, 526, 554, 555, 783, 553,
    546, 485, 381, 444, 381, 448, 472, 226, 487, 505, 486, 505, 492, 342, 498, 497, 237, 235, 491,
    227, 755, 497, 503, 508, 508, 354, 457, 335, 496, 478, 698, 488, 464, 416, 360, 194, 360, 512,
)  # fmt: skip
"""Advance widths of characters 32 to 126 in thousandths of the size, from the packaged fonts."""

_OTHER: Final = 790
"""Any other character, taken wide."""

_HAS_TOO: Final = "\u2013\u2014\u2018\u2019\u201c\u201d\u2026\u20ac"
_ELSEWHERE: Final = 1.3
"""A line with a letter that the typeface lacks is set whole in a wider one by some readers."""


def text_width(text: str, size: float, *, bold: bool = False) -> float:
    """Width of a line of text.

    Parameters
    ----------
    text : str
        One line.
    size : float
        Size of the type [drawing units].
    bold : bool
        Weight 700 instead of 400.

    Returns
    -------
    float
        Width [drawing units]; a guess on the wide side for letters beyond ASCII.

    Examples
    --------
    >>> text_width("kg", 10)
    9.27
    """
    widths = _BOLD if bold else _REGULAR
    total = 0
    for char in text:
        index = ord(char) - _FIRST
        total += widths[index] if 0 <= index < len(widths) else _OTHER
    return round(total * size / 1000 * (1.0 if all_known(text) else _ELSEWHERE), 6)


def all_known(text: str) -> bool:
    """Whether the packaged typeface has every letter of a text."""
    return text.isascii() or all(ord(char) <= 0xFF or char in _HAS_TOO for char in text)


def shortened(text: str, size: float, room: float, *, bold: bool = False) -> str:
    """Cut a line to fit `room` [drawing units], with dots where it was cut.

    >>> shortened("feeder ring 7", 10, 40)
    'feede...'
    """
    text = printable(text)
    if text_width(text, size, bold=bold) <= room:
        return text
    while text and text_width(text + "...", size, bold=bold) > room:
        text = text[:-1]
    return text.rstrip() + "..." if text else ""


def printable(text: str) -> str:
    """Replace what XML can't carry (control characters, lone surrogates) and join lines."""
    return "".join(char if _may_stand(ord(char)) else "\ufffd" for char in " ".join(text.split()))


def _may_stand(code: int) -> bool:
    return 0x20 <= code <= 0xD7FF or 0xE000 <= code <= 0xFFFD or 0x10000 <= code <= 0x10FFFF


def wrapped(text: str, size: float, room: float, *, bold: bool = False) -> list[str]:
    """Break a text into lines that fit `room` [drawing units], at spaces.

    >>> wrapped("one end, to scale", 10, 40)
    ['one end,', 'to scale']
    """
    lines: list[str] = []
    for word in printable(text).split(" "):
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and text_width(longer, size, bold=bold) <= room:
            lines[-1] = longer
        else:
            lines.append(word)
    return [shortened(line, size, room, bold=bold) for line in lines if line]
