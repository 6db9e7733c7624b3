"""The load at every height of a rig that somebody describes."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Final, Literal

import numpy as np

from topheavy.catalogue.verdict import Job
from topheavy.errors import BadInputError
from topheavy.gym.lifts import LIFTS
from topheavy.mechanics.chain import require_positive, require_travel
from topheavy.mechanics.uncertainty import InputSpread, load_budget
from topheavy.rigging.limits import DESIGN_FACTOR
from topheavy.services.bands import BandsReading, band_remarks, read_bands
from topheavy.services.cautions import Caution, above_best, cautions_for, much_hung
from topheavy.services.described import dangers, doubts
from topheavy.services.reading import Load, Reading, hung_straight, read_rig

if TYPE_CHECKING:
    from topheavy.gym.lifts import Lift
    from topheavy.gym.people import Travel
    from topheavy.mechanics.ground import Ground
    from topheavy.mechanics.rig import Rig
    from topheavy.phrase import Remark
    from topheavy.rigging.hung_band import Span
    from topheavy.services.described import DescribedRig

HIGHEST_M: Final = max(lift.top_m[1] for lift in LIFTS.values())
"""No human holds a bar higher [m]: the highest top of any lift."""

HEIGHT_U_M: Final = 0.005
"""Standard uncertainty of a height that nobody qualified [m], as `Travel` has it."""

_HAIR_M: Final = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class CurveQuestion:
    """What to read off which rig.

    Parameters
    ----------
    described : DescribedRig
        What hangs.
    ground : Ground
        Where the chain lies.
    travel : Travel or None
        Bottom and top of the lift [m]; None when only single heights are asked.
    lift : Lift or None
        Which lift, for its own range of heights and its cautions.
    heights_m : tuple of float
        More heights of the bar centre to read [m], 0 to 2.9.
    loads_kg : tuple of float
        Loads whose height is wanted [kg], > 0.
    best_kg : float or None
        Straight-weight best [kg], > 0, for the share of it.
    design_factor : float
        A part is used up to its rating over this factor [-], >= 1.
    today : str
        The day it is, as ``"2026-11-25"``, for bands to read again; empty when nobody said it.

    Raises
    ------
    BadInputError
        No height at all, a height outside the human range, or bottom not below top.
    """

    described: DescribedRig
    ground: Ground
    travel: Travel | None = None
    lift: Lift | None = None
    heights_m: tuple[float, ...] = ()
    loads_kg: tuple[float, ...] = ()
    best_kg: float | None = None
    design_factor: float = DESIGN_FACTOR
    today: str = ""

    def __post_init__(self) -> None:
        if self.travel is None and not self.heights_m:
            raise BadInputError(
                "Nothing says at which heights to read the load",
                field="heights",
                wanted="bottom and top of the lift, a lifter who was measured, or single heights",
            )
        if self.travel is not None:
            _check_travel(self.travel, self.lift)
        for height_m in self.heights_m:
            _check_height(height_m, "height")
        for load_kg in (*self.loads_kg, *([] if self.best_kg is None else [self.best_kg])):
            require_positive("load", load_kg)

    @property
    def all_heights_m(self) -> tuple[float, ...]:
        """Every height that is asked about [m], at least one."""
        travel = self.travel
        return (*self.heights_m, *((travel.bottom_m, travel.top_m) if travel else ()))


@dataclass(frozen=True, slots=True, kw_only=True)
class Point:
    """Load at one height [m], raising and lowering, and the same chain hung straight [kg]."""

    height_m: float
    raising: Load
    lowering: Load
    straight_kg: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Reached:
    """Where a load is reached.

    Parameters
    ----------
    load_kg : float
        The load [kg].
    found : {'at a height', 'everywhere', 'never', 'beyond the bands'}
        Whether some height is the first to carry it; it may be one that a band was not asked for.
    raising_m, lowering_m : float or None
        Lowest height that carries it, on the way up and down [m].
    raising_u_m : float or None
        Standard uncertainty of that height [m]; None where the load jumps or stays level.
    most_kg : float
        The most that this rig ever puts on the bar [kg]; with bands, at the highest height asked
        for.
    """

    load_kg: float
    found: Literal["at a height", "everywhere", "never", "beyond the bands"]
    raising_m: float | None
    lowering_m: float | None
    raising_u_m: float | None
    most_kg: float


@dataclass(frozen=True, slots=True, kw_only=True)
class CurveAnswer:
    """A described rig, read.

    Parameters
    ----------
    question : CurveQuestion
        What was asked.
    points : tuple of Point
        The heights asked for, lowest first, bottom and top not among them.
    bottom, top : Point or None
        Both ends of the lift.
    reading, straight : Reading or None
        The rig over the lift, and the same chain hung straight.
    bands : BandsReading
        What each band pulls over the lift; empty without any.
    reached : tuple of Reached
        Heights of the loads asked for.
    dangers : tuple of Remark
        What must come down before anyone lifts.
    doubts : tuple of Remark
        Chain too thin, ends that differ.
    cautions : tuple of Caution
        What to mind.
    remeasure : tuple of str
        Bands to read again, and why.
    """

    question: CurveQuestion
    points: tuple[Point, ...]
    bottom: Point | None
    top: Point | None
    reading: Reading | None
    straight: Reading | None
    bands: BandsReading
    reached: tuple[Reached, ...]
    dangers: tuple[Remark, ...]
    doubts: tuple[Remark, ...]
    cautions: tuple[Caution, ...]
    remeasure: tuple[str, ...]


def answer_curve(question: CurveQuestion) -> CurveAnswer:
    """Read a described rig: loads by height, share, deload, links, and what is wrong with it.

    Parameters
    ----------
    question : CurveQuestion
        The rig and the heights.

    Returns
    -------
    CurveAnswer
        Every number with its uncertainty [kg], [m]; dangers first.
    """
    ground, travel = question.ground, question.travel
    described = question.described.over(*question.all_heights_m)
    rig, height_u_m = described.rig, travel.height_u_m if travel else HEIGHT_U_M
    span_m = (min(question.heights_m), max(question.heights_m)) if question.heights_m else (0, 0)
    ends: tuple[Point, ...] = ()
    reading = straight = job = None
    bands = BandsReading()
    if travel is not None:
        span_m = (travel.bottom_m, travel.top_m)
        ends = _points(rig, ground, span_m, height_u_m)
        reading = read_rig(rig, travel, ground, question.best_kg)
        straight = read_rig(hung_straight(rig), travel, ground, question.best_kg)
        bands = read_bands(described.left_bands, described.right_bands, travel)
        job = Job(travel_m=travel.travel_m, best_kg=question.best_kg)
    return CurveAnswer(
        question=question,
        points=_points(rig, ground, tuple(sorted(set(question.heights_m))), height_u_m),
        bottom=ends[0] if ends else None,
        top=ends[1] if ends else None,
        reading=reading,
        straight=straight,
        bands=bands,
        reached=tuple(
            _reached(rig, ground, kg, height_u_m, described.span_m) for kg in question.loads_kg
        ),
        dangers=dangers(described, design_factor=question.design_factor),
        doubts=doubts(described, span_m, ground, job),
        cautions=_cautions(question, rig),
        remeasure=band_remarks(described.bands, question.today),
    )


def _cautions(question: CurveQuestion, rig: Rig) -> tuple[Caution, ...]:
    lift, travel, ground = question.lift, question.travel, question.ground
    usual = cautions_for(lift, rig, travel, ground)
    if lift is None or travel is None:
        return usual
    over = (rig, travel, ground, question.best_kg)
    return (*above_best(lift, *over), *usual, *much_hung(*over))


def _check_travel(travel: Travel, lift: Lift | None) -> None:
    if lift is not None:
        lift.check_heights(travel.bottom_m, travel.top_m, field="heights")
        return
    require_travel(travel.bottom_m, travel.top_m, field="heights")
    for word in ("bottom", "top"):
        _check_height(getattr(travel, f"{word}_m"), word)


def _check_height(height_m: float, field: str) -> None:
    if not 0 <= height_m <= HIGHEST_M:
        raise BadInputError(
            "No human holds a bar at that height",
            field=field,
            got=f"{height_m:g} m",
            wanted=f"0 to {HIGHEST_M:g} m, floor to bar centre",
        )


def _points(
    rig: Rig, ground: Ground, heights_m: tuple[float, ...], height_u_m: float
) -> tuple[Point, ...]:
    if not heights_m:
        return ()
    spread = InputSpread(height_u_m=height_u_m)
    loads = {}
    for way in ("raising", "lowering"):
        budget = load_budget(rig, heights_m, ground, way, spread)
        loads[way] = [
            Load(load_kg=float(kg), u_kg=float(u_kg))
            for kg, u_kg in zip(
                rig.curve(ground, way).at(heights_m), budget.combined_kg, strict=True
            )
        ]
    straight = hung_straight(rig).curve(ground, "raising").at(heights_m)
    return tuple(
        Point(height_m=h, raising=up, lowering=down, straight_kg=float(kg))
        for h, up, down, kg in zip(
            heights_m, loads["raising"], loads["lowering"], straight, strict=True
        )
    )


def _reached(
    rig: Rig, ground: Ground, load_kg: float, height_u_m: float, span_m: Span | None
) -> Reached:
    up, down = rig.curve(ground, "raising"), rig.curve(ground, "lowering")
    raising_m, lowering_m = (float(curve.height_of(load_kg)) for curve in (up, down))
    most_kg = rig.straight_weight_kg + rig.left.mass_kg + rig.right.mass_kg
    nowhere = Reached(
        load_kg=load_kg,
        found="never" if math.isnan(raising_m) else "everywhere",
        raising_m=None,
        lowering_m=None,
        raising_u_m=None,
        most_kg=most_kg,
    )
    if span_m is not None and (rig.left.bands or rig.right.bands):
        low_m, high_m = span_m
        if raising_m < low_m - _HAIR_M:
            return replace(nowhere, found="everywhere")
        if not raising_m <= high_m + _HAIR_M:
            there_kg = float(up.at(high_m))
            return replace(nowhere, found="beyond the bands", most_kg=there_kg)
    if not math.isfinite(raising_m):
        return nowhere
    slope = float(up.slope_at(raising_m))
    budget = load_budget(rig, raising_m, ground, "raising", InputSpread(height_u_m=height_u_m))
    return Reached(
        load_kg=load_kg,
        found="at a height",
        raising_m=raising_m,
        lowering_m=lowering_m if np.isfinite(lowering_m) else None,
        raising_u_m=float(budget.combined_kg) / slope if slope > 0 else None,
        most_kg=most_kg,
    )
