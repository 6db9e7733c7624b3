"""Inks of charts by name: on a light sheet, on a dark one, and as a page has them."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Final

from topheavy.errors import BadInputError
from topheavy.present.picture.lettering import FAMILY
from topheavy.present.picture.sheet import CHALK, EMBER, INK, PALE, SLATE, STEEL

if TYPE_CHECKING:
    from collections.abc import Mapping

LIGHT: Final = {
    "ground": CHALK,
    "ink": INK,
    "slate": SLATE,
    "steel": STEEL,
    "line": PALE,
    "ember": EMBER,
}
"""Inks of everything printed."""

DARK: Final = {
    "ground": "#1f2224",
    "ink": "#f2efe7",
    "slate": "#b4bcc1",
    "steel": "#7d878e",
    "line": "#3b4145",
    "ember": "#ff9c6e",
}
"""Inks on a dark ground, as the pages have them."""

OF_PAGE: Final = {
    "ground": "none",
    "ink": "var(--ink)",
    "slate": "var(--slate)",
    "steel": "var(--edge)",
    "line": "var(--line)",
    "ember": "var(--ember)",
}
"""Inks that a page's own style sheet sets, light or dark."""


def inked(part: Any, inks: Mapping[str, str]) -> Any:
    """Put inks in place of their names, anywhere in a description.

    >>> inked({"color": "@ink", "size": 2}, LIGHT)
    {'color': '#22272b', 'size': 2}

    Raises
    ------
    BadInputError
        An ink that there is not.
    """
    if isinstance(part, dict):
        return {key: value if key == "data" else inked(value, inks) for key, value in part.items()}
    if isinstance(part, list | tuple):
        return [inked(value, inks) for value in part]
    if not isinstance(part, str) or not part.startswith("@"):
        return part
    if part[1:] not in inks:
        raise BadInputError(
            "No such ink", field="marks", got=part, wanted=", ".join(f"@{name}" for name in inks)
        )
    return inks[part[1:]]


def looks(type_size: float, keys: int) -> dict[str, Any]:
    """The house's look for axes, keys and lettering, as Vega-Lite's configuration."""
    small = round(type_size * 0.93, 2)
    return {
        "aria": False,
        "font": FAMILY,
        "view": {"stroke": None},
        "title": {
            "anchor": "start",
            "frame": "group",
            "color": "@ink",
            "fontSize": type_size,
            "fontWeight": 700,
            "offset": 10,
        },
        "axis": {
            "domainColor": "@steel",
            "tickColor": "@steel",
            "gridColor": "@line",
            "labelColor": "@slate",
            "titleColor": "@ink",
            "labelFontSize": small,
            "titleFontSize": type_size,
            "titleFontWeight": 400,
            "titlePadding": 6,
            "tickCount": 6,
            "labelOverlap": True,
            "labelFlush": False,
        },
        "axisY": {
            "titleAngle": 0,
            "titleAlign": "left",
            "titleBaseline": "bottom",
            "titleX": 0,
            "titleY": -8,
        },
        "legend": {
            "orient": "top",
            "direction": "horizontal",
            "title": None,
            "columns": keys,
            "labelColor": "@ink",
            "labelFontSize": type_size,
            "labelLimit": 320,
            "symbolStrokeWidth": 2.5,
            "symbolSize": 160,
            "offset": round(2 * type_size),
        },
        "header": {
            "labelColor": "@ink",
            "labelFontSize": type_size,
            "labelFontWeight": 700,
            "labelAnchor": "start",
            "title": None,
        },
        "line": {"strokeWidth": 2.5, "strokeCap": "round", "strokeJoin": "round"},
        "text": {"color": "@ink", "fontSize": small},
    }
