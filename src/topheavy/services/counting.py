"""Counting the links of a piece in its hang, slack piled or dragged."""

from __future__ import annotations

from typing import TYPE_CHECKING

from topheavy.mechanics.hang import Doubled, Straight
from topheavy.mechanics.links import count_doubled, count_straight
from topheavy.mechanics.slack import dragged_length_m

if TYPE_CHECKING:
    from topheavy.mechanics.chain import Chain
    from topheavy.mechanics.ground import Ground
    from topheavy.mechanics.hang import Hang
    from topheavy.mechanics.links import LinkCount


def links_of(hang: Hang, chain: Chain, bar_m: float, ground: Ground) -> LinkCount:
    """Count the links of one piece that are off the floor.

    Parameters
    ----------
    hang : Hang
        How the piece hangs.
    chain : Chain
        The piece.
    bar_m : float
        Height of the bar centre [m].
    ground : Ground
        Where the chain lies.

    Examples
    --------
    >>> from topheavy.mechanics.chain import Chain
    >>> from topheavy.mechanics.ground import Ground
    >>> chain = Chain(links=40, pitch_m=0.05, density_kg_per_m=5.0)
    >>> hang = Straight(chain=chain)
    >>> [links_of(hang, chain, 0.5, Ground(lay=lay)).off for lay in ("piled", "dragged")]
    [10, 20]
    """
    count = count_straight if isinstance(hang, Straight) else count_doubled
    return count(chain, length_off_m(hang, chain, bar_m, ground))


def length_off_m(hang: Hang, chain: Chain, bar_m: float, ground: Ground) -> float:
    """Length of one strand off the floor [m], from its head: a catenary when it is dragged.

    The middle link of an odd folded piece hangs alone above both strands.

    Parameters
    ----------
    hang, chain, bar_m, ground
        As for `links_of`.

    Returns
    -------
    float
        Length [m], the middle link counted; below zero, how far below the floor the head would be.
    """
    head_m = hang.suspension.fold_m if isinstance(hang, Doubled) else hang.drop_m
    above_m = bar_m - head_m - ground.surface_m
    strands = 1 if isinstance(hang, Straight) else 2
    alone_m = chain.pitch_m * (chain.links % 2) if strands == 2 else 0.0
    if ground.lay == "piled" or above_m <= alone_m:
        return above_m
    strand_m = (chain.length_m - alone_m) / strands
    along_m = float(dragged_length_m(above_m - alone_m, strand_m, ground.friction))
    return max(above_m, alone_m + along_m)
