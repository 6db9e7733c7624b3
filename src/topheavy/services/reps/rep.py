"""The rep with a rig: how the bar moves, up and down, and beside other rigs at equal effort."""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import ceil, sqrt
from typing import TYPE_CHECKING, Any, Final, Literal

import numpy as np

from topheavy.constants import STANDARD_GRAVITY_M_PER_S2
from topheavy.errors import BadInputError
from topheavy.lifter.effort import EqualEffort, compare, effort_of
from topheavy.lifter.lowering import let_go, lower_under_control
from topheavy.lifter.motion.columns import spread_of
from topheavy.lifter.motion.inputs import OnBar
from topheavy.lifter.outlook import outlook
from topheavy.lifter.plausible import spread_reps
from topheavy.lifter.rep import simulate
from topheavy.services.reps.sides import beside
from topheavy.services.reps.who import MANY, who_lifts

if TYPE_CHECKING:
    from collections.abc import Sequence

    from topheavy.lifter.lowering import Descent
    from topheavy.lifter.outlook import Outlook
    from topheavy.lifter.rep import Ascents, Rep
    from topheavy.lifter.strength import StrengthCurve
    from topheavy.mechanics.rig import Rig
    from topheavy.services.reps.sides import Beside
    from topheavy.services.reps.who import Who
    from topheavy.services.rig import Place

LOWER_S: Final = 2.0
"""Time from lockout to the bottom under control, when nobody says [s]: common practice, no source.
"""

MOST_LOWER_S: Final = 30.0
"""Slowest descent that is taken for one [s]; own judgement."""

_NEVER: Final = 0.01
"""A rep that gets no further than this share of the travel does not leave the bottom."""

_ROUGHLY: Final = 1e-3

Verdict = Literal["made", "missed", "stays down"]
"""What becomes of the rep: made, missed on the way, or never off the bottom."""

Span = tuple[float, float, float]
"""Low, middle, high of what nine in ten of the plausible lifters lie between."""


def quickest_s(travel_m: float) -> float:
    """Least time [s] to lower a bar over a travel [m] from rest to rest without pulling it down.

    The smoothest way down speeds up by 10 / sqrt(3) times travel over time squared at most.

    Examples
    --------
    >>> round(quickest_s(0.41), 2)
    0.49
    """
    return sqrt(10.0 / sqrt(3.0) * travel_m / STANDARD_GRAVITY_M_PER_S2)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class RepQuestion:
    """Whose rep with which rig.

    Parameters
    ----------
    place : Place
        Who, what and where.
    rig : Rig
        What is on the bar.
    strength : StrengthCurve
        The lifter's, over the travel there.
    effort : float or None
        Effort of the side by side: plain weight as a share of the lifter's best [-], above 0, at
        most 1. None: that of the rig itself, at most 1.
    lower_s : float
        Time the bar is lowered in under control [s], not so short that it would have to speed up
        by more than free fall, at most 30.
    many : int
        How many plausible lifters the ranges are over [-], >= 1.

    Raises
    ------
    BadInputError
        A value out of range.
    """

    place: Place
    rig: Rig
    strength: StrengthCurve
    effort: float | None = None
    lower_s: float = LOWER_S
    many: int = MANY

    def __post_init__(self) -> None:
        if self.effort is not None and not 0.0 < self.effort <= 1.0:
            raise BadInputError(
                "The effort of the side by side is a share of the best",
                field="effort",
                got=f"{100 * self.effort:g} %",
                wanted="above 0 %, at most 100 %",
            )
        least_s = quickest_s(self.place.travel.travel_m)
        if not least_s <= self.lower_s <= MOST_LOWER_S:
            raise BadInputError(
                "A bar is lowered in seconds, and no faster than it falls",
                field="lower_s",
                got=f"{self.lower_s:g} s",
                wanted=f"{ceil(10.0 * least_s) / 10.0:g} to {MOST_LOWER_S:g} s",
            )


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Moved:
    """One rig as the model moves it.

    Parameters
    ----------
    on_bar : OnBar
        What is on the bar.
    rep : Rep
        The likeliest lifter's rep: its path and figures.
    many : Ascents
        The same rep of the many plausible lifters.
    lowered : Descent
        Down under control.
    dropped : Descent
        Let go at lockout.
    """

    on_bar: OnBar
    rep: Rep
    many: Ascents
    lowered: Descent
    dropped: Descent

    @property
    def verdict(self) -> Verdict:
        """What becomes of the likeliest lifter's rep."""
        if self.rep.ascent.completed[0]:
            return "made"
        return "missed" if self.rep.ascent.reached_part[0] > _NEVER else "stays down"

    @property
    def made_share(self) -> float:
        """Share of the many who make it [-]."""
        return float(np.mean(self.many.completed))

    def span(self, figure: str) -> Span:
        """Range of a figure of `Ascents` over the many who make the rep, likeliest in the middle.

        Parameters
        ----------
        figure : str
            Its name, such as ``"mean_m_per_s"``; of its sticking or energy with a dot between.
        """
        values: Any = self.many
        own: Any = self.rep.ascent
        for part in figure.split("."):
            values, own = getattr(values, part), getattr(own, part)
        low, _, high = spread_of(np.where(self.many.completed, values, np.nan))
        likely = float(own[0])
        return float(np.fmin(low, likely)), likely, float(np.fmax(high, likely))


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Side:
    """One rig at the effort of all.

    Parameters
    ----------
    beside : Beside
        What hangs.
    equal : EqualEffort
        How heavy it may be.
    moved : Moved
        Its rep.
    """

    beside: Beside
    equal: EqualEffort
    moved: Moved


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class RepAnswer:
    """The rep with a rig.

    Parameters
    ----------
    question : RepQuestion
        What was asked.
    who : Who
        The lifter, and the many who might be this one.
    moved : Moved
        The rig as it is.
    as_hard_kg : tuple of float, or None
        Plain weight that is as hard as the rig: low, likeliest, high [kg]. None when no strength
        within reason moves the rig.
    plain : Rep or None
        The likeliest lifter's rep with that plain weight.
    effort : float
        Effort of the side by side, as a share of the best [-].
    sides : tuple of Side
        Plain weight first.
    too_much : tuple of str
        Names of what can't be in the comparison: chain or band alone is more than the lifter moves
        at that effort.
    outlook : Outlook
        Where it would fail, and what a spotter should expect.
    """

    question: RepQuestion
    who: Who
    moved: Moved
    as_hard_kg: Span | None
    plain: Rep | None
    effort: float
    sides: tuple[Side, ...]
    too_much: tuple[str, ...]
    outlook: Outlook


def answer_rep(question: RepQuestion) -> RepAnswer:
    """Simulate the rep with a rig, and rigs of equal effort beside it.

    Parameters
    ----------
    question : RepQuestion
        Who and what.

    Returns
    -------
    RepAnswer
        Predictions of a fitted model; no study found has tested what it says of chain or bands.

    Raises
    ------
    NotInStockError
        A lift without a model.
    BadInputError
        Heights or strength that no measured lifter has.
    """
    place, rig = question.place, question.rig
    who = who_lifts(place, question.strength, question.many)
    as_found = OnBar.of_rig(rig, place.ground, "this rig")
    as_hard = _as_hard(who, as_found)
    effort = question.effort or _own_effort(who, as_hard)
    sides, too_much = _sides(who, beside(place, rig), effort, question.lower_s)
    return RepAnswer(
        question=question,
        who=who,
        moved=moved(who, as_found, question.lower_s),
        as_hard_kg=as_hard,
        plain=(
            None
            if as_hard is None
            else simulate(who.lifter, OnBar(straight_kg=as_hard[1]), who.motion)
        ),
        effort=effort,
        sides=sides,
        too_much=too_much,
        outlook=outlook(who.each, as_found, who.many),
    )


def moved(who: Who, on_bar: OnBar, lower_s: float) -> Moved:
    """Move a rig up and down.

    Parameters
    ----------
    who : Who
        The lifter.
    on_bar : OnBar
        The rig.
    lower_s : float
        Time of the way down under control [s], > 0.
    """
    return Moved(
        on_bar=on_bar,
        rep=simulate(who.lifter, on_bar, who.motion),
        many=spread_reps(who.each, on_bar, who.many),
        lowered=lower_under_control(who.lifter, on_bar, lower_s),
        dropped=let_go(who.lifter, on_bar),
    )


def _as_hard(who: Who, on_bar: OnBar) -> Span | None:
    try:
        likely = float(effort_of(who.lifter, on_bar, who.motion)[0])
        low, _, high = spread_of(effort_of(who.each, on_bar, who.many, _ROUGHLY))
    except BadInputError:
        return None
    return min(low, likely), likely, max(high, likely)


def _own_effort(who: Who, as_hard: Span | None) -> float:
    return 1.0 if as_hard is None else min(as_hard[1] / who.lifter.best_kg, 1.0)


def _sides(
    who: Who, others: Sequence[Beside], effort: float, lower_s: float
) -> tuple[tuple[Side, ...], tuple[str, ...]]:
    """Set the rigs side by side; those that hang too much are named."""
    rigs = [one.on_bar for one in others]
    try:
        found: list[EqualEffort | None] = list(_compared(who, rigs, effort))
    except BadInputError:
        found = [_alone(who, rig, effort) for rig in rigs]
    pairs = list(zip(others, found, strict=True))
    sides = tuple(
        Side(beside=one, equal=equal, moved=_at(who, equal, lower_s))
        for one, equal in pairs
        if equal is not None
    )
    return sides, tuple(one.name for one, equal in pairs if equal is None)


def _compared(who: Who, rigs: Sequence[OnBar], effort: float) -> tuple[EqualEffort, ...]:
    return compare(who.lifter, rigs, who.motion, effort, who.many, who.each)


def _alone(who: Who, rig: OnBar, effort: float) -> EqualEffort | None:
    try:
        return _compared(who, [rig], effort)[0]
    except BadInputError:
        return None


def _at(who: Who, equal: EqualEffort, lower_s: float) -> Moved:
    """Take the rep that the comparison simulated; only the way down is new."""
    return replace(moved(who, equal.on_bar, lower_s), rep=equal.rep)
