"""Heights at which links leave the floor, one by one."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from topheavy.services.counting import links_of

if TYPE_CHECKING:
    from collections.abc import Callable

    from topheavy.mechanics.chain import Chain
    from topheavy.mechanics.ground import Ground
    from topheavy.mechanics.hang import Hang

NEAR_M: Final = 2e-5
"""A height at which a link leaves is found within this [m]."""

Steps = tuple[tuple[float, int], ...]
"""Heights [m] from which on so many links are off the floor, the bottom of the lift first."""


def link_steps(hang: Hang, chain: Chain, span_m: tuple[float, float], ground: Ground) -> Steps:
    """Find at which heights of the bar the count of links off the floor changes.

    Parameters
    ----------
    hang, chain : Hang, Chain
        A piece and how it hangs.
    span_m : tuple of float
        Bottom and top of the lift [m].
    ground : Ground
        Where the chain lies.

    Examples
    --------
    >>> from topheavy.mechanics.chain import Chain
    >>> from topheavy.mechanics.ground import Ground
    >>> from topheavy.mechanics.hang import Straight
    >>> chain = Chain(links=40, pitch_m=0.05, density_kg_per_m=5.0)
    >>> found = link_steps(Straight(chain=chain), chain, (0.49, 0.61), Ground())
    >>> [(round(height_m, 3), off) for height_m, off in found]
    [(0.49, 10), (0.5, 11), (0.55, 12), (0.6, 13)]
    """

    def off(bar_m: float) -> int:
        return links_of(hang, chain, bar_m, ground).off

    low_m, high_m = span_m
    first = off(low_m)
    return ((low_m, first), *_between(off, (low_m, first), (high_m, off(high_m))))


def _between(
    off: Callable[[float], int], low: tuple[float, int], high: tuple[float, int]
) -> list[tuple[float, int]]:
    """Halve the way between two heights until each change is found; counts never fall."""
    if low[1] == high[1]:
        return []
    if high[0] - low[0] <= NEAR_M:
        return [high]
    middle_m = 0.5 * (low[0] + high[0])
    middle = (middle_m, off(middle_m))
    return [*_between(off, low, middle), *_between(off, middle, high)]
