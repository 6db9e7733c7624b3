"""The inside width of a link that nobody measured: taken from published links of its form."""

from __future__ import annotations

import math
import statistics
from dataclasses import dataclass
from typing import Final

from topheavy.catalogue.table import all_rows

_SHORT: Final = 3.25
_LONG: Final = 5.0
_TOLERANCE: Final = {"short": 0.06, "medium": 0.06, "long": 0.12}
"""Standard deviation of w/d that the standards leave open, half the band over root three: short
links of DIN 766 have w >= 1.2 d and an outside width <= 3.4 d, so 1.2 to 1.4 d (read in a chain
maker's table); long links of DIN 763 1.8 to 2.2 d (part of the standard read); medium links are
taken to be held like short ones (assumed)."""


@dataclass(frozen=True, slots=True)
class WidthRatio:
    """Inside width as so many wire diameters.

    Parameters
    ----------
    ratio : float
        w/d [-], mean of published links of the form.
    spread : float
        Standard uncertainty [-]: scatter of those rows and the tolerance of the standards.
    form : str
        ``"short"`` (pitch below 3.25 d), ``"medium"`` or ``"long"`` (5 d or more).
    rows : int
        How many published rows the mean is of.
    """

    ratio: float
    spread: float
    form: str
    rows: int

    @property
    def words(self) -> str:
        """Where the width came from."""
        return (
            f"inside width not measured: {self.ratio:.2f} x wire diameter, "
            f"the mean of {self.rows} published {self.form} links"
        )


def link_form(pitch_per_wire: float) -> str:
    """Name the form of a link by its pitch in wire diameters [-]: short, medium or long."""
    if pitch_per_wire < _SHORT:
        return "short"
    return "medium" if pitch_per_wire < _LONG else "long"


def usual_width(pitch_m: float, wire_diameter_m: float) -> WidthRatio:
    """Usual inside width of a link of this form.

    Parameters
    ----------
    pitch_m, wire_diameter_m : float
        The link [m], both > 0.

    Returns
    -------
    WidthRatio
        Mean, spread, form and how many rows.

    Examples
    --------
    >>> width = usual_width(0.056, 0.016)
    >>> width.form, width.rows, round(width.ratio, 2)
    ('medium', 17, 1.34)
    """
    form = link_form(pitch_m / wire_diameter_m)
    ratios = [
        row.inside_width_m / row.wire_diameter_m
        for row in all_rows()
        if row.inside_width_m is not None
        and row.pitch_m is not None
        and link_form(row.pitch_m / row.wire_diameter_m) == form
    ]
    spread = math.hypot(statistics.stdev(ratios), _TOLERANCE[form])
    return WidthRatio(statistics.fmean(ratios), spread, form, len(ratios))
