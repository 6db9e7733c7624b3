"""What to measure in a lift, from where to where, step by step."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from topheavy.gym.lifts import Lift
    from topheavy.units import UnitSystem


@dataclass(frozen=True, slots=True, kw_only=True)
class Guide:
    """How to measure a lift.

    Parameters
    ----------
    before, steps : tuple of str
        What to do first, and then, in order.
    bottom, top : str
        Where the bar is at each reading.
    cautions : tuple of str
        What to mind.
    """

    before: tuple[str, ...]
    steps: tuple[str, ...]
    bottom: str
    top: str
    cautions: tuple[str, ...]


_BOTTOMS: Final[dict[str, str]] = {
    "bar touching the chest": "the bar touches the chest, the lifter set and tight as in the lift",
    "bar on the boards": "the bar rests on the boards, the lifter set as in the lift",
    "bar on the pins": "the bar rests on the pins that the lift starts from",
    "upper arms on the floor": "the upper arms rest on the floor",
    "hip crease below the knee": "in the hole, hip crease below the knee, as deep as in the lift",
    "sitting on the box": "sitting on the box, still tight",
    "plates on the floor": "the plates stand on the floor; with 45 cm plates that is 22.5 cm",
    "plates on the blocks": "the plates stand on the blocks",
    "bar at the shoulders": "the bar lies at the shoulders, where the press starts",
}
_TOPS: Final[dict[str, str]] = {
    "elbows locked": "locked out: elbows straight, as in the lift",
    "standing locked out": "locked out: standing tall, knees and hips straight",
}


def guide_to(lift: Lift, units: UnitSystem) -> Guide:
    """Say how to measure a lift.

    Parameters
    ----------
    lift : Lift
        Which.
    units : UnitSystem
        What the tape is read in.

    Examples
    --------
    >>> from topheavy.gym.lifts import LIFTS
    >>> from topheavy.units import METRIC
    >>> guide_to(LIFTS["squat"], METRIC).bottom
    'in the hole, hip crease below the knee, as deep as in the lift'
    """
    bottom, top = _BOTTOMS[lift.bottom_at], _TOPS[lift.top_at]
    if lift.overhead:
        top = "locked out: elbows straight, shoulders up"
    stands = "bench stands" if lift.station == "bench" else "lifter stands"
    plates = lift.bottom_at.startswith("plates")
    close = units.length(0.01)
    return Guide(
        before=(
            f"{'Light full plates' if plates else 'An empty bar'}, collars on, and a stiff tape.",
            "The lifter's own grip, stance, shoes and belt: they move both heights.",
        ),
        steps=(
            f"Bottom: {bottom}. Hold still.",
            f"Tape upright on the floor that the {stands} on: read the middle of the bar.",
            f"Top: {top}. Hold still, and read it the same way.",
            "Rack the bar, set up anew and read both once more.",
            f"Two readings of a height more than {close} apart: read it a third time.",
        ),
        bottom=bottom,
        top=top,
        cautions=_cautions(lift),
    )


def _cautions(lift: Lift) -> tuple[str, ...]:
    if lift.station == "platform":
        return (
            "Light plates only: the lifter holds still for longer than in a lift.",
            "One holds the tape, and keeps feet clear of the plates.",
        )
    return (
        "Empty bar only: the lifter holds still for longer than in a lift.",
        "One holds the tape, and stands clear of the bar; safeties set just below the bottom.",
    )
