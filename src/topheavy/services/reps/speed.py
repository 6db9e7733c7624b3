"""Speed work: which loads, how fast the bar goes, with chain and without, and which plates."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Final

import numpy as np

from topheavy.errors import BadInputError
from topheavy.lifter.motion.columns import spread_of
from topheavy.lifter.motion.inputs import OnBar
from topheavy.lifter.plausible import spread_reps
from topheavy.lifter.speed_work import SHARES, EqualAt, SpeedRow, speed_work
from topheavy.rigging.limits import Limits
from topheavy.rigging.plates import Loading, loadings
from topheavy.services.reps.who import MANY, who_lifts

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    from topheavy.lifter.rep import Ascents
    from topheavy.lifter.strength import StrengthCurve
    from topheavy.mechanics.rig import Rig
    from topheavy.services.reps.who import Who
    from topheavy.services.rig import Place

    Floats = NDArray[np.float64]
    Span = tuple[float, float, float]

ENDS: Final[tuple[EqualAt, ...]] = ("top", "mean")
"""Which load of the chain bar is made equal to the plain one, in the order shown."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class SpeedQuestion:
    """Whose speed work with which chain.

    Parameters
    ----------
    place : Place
        Who, what and where.
    rig : Rig
        What hangs; its plates are set anew for each load.
    strength : StrengthCurve
        The lifter's, over the travel there.
    shares : tuple of float
        Plain weights as shares of the best [-], above 0, at most 1.
    many : int
        How many plausible lifters the ranges are over [-], >= 1.

    Raises
    ------
    BadInputError
        A share out of range, or none.
    """

    place: Place
    rig: Rig
    strength: StrengthCurve
    shares: tuple[float, ...] = SHARES
    many: int = MANY

    def __post_init__(self) -> None:
        wrong = [share for share in self.shares if not 0.0 < share <= 1.0]
        if wrong or not self.shares:
            raise BadInputError(
                "A load of speed work is a share of the best",
                field="share",
                got=f"{100 * wrong[0]:g} %" if wrong else "none",
                wanted="above 0 %, at most 100 %; studies used 45 to 75 %",
            )


@dataclass(frozen=True, slots=True, kw_only=True)
class Loaded:
    """Plates for a straight weight.

    Parameters
    ----------
    loading : Loading
        The nearest that the plates make.
    off_kg : float
        How much heavier that is than wanted [kg]; below zero when lighter.
    """

    loading: Loading
    off_kg: float


@dataclass(frozen=True, slots=True, kw_only=True)
class SpeedLine:
    """One load, plain and with chain.

    Parameters
    ----------
    row : SpeedRow
        Loads and the likeliest lifter's speeds.
    plain_mean, chain_mean : tuple of float
        Mean speed: low, likeliest, high [m/s].
    mean_gain, peak_gain : tuple of float
        Mean and peak speed with chain over plain, less 1, lifter by lifter: low, likeliest, high
        [-].
    plain, chain : Loaded
        Plates for both.
    """

    row: SpeedRow
    plain_mean: Span
    chain_mean: Span
    mean_gain: Span
    peak_gain: Span
    plain: Loaded
    chain: Loaded


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class SpeedAnswer:
    """Speed work with a rig's chain.

    Parameters
    ----------
    question : SpeedQuestion
        What was asked.
    who : Who
        The lifter, and the many who might be this one.
    hung_bottom_kg, hung_mean_kg, hung_top_kg : float
        What hangs, chain and bands, at the bottom, over the lift and at the top [kg].
    lines : dict of str to tuple of SpeedLine
        By which load is equal: ``top`` and ``mean``.
    too_light : dict of str to tuple of float
        Shares [-] left out, since bar and collars with what hangs are more than the plain weight.
    """

    question: SpeedQuestion
    who: Who
    hung_bottom_kg: float
    hung_mean_kg: float
    hung_top_kg: float
    lines: dict[EqualAt, tuple[SpeedLine, ...]] = field(default_factory=dict)
    too_light: dict[EqualAt, tuple[float, ...]] = field(default_factory=dict)


def answer_speed(question: SpeedQuestion) -> SpeedAnswer:
    """Compare bar speed with chain and without, at equal top load and at equal mean load.

    The two answer different questions: with the top equal, chain takes load off below, and the bar
    is bound to be faster; with the mean equal, both take the same work, and load only moves up.

    Parameters
    ----------
    question : SpeedQuestion
        Who, what, and at which loads.

    Returns
    -------
    SpeedAnswer
        Predictions of how fast one rep is; no study found has tested the model with chain.

    Raises
    ------
    NotInStockError
        A lift without a model.
    BadInputError
        Heights or strength that no measured lifter has, or loads that are all too light for what
        hangs.
    """
    place = question.place
    who = who_lifts(place, question.strength, question.many)
    hung = OnBar.of_rig(question.rig, place.ground, "this rig")
    load = hung.load_at(who.lifter.grid_m) - hung.straight_kg
    mean_kg = float(np.mean(0.5 * (load[1:] + load[:-1])))
    answer = SpeedAnswer(
        question=question,
        who=who,
        hung_bottom_kg=float(load[0]),
        hung_mean_kg=mean_kg,
        hung_top_kg=float(load[-1]),
    )
    for equal_at in ENDS:
        taken_kg = answer.hung_top_kg if equal_at == "top" else mean_kg
        least = (place.setup.bar_kg + taken_kg) / who.lifter.best_kg
        shares = sorted(set(question.shares))
        fits = [share for share in shares if share >= least]
        answer.too_light[equal_at] = tuple(share for share in shares if share < least)
        answer.lines[equal_at] = _lines(who, hung, question, equal_at, fits)
    if not any(answer.lines.values()):
        raise BadInputError(
            "Bar, collars and what hangs are more than every one of these loads",
            field="share",
            got=f"{place.setup.bar_kg:g} kg of bar, {mean_kg:.1f} kg hung in the mean",
            wanted="heavier loads, or less chain",
        )
    return answer


def _lines(
    who: Who, hung: OnBar, question: SpeedQuestion, equal_at: EqualAt, shares: Sequence[float]
) -> tuple[SpeedLine, ...]:
    if not shares:
        return ()
    bare, with_loops = _loadings(question, loops=False), _loadings(question, loops=True)
    bar_kg = question.place.setup.bar_kg
    lines = []
    for row in speed_work(who.lifter, hung, who.motion, equal_at, shares):
        plain = spread_reps(who.each, OnBar(straight_kg=row.plain_kg), who.many)
        chain = spread_reps(who.each, hung, who.many, np.full(who.many.count, row.straight_kg))
        lines.append(
            SpeedLine(
                row=row,
                plain_mean=_span(_speeds(plain), row.plain_mean_m_per_s),
                chain_mean=_span(_speeds(chain), row.chain_mean_m_per_s),
                mean_gain=_span(_speeds(chain) / _speeds(plain) - 1.0, row.mean_gain),
                peak_gain=_span(
                    _speeds(chain, "peak_m_per_s") / _speeds(plain, "peak_m_per_s") - 1.0,
                    row.peak_gain,
                ),
                plain=_nearest(bare, row.plain_kg - bar_kg),
                chain=_nearest(with_loops, row.straight_kg - bar_kg),
            )
        )
    return tuple(lines)


def _speeds(ascents: Ascents, figure: str = "mean_m_per_s") -> Floats:
    return np.where(ascents.completed, getattr(ascents, figure), np.nan)


def _span(values: Floats, likely: float) -> Span:
    low, _, high = spread_of(values)
    return float(np.fmin(low, likely)), likely, float(np.fmax(high, likely))


def _loadings(question: SpeedQuestion, *, loops: bool) -> tuple[Loading, ...]:
    """What the plates make beside collar and loops on the sleeve."""
    setup, end = question.place.setup, question.rig.left
    count = (bool(end.hangs) + len(end.bands)) if loops else 0
    taken_m = setup.collar_width_m + count * Limits().loop_width_m
    return loadings(setup.stock.plates, setup.bar.sleeve_m - taken_m)


def _nearest(choices: Sequence[Loading], plates_kg: float) -> Loaded:
    found = min(choices, key=lambda one: abs(one.total_kg - plates_kg))
    return Loaded(loading=found, off_kg=found.total_kg - plates_kg)
