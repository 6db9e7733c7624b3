"""The rig a rep is done with: the best one, without all that `answer_rig` says of others."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from topheavy.rigging.trade import best_rig
from topheavy.services.reading import read_rig
from topheavy.services.rig import answer_rig, due_again, target_of, what_to_mind

if TYPE_CHECKING:
    from topheavy.rigging.built import BuiltRig
    from topheavy.services.cautions import Caution
    from topheavy.services.reading import Reading
    from topheavy.services.rig import RigQuestion


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
    remeasure : tuple of str
        Bands to read again and chain to inspect again, and why.
    miss_kg : float or None
        Largest difference between load and what was asked for [kg]; None when the rig was matched
        to the lifter, where no load was.
    """

    best: BuiltRig
    reading: Reading
    cautions: tuple[Caution, ...]
    remeasure: tuple[str, ...] = ()
    miss_kg: float | None = None


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
        reading=read_rig(best.rig, place.travel, place.ground, question.best_kg),
        cautions=what_to_mind(place, best, question.best_kg),
        remeasure=due_again(question, best),
        miss_kg=None if question.matching else best.miss_kg,
    )
