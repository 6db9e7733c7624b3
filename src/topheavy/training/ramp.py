"""The ramp: from the empty bar to the day's top set, with the chain on from the first warm-ups."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Final

import numpy as np

from topheavy.errors import BadInputError
from topheavy.lifter.evenness import effort_at
from topheavy.lifter.known import hung_above
from topheavy.lifter.match import heights_for
from topheavy.rigging.plates import loadings, nearest_loadings
from topheavy.training.bases import Hung
from topheavy.training.plate_path import Window, plate_path
from topheavy.training.ramp_parts import NOTHING, Ramp, RampSet
from topheavy.training.ramp_remarks import remarks_on
from topheavy.training.scheme import (
    ATTEMPTS,
    rest_before_s,
    rising_shares,
    singles_shares,
    warm_up_reps,
)

if TYPE_CHECKING:
    from collections.abc import Iterator

    from topheavy.gym.people import Travel
    from topheavy.lifter.strength import StrengthCurve
    from topheavy.training.plate_path import PlatePath
    from topheavy.training.ramp_parts import Gear, Hanging, Kind, LimitedBy, TopSet

HEAVY_START: Final = 0.6
"""An empty bar with chain on that is more than this share of the top set, at the limiting height or
at lockout, is no first warm-up [-]; own judgement."""

_WINDOW: Final = 0.3
"""How far a set may be from its share, as a part of the smaller jump beside it [-]: windows of
neighbours never touch, so loads rise."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Wish:
    """A set before plates are chosen: what hangs, its share, its window of straight weights."""

    hanging: Hanging
    share: float
    window: Window


def plan_ramp(
    top: TopSet, gear: Gear, travel: Travel, strength: StrengthCurve | None = None
) -> Ramp:
    """Plan a ramp.

    Parameters
    ----------
    top : TopSet
        What it leads to.
    gear : Gear
        Bar and plates.
    travel : Travel
        Bottom and top of the lift [m].
    strength : StrengthCurve, optional
        The lifter's: shares then speak of the height where the top set uses the lifter hardest.
        Without it they speak of the bottom.

    Returns
    -------
    Ramp
        Loads rise at the top and never fall at the limiting height. The wanted jumps shrink; the
        plates may move a set by up to 0.3 of the smaller jump beside it, so as to be handled less.

    Raises
    ------
    BadInputError
        A top set no heavier than the empty bar, chain from a set that does not exist, or from one
        where the empty bar with all chain on is already too heavy.
    NotInStockError
        The plates can't make the top set's straight weight.
    """
    if top.straight_kg <= gear.bar_kg + 1e-6:
        raise BadInputError(
            "The top set is the empty bar: there is nothing to lead up to it with",
            field="straight weight",
            got=f"{top.straight_kg:g} kg",
            wanted=f"more than bar and collars, {gear.bar_kg:g} kg",
        )
    limit_m, limited_by = _limit(top, travel, strength)
    measure = _Measure(top, gear, travel, limit_m)
    wishes, skipped = _planned(measure)
    path = plate_path(gear.plates, gear.room_m, gear.bar_kg, [wish.window for wish in wishes])
    sets = _sets(measure, wishes, path)
    ramp = Ramp(
        sets=sets,
        limit_m=limit_m,
        limited_by=limited_by,
        handled=path.handled,
        exact=path.exact,
        remarks=(),
    )
    return replace(ramp, remarks=remarks_on(ramp, top, gear, skipped))


def _limit(top: TopSet, travel: Travel, strength: StrengthCurve | None) -> tuple[float, LimitedBy]:
    """Height where the top set uses the lifter hardest [m], and how it was found."""
    if strength is None:
        return travel.bottom_m, "bottom"
    heights = heights_for(strength, top.hanging.curve)
    load = top.straight_kg + hung_above(top.hanging.curve, heights)
    hardest = int(np.argmax(effort_at(strength.at(heights), load)))
    return float(heights[hardest]), "strength curve"


@dataclass(frozen=True, slots=True)
class _Measure:
    """The top set as the measure of every other."""

    top: TopSet
    gear: Gear
    travel: Travel
    limit_m: float

    @property
    def limit_kg(self) -> float:
        """Load of the top set at the limiting height [kg]."""
        return self.top.straight_kg + self.hung_kg(self.top.hanging)

    def hung_kg(self, hanging: Hanging) -> float:
        """What hangs at the limiting height [kg]."""
        return float(hanging.curve.at(self.limit_m))

    def hung_top_kg(self, hanging: Hanging) -> float:
        """What hangs at the top [kg]."""
        return float(hanging.curve.at(self.travel.top_m))

    def share(self, straight_kg: float, hanging: Hanging) -> float:
        """Share of the top set's load at the limiting height [-]."""
        return (straight_kg + self.hung_kg(hanging)) / self.limit_kg

    def top_share(self, straight_kg: float, hanging: Hanging) -> float:
        """Share of the top set's load at the top [-]."""
        top_kg = self.top.straight_kg + self.hung_top_kg(self.top.hanging)
        return (straight_kg + self.hung_top_kg(hanging)) / top_kg

    def hardest(self, straight_kg: float, hanging: Hanging) -> float:
        """The larger of both shares [-]."""
        return max(self.share(straight_kg, hanging), self.top_share(straight_kg, hanging))

    def start(self) -> Hanging:
        """What to begin with: all of it, else the most that is no heavy start, else nothing."""
        options = (self.top.hanging, *self.top.lighter)
        fits = (h for h in options if self.hardest(self.gear.bar_kg, h) <= HEAVY_START)
        return next(fits, NOTHING)

    def wishes(self) -> list[_Wish]:
        """Lay out every set with the chain on from the first: hang, share, window of weights."""
        full, bar_kg = self.top.hanging, self.gear.bar_kg
        start = self.start()
        shares = self._rising(self.share(bar_kg, full))
        wishes = self._windows(shares, [full] * len(shares))
        if start is full:
            return wishes
        bare = Window(low_kg=bar_kg, wanted_kg=bar_kg, high_kg=bar_kg)
        return [_Wish(hanging=start, share=self.share(bar_kg, start), window=bare), *wishes]

    def late_wishes(self) -> Iterator[list[_Wish]]:
        """Lay out every set with the chain on later, from each place where the bar allows it."""
        full, bar_kg = self.top.hanging, self.gear.bar_kg
        shares = self._rising(self.share(bar_kg, NOTHING))
        bare_share = self.share(bar_kg, full)
        for before in range(1, len(shares)):
            if shares[before] >= bare_share - 1e-9:
                hangings = [NOTHING] * before + [full] * (len(shares) - before)
                yield self._windows(shares, hangings)

    def _rising(self, first: float) -> tuple[float, ...]:
        if self.top.singles:
            return singles_shares(first)
        return rising_shares(first, self.top.reps)

    def _windows(self, shares: tuple[float, ...], hangings: list[Hanging]) -> list[_Wish]:
        wishes = []
        last = len(shares) - 1
        for place, (share, hanging) in enumerate(zip(shares, hangings, strict=True)):
            wanted_kg = share * self.limit_kg - self.hung_kg(hanging)
            beside = [abs(share - shares[n]) for n in (place - 1, place + 1) if 0 <= n <= last]
            half_kg = 0.0 if place in {0, last} else _WINDOW * min(beside) * self.limit_kg
            wanted_kg = self.top.straight_kg if place == last else max(wanted_kg, self.gear.bar_kg)
            low_kg = max(wanted_kg - half_kg, self.gear.bar_kg)
            window = Window(low_kg=low_kg, wanted_kg=wanted_kg, high_kg=wanted_kg + half_kg)
            wishes.append(_Wish(hanging=hanging, share=share, window=window))
        return wishes


def _planned(measure: _Measure) -> tuple[list[_Wish], list[float]]:
    """Choose the sets that plates make, and tell the weights of those they don't [kg]."""
    chain_from, gear = measure.top.chain_from, measure.gear
    if chain_from == 1:
        return _loadable(measure.wishes(), gear)
    could = [1]
    for wishes in measure.late_wishes():
        kept, skipped = _loadable(wishes, gear)
        on = 1 + sum(wish.hanging is NOTHING for wish in kept)
        if on == chain_from:
            return kept, skipped
        could.append(on)
    raise BadInputError(
        "The chain can't come on at that set of this ramp",
        field="chain_from",
        got=chain_from,
        wanted=" or ".join(str(on) for on in sorted(set(could))),
    )


def _loadable(wishes: list[_Wish], gear: Gear) -> tuple[list[_Wish], list[float]]:
    """Leave out the sets that no plates make; the first and the last stay. Also their weights."""
    choices = loadings(gear.plates, gear.room_m)
    nearest_loadings(choices, gear.bar_kg, wishes[-1].window.high_kg)
    totals_kg = np.array([gear.bar_kg + choice.total_kg for choice in choices])
    kept, skipped = [], []
    for wish in wishes:
        low_kg, high_kg = wish.window.low_kg - 5e-4, wish.window.high_kg + 5e-4
        if np.any((totals_kg >= low_kg) & (totals_kg <= high_kg)):
            kept.append(wish)
        else:
            skipped.append(wish.window.wanted_kg)
    return kept, skipped


def _sets(measure: _Measure, wishes: list[_Wish], path: PlatePath) -> tuple[RampSet, ...]:
    top = measure.top
    found: list[RampSet] = []
    for number, (wish, stop) in enumerate(zip(wishes, path.stops, strict=True), 1):
        hardest = measure.hardest(stop.straight_kg, wish.hanging)
        kind: Kind = "warm-up"
        if number == len(wishes):
            kind = "top set"
        elif top.singles and number > 1 and wish.share >= ATTEMPTS[0] - 1e-9:
            kind = "attempt"
        reps = warm_up_reps(hardest, top.reps)
        reps = min(reps, found[-1].reps) if found else reps
        found.append(
            RampSet(
                number=number,
                kind=kind,
                hanging=wish.hanging,
                plates=stop,
                loads=Hung.of(wish.hanging.curve, measure.travel).under(stop.straight_kg),
                limit_kg=stop.straight_kg + measure.hung_kg(wish.hanging),
                share=measure.share(stop.straight_kg, wish.hanging),
                top_share=measure.top_share(stop.straight_kg, wish.hanging),
                reps=top.reps if kind == "top set" else 1 if kind == "attempt" else reps,
                rest_before_s=rest_before_s(hardest) if found else 0.0,
            )
        )
    return tuple(found)
