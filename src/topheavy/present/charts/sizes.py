"""How large charts are drawn, and with how large a type."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final


@dataclass(frozen=True, slots=True, kw_only=True)
class Size:
    """A place for charts.

    Parameters
    ----------
    width : float
        Outer width [px on a page, points on paper].
    type_size : float
        Size of the type, in the same unit.
    least_tall : float
        Least height as a share of the width: what is narrow needs to be taller.
    keys : int
        Names that stand beside each other in the key.
    """

    width: float
    type_size: float
    least_tall: float
    keys: int


PHONE: Final = Size(width=328, type_size=13, least_tall=0.85, keys=2)
PAGE: Final = Size(width=680, type_size=13.5, least_tall=0, keys=5)
PAPER: Final = Size(width=510, type_size=10.5, least_tall=0, keys=5)
