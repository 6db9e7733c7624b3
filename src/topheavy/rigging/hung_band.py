"""A band of the gym on a peg of a station: which one, which peg, single or doubled."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from topheavy.errors import BadInputError
from topheavy.mechanics.banded import Banded

if TYPE_CHECKING:
    from topheavy.gym.bands import Band
    from topheavy.gym.people import StationPeg

Span = tuple[float, float]
"""Lowest and highest height of the bar [m]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class HungBand:
    """A band of the gym on one end of the bar.

    Parameters
    ----------
    band : Band
        Which one.
    peg : StationPeg
        The peg it goes round, with its name at the station.
    doubled : bool
        Whether both ends are on the peg and the middle is over the sleeve: then two strands pull.
    beyond : bool
        Whether it may be stretched further than anybody read it, going straight on: a guess.
    """

    band: Band
    peg: StationPeg
    doubled: bool = False
    beyond: bool = False

    @property
    def way(self) -> str:
        """How it hangs: ``single`` or ``doubled``."""
        return "doubled" if self.doubled else "single"

    def over(self, span_m: Span) -> Banded:
        """Hang it, for a bar between two heights [m].

        Raises
        ------
        BadInputError
            Bottom not below top, a stretch beyond its readings that was not allowed, or a sleeve
            that would run into the peg while the band pulls.
        """
        peg = self.peg.peg
        try:
            return Banded(
                band=self.band.fit(),
                peg=peg,
                travel_m=span_m,
                second=peg if self.doubled else None,
                beyond=self.beyond,
            )
        except BadInputError as error:
            raise BadInputError(
                f"{error.message}, {self.way} on peg {self.peg.name}",
                field=f"band {self.band.tag}",
                got=error.got,
                wanted=error.wanted,
            ) from error

    @property
    def reach_m(self) -> float:
        """Height of the bar up to which its readings go [m], above its peg; never below the peg."""
        peg, strands = self.peg.peg, 2 if self.doubled else 1
        strand_m = self.band.readings.length_m[-1] / strands
        rise_m2 = strand_m**2 - peg.offset_m**2
        return float(peg.height_m + max(rise_m2, 0.0) ** 0.5)
