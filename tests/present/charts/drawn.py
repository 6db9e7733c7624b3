"""What a drawn chart shows, read back from its SVG by its own axes."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from tests.present.picture.reading import parse

if TYPE_CHECKING:
    import xml.etree.ElementTree as ET

SVG = "{http://www.w3.org/2000/svg}"
_SHIFT = re.compile(r"translate\(([-\d.e]+),\s*([-\d.e]+)\)")
_NUMBER = re.compile(r"-?[\d.]+(?:e-?\d+)?")


@dataclass(frozen=True)
class Mark:
    """A path or line of a drawing: its ink, its corners on the sheet, and its attributes."""

    ink: str
    corners: list[tuple[float, float]]
    attributes: dict[str, str]


def marks(svg: str) -> list[Mark]:
    """Every path that is more than a frame, in the order they are drawn."""
    found = []
    for element, (x, y) in _walk(parse(svg), (0.0, 0.0)):
        path = element.get("d", "")
        if element.tag == f"{SVG}path" and path:
            ink = element.get("stroke") or element.get("fill") or ""
            corners = [(x + a, y + b) for a, b in _corners(path)]
            found.append(Mark(ink, corners, dict(element.attrib)))
        if element.tag == f"{SVG}line":
            end = float(element.get("x2", 0)), float(element.get("y2", 0))
            corners = [(x, y), (x + end[0], y + end[1])]
            found.append(Mark(element.get("stroke", ""), corners, dict(element.attrib)))
    return found


def texts(svg: str) -> list[tuple[str, float, float]]:
    """Every word with its place."""
    return [
        ("".join(element.itertext()), x, y)
        for element, (x, y) in _walk(parse(svg), (0.0, 0.0))
        if element.tag == f"{SVG}text"
    ]


def axis(svg: str, *, along: bool) -> np.poly1d:
    """From a place on the sheet to the value there, by an axis's numbers and ticks."""
    numbers = [
        (float(words), x, y)
        for words, x, y in texts(svg)
        if re.fullmatch(r"[-\u2212]?[\d,.]+", words)
    ]
    row = max(y for _, _, y in numbers)
    chosen = [(x if along else y, value) for value, x, y in numbers if (abs(y - row) < 1) is along]
    if not along:
        left = min(x for _, x, y in numbers if abs(y - row) >= 1)
        chosen = [(y, value) for value, x, y in numbers if abs(x - left) < 1]
        rules = {a[1] for a, b in (m.corners for m in marks(svg) if len(m.corners) == 2)
                 if a[1] == b[1] and a[0] != b[0]}  # fmt: skip
        chosen = [(min(rules, key=lambda y: abs(y - at)), value) for at, value in chosen]
    assert len(chosen) >= 2, numbers
    places, values = zip(*chosen, strict=True)
    return np.poly1d(np.polyfit(places, values, 1))


def _walk(
    element: ET.Element, at: tuple[float, float]
) -> list[tuple[ET.Element, tuple[float, float]]]:
    shift = _SHIFT.search(element.get("transform", ""))
    here = at if shift is None else (at[0] + float(shift[1]), at[1] + float(shift[2]))
    below = [pair for child in element for pair in _walk(child, here)]
    return [(element, here), *below]


def _corners(path: str) -> list[tuple[float, float]]:
    """Corners of a path of straight lines; arcs are left out."""
    corners: list[tuple[float, float]] = []
    for letter, rest in re.findall(r"([A-Za-z])([^A-Za-z]*)", path):
        numbers = [float(one) for one in _NUMBER.findall(rest)]
        last = corners[-1] if corners else (0.0, 0.0)
        if letter in "ML":
            corners += list(zip(numbers[::2], numbers[1::2], strict=True))
        elif letter == "h":
            corners.append((last[0] + numbers[0], last[1]))
        elif letter == "v":
            corners.append((last[0], last[1] + numbers[0]))
    return corners
