"""A rig: bar, collars, plates, and chain and bands on both ends, read as load curves."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from topheavy.mechanics.chain import require_not_negative
from topheavy.mechanics.curve import LoadCurve
from topheavy.mechanics.ground import BARE_FLOOR, Ground
from topheavy.mechanics.slack import dragged_curve, side_pull_n

if TYPE_CHECKING:
    from topheavy.mechanics.banded import Banded
    from topheavy.mechanics.hang import Hang, Strand, Way


@dataclass(frozen=True, slots=True)
class End:
    """What one end of the bar carries beside plates.

    Parameters
    ----------
    hangs : tuple of Hang
        Chain: any number of hangs, each with its own feeder. It has mass.
    bands : tuple of Banded
        Bands, each on its own pegs. They pull, but have no mass.
    """

    hangs: tuple[Hang, ...] = ()
    bands: tuple[Banded, ...] = ()

    def strands(self) -> list[Strand]:
        """Every strand of every hang."""
        return [strand for hang in self.hangs for strand in hang.strands()]

    @property
    def mass_kg(self) -> float:
        """Mass of everything that hangs [kg], on the floor or off; bands have none."""
        strands = sum(s.density_kg_per_m * s.length_m for s in self.strands())
        return strands + sum(hang.lump[0] for hang in self.hangs)

    def curve(self, ground: Ground = BARE_FLOOR, way: Way = "raising") -> LoadCurve:
        """Load [kg] that this end puts on the bar, chain and bands, by height [m].

        Parameters as for `hung_curve`.
        """
        return LoadCurve.total([self.hung_curve(ground, way), self.band_curve()])

    def band_curve(self) -> LoadCurve:
        """Pull of the bands on this end [kg] by height [m], within a few grams of their laws."""
        return LoadCurve.total([band.curve() for band in self.bands])

    def hung_curve(self, ground: Ground = BARE_FLOOR, way: Way = "raising") -> LoadCurve:
        """Load [kg] of the chain on this end and what holds it, by height of the bar centre [m].

        Parameters
        ----------
        ground : Ground
            Where the chain lies.
        way : {'still', 'raising', 'lowering'}
            Which pile height applies.
        """
        strands = [strand_curve(strand, ground, way) for strand in self.strands()]
        lumps = [LoadCurve.lump(*_on(ground, hang.lump)) for hang in self.hangs if hang.lump[0]]
        return LoadCurve.total([*strands, *lumps])

    def side_pull_n(self, height_m: float, ground: Ground) -> float:
        """Horizontal pull [N] at `height_m` [m] of slack dragged to one side; 0 when piled.

        That of bands is `Banded.side_pull_n`.
        """
        if ground.lay == "piled":
            return 0.0
        return sum(
            float(
                side_pull_n(
                    height_m - strand.offset_m - ground.surface_m,
                    strand.length_m,
                    ground.friction,
                    strand.density_kg_per_m,
                )
            )
            for strand in self.strands()
            if strand.chain is not None
        )


@dataclass(frozen=True, slots=True)
class Rig:
    """Bar + collars + plates + what hangs on both ends.

    Parameters
    ----------
    bar_kg : float
        Bar and collars [kg], >= 0.
    plates_kg : float
        All plates on both ends [kg], >= 0.
    left, right : End
        What hangs.
    """

    bar_kg: float
    plates_kg: float
    left: End
    right: End

    def __post_init__(self) -> None:
        require_not_negative("bar_kg", self.bar_kg)
        require_not_negative("plates_kg", self.plates_kg)

    @property
    def straight_weight_kg(self) -> float:
        """Bar, collars and plates [kg]: what is on the bar at every height."""
        return self.bar_kg + self.plates_kg

    def hung_curve(self, ground: Ground = BARE_FLOOR, way: Way = "raising") -> LoadCurve:
        """Load of the chain on both ends [kg] by height [m]: what has mass. No bands."""
        return self.left.hung_curve(ground, way) + self.right.hung_curve(ground, way)

    def band_curve(self) -> LoadCurve:
        """Pull of the bands on both ends [kg] by height [m]: what has no mass."""
        return self.left.band_curve() + self.right.band_curve()

    def added_curve(self, ground: Ground = BARE_FLOOR, way: Way = "raising") -> LoadCurve:
        """Load of chain and bands on both ends [kg] by height [m]: all but straight weight."""
        return self.left.curve(ground, way) + self.right.curve(ground, way)

    def curve(self, ground: Ground = BARE_FLOOR, way: Way = "raising") -> LoadCurve:
        """Load on the bar [kg] by height of the bar centre [m]: straight weight, chain, bands.

        Examples
        --------
        >>> from topheavy.mechanics.chain import Chain
        >>> from topheavy.mechanics.hang import Straight
        >>> chain = Chain(links=20, pitch_m=0.05, density_kg_per_m=5.0)
        >>> end = End((Straight(chain=chain),))
        >>> float(Rig(20.0, 0.0, end, end).curve(way="still").at(0.5))
        25.0
        """
        return self.added_curve(ground, way) + LoadCurve.constant(self.straight_weight_kg)


def strand_curve(strand: Strand, ground: Ground, way: Way) -> LoadCurve:
    """Load curve of one strand above its ground, pile and lay taken into account."""
    if ground.lay == "dragged" and strand.chain is not None:
        return dragged_curve(strand, ground.surface_m, ground.friction)
    floor_m = ground.surface_m + ground.pile_m(strand.chain, way)
    return LoadCurve.strand(strand.density_kg_per_m, strand.length_m, strand.offset_m + floor_m)


def _on(ground: Ground, lump: tuple[float, float]) -> tuple[float, float]:
    mass_kg, offset_m = lump
    return mass_kg, offset_m + ground.surface_m
