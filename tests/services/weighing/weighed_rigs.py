"""Rigs to weigh, and a scale that reads them link by link, apart from the code under test.

The scale counts links (`count_straight`) strand by strand over heaps that are drawn at random: one
part that all strands share, one that each strand keeps, one that is new at every reading. So it
shares no formula with the fit but the link's own mass.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Final

import numpy as np

from topheavy.gym.stock import FeederSetting
from topheavy.mechanics.chain import Chain
from topheavy.mechanics.ground import Ground
from topheavy.mechanics.hang import Doubled, Draped, Straight, Suspension
from topheavy.mechanics.links import count_straight
from topheavy.mechanics.rig import End, Rig
from topheavy.mechanics.slack import dragged_length_m
from topheavy.services.weighing.weigh import ScaleReading, Suspects

if TYPE_CHECKING:
    from topheavy.mechanics.hang import Hang, Strand
    from topheavy.services.weighing.case import ReadingWay

CHAIN: Final = Chain(
    links=28, pitch_m=0.0476, density_kg_per_m=5.6, density_u_kg_per_m=0.28, known_by="calipers"
)
HELD: Final = Suspension(
    feeder_m=0.55,
    feeder_density_kg_per_m=0.4,
    connector_m=0.08,
    connector_kg=0.2,
    feeder_u_m=0.005,
)
FLOOR: Final = Ground()


@dataclass(frozen=True, slots=True, kw_only=True)
class Station:
    """A rig and the heights it is weighed at [m]."""

    rig: Rig
    heights_m: tuple[float, ...]

    def blank(self, ways: tuple[ReadingWay, ...] = ("raising", "lowering")) -> list[ScaleReading]:
        return [ScaleReading(height_m=h, mass_kg=0.0, way=w) for w in ways for h in self.heights_m]


def alike(bar_kg: float, plates_kg: float, *hangs: Hang) -> Rig:
    return Rig(bar_kg, plates_kg, End(hangs), End(hangs))


def heights(low_m: float, high_m: float, count: int = 6) -> tuple[float, ...]:
    return tuple(float(h) for h in np.linspace(low_m, high_m, count))


_LONG: Final = replace(CHAIN, links=36)
STATIONS: Final = {
    "bench doubled": Station(
        rig=alike(21.0, 80.0, Doubled(chains=(CHAIN, CHAIN), suspension=HELD)),
        heights_m=heights(0.60, 1.17),
    ),
    "squat doubled": Station(
        rig=alike(
            21.0, 120.0, Doubled(chains=(_LONG, _LONG), suspension=replace(HELD, feeder_m=0.75))
        ),
        heights_m=heights(0.78, 1.52),
    ),
    "squat straight": Station(
        rig=alike(21.0, 100.0, Straight(chain=replace(CHAIN, links=42), drop_m=0.04)),
        heights_m=heights(0.78, 1.62),
    ),
    "deadlift draped": Station(
        rig=alike(21.0, 140.0, Draped(chains=(replace(CHAIN, links=50),))),
        heights_m=heights(0.225, 0.85),
    ),
}

SUSPECTS: Final = Suspects(
    settings=tuple(
        FeederSetting(label=f"ring {number}", length_m=0.35 + 0.1 * number) for number in range(8)
    ),
    plates_kg=(1.25, 2.5, 5.0, 10.0, 15.0, 20.0, 25.0),
)

KEPT: Final = math.sqrt(0.4)
NEW: Final = math.sqrt(0.6)
"""How a strand's heap is split between what it keeps for a weighing and what is new each time."""


@dataclass(slots=True)
class Truth:
    """One weighing as it really is: everything uncertain drawn once from what is stated of it."""

    rng: np.random.Generator
    rig: Rig
    ground: Ground
    factor: float
    shift_m: float
    straight_kg: float
    pile: dict[str, float]
    kept: dict[tuple[int, str], float]

    @classmethod
    def draw(cls, seed: int, rig: Rig, ground: Ground = FLOOR) -> Truth:
        rng = np.random.default_rng(seed)
        chains = [chain for hang in rig.left.hangs for chain in hang.chains]
        relative_u = chains[0].density_u_kg_per_m / chains[0].density_kg_per_m if chains else 0.0
        feeder_us = [h.suspension.feeder_u_m for h in rig.left.hangs if isinstance(h, Doubled)]
        return cls(
            rng=rng,
            rig=rig,
            ground=ground,
            factor=1 + relative_u * rng.standard_normal(),
            shift_m=math.hypot(0.003, *feeder_us[:1]) * rng.standard_normal(),
            straight_kg=rig.straight_weight_kg * (1 + 0.005 * rng.standard_normal()),
            pile={
                "raising": _pile(rng, ground.raising_pitches, ground.raising_rule_u_pitches),
                "lowering": _pile(rng, ground.lowering_pitches, ground.lowering_rule_u_pitches),
            },
            kept={},
        )

    def read(self, readings: list[ScaleReading]) -> list[ScaleReading]:
        """Read the scale under the whole hung bar at each height."""
        return [replace(r, mass_kg=self._reading_kg(r)) for r in readings]

    def _reading_kg(self, reading: ScaleReading) -> float:
        draw = self.rng.standard_normal
        height_m = reading.height_m + reading.height_u_m * draw() - self.ground.surface_m
        strands = [s for end in (self.rig.left, self.rig.right) for s in end.strands()]
        hung_kg = sum(
            self._strand_kg(place, strand, height_m, reading.way)
            for place, strand in enumerate(strands)
        )
        return max(self.straight_kg + hung_kg + reading.mass_u_kg * draw(), 0.0)

    def _strand_kg(self, place: int, strand: Strand, height_m: float, way: str) -> float:
        moves = strand.chain is not None or strand.offset_m > 0
        above_m = height_m - strand.offset_m - self.shift_m * moves
        if strand.chain is None:
            return strand.density_kg_per_m * float(np.clip(above_m, 0, strand.length_m))
        density = self.factor * strand.density_kg_per_m
        if self.ground.lay == "dragged":
            lifted = dragged_length_m(above_m, strand.length_m, self.ground.friction)
            return density * float(lifted)
        u = self.ground.strand_u_pitches
        if (place, way) not in self.kept:
            self.kept[place, way] = _pile(self.rng, self.pile[way], KEPT * u) - self.pile[way]
        kept = self.kept[place, way]
        heap = self.pile[way] + kept + NEW * u * self.rng.standard_normal()
        half = replace(
            strand.chain,
            links=round(strand.length_m / strand.chain.pitch_m),
            density_kg_per_m=density,
        )
        return count_straight(half, above_m - heap * strand.chain.pitch_m).mass_kg(half)


def _pile(rng: np.random.Generator, stated: float, u: float) -> float:
    """Draw a pile [pitches] that scatters about `stated`, anew until it is not below the floor."""
    while (pile := stated + u * rng.standard_normal()) < 0:
        pass
    return float(pile)
