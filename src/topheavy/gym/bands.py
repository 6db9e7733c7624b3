"""A band that a gym owns: its readings, when they were taken, and when to take them again."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING, Final

from topheavy.errors import BadInputError
from topheavy.gym.day import day_number
from topheavy.mechanics.band import fit_band

if TYPE_CHECKING:
    from topheavy.mechanics.band import BandFit
    from topheavy.mechanics.band_readings import BandReadings

REMEASURE_DAYS: Final = 183
"""After so many days a band should be read again: half a year, common practice, no source."""

WHY_AGAIN: Final = (
    "Rubber pulls less when it is warm or worn, more when it is cold: read it where it is used, "
    "and at once after a change of season, a long warm-up or a nick."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Band:
    """One band.

    Parameters
    ----------
    readings : BandReadings
        Its tag, rest length, and readings of length and tension.
    measured_on : str
        Day of the readings, as ``"2026-09-12"``; empty when nobody noted it.
    retired : str
        Why the band must not be used; empty while it is fit.

    Raises
    ------
    BadInputError
        A day that is none.
    """

    readings: BandReadings
    measured_on: str = ""
    retired: str = ""

    def __post_init__(self) -> None:
        if self.measured_on:
            day_number(self.measured_on, "measured")

    @property
    def tag(self) -> str:
        """The band's own name in the gym."""
        return self.readings.tag

    @property
    def rest_m(self) -> float:
        """Length where it begins to pull [m]."""
        return self.readings.rest_m

    def fit(self) -> BandFit:
        """Fit its tension to its readings, as `fit_band`."""
        return _fitted(self.readings)

    def remeasure(self, today: str) -> str:
        """Say whether the band should be read again; empty when not yet.

        No number stands for age, heat or wear: only a new reading tells.

        Parameters
        ----------
        today : str
            The day it is, as ``"2026-11-25"``.

        Raises
        ------
        BadInputError
            A day that is none, or readings taken after today.
        """
        if not self.measured_on:
            return f"Nobody noted when band {self.tag} was read: read it again. {WHY_AGAIN}"
        days = day_number(today, "today") - day_number(self.measured_on, "measured")
        if days < 0:
            raise BadInputError(
                f"Band {self.tag} was read after today",
                field="measured",
                got=f"{self.measured_on}, today {today}",
                wanted="the day of the readings",
            )
        if days <= REMEASURE_DAYS:
            return ""
        return f"Band {self.tag} was read {days} days ago: read it again. {WHY_AGAIN}"


@lru_cache(maxsize=256)
def _fitted(readings: BandReadings) -> BandFit:
    return fit_band(readings)
