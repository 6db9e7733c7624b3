"""Words in lines: under the figures, under the curve, and the key below everything."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from topheavy.present.picture.lettering import wrapped
from topheavy.present.picture.words import (
    band_words,
    bands_words,
    connector_words,
    ground_words,
    hang_words,
    letter,
    links_words,
    sentence,
)

if TYPE_CHECKING:
    from topheavy.present.picture.facts import Facts
    from topheavy.present.picture.scene import Scene

LEADING: Final = 1.3
"""From line to line in sizes of the type."""


@dataclass(frozen=True, slots=True)
class Line:
    """One line of text, bold or not."""

    words: str
    bold: bool = False


def caption(scene: Scene, found: Facts, pose: int, room: float, size: float) -> list[Line]:
    """Lines under the figure at the bottom (0) or at the top (1), wrapped to `room`."""
    bar_m = (scene.bottom_m, scene.top_m)[pose]
    count = sentence(links_words(scene, found, pose))
    lines = [Line(words, bold=True) for words in wrapped(count, size, room, bold=True)]
    for said in connector_words(scene, bar_m):
        words = said if len(scene.drawn_end.hangs) > 1 else sentence(said)
        lines += [Line(line) for line in wrapped(words, size, room)]
    for said in bands_words(scene, bar_m):
        lines += [Line(line) for line in wrapped(sentence(said), size, room)]
    return lines


def key_of(scene: Scene, room: float, size: float) -> list[str]:
    """Lines that say what hangs and what is on the sleeve, wrapped to `room`."""
    several = len(scene.drawn_end.hangs) > 1
    said = [
        f"{letter(number)}: {hang_words(scene, number)}"
        if several
        else sentence(hang_words(scene, number))
        for number in range(len(scene.drawn_end.hangs))
    ]
    said += [sentence(band_words(scene, number)) for number in range(len(scene.drawn_end.bands))]
    pad = "" if scene.pad_m is None else f"pad {scene.units.length(scene.pad_m)} high"
    plates = f"plates a side {scene.plates}" if scene.plates else ""
    said.append(sentence("; ".join(filter(None, [plates, pad, ground_words(scene)]))))
    what = "Links and bands" if scene.drawn_end.bands else "Links"
    links = f"{what} are this end's, loads the whole bar's."
    said.append(f"{sentence(scene.end)} end of the bar, to scale. {links}")
    return [line for words in said if words for line in wrapped(words, size, room)]


def legend_rows(found: Facts) -> int:
    """Lines under the curve."""
    return 3 + (found.straight is not None) + bool(found.added)
