"""Readings of one band, as a tape and a scale give them, checked before anything is fitted."""

from __future__ import annotations

import itertools
from dataclasses import dataclass
from math import hypot, inf, isfinite, sqrt
from typing import Final

from topheavy.errors import BadInputError
from topheavy.mechanics.chain import require_not_negative, require_positive

LEAST_READINGS: Final = 3

_SLIP: Final = 2.0
_ROUNDING_M: Final = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class BandReadings:
    """Readings of one band: how long it was, and what the scale showed.

    Parameters
    ----------
    tag : str
        The band's own name, such as ``"red-1"``.
    rest_m : float
        Length laid flat, just not pulling [m], > 0: between the points that hold it in use.
    length_m : tuple of float
        Stretched lengths between the same points [m], from the shortest to the longest; a length
        may stand twice.
    tension_kg : tuple of float
        What a scale in line with the band showed at each [kg], >= 0.
    rest_u_m, length_u_m, tension_u_kg : float
        Standard uncertainty of the rest length [m], of each length [m] and of each tension [kg],
        >= 0; the last two not both 0.

    Raises
    ------
    BadInputError
        Fewer than three readings, lengths out of order, a length below the rest length, a
        negative tension, no tension at all, a tension that falls further than the readings may
        be off, or a rest length less certain than a quarter of the whole stretch.
    """

    tag: str
    rest_m: float
    length_m: tuple[float, ...]
    tension_kg: tuple[float, ...]
    rest_u_m: float = 0.003
    length_u_m: float = 0.005
    tension_u_kg: float = 0.05

    def __post_init__(self) -> None:
        require_positive("rest_m", self.rest_m)
        for name in ("rest_u_m", "length_u_m", "tension_u_kg"):
            require_not_negative(name, getattr(self, name))
        if self.length_u_m == 0 and self.tension_u_kg == 0:
            raise self._bad("Readings are never exact", "none", "an uncertainty above 0")
        self._check_count()
        self._check_each()
        self._check_enough()
        self._check_order()
        if not max(self.tension_kg) > 0:
            raise self._bad("It pulls nothing in any reading", "0 kg", "a tension above 0")
        stretch_m = self.length_m[-1] - self.rest_m
        if self.rest_u_m > 0.25 * stretch_m:
            raise self._bad(
                "Its rest length is too uncertain for how far it was stretched",
                f"{self.rest_u_m:g} m uncertain, stretched by {stretch_m:g} m",
                "a quarter of the stretch at most",
            )

    @property
    def distinct(self) -> int:
        """How many different lengths beyond rest were read."""
        return len({length for length in self.length_m if length > self.rest_m + _ROUNDING_M})

    def _check_count(self) -> None:
        if len(self.length_m) != len(self.tension_kg):
            got = f"{len(self.length_m)} lengths, {len(self.tension_kg)} tensions"
            raise self._bad("Each length needs its tension", got, "as many of each")

    def _check_enough(self) -> None:
        if self.distinct < LEAST_READINGS:
            raise self._bad(
                "A band needs more readings",
                f"{self.distinct} stretched lengths",
                f"{LEAST_READINGS} or more lengths beyond rest, over all that will be used",
            )

    def _check_each(self) -> None:
        for number, (length, tension) in enumerate(self._pairs(), 1):
            got = f"reading {number}: {tension:g} kg at {length:g} m"
            if not (isfinite(length) and isfinite(tension)):
                raise self._bad("A reading is not a number", got, "finite lengths and tensions")
            if length < self.rest_m - _ROUNDING_M:
                raise self._bad(
                    "A band can't be stretched to less than its rest length",
                    f"{got}, rest length {self.rest_m:g} m",
                    "lengths from the rest length up, measured between the same points",
                )
            if tension < 0:
                raise self._bad("A band never pushes", got, "a tension of 0 or more")

    def _check_order(self) -> None:
        for number, (before, after) in enumerate(itertools.pairwise(self._pairs()), 1):
            (shorter, less), (longer, more) = before, after
            got = (
                f"readings {number} and {number + 1}: "
                f"{less:g} kg at {shorter:g} m, then {more:g} kg at {longer:g} m"
            )
            if longer < shorter:
                raise self._bad(
                    "Readings out of order; they are not sorted, one may be a slip",
                    got,
                    "lengths from the shortest to the longest",
                )
            if less - more > self._may_differ_kg():
                raise self._bad(
                    "A band stretched further pulls more",
                    got,
                    f"tensions that fall by no more than {self._may_differ_kg():.2g} kg, which "
                    "the readings may be off; read it again",
                )

    def _may_differ_kg(self) -> float:
        """How far two readings may differ by chance [kg]: two standard deviations."""
        stretched = self.length_m[-1] - self.rest_m
        if stretched <= 0:
            return inf
        per_m = max(self.tension_kg) / stretched
        return _SLIP * sqrt(2.0) * hypot(self.tension_u_kg, per_m * self.length_u_m)

    def _pairs(self) -> list[tuple[float, float]]:
        return list(zip(self.length_m, self.tension_kg, strict=True))

    def _bad(self, message: str, got: str, wanted: str) -> BadInputError:
        return BadInputError(
            f"Band {self.tag}: {message[0].lower()}{message[1:]}",
            field="readings",
            got=got,
            wanted=wanted,
        )
