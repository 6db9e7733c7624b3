"""A found rig as a top set: what hangs, what it is loaded with, and who lifts it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from topheavy.errors import NotInStockError
from topheavy.lifter.match import heights_for
from topheavy.mechanics.rig import End, Rig
from topheavy.services.strength import strength_asked
from topheavy.training.bases import Hung, Loads
from topheavy.training.ramp_parts import Gear, Hanging

if TYPE_CHECKING:
    from topheavy.lifter.strength import StrengthCurve
    from topheavy.mechanics.curve import LoadCurve
    from topheavy.rigging.problem import Setup
    from topheavy.services.rig import RigAnswer


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Strong:
    """What is known of how strong the lifter is.

    Parameters
    ----------
    curve : StrengthCurve or None
        Strength by height; None when nothing says how strong the lifter is.
    pieces : int
        Pieces of evidence it was made from: with one alone, its form is the typical one.
    best_kg : float or None
        Straight-weight best [kg].
    reckoned : bool
        Whether that best was worked out from other records, for want of a single.
    """

    curve: StrengthCurve | None
    pieces: int
    best_kg: float | None
    reckoned: bool = False

    @property
    def typical(self) -> bool:
        """Whether the form of the curve is the typical one of the lift, for want of evidence."""
        return self.pieces <= 1


def strong_of(answer: RigAnswer) -> Strong:
    """Find out how strong the lifter is: as asked for, as typed, or as the gym's file says.

    Raises
    ------
    BadInputError
        Pieces of evidence that contradict each other.
    """
    question = answer.question
    typed_kg, known_kg = question.ask.best_kg, question.place.measured.best_kg
    best_kg = typed_kg if typed_kg is not None else known_kg
    try:
        return _strong(strength_asked(question), best_kg)
    except NotInStockError:
        return Strong(curve=None, pieces=0, best_kg=best_kg)


def _strong(curve: StrengthCurve, best_kg: float | None) -> Strong:
    return Strong(
        curve=curve,
        pieces=len(curve.evidence),
        best_kg=curve.full_range_kg if best_kg is None else best_kg,
        reckoned=best_kg is None,
    )


def hanging_of(answer: RigAnswer) -> Hanging:
    """All that hangs on the found rig."""
    curve = answer.best.rig.added_curve(answer.question.place.ground, "raising")
    return Hanging(pieces=answer.best.pieces, curve=curve, name=_name(answer))


def _name(answer: RigAnswer) -> str:
    best = answer.best
    return " and ".join(
        name for name, has in (("chain", best.pieces), ("bands", best.bands)) if has
    )


def lighter_of(answer: RigAnswer) -> tuple[Hanging, ...]:
    """Hangings with fewer pieces, alike on both ends, most first; bands stay."""
    best, ground = answer.best, answer.question.place.ground
    if len(best.left) != len(best.right):
        return ()
    found = []
    for count in range(len(best.left) - 1, 0, -1):
        ends = (
            End(best.fixture.hangs([piece.chain for piece in pieces[:count]]), bands=end.bands)
            for pieces, end in ((best.left, best.rig.left), (best.right, best.rig.right))
        )
        rig = Rig(best.rig.bar_kg, 0.0, *ends)
        curve = rig.added_curve(ground, "raising")
        found.append(Hanging(pieces=2 * count, curve=curve, name=_name(answer)))
    return tuple(found)


def gear_of(answer: RigAnswer) -> Gear:
    """Bar and plates at the station, and the room that collar and loops leave."""
    best = answer.best
    loops = bool(best.left) + len(best.left_bands)
    return gear_under(answer.question.place.setup, answer.question.limits.loop_width_m, loops)


def gear_under(setup: Setup, loop_width_m: float, loops: int) -> Gear:
    """Bar and plates of a setup, and the room that collar and loops [m each] leave."""
    return Gear(
        bar_kg=setup.bar_kg,
        plates=setup.stock.plates,
        room_m=setup.bar.sleeve_m - setup.collar_width_m - loops * loop_width_m,
    )


def loads_of(answer: RigAnswer) -> Loads:
    """Straight weight and whole loads of the found rig [kg]."""
    hung = Hung.of(hanging_of(answer).curve, answer.question.place.travel)
    return hung.under(answer.best.rig.straight_weight_kg)


def effort_of(answer: RigAnswer, strong: Strong) -> tuple[float, float] | None:
    """Greatest use of strength [-] and the height of it [m]; None when strength is not known."""
    if strong.curve is None:
        return None
    return effort_under(
        strong.curve, answer.best.rig.curve(answer.question.place.ground, "raising")
    )


def effort_under(strength: StrengthCurve, load: LoadCurve) -> tuple[float, float]:
    """Greatest use of strength under a load [-], and the height of it [m]."""
    heights_m = heights_for(strength, load)
    effort = load.at(heights_m) / strength.at(heights_m)
    hardest = int(np.argmax(effort))
    return float(effort[hardest]), float(heights_m[hardest])
