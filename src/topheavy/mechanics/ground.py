"""Where the chain lies: the surface, the pile on it, and how the slack is laid."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final, Literal, TypeGuard, get_args

from topheavy.errors import BadInputError
from topheavy.mechanics.chain import require_not_negative

if TYPE_CHECKING:
    from topheavy.mechanics.chain import Chain
    from topheavy.mechanics.hang import Way

Lay = Literal["piled", "dragged"]
"""Slack piled under the bar, or laid out straight to one side."""

RAISING_PILE_PITCHES: Final = 0.25
LOWERING_PILE_PITCHES: Final = 1.7
"""Pile heights in pitches of the chain. From a link-by-link simulation of one chain, pitch
47.5 mm: straight 0.25 (0.1 to 0.4) raising and 1.7 lowering, doubled 0.45 and 1.5. That all scale
with the pitch is assumed; a scale under the hung bar settles it."""

RAISING_RULE_U_PITCHES: Final = 0.25
LOWERING_RULE_U_PITCHES: Final = 0.35
"""Standard uncertainty of the rule, common to all strands: how far the mean of very many heaps of
this chain on this floor is from the pile height above. The mean of four simulated heaps is 0.40
pitches from it raising and 0.45 lowering (root mean square over the heights up to 1.45 m). Of
that, 0.63/sqrt(4) = 0.31 is to be expected of any four heaps that scatter by 0.63 each; what is
left is sqrt(0.40**2 - 0.31**2) = 0.25 and sqrt(0.45**2 - 0.31**2) = 0.33, taken as 0.35. Only one
chain on one floor was simulated."""

STRAND_PILE_U_PITCHES: Final = 0.6
"""Standard uncertainty of the heap under one strand by itself. Four heaps of a straight strand at
one height lie between least and most as a normal of 0.63 pitches does, both ways (mean range of
four: 2.06 standard deviations). One strand's load scatters sqrt(0.19**2 - 0.07**2) = 0.18 kg about
its mean at 6.1 kg/m raising: 0.6 pitches. Two strands of a doubled piece scatter
sqrt(0.33**2 - 0.26**2) = 0.20 kg, where 0.25 kg are to be expected of strands that scatter apart
and 0.35 kg of strands that scatter together. So they scatter apart. (Lowering, the two scatter
sqrt(0.97**2 - 0.86**2) = 0.45 kg, but about one mean for all heights, those included where a heap
no longer counts whole; that tells nothing either way.) Both parts make a single strand uncertain
by hypot(0.25, 0.6) = 0.65 pitches raising and hypot(0.35, 0.6) = 0.7 lowering; sixteen strands
add sixteen times the common part, but only four times the scatter."""


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
    raising_rule_u_pitches, lowering_rule_u_pitches : float
        Standard uncertainty in pitches that all strands share: whether these heights hold for
        this chain and floor.
    strand_u_pitches : float
        Standard uncertainty in pitches of the heap under each strand by itself.

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
    raising_rule_u_pitches: float = RAISING_RULE_U_PITCHES
    lowering_rule_u_pitches: float = LOWERING_RULE_U_PITCHES
    strand_u_pitches: float = STRAND_PILE_U_PITCHES

    def __post_init__(self) -> None:
        for name in (
            "friction",
            "raising_pitches",
            "lowering_pitches",
            "raising_rule_u_pitches",
            "lowering_rule_u_pitches",
            "strand_u_pitches",
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
        if not self._heaps(chain, way):
            return 0.0
        pitches = self.raising_pitches if way == "raising" else self.lowering_pitches
        return pitches * chain.pitch_m

    def rule_u_m(self, chain: Chain | None, way: Way) -> float:
        """Standard uncertainty of the pile's height [m] that all strands of a chain share."""
        if not self._heaps(chain, way):
            return 0.0
        raising = way == "raising"
        pitches = self.raising_rule_u_pitches if raising else self.lowering_rule_u_pitches
        return pitches * chain.pitch_m

    def strand_u_m(self, chain: Chain | None, way: Way) -> float:
        """Standard uncertainty of the pile's height [m] of one strand apart from all others."""
        return self.strand_u_pitches * chain.pitch_m if self._heaps(chain, way) else 0.0

    def pile_u_m(self, chain: Chain | None, way: Way) -> float:
        """Standard uncertainty of the pile's height [m] under a single strand, both parts.

        Examples
        --------
        >>> from topheavy.mechanics.chain import Chain
        >>> chain = Chain(links=20, pitch_m=0.05, density_kg_per_m=5.0)
        >>> round(Ground().pile_u_m(chain, "raising"), 4)
        0.0325
        """
        return math.hypot(self.rule_u_m(chain, way), self.strand_u_m(chain, way))

    def _heaps(self, chain: Chain | None, way: Way) -> TypeGuard[Chain]:
        """Whether it makes a heap: chain does, unless it is dragged or the pile is left out."""
        return chain is not None and way != "still" and self.lay == "piled"


BARE_FLOOR: Final = Ground()
