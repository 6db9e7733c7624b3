"""From an answer to its picture: what the mechanics does not carry comes from the stock."""

from __future__ import annotations

from typing import TYPE_CHECKING, cast

from topheavy.mechanics.hang import Straight
from topheavy.present.picture import Disc, HangNote, Scene, draw_rig
from topheavy.present.rig.steps import plates_text, setting_text
from topheavy.services.reading import hung_straight

if TYPE_CHECKING:
    from topheavy.gym.stock import ChainPiece
    from topheavy.mechanics.rig import Rig
    from topheavy.present.picture.scene import FeederForm
    from topheavy.rigging.built import BuiltRig
    from topheavy.services.rig import Place, RigAnswer
    from topheavy.units import UnitSystem


def rig_picture(answer: RigAnswer, units: UnitSystem) -> str:
    """Draw the best rig of an answer to scale, bar at the bottom and at the top.

    Parameters
    ----------
    answer : RigAnswer
        From `topheavy.services.rig.answer_rig`.
    units : UnitSystem
        What numbers are printed in.

    Returns
    -------
    str
        SVG, as `topheavy.present.picture.draw_rig` writes it.
    """
    place = answer.question.place
    heading = f"{place.lifter.name}, {place.lift.name}, {place.station.name}"
    return draw_rig(rig_scene(answer, units, heading=heading))


def rig_scene(answer: RigAnswer, units: UnitSystem, *, heading: str = "") -> Scene:
    """Set the scene: the rig where it is used, and the same chain hung straight for comparison.

    Parameters
    ----------
    answer, units
        As for `rig_picture`.
    heading : str
        A line above the picture; empty for none.
    """
    return scene_of(answer.question.place, answer.best, units, heading=heading)


def scene_of(place: Place, best: BuiltRig, units: UnitSystem, *, heading: str = "") -> Scene:
    """Set the scene of a rig at a place.

    Parameters
    ----------
    place, best : Place, BuiltRig
        Who and where, and what hangs.
    units, heading
        As for `rig_scene`.
    """
    setup = place.setup
    return Scene(
        rig=best.rig,
        straight=_straight(best.rig),
        bottom_m=place.travel.bottom_m,
        top_m=place.travel.top_m,
        units=units,
        station_kind=place.station.kind,
        pad_m=place.station.pad_m,
        ground=place.ground,
        end="right",
        notes=_notes(best, units),
        pegs=tuple(hung.peg.name for hung in best.right_bands),
        discs=_discs(best),
        sleeve_m=setup.bar.sleeve_m,
        collar_m=setup.collar_width_m,
        plates=plates_text(best),
        heading=heading,
    )


def _straight(rig: Rig) -> Rig | None:
    """The same chain hung straight; nothing to compare when it hangs so already."""
    hangs = rig.right.hangs
    return None if all(isinstance(hang, Straight) for hang in hangs) else hung_straight(rig)


def _discs(best: BuiltRig) -> tuple[Disc, ...]:
    """Plates from the inside out, the heaviest inside as the steps say."""
    return tuple(
        Disc(width_m=plate.width_m, diameter_m=plate.diameter_m)
        for plate, count in best.loading.per_side
        for _ in range(count)
    )


def _notes(best: BuiltRig, units: UnitSystem) -> tuple[HangNote, ...]:
    """A note for each hang of the right end, its pieces in the order they hang."""
    rest = iter(best.right)
    return tuple(
        _note(best, [next(rest) for _ in hang.chains], units) for hang in best.rig.right.hangs
    )


def _note(best: BuiltRig, pieces: list[ChainPiece], units: UnitSystem) -> HangNote:
    feeder, setting = best.fixture.feeder, best.fixture.setting
    tags = tuple(piece.tag for piece in pieces)
    wire_m = tuple(piece.wire_diameter_m for piece in pieces)
    if feeder is None or setting is None:
        return HangNote(pieces=tags, wire_m=wire_m)
    said = setting_text(setting.label)
    return HangNote(
        feeder="" if said == units.length(setting.length_m) else said,
        form=cast("FeederForm", feeder.form),
        marks_m=tuple(one.length_m for one in feeder.settings),
        pieces=tags,
        wire_m=wire_m,
    )
