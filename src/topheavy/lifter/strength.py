"""The strength curve: the heaviest load a lifter can move through each height, with its range."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

import numpy as np

from topheavy.errors import BadInputError
from topheavy.lifter.bounds import united
from topheavy.lifter.contradictions import check_pieces, contradiction
from topheavy.lifter.known import Frame
from topheavy.lifter.model import allowed, best_curve, fit_model, sampled_curves
from topheavy.lifter.remarks import remarks_on
from topheavy.lifter.typical import OPEN, typical_for
from topheavy.mechanics.chain import require_travel

if TYPE_CHECKING:
    from collections.abc import Iterable

    from numpy.typing import ArrayLike, NDArray

    from topheavy.gym.lifts import Lift
    from topheavy.gym.people import Travel
    from topheavy.lifter.evidence import Evidence
    from topheavy.lifter.model import Model
    from topheavy.phrase import Remark

    Floats = NDArray[np.float64]

_SAME_M = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class StrengthCurve:
    """Strength by height.

    Between its heights each of the three curves is straight.

    Parameters
    ----------
    lift : str
        Name of the lift.
    travel : Travel
        Bottom and top [m].
    height_m : array, shape (heights,)
        Heights [m] from bottom to top.
    low_kg, best_kg, high_kg : array, shape (heights,)
        Least, likeliest and greatest strength [kg] at each height. Low and high hold everything
        that evidence at two standard uncertainties and the spans of the typical shape leave open,
        height by height; no single curve need follow either.
    weakest_m : float
        Where the likeliest curve is least [m].
    evidence : tuple of Evidence
        What it was made from.
    remarks : tuple of Remark
        What the coach should know of it.
    basis : str
        What is known of the typical shape of this lift.
    """

    lift: str
    travel: Travel
    height_m: Floats
    low_kg: Floats
    best_kg: Floats
    high_kg: Floats
    weakest_m: float
    evidence: tuple[Evidence, ...]
    remarks: tuple[Remark, ...]
    basis: str
    _model: Model = field(repr=False)

    @property
    def full_range_kg(self) -> float:
        """Heaviest straight weight over the full range [kg]: the least of the likeliest curve."""
        return float(np.min(self.best_kg))

    def at(self, heights_m: ArrayLike) -> Floats:
        """Likeliest strength [kg] at heights [m] within the travel, any shape.

        Raises
        ------
        BadInputError
            A height outside the travel, where nothing is known.
        """
        return np.interp(self._inside(heights_m), self.height_m, self.best_kg)

    def range_at(self, heights_m: ArrayLike) -> tuple[Floats, Floats]:
        """Least and greatest strength [kg] at heights [m] within the travel, any shape."""
        inside = self._inside(heights_m)
        low = np.interp(inside, self.height_m, self.low_kg)
        return low, np.interp(inside, self.height_m, self.high_kg)

    def samples(self, count: int, *, seed: int = 0) -> Floats:
        """Draw curves for the propagation of uncertainty.

        Shapes are drawn by how well they agree with evidence and typical values, loads by their
        uncertainty, cut off at two standard uncertainties. Every curve lies between `low_kg` and
        `high_kg`, falls to one weakest height and rises from there.

        Parameters
        ----------
        count : int
            How many, >= 1.
        seed : int
            The same seed gives the same curves.

        Returns
        -------
        array, shape (count, heights)
            Strength [kg] at `height_m`.

        Raises
        ------
        BadInputError
            Fewer than one.
        """
        if count < 1:
            raise BadInputError("At least one sample", field="count", got=count, wanted="1 or more")
        return sampled_curves(self._model, count, seed)

    def _inside(self, heights_m: ArrayLike) -> Floats:
        heights = np.asarray(heights_m, dtype=np.float64)
        bottom_m, top_m = self.travel.bottom_m, self.travel.top_m
        inside = (heights >= bottom_m - _SAME_M) & (heights <= top_m + _SAME_M)
        if not np.all(inside):
            raise BadInputError(
                "Nothing is known of strength outside the lift",
                field="heights_m",
                got=f"{np.min(heights):g} to {np.max(heights):g} m",
                wanted=f"{bottom_m:g} to {top_m:g} m",
            )
        return heights


def agree(evidence: Iterable[Evidence], lift: Lift, travel: Travel) -> bool:
    """Whether some strength curve agrees with every piece.

    Parameters
    ----------
    evidence : iterable of Evidence
        Heights above the same floor as the travel's.
    lift : Lift
        Which lift.
    travel : Travel
        Its bottom and top [m].

    Examples
    --------
    >>> from topheavy.gym.lifts import lift_named
    >>> from topheavy.gym.people import Travel
    >>> from topheavy.lifter.evidence import FullRange, Miss
    >>> travel = Travel(bottom_m=0.8, top_m=1.2)
    >>> known = [FullRange(load_kg=100.0), Miss(height_m=0.95, load_kg=80.0)]
    >>> agree(known, lift_named("bench"), travel)
    False
    """
    frame = Frame(lift=lift.name, travel=travel, slope=typical_for(lift.name).slope)
    return bool(allowed(tuple(evidence), frame, OPEN))


def strength_curve(lift: Lift, travel: Travel, evidence: Iterable[Evidence]) -> StrengthCurve:
    """Make the strength curve of one lifter in one lift.

    Parameters
    ----------
    lift : Lift
        Which lift.
    travel : Travel
        Its bottom and top, floor to bar centre [m].
    evidence : iterable of Evidence
        What is known; at least one best. Heights above the same floor.

    Returns
    -------
    StrengthCurve
        Its likeliest curve honours every best exactly where they agree: the least over the full
        range is the best single, the least from a partial's height up is that partial, the heaviest
        straight weight under a hung load that was tried is the one lifted. Its range gets no wider
        at any of the equal steps by more evidence, unless the evidence shows the lifter to be
        unlike the typical spans; a remark says so then.

    Raises
    ------
    BadInputError
        No best among the evidence, a height outside the lift, bottom not below top, or pieces that
        contradict each other by more than twice their uncertainties; it names them.
    NotInStockError
        A lift without a typical shape.

    Notes
    -----
    Where the hung load never falls on the way up, only the least strength from each height to the
    top matters for what can be lifted: min (S - C) is the same for S and for the running least of
    S from the top. Partial bests measure just that.

    Examples
    --------
    >>> from topheavy.gym.lifts import lift_named
    >>> from topheavy.gym.people import Travel
    >>> from topheavy.lifter.evidence import FullRange, Partial
    >>> travel = Travel(bottom_m=0.8, top_m=1.2)
    >>> known = [FullRange(load_kg=100.0), Partial(height_m=1.05, load_kg=120.0)]
    >>> curve = strength_curve(lift_named("bench"), travel, known)
    >>> round(curve.full_range_kg, 6), curve.at(1.05).round(6).tolist()
    (100.0, 120.0)
    >>> [end.round(1).tolist() for end in curve.range_at(1.05)]
    [114.1, 125.9]
    """
    pieces = tuple(evidence)
    require_travel(travel.bottom_m, travel.top_m, field="travel")
    typical = typical_for(lift.name)
    check_pieces(pieces, travel)
    frame = Frame(lift=lift.name, travel=travel, slope=typical.slope)
    model = fit_model(pieces, frame, typical)
    if model is None:
        raise contradiction(pieces, frame)
    low, high = united(list(model.boxes.values()))
    weakest, best = best_curve(model)
    return StrengthCurve(
        lift=lift.name,
        travel=travel,
        height_m=model.height_m,
        low_kg=low,
        best_kg=best,
        high_kg=high,
        weakest_m=float(model.height_m[weakest]),
        evidence=pieces,
        remarks=remarks_on(model, weakest, best, kept=model.typical is typical),
        basis=typical.basis,
        _model=model,
    )
