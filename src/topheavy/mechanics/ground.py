"""Where the chain lies: the surface, the pile on it, and how the slack is laid."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final, Literal, get_args

from topheavy.errors import BadInputError
from topheavy.mechanics.chain import require_not_negative

if TYPE_CHECKING:
    from topheavy.mechanics.chain import Chain
    from topheavy.mechanics.hang import Way

Lay = Literal["piled", "dragged"]
"""Slack piled under the bar, or laid out straight to one side."""

RAISING_PILE_PITCHES: Final = 0.25
LOWERING_PILE_PITCHES: Final = 1.7
RAISING_PILE_U_PITCHES: Final = 0.65
LOWERING_PILE_U_PITCHES: Final = 0.7
"""Pile heights in pitches of the chain. From a link-by-link simulation of one chain, pitch
47.5 mm: straight 0.25 (0.1 to 0.4) raising and 1.7 lowering, doubled 0.45 and 1.5. The standard
uncertainties are the scatter of one pile at one height about them: four piles between them, root
mean square over the heights, and the mean of the four about the curve. That all scale with the
pitch is assumed; a scale under the hung bar settles it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Ground:
    """The surface the chain lies on, and the pile.

    Parameters
    ----------
    surface_m : float
        Height of the surface above the one that bar heights are measured from [m]: a mat or
        block under the chain is positive, a lifter on a platform with chain beside it negative.
    lay : {'piled', 'dragged'}
        How the slack lies.
    friction : float
        Chain on floor, used when dragged, >= 0. 0.7 on rubber is a guess; steel on concrete 0.3.
    raising_pitches, lowering_pitches : float
        Height of the pile in pitches of the chain, on the way up and down.
    raising_u_pitches, lowering_u_pitches : float
        Their standard uncertainty in pitches.

    Raises
    ------
    BadInputError
        A value outside its range, or an unknown way to lay the slack.
    """

    surface_m: float = 0.0
    lay: Lay = "piled"
    friction: float = 0.7
    raising_pitches: float = RAISING_PILE_PITCHES
    lowering_pitches: float = LOWERING_PILE_PITCHES
    raising_u_pitches: float = RAISING_PILE_U_PITCHES
    lowering_u_pitches: float = LOWERING_PILE_U_PITCHES

    def __post_init__(self) -> None:
        for name in (
            "friction",
            "raising_pitches",
            "lowering_pitches",
            "raising_u_pitches",
            "lowering_u_pitches",
        ):
            require_not_negative(name, getattr(self, name))
        if not math.isfinite(self.surface_m):
            raise BadInputError(
                "surface_m must be a height",
                field="surface_m",
                got=self.surface_m,
                wanted="a finite number, below zero for a lifter on a platform",
            )
        if self.lay not in get_args(Lay):
            raise BadInputError(
                "No such way to lay the slack",
                field="lay",
                got=self.lay,
                wanted=" or ".join(get_args(Lay)),
            )

    def pile_m(self, chain: Chain | None, way: Way) -> float:
        """Height of the pile [m] that a chain makes, on the given way; none for slack dragged."""
        if chain is None or way == "still" or self.lay == "dragged":
            return 0.0
        pitches = self.raising_pitches if way == "raising" else self.lowering_pitches
        return pitches * chain.pitch_m

    def pile_u_m(self, chain: Chain | None, way: Way) -> float:
        """Standard uncertainty of the pile's height [m]."""
        if chain is None or way == "still" or self.lay == "dragged":
            return 0.0
        pitches = self.raising_u_pitches if way == "raising" else self.lowering_u_pitches
        return pitches * chain.pitch_m


BARE_FLOOR: Final = Ground()
