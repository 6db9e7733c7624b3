"""Finding every figure of a view, and reading the number back from its text."""

from __future__ import annotations

import re
from dataclasses import fields, is_dataclass
from typing import TYPE_CHECKING

from topheavy.present.figure import Figure

if TYPE_CHECKING:
    from collections.abc import Iterator

_SI = {
    "kg": 1.0,
    "lb": 0.45359237,
    "cm": 0.01,
    "in": 0.0254,
    "%": 0.01,
    "J": 1.0,
    "N": 1.0,
}
"""Printed units in SI: NIST SP 811 (2008), appendix B.8 (from memory), typed here anew."""


def figures(value: object) -> Iterator[Figure]:
    """Every figure in a view, however deep."""
    if isinstance(value, Figure):
        yield value
    elif is_dataclass(value) and not isinstance(value, type):
        for field in fields(value):
            yield from figures(getattr(value, field.name))
    elif isinstance(value, tuple):
        for item in value:
            yield from figures(item)


def said(figure: Figure) -> tuple[float, float | None, float]:
    """Number, uncertainty and half the last digit of a figure's text, in SI."""
    found = re.match(r"(-?[\d.]+)(?: ± ([\d.]+))? (\S+?),?(?: |$)", figure.text)
    assert found, figure.text
    decimals = len(found[1].partition(".")[2])
    si = _SI[found[3]]
    spread = None if found[2] is None else float(found[2]) * si
    return float(found[1]) * si, spread, 0.5 * 10**-decimals * si
