"""The facts of a scene in words: for captions, for the key, and for those who can't see it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from topheavy.mechanics.hang import Doubled, Draped, Straight
from topheavy.present.picture.links import fold_offset_m

if TYPE_CHECKING:
    from topheavy.mechanics.hang import Hang
    from topheavy.present.picture.facts import Facts, Reading
    from topheavy.present.picture.scene import HangNote, Scene

_MEETS_M: Final = 0.005
"""Closer than this [m], a connector is said to meet the floor."""


def loads_words(scene: Scene, curve: Reading) -> str:
    """Load at bottom and top, printed; once when it is the same."""
    low, top = map(scene.units.mass, curve.loads_kg)
    return f"{top} all the way" if low == top else f"{low.split(' ')[0]} to {top}"


def links_words(scene: Scene, found: Facts, pose: int) -> str:
    """Say how many links are off the floor and on it, at the bottom (0) or at the top (1)."""
    off, under = found.off[pose], _under(scene)
    down = found.links - off
    if not found.links:
        return "no chain on this end" if not scene.drawn_end.bands else "bands alone"
    every = f"all {found.links} links" if found.links > 1 else "the only link"
    if not off:
        return f"{every} on the {under}"
    if not down:
        return f"{every} off the {under}"
    return f"{_links(off)} off the {under}, {down} on it"


def _links(count: int) -> str:
    return f"{count} link{'' if count == 1 else 's'}"


def connector_words(scene: Scene, bar_m: float) -> list[str]:
    """Say where the connector of each doubled hang is, bar at `bar_m` [m]."""
    hangs = scene.drawn_end.hangs
    said = []
    for number, hang in enumerate(hangs):
        if isinstance(hang, Doubled):
            mark = f"{letter(number)}: " if len(hangs) > 1 else ""
            said.append(mark + _connector_place(scene, hang, bar_m))
    return said


def _connector_place(scene: Scene, hang: Doubled, bar_m: float) -> str:
    above_m = bar_m - fold_offset_m(hang) - scene.ground.surface_m
    slack_m = -(above_m + hang.suspension.connector_m)
    if abs(above_m) < _MEETS_M:
        return f"connector meets the {_under(scene)}"
    if above_m > 0:
        return f"connector {scene.units.length(above_m)} above the {_under(scene)}"
    if slack_m > _MEETS_M:
        return f"connector lies, feeder slack {scene.units.length(slack_m)}"
    return f"connector rests on the {_under(scene)}"


def _under(scene: Scene) -> str:
    """Name what the chain lies on."""
    return "mat" if scene.ground.surface_m > 0 else "floor"


def letter(number: int) -> str:
    """Mark of hang number `number`: a, b, ... z, then a1, b1 ..."""
    turn, place = divmod(number, 26)
    return chr(ord("a") + place) + (str(turn) if turn else "")


def bands_words(scene: Scene, bar_m: float) -> list[str]:
    """Say how long each band is and what it pulls, bar at `bar_m` [m]."""
    mass, length = scene.units.mass, scene.units.length
    said = []
    for banded in scene.drawn_end.bands:
        long_m, pull_kg = float(banded.length_m(bar_m)), float(banded.load_kg(bar_m))
        state = f"{length(long_m)} long" if long_m > banded.band.law.rest_m else "slack"
        pulls = f"pulls {mass(pull_kg)}" if pull_kg >= 0 else f"lifts {mass(-pull_kg)}"
        said.append(f"band {banded.band.tag} {state}, {pulls}")
    return said


def band_words(scene: Scene, number: int) -> str:
    """Say what one band is: its tag, single or doubled, its peg and how high that is."""
    banded = scene.drawn_end.bands[number]
    name = scene.peg_name(number)
    way = "doubled" if banded.second is not None else "single"
    high = scene.units.length(banded.peg.height_m)
    return f"band {banded.band.tag}, {way}, on peg {name}, {high} up".replace("peg ,", "a peg,")


def hang_words(scene: Scene, number: int) -> str:
    """Say what one hang is: pieces, how they hang, the feeder's setting."""
    hang, note = scene.drawn_end.hangs[number], scene.note(number)
    said = [_pieces(hang, note), _way_words(hang), _feeder(scene, number)]
    return ", ".join(filter(None, said))


def _pieces(hang: Hang, note: HangNote) -> str:
    tags = [note.tag_of(index) for index in range(len(hang.chains))]
    counts = [chain.links for chain in hang.chains]
    several, alike = len(counts) > 1, len(set(counts)) == 1
    links = _links(counts[0]) if alike else f"{' + '.join(map(str, counts))} links"
    if not all(tags):
        return f"{len(counts)} piece{'s' if several else ''} of {links}"
    each = " each" if several and alike else ""
    return f"piece{'s' if several else ''} {' + '.join(tags)}, {links}{each}"


def _way_words(hang: Hang) -> str:
    if isinstance(hang, Straight):
        return "straight from the sleeve"
    return "laid across the bar" if isinstance(hang, Draped) else "doubled"


def _feeder(scene: Scene, number: int) -> str:
    hang, note = scene.drawn_end.hangs[number], scene.note(number)
    if not isinstance(hang, Doubled):
        return ""
    name = f"feeder at {note.feeder}" if note.feeder else "feeder"
    return f"{name}, {scene.units.length(hang.suspension.feeder_m)}"


def ground_words(scene: Scene) -> str:
    """Say what the chain lies on when it is not the floor, and how slack lies when dragged."""
    surface_m = scene.ground.surface_m
    said = []
    if surface_m > 0:
        said.append(f"chain lies on a mat {scene.units.length(surface_m)} high")
    elif surface_m < 0:
        said.append(f"chain lies {scene.units.length(-surface_m)} below the lifter's floor")
    if scene.ground.lay == "dragged":
        said.append("slack dragged to one side, long slack drawn doubled back")
    return ", ".join(said)


def title(scene: Scene, found: Facts) -> str:
    """Say the picture in one line."""
    bottom, top = (
        f"{scene.units.mass(load_kg)} with the bar at {scene.units.length(bar_m)}"
        for load_kg, bar_m in zip(
            found.raising.loads_kg, (scene.bottom_m, scene.top_m), strict=True
        )
    )
    return f"The rig to scale, bar at the bottom and at the top: {bottom}, {top}"


def description(scene: Scene, found: Facts) -> str:
    """Say everything the picture shows, in sentences."""
    mass, length = scene.units.mass, scene.units.length
    said = [f"The {scene.end} end of the bar, drawn twice on one floor, {scene.station_kind} lift."]
    for pose, (word, bar_m) in enumerate((("bottom", scene.bottom_m), ("top", scene.top_m))):
        parts = [links_words(scene, found, pose), *connector_words(scene, bar_m)]
        parts += bands_words(scene, bar_m)
        said.append(
            f"At the {word}, bar {length(bar_m)} up: "
            f"{mass(found.raising.loads_kg[pose])} on the bar raising, "
            f"{mass(found.lowering.loads_kg[pose])} lowering; this end: {', '.join(parts)}."
        )
    said += [
        f"{sentence(hang_words(scene, number))}." for number in range(len(scene.drawn_end.hangs))
    ]
    said += [
        f"{sentence(band_words(scene, number))}." for number in range(len(scene.drawn_end.bands))
    ]
    said.append(f"Bar, collars and plates {mass(found.straight_weight_kg)}.")
    if scene.plates:
        said.append(f"Plates a side: {scene.plates}.")
    if found.straight is not None:
        low, high = map(mass, found.straight.loads_kg)
        said.append(f"The same chain hung straight: {low} at the bottom, {high} at the top.")
    extra = ground_words(scene)
    return " ".join([*said, f"{sentence(extra)}."] if extra else said)


def sentence(words: str) -> str:
    """Begin words with a capital.

    >>> sentence("plates a side")
    'Plates a side'
    """
    return words[:1].upper() + words[1:]
