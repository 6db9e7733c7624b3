"""A choice of the search made whole: which pieces on which end, which plates, which rig."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from topheavy.mechanics.rig import End, Rig
from topheavy.rigging.fixtures import Fixture

if TYPE_CHECKING:
    from topheavy.gym.stock import ChainPiece
    from topheavy.mechanics.banded import Banded
    from topheavy.rigging.hung_band import HungBand
    from topheavy.rigging.plates import Loading
    from topheavy.rigging.problem import Problem
    from topheavy.rigging.search import Choice


@dataclass(frozen=True, slots=True, kw_only=True)
class BuiltRig:
    """A rig with the names of its parts.

    Parameters
    ----------
    fixture : Fixture
        Style, feeder setting and connector, alike on both ends; without chain it says nothing.
    left, right : tuple of ChainPiece
        Pieces on each end, heaviest kind first.
    loading : Loading
        Plates.
    rig : Rig
        The same as the mechanics know it.
    miss_kg : float
        Largest difference between load and target [kg].
    imbalance_kg : float
        Difference between the ends at the top [kg].
    cost_kg : float
        What the search made least [kg].
    left_bands, right_bands : tuple of HungBand
        Bands on each end; each has its like on the other end, in the same order.
    """

    fixture: Fixture
    left: tuple[ChainPiece, ...]
    right: tuple[ChainPiece, ...]
    loading: Loading
    rig: Rig
    miss_kg: float
    imbalance_kg: float
    cost_kg: float
    left_bands: tuple[HungBand, ...] = ()
    right_bands: tuple[HungBand, ...] = ()

    @property
    def bands(self) -> tuple[HungBand, ...]:
        """Bands on both ends together."""
        return (*self.left_bands, *self.right_bands)

    @property
    def pieces(self) -> int:
        """Chain pieces on both ends together."""
        return len(self.left) + len(self.right)

    @property
    def sizes(self) -> tuple[str, ...]:
        """Trade sizes in use, in the order they hang."""
        return tuple(dict.fromkeys(piece.size for piece in self.left))


def build(problem: Problem, choice: Choice) -> BuiltRig:
    """Turn a choice of `find` into the rig it stands for."""
    left: list[ChainPiece] = []
    right: list[ChainPiece] = []
    for kind, way in zip(problem.kinds, choice.splits, strict=True):
        here, there = kind.split(way)
        left += here
        right += there
    band = choice.band
    lefts, rights = (band.left, band.right) if band else ((), ())
    posed = problem.with_band(band, chain=choice.fixture is not None) if band else problem
    loading = (posed or problem).plates[choice.loading]
    fixture = Fixture(style="straight") if choice.fixture is None else None
    fixture = fixture or problem.fixtures[choice.fixture or 0]
    travel = problem.setup.travel
    span_m = (travel.bottom_m, travel.top_m)
    return BuiltRig(
        fixture=fixture,
        left=tuple(left),
        right=tuple(right),
        left_bands=lefts,
        right_bands=rights,
        loading=loading,
        rig=Rig(
            bar_kg=problem.setup.bar_kg,
            plates_kg=loading.total_kg,
            left=_end(fixture, left, [hung.over(span_m) for hung in lefts]),
            right=_end(fixture, right, [hung.over(span_m) for hung in rights]),
        ),
        miss_kg=choice.miss_kg,
        imbalance_kg=choice.imbalance_kg,
        cost_kg=choice.cost_kg,
    )


def _end(fixture: Fixture, pieces: list[ChainPiece], bands: list[Banded]) -> End:
    return End(fixture.hangs([piece.chain for piece in pieces]), bands=tuple(bands))
