"""What to buy on the terminal."""

from __future__ import annotations

from typing import TYPE_CHECKING

from rich.console import Group
from rich.text import Text

from topheavy.present.terminal import ACCENT, headed, listed, ruled

if TYPE_CHECKING:
    from rich.console import RenderableType
    from rich.table import Table

    from topheavy.present.buying.view import BuyView


def render_buying(view: BuyView) -> RenderableType:
    """Lay the shopping list out, most wanted first."""
    parts: list[RenderableType] = [Text(view.title, style=ACCENT), Text(view.verdict)]
    if view.lines:
        parts.append(headed("Buy", _list(view)))
    if view.cuts:
        parts.append(
            headed(
                "Cut (each cut spoils a link)",
                listed(f"{one.name}: {one.cut}; {one.left_over} links left" for one in view.cuts),
            )
        )
    if view.then:
        parts.append(headed("Then possible too", listed(view.then)))
    if view.steps:
        said = [
            f"Up to {one.up_to}, of which {one.money}: {one.lifts} lifts. {one.what}. "
            f"Adds {'; '.join(one.more)}."
            for one in view.steps
        ]
        parts.append(headed("What each hundred more makes possible", listed(said)))
    if view.hopeless:
        parts.append(headed("Nothing on offer helps", listed(view.hopeless)))
    parts.append(
        headed(
            "Chain you own, for the longest of these lifts",
            listed(f"{one.pieces} x {one.chain}: {one.verdict}" for one in view.owned),
        )
    )
    if view.left_out:
        parts.append(headed("Left out", listed(view.left_out)))
    return Group(*parts, headed("Mind", listed(view.notes)))


def _list(view: BuyView) -> Table:
    table = ruled("what", "how many", "each")
    table.columns[0].overflow = "fold"
    for one in view.lines:
        table.add_row(one.what, str(one.how_many), one.each.text if one.each else "")
    return table
