"""What a rig must not exceed, and what one more piece must be worth."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final, Literal, get_args

from topheavy.errors import BadInputError
from topheavy.mechanics.chain import require_not_negative, require_positive

Style = Literal["doubled", "straight", "draped"]

DESIGN_FACTOR: Final = 4.0
"""Rated load over everything that hangs: common practice, no source. Above the maker's own."""

LOOP_WIDTH_M: Final = 0.025
"""Sleeve taken by one feeder or chain loop [m]: common practice, no source."""

MOST_BANDS: Final = 2
"""Bands on each end that the search tries together at most."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Limits:
    """Limits of the search.

    Parameters
    ----------
    most_pieces : int
        Chain pieces to handle, both ends together; may be 0 where bands are allowed.
    most_bands : int
        Bands on each end, 0 to 2: none unless the coach wants them, for mixing bands and chain is
        the coach's choice.
    least_bands : int
        At least so many bands on each end.
    design_factor : float
        A connector or feeder is used up to its rating over this factor, >= 1.
    most_imbalance_kg : float
        Largest difference between the ends at the top of the lift [kg].
    styles : tuple of {'doubled', 'straight', 'draped'}
        Ways of hanging that are allowed.
    piece_price_kg : float
        How much nearer to the target one more piece must bring the load [kg].
    band_price_kg : float
        The same for one more band: to hook on, to look over and to read again, as much work as a
        piece of chain. Common practice, no source.
    kind_price_kg : float
        The same for one more kind of chain on the connector [kg]: one size and length is easier
        to hang and to check.
    fold_price_kg_per_m : float
        How much nearer to the target a fold that hangs above the floor at the bottom of the
        lift, or lies below it with slack in the feeder, must bring the load [kg/m].
    loop_width_m : float
        Sleeve room taken by one loop, of chain or of a band [m].
    alternatives_within_kg : float
        How much worse than the best an alternative may be [kg].
    sizes : tuple of str
        Only chain of these trade sizes; empty for all.

    Raises
    ------
    BadInputError
        A limit outside its range, or no known way of hanging.
    """

    most_pieces: int = 8
    most_bands: int = 0
    least_bands: int = 0
    design_factor: float = DESIGN_FACTOR
    most_imbalance_kg: float = 0.5
    styles: tuple[Style, ...] = ("doubled",)
    piece_price_kg: float = 0.1
    band_price_kg: float = 0.1
    kind_price_kg: float = 0.2
    fold_price_kg_per_m: float = 2.0
    loop_width_m: float = LOOP_WIDTH_M
    alternatives_within_kg: float = 2.5
    sizes: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        self._check_counts()
        if not 1 <= self.design_factor < math.inf:
            raise BadInputError(
                "A design factor below 1 overloads the part",
                field="design_factor",
                got=self.design_factor,
                wanted="1 or more; 4 is common",
            )
        if not self.styles or not set(self.styles) <= set(get_args(Style)):
            raise BadInputError(
                "No such way of hanging",
                field="styles",
                got=", ".join(self.styles) or "none",
                wanted="one or more of " + ", ".join(get_args(Style)),
            )
        for name in (
            "most_imbalance_kg",
            "piece_price_kg",
            "band_price_kg",
            "kind_price_kg",
            "fold_price_kg_per_m",
            "loop_width_m",
            "alternatives_within_kg",
        ):
            if getattr(self, name) != math.inf:
                require_not_negative(name, getattr(self, name))

    def _check_counts(self) -> None:
        if not 0 <= self.least_bands <= self.most_bands <= MOST_BANDS:
            raise BadInputError(
                "That many bands can't be asked for",
                field="most_bands",
                got=f"{self.least_bands} to {self.most_bands}",
                wanted=f"0 to {MOST_BANDS} bands on each end",
            )
        if self.most_bands:
            require_not_negative("most_pieces", self.most_pieces)
        else:
            require_positive("most_pieces", self.most_pieces)
