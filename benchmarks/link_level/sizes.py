"""The links that are simulated, and how they are given to the engine."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

from topheavy.mechanics.chain import Chain


@dataclass(frozen=True, slots=True, kw_only=True)
class LinkSize:
    """One size of link: a stadium of round wire.

    Parameters
    ----------
    name : str
        Standard and size.
    wire_m : float
        Wire diameter [m].
    pitch_m : float
        Inside length [m].
    width_m : float
        Inside width [m].
    density_kg_per_m : float
        Mass per length of chain [kg/m].
    """

    name: str
    wire_m: float
    pitch_m: float
    width_m: float
    density_kg_per_m: float

    @property
    def link_kg(self) -> float:
        """Mass of a link [kg]."""
        return self.density_kg_per_m * self.pitch_m

    def chain(self, links: int) -> Chain:
        """Make a piece of so many links for topheavy's own curves."""
        return Chain(links=links, pitch_m=self.pitch_m, density_kg_per_m=self.density_kg_per_m)

    def wire_line(self, arc_sides: int = 3) -> list[tuple[float, float]]:
        """Corners of the wire's centre line [m], across and along, once round.

        Each half circle is an odd number of chords that touch it from outside. So the crown is
        flat and taut links are one pitch apart; a corner at the crown would hold the neighbour
        off by its slopes and shorten the chain by 5 %.
        """
        radius = (self.width_m + self.wire_m) / 2
        straight = (self.pitch_m + self.wire_m) / 2 - radius
        half = math.pi / (arc_sides + 1) / 2
        corner = radius / math.cos(half)
        angles = [half * (2 * k + 1) for k in range(arc_sides + 1)]
        top = [(corner * math.cos(t), straight + corner * math.sin(t)) for t in angles]
        return top + [(-x, -z) for x, z in top]


MEDIUM: Final = LinkSize(
    name="DIN 764 13 x 45", wire_m=0.013, pitch_m=0.045, width_m=0.018, density_kg_per_m=3.5
)
HEAVY: Final = LinkSize(
    name="DIN 764 16 x 56", wire_m=0.016, pitch_m=0.056, width_m=0.022, density_kg_per_m=5.3
)
SHORT: Final = LinkSize(
    name="DIN 766 10 x 28", wire_m=0.010, pitch_m=0.028, width_m=0.014, density_kg_per_m=2.3
)
LONG: Final = LinkSize(
    name="DIN 763 10 x 65", wire_m=0.010, pitch_m=0.065, width_m=0.014, density_kg_per_m=1.75
)
SIZES: Final = (MEDIUM, HEAVY, SHORT, LONG)
