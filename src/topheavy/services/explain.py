"""What a lifter should know of a rig: why, how it will feel, beside what, and how sure."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Final, Literal, cast

import numpy as np

from topheavy.errors import NotInStockError
from topheavy.lifter.evenness import heaviest_straight
from topheavy.lifter.known import hung_above
from topheavy.lifter.lowering import let_go
from topheavy.lifter.match import heights_for
from topheavy.lifter.motion.inputs import RepLifter
from topheavy.services.counting import links_of
from topheavy.services.reps.sides import PLAIN, beside
from topheavy.services.strength import strength_asked

if TYPE_CHECKING:
    from collections.abc import Sequence

    from topheavy.lifter.motion.inputs import OnBar
    from topheavy.lifter.strength import StrengthCurve
    from topheavy.mechanics.curve import LoadCurve
    from topheavy.mechanics.rig import End
    from topheavy.services.reps.sides import Beside
    from topheavy.services.rig import RigAnswer

Where = Literal["bottom", "middle", "top"]

REPEATS_MEN: Final = 0.014
REPEATS_WOMEN: Final = 0.035
FIRST_SHIFT_KG: Final = 2.6
"""A bench press 1RM with all its load in chain: coefficient of variation from one test to the next
in nine men and seven women, and how far the men's mean moved [kg]. McCurdy et al. 2008, J Strength
Cond Res 22(3): 678-683 (abstract)."""

_LEAST_RISE: Final = 0.05
"""Strength at lockout less than this above the weakest is hardly more [-]: own judgement."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Use:
    """Load over strength at one height [-]: likeliest, and its range."""

    least: float
    likely: float
    most: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Stand:
    """The bar at one height.

    Parameters
    ----------
    where : {'bottom', 'middle', 'top'}
        Which; the middle is half-way up.
    height_m : float
        Height of the bar [m].
    raising_kg, lowering_kg : float
        Load on the bar on the way up, and down once under way [kg].
    band_kg : float
        What of it bands pull [kg].
    links_off : tuple of int
        Links off the floor, left end and right end.
    links : tuple of int
        Links that hang there, left end and right end.
    use : Use or None
        How much of the lifter's strength there the way up takes; None when nothing is known.
    """

    where: Where
    height_m: float
    raising_kg: float
    lowering_kg: float
    band_kg: float
    links_off: tuple[int, int]
    links: tuple[int, int]
    use: Use | None


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Side:
    """The rig, or what it is set beside.

    Parameters
    ----------
    name : str
        What hangs: ``"plain weight"``, ``"chain doubled"``, ``"band"`` and so on.
    chosen : bool
        Whether it is the rig itself.
    straight_kg : float
        Bar, collars and plates [kg]: so much that it is as hard as the rig where it is hardest, or
        the rig's own where nothing is known of the lifter.
    hung : LoadCurve
        What chain and bands add on the way up [kg], by height.
    bands : tuple of str
        Tags of the bands, when a pair hangs alone.
    top_use : float or None
        Load over likeliest strength at the top [-].
    start_g : float
        How hard the bar would start down from lockout if nobody held it [g].
    end_m_per_s : float
        How fast it would then reach the bottom [m/s].
    """

    name: str
    chosen: bool
    straight_kg: float
    hung: LoadCurve
    bands: tuple[str, ...]
    top_use: float | None
    start_g: float
    end_m_per_s: float

    def load_kg(self, height_m: float) -> float:
        """Load on the bar [kg] on the way up at a height [m]."""
        return self.straight_kg + float(self.hung.at(height_m))


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Explained:
    """What the page for the lifter says, in numbers.

    Parameters
    ----------
    answer : RigAnswer
        The rig.
    strength : StrengthCurve or None
        The lifter's, when anything is known.
    effort : float or None
        Greatest load over likeliest strength anywhere [-]; above 1 the rig is too heavy.
    effort_at_m : float or None
        Where that is [m].
    at_most : float or None
        The same if the lifter is as weak as the range leaves open [-].
    stands : tuple of Stand
        Bottom, middle and top.
    sides : tuple of Side
        Plain weight first; then the rig among what it is set beside. What would be too heavy with
        an empty bar is left out.
    too_heavy : tuple of str
        Names of those.
    """

    answer: RigAnswer
    strength: StrengthCurve | None
    effort: float | None
    effort_at_m: float | None
    at_most: float | None
    stands: tuple[Stand, ...]
    sides: tuple[Side, ...]
    too_heavy: tuple[str, ...]

    @property
    def chosen(self) -> Side:
        """The rig itself."""
        return next(side for side in self.sides if side.chosen)

    @property
    def plain(self) -> Side:
        """Plain weight."""
        return next(side for side in self.sides if side.name == PLAIN)

    @property
    def hardly_stronger(self) -> bool:
        """Whether the lifter is hardly stronger at lockout than where weakest."""
        if self.strength is None:
            return False
        top_kg = float(self.strength.best_kg[-1])
        return top_kg < (1 + _LEAST_RISE) * self.strength.full_range_kg


def explain_rig(answer: RigAnswer) -> Explained:
    """Work out what a lifter should know of a rig.

    Parameters
    ----------
    answer : RigAnswer
        From `topheavy.services.rig.answer_rig`.

    Returns
    -------
    Explained
        Everything beside the rig is as hard as the rig where it is hardest for this lifter, by the
        likeliest strength; never harder than the lifter can lift. With nothing known of the
        lifter, everything has the rig's own bar and plates.

    Raises
    ------
    BadInputError
        Pieces of evidence that contradict each other.
    """
    place, rig = answer.question.place, answer.best.rig
    strength = _strength(answer)
    around = beside(place, rig)
    efforts = _efforts(answer, strength)
    straight_kg = _straight_kg(answer, strength, around, efforts[0])
    sides, too_heavy = [], []
    for one in around:
        lightest_kg = 0.0 if one.found or one.name == PLAIN else place.setup.bar_kg
        if straight_kg[one.name] >= lightest_kg - 1e-9:
            sides.append(_side(answer, strength, one, straight_kg[one.name]))
        else:
            too_heavy.append(one.name)
    return Explained(
        answer=answer,
        strength=strength,
        effort=efforts[0],
        effort_at_m=efforts[1],
        at_most=efforts[2],
        stands=_stands(answer, strength),
        sides=tuple(sides),
        too_heavy=tuple(too_heavy),
    )


def _strength(answer: RigAnswer) -> StrengthCurve | None:
    """The lifter's strength, or None when nobody noted anything of it."""
    try:
        return strength_asked(answer.question)
    except NotInStockError:
        return None


def _efforts(
    answer: RigAnswer, strength: StrengthCurve | None
) -> tuple[float | None, float | None, float | None]:
    """Greatest effort, where it is, and the same at the least strength that is left open."""
    if strength is None:
        return None, None, None
    load = answer.best.rig.curve(answer.question.place.ground, "raising")
    heights_m = heights_for(strength, load)
    effort = load.at(heights_m) / strength.at(heights_m)
    low_kg, _ = strength.range_at(heights_m)
    hardest = int(np.argmax(effort))
    most = float(np.max(load.at(heights_m) / low_kg))
    return float(effort[hardest]), float(heights_m[hardest]), most


def _straight_kg(
    answer: RigAnswer,
    strength: StrengthCurve | None,
    around: Sequence[Beside],
    effort: float | None,
) -> dict[str, float]:
    """Bar, collars and plates of each [kg]."""
    own_kg = answer.best.rig.straight_weight_kg
    if strength is None or effort is None:
        return {one.name: own_kg for one in around}
    most = min(effort, 1.0)
    return {
        one.name: own_kg if one.found else _as_hard_kg(strength, _hung(one.on_bar), most)
        for one in around
    }


def _as_hard_kg(strength: StrengthCurve, hung: LoadCurve, effort: float) -> float:
    """Heaviest straight weight under a hung load that takes so much of the lifter nowhere more."""
    heights_m = heights_for(strength, hung)
    heaviest_kg, _ = heaviest_straight(
        strength.at(heights_m), hung_above(hung, heights_m), effort=effort
    )
    return float(heaviest_kg)


def _side(
    answer: RigAnswer, strength: StrengthCurve | None, one: Beside, straight_kg: float
) -> Side:
    travel, hung = answer.question.place.travel, _hung(one.on_bar)
    top_kg = straight_kg + float(hung.at(travel.top_m))
    # Of the lifter only the heights matter here.
    lifter = RepLifter(best_kg=top_kg, bottom_m=travel.bottom_m, top_m=travel.top_m)
    down = let_go(lifter, replace(one.on_bar, straight_kg=straight_kg))
    return Side(
        name=one.name,
        chosen=one.found,
        straight_kg=straight_kg,
        hung=hung,
        bands=tuple(hung_band.band.tag for hung_band in one.bands),
        top_use=None if strength is None else top_kg / float(strength.best_kg[-1]),
        start_g=down.peak_g,
        end_m_per_s=down.end_m_per_s,
    )


def _hung(on_bar: OnBar) -> LoadCurve:
    """Chain and bands together, on the way up."""
    hung = cast("LoadCurve", on_bar.hung)
    return hung if on_bar.band is None else hung + cast("LoadCurve", on_bar.band)


def _stands(answer: RigAnswer, strength: StrengthCurve | None) -> tuple[Stand, ...]:
    travel = answer.question.place.travel
    heights: tuple[tuple[Where, float], ...] = (
        ("bottom", travel.bottom_m),
        ("middle", 0.5 * (travel.bottom_m + travel.top_m)),
        ("top", travel.top_m),
    )
    return tuple(_stand(answer, strength, where, height_m) for where, height_m in heights)


def _stand(
    answer: RigAnswer, strength: StrengthCurve | None, where: Where, height_m: float
) -> Stand:
    rig, ground = answer.best.rig, answer.question.place.ground
    raising_kg = float(rig.curve(ground, "raising").at(height_m))
    left, right = (_links(end, height_m, answer) for end in (rig.left, rig.right))
    return Stand(
        where=where,
        height_m=height_m,
        raising_kg=raising_kg,
        lowering_kg=float(rig.curve(ground, "lowering").at(height_m)),
        band_kg=float(rig.band_curve().at(height_m)),
        links_off=(left[0], right[0]),
        links=(left[1], right[1]),
        use=None if strength is None else _use(strength, height_m, raising_kg),
    )


def _use(strength: StrengthCurve, height_m: float, load_kg: float) -> Use:
    low_kg, high_kg = (float(kg) for kg in strength.range_at(height_m))
    likely_kg = float(strength.at(height_m))
    return Use(least=load_kg / high_kg, likely=load_kg / likely_kg, most=load_kg / low_kg)


def _links(end: End, height_m: float, answer: RigAnswer) -> tuple[int, int]:
    """Links of an end off the floor at a height of the bar [m], and all of them."""
    ground = answer.question.place.ground
    pieces = [(hang, chain) for hang in end.hangs for chain in hang.chains]
    off = sum(links_of(hang, chain, height_m, ground).off for hang, chain in pieces)
    return off, sum(chain.links for _, chain in pieces)
