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
LOWERING_PILE_PITCHES: Final = 1.5
"""Pile heights in pitches of the chain, from link-by-link simulations of five sizes, each the mean
of all its heaps, to 0.05:

=================== ======= ======== ============================
links               raising lowering heaps
=================== ======= ======== ============================
13 x 45 mm (3.5 d)  0.15    1.45     straight 3, doubled 2, two doubled pieces 1, 32 links 1
16 x 56 mm (3.5 d)  0.1     1.25     straight 1, doubled 1
10 x 28 mm (2.8 d)  0.3     1.7      straight 3, doubled 2, two doubled pieces 1
47.5 mm             0.35    1.6      straight 4 (0.25, 1.7), doubled (0.45, 1.5)
10 x 65 mm (6.5 d)  -0.3    0.9      straight 2, doubled 1
=================== ======= ======== ============================

Mean of the first four, from 2.8 to 3.5 wire diameters: 0.22 and 1.49. One height per pitch serves
them, one strand or four. Long links (last row) lie flatter, and lifted they tug at their
neighbours: their load lies above density x height. A scale under the hung bar settles it."""

RAISING_RULE_U_PITCHES: Final = 0.25
LOWERING_RULE_U_PITCHES: Final = 0.4
"""Standard uncertainty of the rule, common to all strands: how far the mean of very many heaps
of this chain on this floor is from the pile height above. The five sizes lie 0.10, 0.15, 0.05,
0.10 and 0.55 pitches from it raising, 0.05, 0.25, 0.20, 0.10 and 0.60 lowering: root mean
squares 0.26 and 0.31. Other settings of the engine (time step, softness of contacts, roundness
of links, friction of links, speed) move one heap between -0.2 and 0.2 raising, 0 and 0.2
lowering, no more than another start does. Half as many links again add 0.3 lowering. Four heaps
of 47.5 mm links, straight, lie 0.40 and 0.53 from it (root mean square over the heights up to
1.45 m), of which 0.63/sqrt(4) = 0.31 is to be expected of any four that scatter by 0.63:
sqrt(0.40**2 - 0.31**2) = 0.25, sqrt(0.53**2 - 0.31**2) = 0.43. So 0.25 raising, and 0.4
lowering, between 0.31 and 0.43. Floor and friction of real chain are not in it."""

STRAND_PILE_U_PITCHES: Final = 0.6
"""Standard uncertainty of the heap under one strand by itself. Four heaps of a straight strand of
47.5 mm links at one height lie between least and most as a normal of 0.63 pitches does, both ways
(mean range of four: 2.06 standard deviations). Heaps of the other sizes scatter less from start to
start, 0.2 to 0.45 at one height, and 0.2 to 0.8 along the height. One strand's load scatters
sqrt(0.19**2 - 0.07**2) = 0.18 kg about its mean at 6.1 kg/m raising: 0.6 pitches. Two strands of a
doubled piece scatter sqrt(0.33**2 - 0.26**2) = 0.20 kg, where 0.25 kg are to be expected of strands
that scatter apart and 0.35 kg of strands that scatter together. So they scatter apart. (Lowering,
the two scatter sqrt(0.97**2 - 0.86**2) = 0.45 kg, but about one mean for all heights, those
included where a heap no longer counts whole; that tells nothing either way.) Both parts make a
single strand uncertain by hypot(0.25, 0.6) = 0.65 pitches raising and hypot(0.4, 0.6) = 0.7
lowering; sixteen strands add sixteen times the common part, but only four times the scatter."""


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
