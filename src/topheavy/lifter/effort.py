"""Equal effort: how heavy each rig may be for one lifter, and the reps side by side."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Final

import numpy as np

from topheavy.errors import BadInputError
from topheavy.lifter.motion.batch import RepBatch
from topheavy.lifter.motion.columns import spread_of
from topheavy.lifter.motion.inputs import OnBar
from topheavy.lifter.motion.march import STALLED, climb_up
from topheavy.lifter.rep import AT_ONCE, simulate

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from numpy.typing import NDArray

    from topheavy.lifter.motion.inputs import RepLifter
    from topheavy.lifter.motion_model import Motion
    from topheavy.lifter.rep import Rep

    Floats = NDArray[np.float64]
    Goes = Callable[[Floats], NDArray[np.bool_]]

_AT_ONCE: Final = 768
"""About how many reps are tried in one round of a search: more take longer, fewer need more."""

CLOSE: Final = 5e-5
"""How closely limits are searched for."""

_ROUGHLY: Final = 1e-3
_HALF_AS_STRONG: Final = float(np.log(2.0))
_FAR_STRONGER: Final = float(np.log(30.0))


def limit_reserve(
    lifter: RepLifter, on_bar: OnBar, motion: Motion, within: float = CLOSE
) -> Floats:
    """How weak the lifters may be and still just make a rep: `Motion.reserve` at the limit.

    Parameters
    ----------
    lifter : RepLifter
        Whose heights and 1RM.
    on_bar : OnBar
        The rep that is just made.
    motion : Motion
        Numbers of the model, of one lifter or n.
    within : float
        How closely to search, as a share of the reserve [-].

    Returns
    -------
    array, shape (n,)
        The greatest reserve [-]; a lifter at it has nothing left. It tells effort apart from
        load: two reps are equally hard for one who has the same limit in both.

    Raises
    ------
    BadInputError
        Not even a lifter twice as strong makes it, or one of a thirtieth the strength does.
    """
    count = motion.count
    whole = motion.spread(count)
    base = RepBatch.of(lifter, on_bar, whole)
    mine = np.log(np.asarray(whole.reserve))

    def goes(reserve: Floats) -> NDArray[np.bool_]:
        who = np.broadcast_to(np.arange(count), reserve.shape).ravel()
        weaker = replace(whole.taken(who), reserve=np.exp(reserve).ravel())
        row = who if len(base.strength_kg) > 1 else np.zeros_like(who)
        return _completed(replace(base, motion=weaker, strength_of=row)).reshape(reserve.shape)

    low, high = mine - _HALF_AS_STRONG, mine + _FAR_STRONGER
    if not goes(low).all() or goes(high).any():
        raise BadInputError(
            "No strength within reason just makes this rep",
            field="on_bar",
            got=f"{on_bar.name}, {float(on_bar.load_at(lifter.bottom_m)):g} kg at the bottom",
        )
    return np.exp(_border(goes, low, high, within))


def heaviest_straight_kg(
    lifter: RepLifter, rigs: Sequence[OnBar], motion: Motion, within: float = CLOSE
) -> Floats:
    """Most straight weight that lifters at their limit still lift together with what hangs.

    Parameters
    ----------
    lifter : RepLifter
        Whose heights and 1RM.
    rigs : sequence of OnBar
        Chain and bands, m of them; their own straight weight does not matter.
    motion : Motion
        Numbers of the model, of one lifter or n, their `reserve` at the limit (`limit_reserve`).
    within : float
        How closely to search, as a share of the 1RM [-].

    Returns
    -------
    array, shape (m, n)
        Bar, collars and plates [kg]; nan where chain and bands alone are too much.
    """

    def goes(straight_kg: Floats) -> NDArray[np.bool_]:
        batch = RepBatch.crossed(lifter, rigs, motion, straight_kg)
        return _completed(batch).reshape(straight_kg.shape)

    none = np.zeros((len(rigs), motion.count))
    most = np.full_like(none, 2.0 * float(np.max(lifter.strength_kg(motion))))
    found = _border(goes, none, most, within * lifter.best_kg)
    return np.where(goes(none[None])[0], found, np.nan)


def _border(goes: Goes, low: Floats, high: Floats, within: float) -> Floats:
    """Find how far up from `low`, where reps go, they still do; they don't at `high`."""
    cuts = max(1, _AT_ONCE // low.size)
    at = np.arange(1, cuts + 1).reshape(-1, *(1,) * low.ndim) / (cuts + 1)
    while float(np.max(high - low)) > within:
        tried = low + at * (high - low)
        passed = np.sum(np.logical_and.accumulate(goes(tried), axis=0), axis=0)
        width = (high - low) / (cuts + 1)
        low = low + passed * width
        high = low + width
    return low


def _completed(batch: RepBatch) -> NDArray[np.bool_]:
    whole = batch.order()
    parts = [whole[i : i + AT_ONCE] for i in range(0, whole.size, AT_ONCE)]
    made = np.empty(whole.size, dtype=np.bool_)
    for part in parts:
        made[part] = climb_up(batch.climb(part)).end != STALLED
    return made


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class EqualEffort:
    """One rig at the same effort as the plain weight it is compared with.

    Parameters
    ----------
    on_bar : OnBar
        The rig, with the straight weight found.
    straight_kg : float
        Bar, collars and plates [kg].
    low_kg, high_kg : float
        What nine in ten of the plausible lifters lie between [kg]; equal to `straight_kg` when
        none were given.
    static_kg : float
        What strength alone allows, without motion: effort x least of S, less what hangs [kg].
    bottom_kg, top_kg, mean_kg : float
        Load at rest at the bottom and top, and averaged over the travel [kg].
    rep : Rep
        The rep, at full strength.
    """

    on_bar: OnBar
    straight_kg: float
    low_kg: float
    high_kg: float
    static_kg: float
    bottom_kg: float
    top_kg: float
    mean_kg: float
    rep: Rep


def compare(
    lifter: RepLifter,
    rigs: Sequence[OnBar],
    motion: Motion,
    effort: float = 1.0,
    plausible: Motion | None = None,
    sampled: RepLifter | None = None,
) -> tuple[EqualEffort, ...]:
    """Set rigs side by side at equal effort: plain, chain straight, chain doubled, bands.

    Effort is equal when a lifter who is just strong enough for one is just strong enough for all.

    Parameters
    ----------
    lifter : RepLifter
        Who.
    rigs : sequence of OnBar
        What hangs in each; the straight weight is found.
    motion : Motion
        Numbers of the model, of one lifter.
    effort : float
        Plain weight that sets the effort, as a share of 1RM [-], 0 to 1.
    plausible : Motion, optional
        Numbers of many lifters (`plausible.plausible`), for the range.
    sampled : RepLifter, optional
        The lifter with a strength curve for each of these (`plausible.plausible_with`); all have
        the strength of `lifter` when None.

    Returns
    -------
    tuple of EqualEffort
        One for each rig, in their order.

    Raises
    ------
    BadInputError
        Effort out of range, or a rig whose chain and bands alone are too much.

    Notes
    -----
    Predictions; no study found has tested them. How far heavy chain lets the plates drop hangs on
    the strength curve, which a load-velocity line does not tell: see `low_kg` and `high_kg`.
    All-chain bench 1RM repeats within 1.4 % in men and 3.5 % in women (coefficient of variation,
    McCurdy et al. 2008): smaller differences are noise.
    """
    if not 0.0 < effort <= 1.0:
        raise BadInputError(
            "Effort is a share of the 1RM", field="effort", got=effort, wanted="above 0, at most 1"
        )
    found = _at_effort(lifter, rigs, motion, effort, CLOSE)[:, 0]
    for rig, straight in zip(rigs, found, strict=True):
        if np.isnan(straight):
            raise BadInputError(
                f"What hangs in {rig.name} is more than this lifter moves at that effort",
                field="rigs",
                got=f"{float(rig.load_at(lifter.top_m)) - rig.straight_kg:g} kg hung at lockout",
            )
    ranges = found[:, None]
    if plausible is not None:
        ranges = _at_effort(sampled or lifter, rigs, plausible, effort, _ROUGHLY)
    return tuple(
        _equal(lifter, replace(rig, straight_kg=float(straight)), motion, effort, range_kg)
        for rig, straight, range_kg in zip(rigs, found, ranges, strict=True)
    )


def effort_of(lifter: RepLifter, on_bar: OnBar, motion: Motion, within: float = CLOSE) -> Floats:
    """Plain weight that is as hard as a rig [kg]: who just lifts one just lifts the other.

    Parameters
    ----------
    lifter : RepLifter
        Whose heights and 1RM.
    on_bar : OnBar
        The rig.
    motion : Motion
        Numbers of the model, of one lifter or n.
    within : float
        How closely to search, as a share of the 1RM [-].

    Returns
    -------
    array, shape (n,)
        Plain weight [kg]; above the 1RM when the rig is more than the lifter can move.

    Raises
    ------
    BadInputError
        No strength within reason just moves this rig, as when it is far too heavy.

    Examples
    --------
    >>> from topheavy.lifter.motion.inputs import OnBar, RepLifter
    >>> from topheavy.lifter.motion_model import BENCH
    >>> from topheavy.mechanics.curve import LoadCurve
    >>> lifter = RepLifter(best_kg=100.0, bottom_m=0.75, top_m=1.15)
    >>> chain = OnBar(straight_kg=70.0, hung=LoadCurve.strand(50.0, 1.0, 0.75))
    >>> effort_of(lifter, chain, BENCH.typical()).round(1).tolist()
    [75.5]
    """
    tired = replace(motion, reserve=limit_reserve(lifter, on_bar, motion, within))
    plain_kg: Floats = heaviest_straight_kg(lifter, [OnBar(straight_kg=0.0)], tired, within)[0]
    return plain_kg


def _at_effort(
    lifter: RepLifter, rigs: Sequence[OnBar], motion: Motion, effort: float, within: float
) -> Floats:
    """Straight weights at which each rig is as hard as plain weight at that effort [kg]."""
    plain = OnBar(straight_kg=effort * lifter.best_kg)
    tired = replace(motion, reserve=limit_reserve(lifter, plain, motion, within))
    return heaviest_straight_kg(lifter, rigs, tired, within)


def _equal(
    lifter: RepLifter, on_bar: OnBar, motion: Motion, effort: float, range_kg: Floats
) -> EqualEffort:
    low, _, high = spread_of(range_kg)
    load = on_bar.load_at(lifter.grid_m)
    strength = lifter.strength_kg(motion)[0]
    return EqualEffort(
        on_bar=on_bar,
        straight_kg=on_bar.straight_kg,
        low_kg=min(low, on_bar.straight_kg),
        high_kg=max(high, on_bar.straight_kg),
        static_kg=float(np.min(effort * strength - (load - on_bar.straight_kg))),
        bottom_kg=float(load[0]),
        top_kg=float(load[-1]),
        mean_kg=float(np.mean(0.5 * (load[1:] + load[:-1]))),
        rep=simulate(lifter, on_bar, motion),
    )
