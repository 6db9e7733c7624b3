"""Drawings on paper, each with what it shows in words."""

from __future__ import annotations

import xml.etree.ElementTree as ET
from pathlib import Path
from typing import TYPE_CHECKING, Final

from topheavy.errors import BadInputError
from topheavy.present.typeset import INKS, paper_for, typeset

if TYPE_CHECKING:
    from topheavy.units import UnitSystem

_TEMPLATE: Final = Path(__file__).parent / "chart.typ"
_SVG: Final = "{http://www.w3.org/2000/svg}"


def drawings_pdf(drawings: tuple[str, ...], units: UnitSystem) -> bytes:
    """Print drawings below each other: A4 in kg, US Letter in lb.

    Parameters
    ----------
    drawings : tuple of str
        SVG of this package, each with a title and a description, which are printed with it.
    units : UnitSystem
        Says the paper.

    Returns
    -------
    bytes
        A PDF as `topheavy.present.typeset.typeset` makes it; the words are its alternative text.

    Raises
    ------
    BadInputError
        A drawing without a title or a description.
    """
    told = [{"title": _said(one, "title"), "words": _said(one, "desc")} for one in drawings]
    pictures = {f"chart{number}": one for number, one in enumerate(drawings)}
    refused = BadInputError("No room for the drawings", field="drawings", wanted="fewer of them")
    data = {"paper": paper_for(units), "inks": INKS, "charts": told}
    return typeset(_TEMPLATE, data, pictures, refused)


def _said(svg: str, tag: str) -> str:
    found = ET.fromstring(svg).findtext(f"{_SVG}{tag}")  # noqa: S314 - our own drawing
    if not found:
        raise BadInputError(
            "A drawing on paper needs its words", field=tag, wanted=f"an SVG with a {tag}"
        )
    return found
