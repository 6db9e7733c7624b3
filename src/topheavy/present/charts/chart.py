"""What a chart is: its data and marks as a Vega-Lite description, and the same facts in words."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Final

from topheavy.errors import BadInputError

if TYPE_CHECKING:
    from collections.abc import Mapping

SCHEMA: Final = "https://vega.github.io/schema/vega-lite/v6.json"
"""Names the version of the language; nothing is fetched from there."""

_NAME: Final = re.compile(r"[a-z][a-z0-9-]*")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Chart:
    """One chart, of no size and no ink yet.

    Parameters
    ----------
    name : str
        Short name within a page: small letters, digits and hyphens.
    title : str
        What is drawn, in one line.
    words : str
        Everything that the drawing shows, in sentences, for those who can't see it.
    marks : mapping
        Vega-Lite: layers or a mark, with their data. Inks are named, such as ``"@ember"``; values
        stand in the units that are shown.
    tall : float
        Height as a share of the width of a page's chart, 0.1 to 3.

    Raises
    ------
    BadInputError
        A name that can't stand in a page.
    """

    name: str
    title: str
    words: str
    marks: Mapping[str, Any]
    tall: float = 0.56

    def __post_init__(self) -> None:
        if _NAME.fullmatch(self.name) is None:
            raise BadInputError(
                "A chart can't be called that",
                field="name",
                got=repr(self.name),
                wanted="small letters, digits and hyphens, such as loads-osric",
            )

    def data(self) -> list[dict[str, Any]]:
        """Every row of data that is drawn, in the order of the layers."""
        return [dict(row) for row in _rows(self.marks)]


def shaded_key() -> dict[str, Any]:
    """Opacity of a filled range, which gives it a place in the key below: field ``shaded``."""
    return {
        "field": "shaded",
        "type": "nominal",
        "scale": {"range": [1]},
        "legend": {"symbolType": "square", "orient": "bottom", "offset": 4},
    }


def _rows(marks: Any) -> list[Mapping[str, Any]]:
    """Rows of a description and of all that is nested in it."""
    if isinstance(marks, list | tuple):
        return [row for part in marks for row in _rows(part)]
    if not isinstance(marks, dict):
        return []
    own = marks.get("data", {}).get("values", [])
    return [*own, *(row for key, part in marks.items() if key != "data" for row in _rows(part))]
