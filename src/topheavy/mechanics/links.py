"""Counting links: how many have left the floor, and the load they make in steps."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from topheavy.mechanics.chain import Chain

_TOUCH = 1e-9


@dataclass(frozen=True, slots=True)
class LinkCount:
    """Links of one piece at one height.

    Parameters
    ----------
    off : int
        Links whose own top has left the floor; the lowest of them may still stand on it.
    clear : int
        Links wholly off the floor.
    down : int
        Links lying on the floor.
    strands : int
        Over how many strands they are counted: 1 straight, 2 doubled.
    """

    off: int
    clear: int
    down: int
    strands: int

    def mass_kg(self, chain: Chain) -> float:
        """Load in steps [kg]: a clear link weighs whole, one that stands weighs half.

        A rod lifted by one end rests half its weight on the floor until it leaves it, so on
        average over a pitch this equals density x height, which a plain count of tops exceeds by
        half a link a strand.
        """
        return chain.link_mass_kg * 0.5 * (self.off + self.clear)


def count_straight(chain: Chain, above_m: float) -> LinkCount:
    """Count links of a straight strand whose upper end is `above_m` [m] above the floor.

    Link i (from 0) has its top i pitches down and leaves the floor as its top does.

    Examples
    --------
    >>> from topheavy.mechanics.chain import Chain
    >>> count_straight(Chain(links=20, pitch_m=0.05, density_kg_per_m=5), 0.52)
    LinkCount(off=11, clear=10, down=9, strands=1)
    """
    off, clear = _tops_and_bottoms(chain.links, chain.pitch_m, above_m)
    return LinkCount(off, clear, chain.links - off, 1)


def count_doubled(chain: Chain, above_m: float) -> LinkCount:
    """Count links of a folded piece whose fold is `above_m` [m] above the floor.

    An odd number puts the middle link on the connector and equal strands below it; an even
    number puts the two middle links there, one at the head of each strand. The load curve of
    `Doubled` hangs the same links, so `mass_kg` stays within half a link a strand of it, and
    equals it on average over each pitch.
    """
    if chain.links % 2 == 0:
        off, clear = _tops_and_bottoms(chain.links // 2, chain.pitch_m, above_m)
        return LinkCount(2 * off, 2 * clear, chain.links - 2 * off, 2)
    middle_off, middle_clear = _tops_and_bottoms(1, chain.pitch_m, above_m)
    off, clear = _tops_and_bottoms(chain.links // 2, chain.pitch_m, above_m - chain.pitch_m)
    off, clear = 2 * off + middle_off, 2 * clear + middle_clear
    return LinkCount(off, clear, chain.links - off, 2)


def _tops_and_bottoms(links: int, pitch_m: float, above_m: float) -> tuple[int, int]:
    pitches = above_m / pitch_m
    off = int(np.clip(np.ceil(pitches - _TOUCH), 0, links))
    clear = int(np.clip(np.floor(pitches + _TOUCH), 0, links))
    return off, min(clear, off)
