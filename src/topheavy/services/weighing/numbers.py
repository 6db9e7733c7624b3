"""What the readings say about the rig's own numbers, and which of them they can't tell apart."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

import numpy as np

from topheavy.mechanics.hang import Doubled
from topheavy.mechanics.scale_model import BANDS, FACTOR, FRICTION, PILES, SHIFT, STRAIGHT
from topheavy.phrase import Phrase

if TYPE_CHECKING:
    from collections.abc import Mapping

    from numpy.typing import NDArray

    from topheavy.mechanics.scale_fit import ScaleFit
    from topheavy.mechanics.scale_model import ScaleData, Seen
    from topheavy.phrase import Dimension
    from topheavy.services.weighing.case import Case

    Floats = NDArray[np.float64]

KnownFrom = Literal["scale", "both", "stated", "held"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Number:
    """One number of the rig after weighing.

    Parameters
    ----------
    name : str
        ``chain``: mass per length; ``lift-off raising`` and so on: height of the bar at which
        the chain begins to leave the floor (feeder + connector + surface + pile);
        ``pile difference``: lowering less raising; ``feeder`` (``drop`` without one), ``pile
        raising`` and so on, ``straight weight``, ``friction``, ``bands`` (their pull over what
        their readings say).
    dimension : {'linear density', 'length', 'mass', 'none'}
        Its unit: [kg/m], [m], [kg], [-].
    value, u : float
        As fitted, with its standard uncertainty.
    stated, stated_u : float
        As stated, with its standard uncertainty.
    stated_share : float
        How much of what is known of it was known before: (u / stated_u)2, 0 to 1. 1 when held.
    known_from : {'scale', 'both', 'stated', 'held'}
        Share below 0.25, up to 0.5, above; or stated as sure and so never fitted.
    """

    name: str
    dimension: Dimension | Literal["none"]
    value: float
    u: float
    stated: float
    stated_u: float
    stated_share: float
    known_from: KnownFrom

    @property
    def mostly_stated(self) -> bool:
        """Whether the readings added less than was known before."""
        return self.known_from in {"stated", "held"}

    def scaled(self, known: float) -> tuple[float, float]:
        """Give what a value of the stated rig becomes, and its standard uncertainty.

        Parameters
        ----------
        known : float
            Of one part, in this number's unit; all parts are off by the same share.
        """
        then = known * self.value / self.stated
        return then, then * self.u / self.value


@dataclass(frozen=True, slots=True, kw_only=True)
class Fit:
    """Numbers of the rig from the readings, by least squares.

    Parameters
    ----------
    numbers : tuple of Number
        What the readings bear on.
    leaning : tuple of Number
        Feeder and piles, when these readings tell only their sum (the lift-off heights): the
        split leans on what was stated. Empty when they can be told apart.
    separable : bool
        Whether feeder and pile were told apart by the readings.
    told : int
        Combinations of numbers that the readings know better than the statement did.
    free : int
        Numbers asked of the readings (kg/m, and one lift-off height each way).
    condition : float
        Condition number of the problem in units of the stated uncertainties; inf when a free
        number has no effect on any reading.
    left_out : tuple of int
        Readings left out as off, from 0.
    notes : tuple of Phrase
        What could not be told and how to find out.
    """

    numbers: tuple[Number, ...]
    leaning: tuple[Number, ...]
    separable: bool
    told: int
    free: int
    condition: float
    left_out: tuple[int, ...]
    notes: tuple[Phrase, ...]

    def number(self, name: str) -> Number | None:
        """Find a number by its name, told or leaning; None when this rig has no such number."""
        found = (n for n in (*self.numbers, *self.leaning) if n.name == name)
        return next(found, None)


def numbers_of(
    case: Case, seen: Seen, data: ScaleData, fit: ScaleFit, left_out: tuple[int, ...]
) -> Fit:
    """Read the rig's numbers off a fit.

    Parameters
    ----------
    case : Case
        The weighing.
    seen : Seen
        What the scale sees.
    data : ScaleData
        What was stated of the free numbers.
    fit : ScaleFit
        The fit.
    left_out : tuple of int
        Readings not used.
    """
    reader = _Reader(case, data, fit)
    numbers: list[Number] = []
    apart: list[Number] = []
    separable = True
    if seen.chain_kg.sum() > 0:
        weights = seen.chain_kg / seen.chain_kg.sum()
        pitch_m = float(weights @ seen.pitch_m)
        separable = _separable(case, fit, data.stated_u, pitch_m)
        offset_m = float(weights @ seen.offset_m) + seen.surface_m
        numbers, apart = reader.chain(offset_m, pitch_m)
    if data.stated[STRAIGHT] > 0 or data.stated_u[STRAIGHT] > 0:
        numbers.append(reader.number("straight weight", "mass", {STRAIGHT: 1.0}))
    if case.ground.lay == "dragged":
        numbers.append(reader.number("friction", "none", {FRICTION: 1.0}))
    if seen.bands:
        numbers.append(reader.number("bands", "none", {BANDS: 1.0}))
    return Fit(
        numbers=(*numbers, *apart) if separable else tuple(numbers),
        leaning=() if separable else tuple(apart),
        separable=separable,
        told=fit.told,
        free=case.free_numbers,
        condition=fit.condition,
        left_out=left_out,
        notes=tuple(_notes(case, numbers, separable=separable)),
    )


@dataclass(frozen=True, slots=True, eq=False)
class _Reader:
    """Linear combinations of the free numbers, with their uncertainties."""

    case: Case
    data: ScaleData
    fit: ScaleFit

    def number(
        self,
        name: str,
        dimension: Dimension | Literal["none"],
        of: Mapping[int, float],
        constant: float = 0.0,
    ) -> Number:
        along = np.zeros(self.data.stated_u.size)
        along[list(of)] = list(of.values())
        u = math.sqrt(max(float(along @ self.fit.covariance @ along), 0.0))
        before_u = float(np.linalg.norm(along * self.data.stated_u))
        share = (u / before_u) ** 2 if before_u > 0 else 1.0
        known: KnownFrom = "scale" if share < 0.25 else "both" if share < 0.5 else "stated"
        return Number(
            name=name,
            dimension=dimension,
            value=constant + float(along @ self.fit.values),
            u=u,
            stated=constant + float(along @ self.data.stated),
            stated_u=before_u,
            stated_share=share,
            known_from=known if before_u > 0 else "held",
        )

    def chain(self, offset_m: float, pitch_m: float) -> tuple[list[Number], list[Number]]:
        """Density and lift-off heights; then feeder and piles."""
        case = self.case
        told = [self.number("chain", "linear density", {FACTOR: case.density_kg_per_m})]
        name, length_m = _hung_by(case, offset_m)
        apart = [self.number(name, "length", {SHIFT: 1.0}, length_m)]
        for place, way in enumerate(case.ways, PILES):
            said = "" if way == "unsaid" else f" {way}"
            lift_off = {SHIFT: 1.0, place: pitch_m}
            told.append(self.number(f"lift-off{said}", "length", lift_off, offset_m))
            if case.ground.lay == "piled":
                apart.append(self.number(f"pile{said}", "length", {place: pitch_m}))
        if {"raising", "lowering"} <= set(case.ways) and case.ground.lay == "piled":
            up, down = (PILES + case.ways.index(way) for way in ("raising", "lowering"))
            apart_m = {down: pitch_m, up: -pitch_m}
            told.append(self.number("pile difference", "length", apart_m))
        return told, apart


def _hung_by(case: Case, offset_m: float) -> tuple[str, float]:
    """Name of what sets the height of the chain's upper end, and its mean length [m]."""
    hangs = [hang for end in case.ends for hang in end.hangs]
    doubled = [hang for hang in hangs if isinstance(hang, Doubled)]
    if len(doubled) < len(hangs):
        return "drop", offset_m - case.ground.surface_m
    masses = [sum(chain.mass_kg for chain in hang.chains) for hang in doubled]
    lengths = [hang.suspension.feeder_m for hang in doubled]
    return "feeder", float(np.average(lengths, weights=masses))


def _separable(case: Case, fit: ScaleFit, stated_u: Floats, pitch_m: float) -> bool:
    """Whether the readings say more than the statement about a longer feeder on a lower pile.

    Feeder + pile stays the same along that direction, so no reading of chain alone sees it: only
    the feeder's or the connector's own mass does, as it leaves the floor.
    """
    if case.ground.lay == "dragged":
        return True
    along = np.zeros(stated_u.size)
    along[SHIFT], along[PILES:] = 1.0, -1.0 / pitch_m
    fixed = (along != 0) & (stated_u == 0)
    if fixed.any():
        return True
    scaled = np.divide(along, stated_u, out=np.zeros_like(along), where=stated_u > 0)
    steps = np.divide(along, fit.slope, out=np.zeros_like(along), where=fit.slope > 0)
    seen = fit.jacobian @ steps
    return float(seen @ seen) > float(scaled @ scaled)


def _notes(case: Case, numbers: list[Number], *, separable: bool) -> list[Phrase]:
    notes = []
    if not separable:
        both = {"raising", "lowering"} <= set(case.ways)
        notes.append(_SUM_AND_DIFFERENCE if both else _SUM_ONLY)
    by_name = {number.name: number for number in numbers}
    for name, note in (("chain", _NO_SLOPE), ("straight weight", _NO_STRAIGHT)):
        if name in by_name and by_name[name].known_from == "stated":
            notes.append(note)
    if any(n.name.startswith("lift-off") and n.known_from == "stated" for n in numbers):
        notes.append(_NO_LIFT_OFF)
    return notes


_SUM_ONLY = Phrase(
    "Feeder and pile shift the curve the same way, so these readings tell only their sum: the "
    "height at which the chain leaves the floor. Weigh both raising and lowering to learn how "
    "much the pile differs, and measure the feeder with a tape."
)
_SUM_AND_DIFFERENCE = Phrase(
    "Raising against lowering tells how much the pile differs, and each way its sum with the "
    "feeder. What of the sum is feeder rests on what was stated: measure it with a tape, or read "
    "the scale while the connector leaves the floor, if it is heavy enough to show."
)
_NO_SLOPE = Phrase(
    "The mass per length is mostly as stated: weigh at heights further apart, with chain off the "
    "floor at the upper ones."
)
_NO_STRAIGHT = Phrase(
    "The straight weight is mostly as stated: add a reading with all chain on the floor to "
    "measure it."
)
_NO_LIFT_OFF = Phrase(
    "Where the chain leaves the floor is mostly as stated: add readings with some of the chain "
    "off the floor."
)
