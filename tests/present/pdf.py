"""Reading a PDF page back: its words, where each run of text stands and how big it is."""

from __future__ import annotations

import re
from dataclasses import dataclass
from io import BytesIO
from typing import TYPE_CHECKING, Any

from pypdf import PdfReader

if TYPE_CHECKING:
    from collections.abc import Iterator

Run = tuple[str, float, float, float]
"""Text, left edge, baseline and size [pt]."""


@dataclass(frozen=True)
class Page:
    """A page read back; `text` without line breaks and invisible breaking places."""

    pages: int
    width: float
    height: float
    text: str
    runs: list[Run]


def open_pdf(pdf: bytes) -> PdfReader:
    """Open a PDF, strictly."""
    return PdfReader(BytesIO(pdf), strict=True)


def read_page(pdf: bytes, number: int = 0) -> Page:
    """Read a page by its number, from 0."""
    reader, runs = open_pdf(pdf), list[Run]()

    def visit(text: str, cm: list[float], tm: list[float], _font: object, size: float) -> None:
        words, upright = text.replace("\u200b", "").strip(), tm[1] == 0 and cm[1] == 0
        if words and upright:
            x = cm[0] * tm[4] + cm[2] * tm[5] + cm[4]
            y = cm[1] * tm[4] + cm[3] * tm[5] + cm[5]
            runs.append((words, x, y, abs(size * tm[0] * cm[0])))

    page = reader.pages[number]
    text = page.extract_text(visitor_text=visit).replace("\u200b", "")
    width, height = float(page.mediabox.width), float(page.mediabox.height)
    return Page(len(reader.pages), width, height, re.sub(r"\s+", " ", text), runs)


def bare(text: str) -> str:
    """Letters alone: where a line or a word was broken makes no difference."""
    return re.sub(r"\s", "", text)


def tagged_parts(node: Any) -> Iterator[Any]:
    """Everything in the tree that says what is a heading, a list, a figure."""
    node = node.get_object()
    if isinstance(node, list):
        for item in node:
            yield from tagged_parts(item)
    elif isinstance(node, dict):
        yield node
        if "/K" in node:
            yield from tagged_parts(node["/K"])
