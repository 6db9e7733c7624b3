"""A rig for a lifter's strength: what to aim at, and how evenly the found rig uses the lifter."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final, cast

import numpy as np

from topheavy.errors import BadInputError
from topheavy.lifter.match import compare
from topheavy.rigging.target import Target
from topheavy.services.reps.sides import PLAIN, beside

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from topheavy.lifter.match import Match
    from topheavy.lifter.strength import StrengthCurve
    from topheavy.mechanics.curve import LoadCurve
    from topheavy.mechanics.rig import Rig
    from topheavy.services.reps.sides import Beside
    from topheavy.services.rig import Place

    Floats = NDArray[np.float64]

EFFORT: Final = 0.9
"""Effort when nobody says: common practice for heavy work, no source."""

EVEN_ENOUGH: Final = 0.05
"""A rig is even enough when it is nowhere further below the wanted effort: own judgement. A
strength curve is seldom known better."""

_AIMS: Final = 41
_POINTS: Final = 25


@dataclass(frozen=True, slots=True, kw_only=True)
class Matching:
    """A wish for a rig that uses a lifter evenly.

    Parameters
    ----------
    strength : StrengthCurve
        The lifter's, over the travel of the lift at hand.
    effort : float
        Share of strength to use [-], nowhere exceeded, 0 < effort <= 1.

    Raises
    ------
    BadInputError
        An effort out of range.
    """

    strength: StrengthCurve
    effort: float = EFFORT

    def __post_init__(self) -> None:
        if not 0 < self.effort <= 1:
            raise BadInputError(
                "An effort is a share of strength",
                field="effort",
                got=f"{self.effort:.0%}",
                wanted="above 0 %, at most 100 %; 90 % is usual for heavy work",
            )

    @property
    def best_kg(self) -> float:
        """Heaviest straight weight over the full range [kg]."""
        return self.strength.full_range_kg

    @property
    def limit_at_weakest_kg(self) -> float:
        """Heaviest load at the weakest height [kg]; a miss in kilograms is counted there."""
        return self.effort * self.best_kg


def limits_kg(matching: Matching) -> tuple[Floats, Floats]:
    """Heaviest load to aim at, by height: what never falls on the way up and is nowhere too much.

    Chain and bands only grow on the way up. So below the weakest height no rig can use more than
    the weakest height leaves; what can be aimed at is the least strength from each height to the
    top, times the effort.

    Returns
    -------
    heights_m : array, shape (n,)
        From bottom to top [m].
    loads_kg : array, shape (n,)
        Limits [kg], never falling.
    """
    strength = matching.strength
    heights_m = np.linspace(strength.travel.bottom_m, strength.travel.top_m, _AIMS)
    least_above = np.minimum.accumulate(strength.best_kg[::-1])[::-1]
    return heights_m, matching.effort * np.interp(heights_m, strength.height_m, least_above)


def match_target(matching: Matching, bar_kg: float, straight_weight_kg: float | None) -> Target:
    """Turn a wish for an even rig into limits for the search, without rules on how chain lies.

    Parameters
    ----------
    matching : Matching
        Strength and effort.
    bar_kg : float
        Bar and collars [kg].
    straight_weight_kg : float or None
        Bar, collars and plates when the coach fixes them [kg].

    Returns
    -------
    Target
        A kilogram of miss is one hundredth of the effort for each hundredth that a kilogram is of
        the lifter's best: the search makes the greatest lack of effort least.

    Raises
    ------
    BadInputError
        The bare bar is more than the effort allows.
    """
    heights_m, loads_kg = limits_kg(matching)
    _check_bar(matching, loads_kg[0], bar_kg, straight_weight_kg)
    return Target(
        heights_m=tuple(heights_m.tolist()),
        loads_kg=tuple(loads_kg.tolist()),
        straight_weight_kg=straight_weight_kg,
        under_per_kg=tuple((loads_kg / loads_kg[0]).tolist()),
    )


def _check_bar(
    matching: Matching, most_kg: float, bar_kg: float, straight_weight_kg: float | None
) -> None:
    given = straight_weight_kg is not None
    least_kg = bar_kg if straight_weight_kg is None else straight_weight_kg
    if least_kg > most_kg:
        what = "This straight weight" if given else "The bar with its collars"
        raise BadInputError(
            f"{what} alone is more than that effort allows at the weakest height",
            field="straight weight" if given else "effort",
            got=f"{least_kg:g} kg; {matching.effort:.0%} of {matching.best_kg:.4g} kg is "
            f"{most_kg:.4g} kg",
            wanted="a lighter bar, more effort, or no chain yet",
        )


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Fit:
    """How a rig fits a lifter.

    Parameters
    ----------
    matching : Matching
        Strength and wanted effort.
    heights_m : array, shape (n,)
        Even heights from bottom to top [m].
    strength_kg, low_kg, high_kg : array, shape (n,)
        Likeliest strength and its range [kg].
    load_kg : array, shape (n,)
        On the bar on the way up [kg].
    most, most_at_m : float
        Greatest effort anywhere [-], and where [m].
    least, least_at_m : float
        Least effort from the weakest height to the top [-], and where [m]; below the weakest height
        nothing that hangs can add to it.
    at_most : float
        Greatest effort [-] if the lifter is as weak as the range leaves open.
    name : str
        What hangs in this rig, such as ``"chain doubled"``.
    sides : mapping of str to Match
        Plain weight, this rig, and what it is set beside, by name, each as heavy as the wanted
        effort allows.
    """

    matching: Matching
    heights_m: Floats
    strength_kg: Floats
    low_kg: Floats
    high_kg: Floats
    load_kg: Floats
    most: float
    most_at_m: float
    least: float
    least_at_m: float
    at_most: float
    name: str
    sides: dict[str, Match]

    @property
    def effort(self) -> Floats:
        """Load / likeliest strength [-], shape (n,)."""
        return self.load_kg / self.strength_kg

    @property
    def least_plain(self) -> float:
        """Least effort of plain weight from the weakest height to the top [-]."""
        plain, weakest_m = self.sides[PLAIN], self.matching.strength.weakest_m
        return float(np.min(plain.effort[plain.height_m >= weakest_m - 1e-9]))


def fit_of(matching: Matching, place: Place, rig: Rig) -> Fit:
    """Read how a rig fits a lifter, beside plain weight and what else might hang.

    Parameters
    ----------
    matching : Matching
        Strength and wanted effort.
    place : Place
        Who and where.
    rig : Rig
        What is on the bar.
    """
    strength = matching.strength
    travel, whole = strength.travel, rig.curve(place.ground, "raising")
    heights_m = np.linspace(travel.bottom_m, travel.top_m, _POINTS)
    low_kg, high_kg = strength.range_at(heights_m)
    around = [side for side in beside(place, rig) if side.name != PLAIN]
    name = next(side.name for side in around if side.found)
    hung = {side.name: _added(side) for side in around}
    sides = compare(strength, hung, effort=matching.effort)
    every_m = sides[name].height_m
    effort = whole.at(every_m) / strength.at(every_m)
    above = every_m >= strength.weakest_m - 1e-9
    most, least = int(np.argmax(effort)), int(np.argmin(np.where(above, effort, np.inf)))
    return Fit(
        matching=matching,
        heights_m=heights_m,
        strength_kg=strength.at(heights_m),
        low_kg=low_kg,
        high_kg=high_kg,
        load_kg=whole.at(heights_m),
        most=float(effort[most]),
        most_at_m=float(every_m[most]),
        least=float(effort[least]),
        least_at_m=float(every_m[least]),
        at_most=float(np.max(whole.at(every_m) / strength.range_at(every_m)[0])),
        name=name,
        sides=sides,
    )


def _added(side: Beside) -> LoadCurve:
    """Load of what hangs [kg] by height, chain and bands."""
    hung, band = cast("LoadCurve", side.on_bar.hung), cast("LoadCurve | None", side.on_bar.band)
    return hung if band is None else hung + band
