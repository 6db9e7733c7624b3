"""How hung chain swings to and fro, and when links on the floor calm it."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from topheavy.constants import STANDARD_GRAVITY_M_PER_S2
from topheavy.errors import BadInputError
from topheavy.mechanics.chain import require_positive
from topheavy.mechanics.ground import BARE_FLOOR

if TYPE_CHECKING:
    from topheavy.mechanics.ground import Ground
    from topheavy.mechanics.hang import Strand


def sway_frequencies_hz(length_m: float, modes: int = 3) -> tuple[float, ...]:
    """Frequencies [Hz] of a chain that hangs free from its upper end: (j/2) sqrt(g/L) / (2 pi).

    Parameters
    ----------
    length_m : float
        Hung length L [m], > 0.
    modes : int
        How many, slowest first, >= 1.

    Returns
    -------
    tuple of float
        Frequencies of small swings [Hz]; mass does not matter. j are the zeros of the Bessel
        function J0: 2.4048, 5.5201, 8.6537, ...

    Raises
    ------
    BadInputError
        No length or no mode.

    References
    ----------
    D. Bernoulli 1732, Euler 1781; O'Neil, Advanced Engineering Mathematics, section 15.3 (read).

    Examples
    --------
    >>> [round(f, 4) for f in sway_frequencies_hz(1.0)]
    [0.5993, 1.3756, 2.1565]
    """
    from scipy.special import jn_zeros  # noqa: PLC0415 - slow to import, rarely wanted

    require_positive("length_m", length_m)
    if modes < 1:
        raise BadInputError("At least one mode", field="modes", got=modes, wanted="1 or more")
    per_zero = math.sqrt(STANDARD_GRAVITY_M_PER_S2 / length_m) / (4 * math.pi)
    return tuple(float(zero) * per_zero for zero in jn_zeros(0, modes))


def hung_length_m(strand: Strand, height_m: float, ground: Ground = BARE_FLOOR) -> float:
    """Length of a strand off the floor [m] with the bar at `height_m` [m]; no pile counted.

    Examples
    --------
    >>> from topheavy.mechanics.hang import Strand
    >>> round(hung_length_m(Strand(5.0, 1.0, 0.3), 0.8), 3)
    0.5
    """
    above_m = height_m - strand.offset_m - ground.surface_m
    return min(max(above_m, 0.0), max(strand.length_m, 0.0))


@dataclass(frozen=True, slots=True, kw_only=True)
class Sway:
    """How one strand swings at one height.

    Parameters
    ----------
    hung_m, floor_m : float
        Length off and on the floor [m].
    frequencies_hz : tuple of float
        Of the free swing, slowest first; empty when the chain rests on the floor or all lies.
    calmed : bool
        Whether at least one whole link of the strand lies on the floor.
    """

    hung_m: float
    floor_m: float
    frequencies_hz: tuple[float, ...]
    calmed: bool

    @property
    def words(self) -> str:
        """What a coach should know of it."""
        if self.hung_m <= 0:
            return "the chain lies on the floor and can't swing"
        if self.calmed:
            return "links on the floor calm the swing"
        if self.floor_m > 0:
            return "less than a link touches the floor: the swing is calmed only in part"
        seconds = 1 / self.frequencies_hz[0]
        return f"clear of the floor: it swings freely, once in {seconds:.1f} s"


def strand_sway(
    strand: Strand, height_m: float, ground: Ground = BARE_FLOOR, modes: int = 3
) -> Sway:
    """How a strand swings with the bar at a height.

    One link a strand left on the floor calms late swing 15 to 50 times in a link-by-link
    simulation of one chain; no study has measured it. The frequencies hold for a strand that
    hangs free from its own upper end, as straight chain does; under a feeder it swings slower.

    Parameters
    ----------
    strand : Strand
        What hangs.
    height_m : float
        Height of the bar [m].
    ground : Ground
        The surface.
    modes : int
        How many frequencies, >= 1.

    Returns
    -------
    Sway
        Length off and on the floor, frequencies, whether it is calmed.

    Examples
    --------
    >>> from topheavy.mechanics.hang import Strand
    >>> strand_sway(Strand(5.0, 1.0, 0.0), 1.2).words
    'clear of the floor: it swings freely, once in 1.7 s'
    """
    hung_m = hung_length_m(strand, height_m, ground)
    floor_m = max(strand.length_m, 0.0) - hung_m
    free = hung_m > 0 and floor_m <= 0
    link_m = strand.chain.pitch_m if strand.chain is not None else 0.0
    return Sway(
        hung_m=hung_m,
        floor_m=floor_m,
        frequencies_hz=sway_frequencies_hz(hung_m, modes) if free else (),
        calmed=hung_m > 0 and floor_m > 0 and floor_m >= link_m - 1e-9,
    )
