"""Which rig: for this lifter, on this station, from this gym's stock."""

from __future__ import annotations

import math
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING

from topheavy.errors import BadInputError, NotInStockError
from topheavy.gym.stock import Feeder
from topheavy.mechanics.ground import Ground
from topheavy.rigging.built import BuiltRig, build
from topheavy.rigging.limits import Limits
from topheavy.rigging.obstacles import Obstacles, explain
from topheavy.rigging.problem import Setup, pose
from topheavy.rigging.search import find
from topheavy.rigging.target import Ask, Target
from topheavy.rigging.trade import Alternative, alternatives, trade
from topheavy.services.bands import BandsReading, band_remarks, read_bands
from topheavy.services.cautions import (
    NO_COLLARS,
    Caution,
    above_best,
    cautions_for,
    much_hung,
    thin_chain,
)
from topheavy.services.chain_care import inspections_due
from topheavy.services.match import EVEN_ENOUGH, fit_of, match_target
from topheavy.services.reading import Reading, hung_straight, read_rig
from topheavy.services.stock_check import left_out
from topheavy.units import SYSTEMS

if TYPE_CHECKING:
    from topheavy.gym.gym import Gym
    from topheavy.gym.lifts import Lift
    from topheavy.gym.people import Lifter, Measured, Station, Travel
    from topheavy.gym.stock import Collar
    from topheavy.lifter.evidence import Evidence
    from topheavy.mechanics.ground import Lay
    from topheavy.mechanics.rig import Rig
    from topheavy.phrase import Phrase, Remark
    from topheavy.services.match import Fit, Matching
    from topheavy.units import UnitSystem

TOLERANCE_SHARE = 0.015
"""A rig meets its target within this share of the top load, at least half a kilogram: about the
best repeatability of an all-chain bench (McCurdy et al. 2008: CV 1.4 % in men)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """Who lifts what where, and how the slack lies.

    Parameters
    ----------
    gym : Gym
        Stock, stations, lifters.
    lifter, lift : Lifter, Lift
        Who and what.
    station : Station
        Where.
    lay : {'piled', 'dragged'}
        How the slack lies.
    """

    gym: Gym
    lifter: Lifter
    lift: Lift
    station: Station
    lay: Lay = "piled"

    @property
    def measured(self) -> Measured:
        """What was measured of this lifter in this lift."""
        return self.lifter.measured(self.lift)

    @property
    def travel(self) -> Travel:
        """Heights here [m]."""
        return self.gym.travel(self.lifter, self.lift, self.station)

    @property
    def ground(self) -> Ground:
        """Where the chain lies here."""
        return Ground(surface_m=self.station.surface_m, lay=self.lay)

    @property
    def setup(self) -> Setup:
        """What the search may use here."""
        return Setup(
            stock=self.gym.stock,
            bar=self.gym.bar_at(self.station),
            collar=_collars(self.gym),
            travel=self.travel,
            ground=self.ground,
            pegs=self.station.pegs,
        )


def _collars(gym: Gym) -> Collar | None:
    """The first collars of which there are two."""
    return next((collar for collar in gym.stock.collars if collar.count >= 2), None)


@dataclass(frozen=True, slots=True, kw_only=True)
class Rules:
    """Rules a target may add.

    Parameters
    ----------
    follow : tuple of (float, float)
        Points (height [m], load [kg]) of a curve to follow instead of bottom and top.
    full_deload : bool
        The fold is on the floor at the bottom: the trade's rule, so the default.
    links_down : int or None
        At least so many links of every strand on the floor at lockout, to steady the chain; one
        unless the coach says otherwise.
    all_clear : bool
        Every link off the floor at lockout.
    """

    follow: tuple[tuple[float, float], ...] = ()
    full_deload: bool = True
    links_down: int | None = 1
    all_clear: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class RigQuestion:
    """A question for a rig.

    Parameters
    ----------
    place : Place
        Who, what, where.
    ask : Ask
        Loads in the coach's words.
    rules : Rules
        Curve to follow, deload, links at lockout.
    limits : Limits
        What must not be exceeded.
    tolerance_kg : float or None
        Largest miss that counts as met [kg]; None for 1.5 % of the top load, or, where the rig is
        matched to the lifter, for 5 % of the lifter's best.
    matching : Matching or None
        The lifter's strength and an effort, in place of loads: of `ask` only the straight weight
        is then used.
    today : str
        The day it is, as ``"2026-11-25"``, for bands to read again; empty when nobody said it.
    evidence : tuple of Evidence
        What was said of the lifter's strength beside what the gym knows.
    """

    place: Place
    ask: Ask
    rules: Rules = field(default_factory=Rules)
    limits: Limits = field(default_factory=Limits)
    tolerance_kg: float | None = None
    matching: Matching | None = None
    today: str = ""
    evidence: tuple[Evidence, ...] = ()

    @property
    def best_kg(self) -> float | None:
        """The lifter's straight-weight best [kg]: as said with the loads, else the gym's."""
        return self.ask.best_kg or self.place.measured.best_kg


@dataclass(frozen=True, slots=True, kw_only=True)
class RigAnswer:
    """The rig, read, compared and explained.

    Parameters
    ----------
    question : RigQuestion
        What was asked.
    target : Target
        The loads it means.
    tolerance_kg : float
        Largest miss that counts as met [kg].
    best : BuiltRig
        The proven optimum over the whole stock.
    exact : bool
        Whether every split of weighed pieces was open to the search.
    reading, straight : Reading
        The rig over this lift, and the same chain hung straight.
    alternatives : tuple of Alternative
        The few best that differ in kind.
    trade : tuple of BuiltRig
        Accuracy against pieces handled.
    obstacles : Obstacles or None
        When the target is not met: what blocks and what would do.
    cautions : tuple of Caution
        What to mind.
    left_out : tuple of str
        Parts of the stock that were refused, and why.
    bands : BandsReading
        What each band pulls; empty without any.
    bands_left_out : tuple of Phrase
        Where bands were allowed: ways to hang them that were refused, and why.
    remeasure : tuple of str
        Bands to read again and chain to inspect again, and why.
    fit : Fit or None
        How the rig fits the lifter, when it was matched.
    chosen : bool
        Whether the coach chose the parts: then nothing was searched.
    dangers, doubts : tuple of Remark
        Of a chosen rig: what must come down, and what makes it poor.
    """

    question: RigQuestion
    target: Target
    tolerance_kg: float
    best: BuiltRig
    exact: bool
    reading: Reading
    straight: Reading
    alternatives: tuple[Alternative, ...]
    trade: tuple[BuiltRig, ...]
    obstacles: Obstacles | None
    cautions: tuple[Caution, ...]
    left_out: tuple[str, ...]
    bands: BandsReading = field(default_factory=BandsReading)
    bands_left_out: tuple[Phrase, ...] = ()
    remeasure: tuple[str, ...] = ()
    fit: Fit | None = None
    chosen: bool = False
    dangers: tuple[Remark, ...] = ()
    doubts: tuple[Remark, ...] = ()

    @property
    def meets(self) -> bool:
        """Whether the rig is within tolerance of the target."""
        return self.best.miss_kg <= self.tolerance_kg


def target_of(question: RigQuestion) -> Target:
    """Turn a question into loads at heights."""
    rules, travel = question.rules, question.place.travel
    if question.matching:
        setup = question.place.setup
        aims = match_target(question.matching, setup.bar_kg, question.ask.straight_kg)
    elif rules.follow:
        points = sorted(rules.follow)
        heights_m = tuple(height for height, _ in points)
        loads_kg = tuple(load for _, load in points)
        _check_inside(heights_m, travel)
        straight_kg = question.ask.straight_kg
        aims = Target(heights_m=heights_m, loads_kg=loads_kg, straight_weight_kg=straight_kg)
    else:
        aims = Target(
            heights_m=(travel.bottom_m, travel.top_m),
            loads_kg=question.ask.ends_kg(),
            mean_kg=question.ask.mean_kg,
            straight_weight_kg=question.ask.straight_kg,
        )
    return replace(
        aims,
        full_deload=rules.full_deload,
        links_down=rules.links_down,
        all_clear=rules.all_clear,
    )


def _check_inside(heights_m: tuple[float, ...], travel: Travel) -> None:
    outside = [h for h in heights_m if not travel.bottom_m - 1e-9 <= h <= travel.top_m + 1e-9]
    if outside:
        raise BadInputError(
            "A point to follow lies outside the lift",
            field="follow",
            got=f"{outside[0]:g} m",
            wanted=f"heights from {travel.bottom_m:g} to {travel.top_m:g} m",
        )


def answer_rig(question: RigQuestion) -> RigAnswer:
    """Find the rig and everything a coach wants to know about it.

    Raises
    ------
    NotInStockError
        No rig at all can be built within the limits; the error says which limit blocks.
    """
    place, limits = question.place, question.limits
    target, setup = target_of(question), place.setup
    tolerance_kg = tolerance_of(question, target)
    problem = pose(setup, target, limits)
    found = find(problem)
    if found.best is None:
        units = SYSTEMS[place.gym.units]
        refused = tuple(why.say(units).rstrip(".") for why in problem.bands.refused)
        met = explain(setup, target, limits, tolerance_kg)
        # Where nothing meets the target, what stands in the way of any rig at all is of more use.
        near = met if met.blockers or met.additions else explain(setup, target, limits, math.inf)
        what = "the target could be met" if near is met else "a rig could be built"
        raise _nothing(near, what, refused, units)
    best = build(problem, found.best)
    best_kg = question.best_kg
    straight = hung_straight(best.rig)
    return RigAnswer(
        question=question,
        target=target,
        tolerance_kg=tolerance_kg,
        best=best,
        exact=found.exact,
        reading=read_rig(best.rig, place.travel, place.ground, best_kg),
        straight=read_rig(straight, place.travel, place.ground, best_kg),
        alternatives=alternatives(setup, target, limits, best),
        trade=trade(setup, target, limits),
        obstacles=(
            None if best.miss_kg <= tolerance_kg else explain(setup, target, limits, tolerance_kg)
        ),
        cautions=what_to_mind(place, best, best_kg),
        left_out=left_out(place.gym),
        bands=read_bands(best.left_bands, best.right_bands, place.travel),
        bands_left_out=problem.bands.refused,
        remeasure=due_again(question, best),
        fit=fit_to(question, best.rig),
    )


def what_to_mind(place: Place, best: BuiltRig, best_kg: float | None = None) -> tuple[Caution, ...]:
    """Gather the cautions for a rig that was found at a place.

    Parameters
    ----------
    place : Place
        Who, what and where.
    best : BuiltRig
        The rig.
    best_kg : float or None
        The lifter's straight-weight best [kg]; the gym's when None.
    """
    over = (best.rig, place.travel, place.ground)
    best_kg = best_kg or place.measured.best_kg
    return (
        *(() if place.setup.collar else (NO_COLLARS,)),
        *above_best(place.lift, *over, best_kg),
        *cautions_for(place.lift, *over),
        *thin_chain((*best.left, *best.right)),
        *much_hung(*over, best_kg),
    )


def tolerance_of(question: RigQuestion, target: Target) -> float:
    """Largest miss that counts as met [kg]: as asked, else as `RigQuestion` says."""
    if question.tolerance_kg is not None:
        return question.tolerance_kg
    if question.matching:
        return EVEN_ENOUGH * question.matching.best_kg
    return max(0.5, TOLERANCE_SHARE * max(target.loads_kg))


def due_again(question: RigQuestion, best: BuiltRig) -> tuple[str, ...]:
    """Say which bands are to be read again and which chain to be inspected, by the day it is."""
    bands = band_remarks(best.bands, question.today)
    if not question.today:
        return bands
    every_days = question.place.gym.inspect_days
    chain = inspections_due((*best.left, *best.right), question.today, every_days)
    return (*bands, *(due.say() for due in chain))


def fit_to(question: RigQuestion, rig: Rig) -> Fit | None:
    """Read how a rig fits the lifter, where the question is to match it; else None."""
    return fit_of(question.matching, question.place, rig) if question.matching else None


def _nothing(
    obstacles: Obstacles, what: str, refused: tuple[str, ...], units: UnitSystem
) -> NotInStockError:
    blocked = ", ".join(blocker.limit for blocker in obstacles.blockers)
    longer = [a.offer.thing for a in obstacles.additions if isinstance(a.offer.thing, Feeder)]
    ways = [f"without this limit: {blocked}"] if blocked else []
    ways += [f"with two feeders set to {units.length(f.settings[0].length_m)}" for f in longer[:1]]
    return NotInStockError(
        "No rig can be built within the limits",
        field="limits",
        got="; ".join(refused) or None,
        wanted=f"{what} {', or '.join(ways)}"
        if ways
        else "other stock, another target, or fewer rules on deload and links; no single limit is "
        "to blame",
    )
