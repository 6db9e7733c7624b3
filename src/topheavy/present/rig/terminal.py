"""A rig on the terminal."""

from __future__ import annotations

from textwrap import indent
from typing import TYPE_CHECKING

from rich.console import Group
from rich.text import Text

from topheavy.present.match.terminal import render_match
from topheavy.present.rig.described_words import as_options, command_lines
from topheavy.present.rig.facts import hang_facts, share_facts
from topheavy.present.tables import band_table, link_table, load_table
from topheavy.present.terminal import ACCENT, QUIET, curve_chart, facts, headed, listed, ruled

if TYPE_CHECKING:
    from rich.console import RenderableType
    from rich.table import Table

    from topheavy.present.rig.view import OtherRig, RigView


def render_rig(view: RigView) -> RenderableType:
    """Lay a rig out for the terminal, most wanted first."""
    parts: list[RenderableType] = [
        Text(view.title, style=ACCENT),
        Text(f"{view.gym}. Wanted: {view.wanted}.", style=QUIET),
        Text(f"{view.verdict} {view.proof}"),
    ]
    if view.obstacles:
        parts.append(headed("What is in the way", listed(view.obstacles)))
    parts += [
        headed("Hang this", facts(hang_facts(view))),
        headed(
            "On the bar",
            load_table(view.loads, straight=_compares(view)),
            Text(""),
            facts(share_facts(view)),
        ),
        headed("Load by height, on the way up", curve_chart(view.curve, straight=_compares(view))),
    ]
    if view.match:
        parts.append(headed("How evenly it uses the lifter", render_match(view.match)))
        if view.match.notes:
            parts.append(headed("Know", listed(view.match.notes)))
    if view.links:
        parts.append(headed("Links, each piece", link_table(view.links)))
    if view.bands:
        parts.append(headed("Bands", band_table(view.bands), Text(""), listed(view.band_notes)))
    parts += [
        headed(_other_way(view), Text(view.compared)),
        headed("Set it up", listed(view.steps, numbered=True)),
        headed("It is right when", listed(view.signs)),
        headed("Mind", listed(view.cautions)),
    ]
    if view.alternatives:
        parts.append(headed("Or hang", _others(view.alternatives, "another way")))
    if len(view.trade) > 1:
        parts.append(headed("Fewer pieces, less accurate", _others(view.trade, "to handle")))
    if view.left_out:
        parts.append(headed("Left in the store", listed(view.left_out)))
    # Not in a padded box: a space behind the backslash would break the command in two.
    parts += [headed("Check it on a scale"), Text(_check(view), overflow="ignore", no_wrap=True)]
    return Group(*parts)


def _check(view: RigView) -> str:
    options = (*as_options(view.described), "--reading HEIGHT=MASS")
    return indent(command_lines("topheavy weigh", options), "  ")


def _compares(view: RigView) -> bool:
    """Whether the same chain hung straight is another rig."""
    return view.style not in {"straight", "bands"}


def _other_way(view: RigView) -> str:
    if view.style == "bands":
        return "Over the lift"
    return "Hung straight instead" if _compares(view) else "Folded instead"


def _others(rigs: tuple[OtherRig, ...], name: str) -> Table:
    table = ruled(name, "off by", "rig")
    table.columns[2].justify = "left"
    table.columns[2].overflow = "fold"
    for rig in rigs:
        table.add_row(rig.differs_by, rig.miss.text, rig.hang)
    return table
