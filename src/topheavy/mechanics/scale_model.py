"""What a scale sees of a rig: the readings to expect, and how far single ones stray from them.

Each strand lies on a heap of its own, so strands leave the floor one after the other: where the
load curve of a rig has a corner, the expected reading goes round it. With the length x that would
hang over a level heap, and x scattered by s, the mean of the length off the floor is
s f(x/s), f(t) = t Phi(t) + phi(t) (the mean of a normal cut off at zero). At its lower end, with
no heap left to scatter, only the links' own steps round the corner.
"""

from __future__ import annotations

import math
from collections import defaultdict
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Final

import numpy as np
from scipy.special import ndtr

from topheavy.mechanics.hang import Strand
from topheavy.mechanics.slack import dragged_length_m

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from numpy.typing import NDArray

    from topheavy.mechanics.banded import Banded
    from topheavy.mechanics.ground import Ground
    from topheavy.mechanics.rig import End

    Floats = NDArray[np.float64]

FACTOR, SHIFT, STRAIGHT, FRICTION, BANDS, PILES = range(6)
"""Places of the free numbers: factor on the chain's density [-], shift of what hangs from the
feeder [m, down], straight weight [kg], floor friction [-], factor on the pull of the bands [-],
then one pile [pitches] for each way."""

LUMP_M: Final = 0.001
"""A connector without length leaves the floor over this height [m], so that a fit can see it."""

NEW_SHARE: Final = 0.6
"""Share of the variance of the heap under one strand that is new at every reading; the rest stays
for one weighing. From the link-by-link simulation behind the ground's pile heights: a heap at one
height is 0.63 pitches (standard deviation) from the mean of four, and that mean 0.22 to 0.26 from
a straight line, so 0.44 to 0.52 for a single heap: 50 to 70 %."""

_STEP_PITCHES: Final = 1 / math.sqrt(12)
"""A link leaves the floor as one step, uniform within a pitch."""

_RIGID_M: Final = 1e-4
_ROOT_TAU: Final = math.sqrt(2 * math.pi)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Seen:
    """What a scale sees of a rig, alike strands taken together.

    Parameters
    ----------
    density_kg_per_m, length_m, offset_m : array, shape (s,)
        Strands: mass per length [kg/m], length [m], start below the bar centre [m].
    pitch_m : array, shape (s,)
        Pitch of the chain [m]; 0 for feeders and connectors, which make no pile.
    moves : array of bool, shape (s,)
        Whether the strand hangs from the feeder's end, so that its length shifts it.
    squares_kg2_per_m2 : array, shape (s,)
        Sum of squares of the densities of the strands taken together.
    spread_m, stray_m, step_m : array, shape (s,)
        Standard deviation of the floor under one strand by itself [m]: in all, of that what is
        new at every reading, and of that what comes of links leaving it in steps.
    surface_m : float
        Height of the surface the chain lies on [m].
    dragged : bool
        Slack laid out to one side instead of piled.
    on_floor : bool
        The scale lies under the slack and carries what the bar does not.
    bands : tuple of Banded
        Bands that pull on it; none on a scale under the slack.
    """

    density_kg_per_m: Floats
    length_m: Floats
    offset_m: Floats
    pitch_m: Floats
    moves: NDArray[np.bool_]
    squares_kg2_per_m2: Floats
    spread_m: Floats
    stray_m: Floats
    step_m: Floats
    surface_m: float
    dragged: bool
    on_floor: bool
    bands: tuple[Banded, ...] = ()

    @property
    def chain_kg(self) -> Floats:
        """Mass of each strand that is chain [kg], 0 for the others."""
        return np.where(self.pitch_m > 0, self.density_kg_per_m * self.length_m, 0.0)

    def above_m(self, height_m: Floats, pile_pitches: Floats, values: Floats) -> Floats:
        """Height of each strand's upper end above its floor [m], shape (..., n, s)."""
        shift = values[..., SHIFT, None, None]
        start = self.offset_m + self.surface_m + shift * self.moves
        above: Floats = height_m[:, None] - start - pile_pitches[..., None] * self.pitch_m
        return above

    def lifted_m(self, above_m: Floats, friction: Floats) -> Floats:
        """Mean length off the floor [m] of each strand, shape (..., n, s)."""
        hung = _mean_above(above_m, self.spread_m)
        hung -= _mean_above(above_m - self.length_m, self.step_m)
        if not self.dragged:
            return hung
        # A search may try a friction below zero on its way; no floor has one.
        friction = np.maximum(friction, 0.0)[..., None, None]
        slid = dragged_length_m(above_m, self.length_m, friction)
        return np.where(self.pitch_m > 0, slid, hung)

    def reading_kg(self, height_m: Floats, pile_pitches: Floats, values: Floats) -> Floats:
        """What the scale should read [kg], shape (..., n), for free numbers of shape (..., p)."""
        above = self.above_m(height_m, pile_pitches, values)
        lifted = self.lifted_m(above, values[..., FRICTION])
        carried = self.length_m - lifted if self.on_floor else lifted
        factor = np.where(self.pitch_m > 0, values[..., FACTOR, None], 1.0)
        hung = np.einsum("...ns,...s->...n", carried, factor * self.density_kg_per_m)
        reading: Floats = hung + values[..., STRAIGHT, None]
        if self.bands:
            reading += values[..., BANDS, None] * self.band_kg(height_m)
        return reading

    def band_kg(self, height_m: Floats) -> Floats:
        """Pull of all bands together [kg], as their readings say, shape (n,)."""
        pull: Floats = np.sum([band.curve().at(height_m) for band in self.bands], axis=0)
        return pull

    def stray_kg(self, height_m: Floats, pile_pitches: Floats, values: Floats) -> Floats:
        """Standard deviation of a reading about the expected one [kg]: heaps, links in steps."""
        above = self.above_m(height_m, pile_pitches, values)
        moving = _share_moving(above / self.spread_m)
        moving *= _share_moving((self.length_m - above) / self.step_m)
        stray: Floats = np.sqrt(moving @ (self.squares_kg2_per_m2 * self.stray_m**2))
        return stray


def _mean_above(above_m: Floats, spread_m: Floats) -> Floats:
    """Mean of max(x, 0) for x normal about `above_m` [m] with standard deviation `spread_m` [m]."""
    t = above_m / spread_m
    mean: Floats = spread_m * (t * ndtr(t) + np.exp(-0.5 * t**2) / _ROOT_TAU)
    return mean


def _share_moving(t: Floats) -> Floats:
    """Variance of max(x, 0) for x normal about t with variance 1: 0 far below, 1 far above."""
    below, bell = ndtr(t), np.exp(-0.5 * t**2) / _ROOT_TAU
    return np.clip((1 + t**2) * below + t * bell - (t * below + bell) ** 2, 0.0, 1.0)


def seen_by_scale(ends: Sequence[End], ground: Ground, *, on_floor: bool) -> Seen:
    """Gather what a scale sees.

    Parameters
    ----------
    ends : sequence of End
        The ends it carries.
    ground : Ground
        Where the chain lies.
    on_floor : bool
        The scale lies under the slack.
    """
    groups: defaultdict[tuple[float, float, float, bool], Floats]
    groups = defaultdict(lambda: np.zeros(2))
    for strand in _strands(ends):
        if strand.length_m > 0 and strand.density_kg_per_m > 0:
            pitch_m = strand.chain.pitch_m if strand.chain else 0.0
            moves = strand.chain is not None or strand.offset_m > 0
            density = strand.density_kg_per_m
            groups[strand.length_m, strand.offset_m, pitch_m, moves] += density, density**2
    table = np.array([[*key, *value] for key, value in groups.items()]).reshape(-1, 6).T
    heap_u = 0.0 if ground.lay == "dragged" else ground.strand_u_pitches
    new_u = math.sqrt(NEW_SHARE) * heap_u
    return Seen(
        length_m=table[0],
        offset_m=table[1],
        pitch_m=table[2],
        moves=table[3].astype(bool),
        density_kg_per_m=table[4],
        squares_kg2_per_m2=table[5],
        spread_m=np.maximum(math.hypot(heap_u, _STEP_PITCHES) * table[2], _RIGID_M),
        step_m=np.maximum(_STEP_PITCHES * table[2], _RIGID_M),
        stray_m=math.hypot(new_u, _STEP_PITCHES) * table[2],
        surface_m=ground.surface_m,
        dragged=ground.lay == "dragged",
        on_floor=on_floor,
        bands=() if on_floor else tuple(band for end in ends for band in end.bands),
    )


def _strands(ends: Sequence[End]) -> Iterator[Strand]:
    for hang in (hang for end in ends for hang in end.hangs):
        yield from hang.strands()
        mass_kg, offset_m = hang.lump
        if mass_kg > 0:
            yield Strand(mass_kg / LUMP_M, LUMP_M, offset_m)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class ScaleData:
    """Readings as arrays, shape (n,), with the stated values of the free numbers.

    Parameters
    ----------
    height_m, height_u_m : array
        Heights of the bar centre and their standard uncertainty [m].
    mass_kg, mass_u_kg : array
        Readings and their standard uncertainty [kg].
    way : array of int
        Which of the ways each reading was taken on, from 0.
    stated, stated_u : array, shape (p,)
        Free numbers as stated, with standard uncertainties; 0 holds a number as stated.
    """

    height_m: Floats
    height_u_m: Floats
    mass_kg: Floats
    mass_u_kg: Floats
    way: NDArray[np.intp]
    stated: Floats
    stated_u: Floats

    def without(self, out: Sequence[int]) -> ScaleData:
        """Leave out the readings at places `out`."""
        keep = np.setdiff1d(np.arange(self.height_m.size), np.asarray(out, dtype=np.intp))
        names = ("height_m", "height_u_m", "mass_kg", "mass_u_kg", "way")
        return replace(self, **{name: getattr(self, name)[keep] for name in names})

    def values(self, steps: Floats) -> Floats:
        """Free numbers, shape (..., p), so many stated uncertainties from what was stated.

        A pile can't be below zero: downwards its steps shrink it by a factor, so that it is
        normal above what was stated and lognormal below.
        """
        moved: Floats = steps * self.stated_u
        values: Floats = self.stated + moved
        values[..., PILES:] += self._shrunk(moved[..., PILES:]) - np.minimum(moved[..., PILES:], 0)
        return values

    def slopes(self, steps: Floats) -> Floats:
        """Change of each free number by one more stated uncertainty, shape (p,)."""
        slopes = self.stated_u.copy()
        pile = self.stated[PILES:]
        shrunk = self._shrunk(steps[PILES:] * slopes[PILES:]) / np.where(pile > 0, pile, 1.0)
        slopes[PILES:] *= np.where(steps[PILES:] < 0, 1.0 * (pile > 0) + shrunk, 1.0)
        return slopes

    def _shrunk(self, moved: Floats) -> Floats:
        """Change of each pile [pitches] when shrunk by `moved` below zero, not when above."""
        pile = self.stated[PILES:]
        down = np.minimum(moved, 0.0) / np.where(pile > 0, pile, 1.0)
        shrunk: Floats = pile * np.expm1(down)
        return shrunk


def expected_kg(seen: Seen, data: ScaleData, values: Floats) -> Floats:
    """Expected readings [kg], shape (..., n), for free numbers of shape (..., p)."""
    return seen.reading_kg(data.height_m, values[..., PILES + data.way], values)


def noise_kg(seen: Seen, data: ScaleData, values: Floats) -> Floats:
    """Noise of each reading [kg], shape (n,): scale, height, heaps, links in steps."""
    piles = values[PILES + data.way]
    up = seen.reading_kg(data.height_m + data.height_u_m, piles, values)
    down = seen.reading_kg(data.height_m - data.height_u_m, piles, values)
    stray = seen.stray_kg(data.height_m, piles, values)
    return np.sqrt(data.mass_u_kg**2 + (0.5 * (up - down)) ** 2 + stray**2)
