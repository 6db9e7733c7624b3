"""What the coach wants on the bar: loads at heights, and the rules the chain must keep."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from topheavy.errors import BadInputError
from topheavy.mechanics.chain import require_not_negative, require_positive

Base = Literal["top", "bottom", "best"]
"""Percent of what: the load at the top, the load at the bottom, or the straight-weight best."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Target:
    """Loads wanted at heights of the bar.

    Parameters
    ----------
    heights_m : tuple of float
        Heights of the bar [m], strictly rising.
    loads_kg : tuple of float
        Load wanted at each height [kg].
    mean_kg : float or None
        Mean load wanted over the travel [kg].
    straight_weight_kg : float or None
        Bar, collars and plates [kg] when the coach fixes them; None leaves them to the search.
    full_deload : bool
        The fold must be on the floor at the bottom of the lift.
    links_down : int or None
        At least so many links of every strand stay on the floor at lockout.
    all_clear : bool
        Every link must be off the floor at lockout.
    under_per_kg : tuple of float
        Given, the loads wanted are limits: the load is nowhere above them, and so many kilograms
        below the limit at each height, > 0, count as one kilogram of miss. Empty: a kilogram above
        or below counts as one at any height.

    Raises
    ------
    BadInputError
        No aim at all, unequal lengths, heights that do not rise, negative loads, limits at fewer
        than two heights or together with a mean, or `links_down` together with `all_clear`.
    """

    heights_m: tuple[float, ...]
    loads_kg: tuple[float, ...]
    mean_kg: float | None = None
    straight_weight_kg: float | None = None
    full_deload: bool = False
    links_down: int | None = None
    all_clear: bool = False
    under_per_kg: tuple[float, ...] = ()

    @property
    def never_over(self) -> bool:
        """Whether the loads wanted are limits that nothing may exceed."""
        return bool(self.under_per_kg)

    def __post_init__(self) -> None:
        if len(self.heights_m) != len(self.loads_kg):
            raise BadInputError("A target needs one load for each height", field="target")
        if self.never_over:
            self._check_limits()
        if not self.loads_kg and self.mean_kg is None:
            raise BadInputError(
                "A target needs a load to aim at",
                field="target",
                wanted="a load at the bottom and at the top, a mean load, or points to follow",
            )
        if any(a >= b for a, b in zip(self.heights_m, self.heights_m[1:], strict=False)):
            raise BadInputError(
                "The heights of a target must rise", field="target", got=str(self.heights_m)
            )
        if not all(math.isfinite(height_m) for height_m in self.heights_m):
            raise BadInputError(
                "The heights of a target must be numbers", field="target", got=str(self.heights_m)
            )
        for load_kg in (*self.loads_kg, self.mean_kg or 0.0, self.straight_weight_kg or 0.0):
            require_not_negative("load", load_kg)
        require_not_negative("links down", self.links_down or 0)
        if self.all_clear and self.links_down is not None:
            raise BadInputError(
                "Links can't stay on the floor and be all clear of it",
                field="links down",
                got=f"{self.links_down} and all clear",
                wanted="one of the two",
            )

    def _check_limits(self) -> None:
        if len(self.under_per_kg) != len(self.loads_kg) or len(self.loads_kg) < 2:
            raise BadInputError(
                "Limits need two heights or more, each with what counts as a kilogram of miss",
                field="target",
                got=f"{len(self.loads_kg)} loads, {len(self.under_per_kg)} counts",
            )
        if self.mean_kg is not None:
            raise BadInputError("Limits by height leave no room for a mean", field="target")
        for kilograms in self.under_per_kg:
            require_positive("under_per_kg", kilograms)


@dataclass(frozen=True, slots=True, kw_only=True)
class Ask:
    """A target in the coach's words: any two of bottom, top and chain, or the mean and chain.

    Parameters
    ----------
    bottom_kg, top_kg, mean_kg : float or None
        Loads [kg].
    straight_kg : float or None
        Bar, collars and plates [kg], to be kept exactly.
    chain_share : float or None
        How much more at the top than at the bottom, as a fraction of `base`.
    base : {'top', 'bottom', 'best'}
        What `chain_share` is a fraction of.
    best_kg : float or None
        The lifter's straight-weight best [kg]; needed for base ``"best"``.
    """

    bottom_kg: float | None = None
    top_kg: float | None = None
    mean_kg: float | None = None
    straight_kg: float | None = None
    chain_share: float | None = None
    base: Base = "top"
    best_kg: float | None = None

    def ends_kg(self) -> tuple[float, float]:
        """Loads at bottom and top [kg] that these words mean.

        A mean is met by a load that rises evenly from bottom to top.

        Raises
        ------
        BadInputError
            Too little or too much was said, or the words contradict each other.

        Examples
        --------
        >>> Ask(straight_kg=60, chain_share=0.2, base="top").ends_kg()
        (60, 75.0)
        >>> Ask(top_kg=100, chain_share=0.25).ends_kg()
        (75.0, 100)
        """
        low = self.bottom_kg if self.bottom_kg is not None else self.straight_kg
        said = [value is not None for value in (low, self.top_kg, self.mean_kg, self.chain_share)]
        if sum(said) != 2:
            raise BadInputError(
                "A target needs just two of: bottom (or straight weight), top, mean, chain share",
                field="target",
                got=f"{sum(said)} of them",
                wanted="such as bottom 80 kg and top 110 kg, or bottom 80 kg and chain 25 %",
            )
        bottom_kg, top_kg = self._solve(low)
        if not 0 <= bottom_kg < top_kg:
            raise BadInputError(
                "Chain makes the top heavier than the bottom",
                field="target",
                got=f"bottom {bottom_kg:.1f} kg, top {top_kg:.1f} kg",
                wanted="a top load above the bottom load",
            )
        return bottom_kg, top_kg

    def _solve(self, low_kg: float | None) -> tuple[float, float]:
        if self.chain_share is None:
            return self._from_loads(low_kg)
        share = self.chain_share
        if not 0 < share < 1:
            raise BadInputError(
                "A chain share lies between 0 and 100 %",
                field="chain",
                got=f"{share:.0%}",
                wanted="such as 25 %",
            )
        per_top = {"top": share, "bottom": share / (1 + share)}
        if self.base == "best":
            chain_kg = share * self._best()
            if low_kg is not None:
                return low_kg, low_kg + chain_kg
            if self.top_kg is not None:
                return self.top_kg - chain_kg, self.top_kg
            return self._mean() - chain_kg / 2, self._mean() + chain_kg / 2
        rest = 1 - per_top[self.base]
        if low_kg is not None:
            return low_kg, low_kg / rest
        top_kg = self.top_kg if self.top_kg is not None else self._mean() / (1 - (1 - rest) / 2)
        return top_kg * rest, top_kg

    def _from_loads(self, low_kg: float | None) -> tuple[float, float]:
        if low_kg is not None and self.top_kg is not None:
            return low_kg, self.top_kg
        if low_kg is not None:
            return low_kg, 2 * self._mean() - low_kg
        return 2 * self._mean() - (self.top_kg or 0.0), self.top_kg or 0.0

    def _mean(self) -> float:
        return self.mean_kg or 0.0

    def _best(self) -> float:
        if self.best_kg is None:
            raise BadInputError(
                "A share of the best needs the lifter's best in this lift",
                field="best",
                wanted="a best in the gym file or on the command line",
            )
        return self.best_kg


def share_of(bottom_kg: float, top_kg: float, base: Base, best_kg: float | None = None) -> float:
    """Accommodating share: how much more is on the bar at the top, as a fraction of a base.

    Parameters
    ----------
    bottom_kg, top_kg : float
        Loads at bottom and top [kg].
    base : {'top', 'bottom', 'best'}
        Percent of what. The literature uses all of these; they differ by up to two times.
    best_kg : float or None
        Straight-weight best [kg], needed for base ``"best"``.

    Returns
    -------
    float
        Fraction of the base, -.

    References
    ----------
    Nijem et al. 2016 (abstract): chain 19.9 % of the load at 85 % of 1RM at the top is 16.9 % of
    1RM and 68.1 % plates.

    Examples
    --------
    >>> share_of(68.085, 85.0, "top")
    0.199
    """
    bases = {"top": top_kg, "bottom": bottom_kg, "best": best_kg or 0.0}
    if bases[base] <= 0:
        raise BadInputError(
            f"No share of the {base}: it is not above zero", field=base, got=bases[base]
        )
    return round((top_kg - bottom_kg) / bases[base], 12)
