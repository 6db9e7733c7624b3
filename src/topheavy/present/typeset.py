"""Printed pages: a template, its data, the inks and the paper, set by typst."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any, Final

from topheavy.present.picture.lettering import all_known
from topheavy.present.picture.png import FONTS
from topheavy.present.picture.sheet import BRIGHT, CHALK, EMBER, INK, PALE, RUBBER, SLATE, STEEL

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

    from topheavy.errors import BadInputError
    from topheavy.units import UnitSystem

INKS: Final = {
    "ink": INK,
    "slate": SLATE,
    "steel": STEEL,
    "bright": BRIGHT,
    "pale": PALE,
    "chalk": CHALK,
    "rubber": RUBBER,
    "ember": EMBER,
}
"""Inks by the names that templates know."""

_PAPERS: Final = {"kg": "a4", "lb": "us-letter"}


def paper_for(units: UnitSystem) -> str:
    """Name the paper: A4 in kg and US Letter in lb.

    >>> from topheavy.units import METRIC, POUNDS
    >>> paper_for(METRIC), paper_for(POUNDS)
    ('a4', 'us-letter')
    """
    return _PAPERS.get(units.name, "a4")


def typeset(
    template: Path,
    data: Mapping[str, Any],
    pictures: Mapping[str, str],
    refused: BadInputError,
) -> bytes:
    """Set a document.

    Parameters
    ----------
    template : Path
        A typst file; it finds its data as JSON in ``sys.inputs.data``, and panics with the message
        of `refused` when it finds no room.
    data : mapping
        Words and numbers to show.
    pictures : mapping of str to str
        SVG by the name that the template knows.
    refused : BadInputError
        What to raise when there is no room.

    Returns
    -------
    bytes
        A tagged PDF, without date or author: the same data gives the same bytes. It keeps to
        PDF/UA-1 unless a name has letters that the packaged fonts lack.
    """
    import typst  # noqa: PLC0415 - slow to load, and only a page needs it

    plain = all(all_known(text) for text in _words(dict(data)))
    fonts = typst.Fonts(include_system_fonts=not plain, font_paths=[FONTS])
    try:
        return typst.compile(
            template.read_bytes(),
            format="pdf",
            font_paths=fonts,
            sys_inputs={"data": json.dumps(data), **pictures},
            # The standard forbids a letter that no font has; whether one has it can't be known.
            pdf_standards=["ua-1"] if plain else [],
        )
    except typst.TypstError as error:
        if refused.message not in str(error):
            raise
        raise refused from error


def _words(value: Any) -> list[str]:
    """Every text in nested data."""
    if isinstance(value, str):
        return [value]
    if isinstance(value, dict):
        value = list(value.values())
    if isinstance(value, list | tuple):
        return [word for item in value for word in _words(item)]
    return []
