"""Reading an SVG back: what stands in it, and how far each element reaches."""

from __future__ import annotations

import math
import re
import xml.etree.ElementTree as ET
from dataclasses import dataclass
from typing import TYPE_CHECKING

from topheavy.present.picture.lettering import text_width

if TYPE_CHECKING:
    from collections.abc import Iterator

SVG = "{http://www.w3.org/2000/svg}"

_NUMBER = re.compile(r"-?\d+(?:\.\d+)?")


@dataclass(frozen=True)
class Box:
    """How far something reaches [drawing units]."""

    left: float
    top: float
    right: float
    low: float


def parse(svg: str) -> ET.Element:
    """Parse an SVG of our own making."""
    return ET.fromstring(svg)  # noqa: S314 - our own output


def viewbox(root: ET.Element) -> Box:
    """The sheet."""
    return Box(*(float(part) for part in root.attrib["viewBox"].split()))


def figure(root: ET.Element, pose: str) -> ET.Element:
    """The group of the figure at the bottom or at the top."""
    found = root.find(f"{SVG}g[@data-pose='{pose}']")
    assert found is not None
    return found


def of_class(parent: ET.Element, name: str) -> list[ET.Element]:
    """Elements of a class, in order."""
    return [element for element in parent.iter() if element.get("class") == name]


def links(parent: ET.Element, state: str) -> list[ET.Element]:
    """Drawn links that are ``off`` or ``down``."""
    return [link for group in of_class(parent, state) for link in of_class(group, "link")]


def words(root: ET.Element) -> list[str]:
    """Every line of text."""
    return [element.text or "" for element in root.iter(f"{SVG}text")]


def floor_y(root: ET.Element) -> float:
    """Top of the drawn floor."""
    (rect, *_) = of_class(root, "floor")[0]
    return float(rect.attrib["y"])


def boxes(parent: ET.Element) -> Iterator[tuple[ET.Element, Box]]:
    """Every drawn element and how far it reaches, its stroke left out."""
    for element in parent.iter():
        reach = _READERS.get(element.tag.removeprefix(SVG))
        if reach is not None:
            yield element, reach(element)


def _around(points: list[tuple[float, float]], by: float = 0.0) -> Box:
    across, down = zip(*points, strict=True)
    return Box(min(across) - by, min(down) - by, max(across) + by, max(down) + by)


def _floats(element: ET.Element, *names: str) -> list[float]:
    return [float(element.attrib[name]) for name in names]


def _rect(element: ET.Element) -> Box:
    x, y, width, height = _floats(element, "x", "y", "width", "height")
    assert width >= 0
    assert height >= 0
    return Box(x, y, x + width, y + height)


def _line(element: ET.Element) -> Box:
    x1, y1, x2, y2 = _floats(element, "x1", "y1", "x2", "y2")
    return _around([(x1, y1), (x2, y2)])


def _circle(element: ET.Element) -> Box:
    x, y, radius = _floats(element, "cx", "cy", "r")
    return _around([(x, y)], radius)


def _polyline(element: ET.Element) -> Box:
    numbers = [float(part) for part in _NUMBER.findall(element.attrib["points"])]
    return _around(list(zip(numbers[::2], numbers[1::2], strict=True)))


def _path(element: ET.Element) -> Box:
    """Ends of every part of a path, and the far side of its half circles."""
    at = (0.0, 0.0)
    points: list[tuple[float, float]] = []
    for command, rest in re.findall(r"([MLAZ])([^MLAZ]*)", element.attrib["d"]):
        numbers = [float(part) for part in _NUMBER.findall(rest)]
        if command == "Z":
            continue
        to = (numbers[-2], numbers[-1])
        if command == "A":
            radius, chord = numbers[0], math.dist(at, to)
            if abs(chord - 2 * radius) < 0.05:
                x, y = 0.5 * (at[0] + to[0]), 0.5 * (at[1] + to[1])
                points += [(x - radius, y - radius), (x + radius, y + radius)]
        points.append(to)
        at = to
    return _around(points)


def _text(element: ET.Element) -> Box:
    x, y, size = _floats(element, "x", "y", "font-size")
    width = text_width(element.text or "", size, bold=element.get("font-weight") == "700")
    start = {"start": 0.0, "middle": -width / 2, "end": -width}[element.get("text-anchor", "start")]
    if "transform" in element.attrib:
        assert element.attrib["transform"].startswith("rotate(-90 ")
        return Box(x - 0.8 * size, y - start - width, x + 0.22 * size, y - start)
    return Box(x + start, y - 0.8 * size, x + start + width, y + 0.22 * size)


_READERS = {
    "rect": _rect,
    "line": _line,
    "circle": _circle,
    "polyline": _polyline,
    "path": _path,
    "text": _text,
}
