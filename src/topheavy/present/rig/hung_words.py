"""What hangs on an end of a described rig, in words, and its links in rows."""

from __future__ import annotations

from typing import TYPE_CHECKING

from topheavy.present.figure import length, says_length
from topheavy.present.rig.band_rows import hung_words
from topheavy.present.rig.link_rows import LinkRow, alike, piece_rows
from topheavy.present.rig.steps import pieces_text, setting_text

if TYPE_CHECKING:
    from topheavy.rigging.fixtures import Fixture
    from topheavy.services.described import DescribedRig, Hanging
    from topheavy.services.reading import Reading
    from topheavy.units import UnitSystem

_HOW = {"straight": "hung straight", "draped": "laid across the bar"}


def ends_words(
    described: DescribedRig, units: UnitSystem
) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Say what hangs left and right, a line for each connector."""
    left, right = (
        (*(_words(hanging, units) for hanging in end), *hung_words(bands)) or ("nothing",)
        for end, bands in (
            (described.left, described.left_bands),
            (described.right, described.right_bands),
        )
    )
    return left, right


def _words(hanging: Hanging, units: UnitSystem) -> str:
    how = _HOW.get(hanging.fixture.style) or _folded(hanging.fixture, units)
    return f"{pieces_text(hanging.pieces)}, {how}"


def _folded(held: Fixture, units: UnitSystem) -> str:
    if held.feeder is None or held.setting is None or held.connector is None:
        return "folded"
    long = length(units, held.setting.length_m)
    setting = setting_text(held.setting.label)
    if setting == "as described":
        setting = ""
    words = f"folded on {held.feeder.name}"
    words += f", {setting}" if setting else ""
    words += f" ({long})" if not says_length(setting, long) else ""
    bare = held.connector.mass_kg == 0 and held.connector.length_m == 0
    return words if bare else f"{words}, in {held.connector.name}"


def link_rows(described: DescribedRig, reading: Reading) -> tuple[LinkRow, ...]:
    """Links off the floor at bottom and top, alike pieces in one row."""
    left = piece_rows(described.left_pieces, reading.left)
    return alike((*left, *piece_rows(described.right_pieces, reading.right)))
