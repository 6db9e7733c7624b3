"""The rig a rep is done with: the best one, without all that `answer_rig` says of others."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from topheavy.rigging.trade import best_rig
from topheavy.services.cautions import NO_COLLARS, Caution, cautions_for, thin_chain
from topheavy.services.reading import read_rig
from topheavy.services.rig import answer_rig, target_of

if TYPE_CHECKING:
    from topheavy.rigging.built import BuiltRig
    from topheavy.services.reading import Reading
    from topheavy.services.rig import Place, RigQuestion


@dataclass(frozen=True, slots=True, kw_only=True)
class FoundRig:
    """A rig and what it puts on the bar.

    Parameters
    ----------
    best : BuiltRig
        The proven optimum, as `answer_rig` finds it.
    reading : Reading
        Its loads over the lift.
    cautions : tuple of Caution
        What to mind.
    """

    best: BuiltRig
    reading: Reading
    cautions: tuple[Caution, ...]


def found_rig(question: RigQuestion) -> FoundRig:
    """Find the rig that `answer_rig` finds, and read it.

    Raises
    ------
    NotInStockError
        No rig can be built within the limits; the error says which limit blocks.
    """
    place = question.place
    best = best_rig(place.setup, target_of(question), question.limits)
    if best is None:
        best = answer_rig(question).best
    return FoundRig(
        best=best,
        reading=read_rig(best.rig, place.travel, place.ground, place.measured.best_kg),
        cautions=_cautions(place, best),
    )


def _cautions(place: Place, best: BuiltRig) -> tuple[Caution, ...]:
    return (
        *(() if place.setup.collar else (NO_COLLARS,)),
        *cautions_for(place.lift, best.rig, place.travel, place.ground),
        *thin_chain((*best.left, *best.right)),
    )
