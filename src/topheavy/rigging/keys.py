"""What decides how much chain is wanted: under each fixture, two comparisons between aims.

Plates shift all aims alike, so only chain can mend what is missing at one aim beyond what is
missing at another. Too little chain shows between one pair of aims, too much between another; for a
load wanted at bottom and top both are the same two. The key of an addition is what it adds between
the aims of the first pair. For curves of many aims the pairs are those that decide at the best
amount of chain of a common shape; other pairs would bound less well, but never wrongly.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

import numpy as np

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from topheavy.rigging.problem import Problem

    Floats = NDArray[np.float64]
    Ints = NDArray[np.int64]

_ROUNDS: Final = 48
_SHRINK: Final = 0.5 * (5.0**0.5 - 1.0)
_ASIDE: Final = 1e-3
_NOTHING_KG: Final = 1e-9


@dataclass(frozen=True, slots=True, eq=False)
class Comparison:
    """Any rig misses at least `count` x (missing at `at` - missing at `held_by`), under fixtures s.

    Parameters
    ----------
    at : array of int, shape (s,)
        The aim that is below what is wanted.
    held_by : array of int, shape (s,)
        The aim that keeps plates from making up for it.
    count : array, shape (s,)
        Miss for each kilogram of difference [-].
    """

    at: Ints
    held_by: Ints
    count: Floats

    def of(self, aims_kg: Floats, fixture: Ints) -> Floats:
        """Compare the two aims, for values of shape (n, ..., j) under fixtures of shape (n,)."""
        index = (slice(None), *(None,) * (aims_kg.ndim - 1))
        at, held_by = (
            np.take_along_axis(aims_kg, aim[fixture][index], axis=-1)[..., 0]
            for aim in (self.at, self.held_by)
        )
        return np.asarray(at - held_by)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Keys:
    """The two comparisons under fixtures s, and how chain moves both.

    Parameters
    ----------
    short, much : Comparison
        With too little chain, and with too much.
    grows : array, shape (s,)
        Kilograms of the second, at least, that come with each kilogram of key, >= 0.
    single : bool
        There is a single aim: the key is what chain adds there, and plates are what it is compared
        with.
    """

    short: Comparison
    much: Comparison
    grows: Floats
    single: bool

    def key_kg(self, added_kg: Floats) -> Floats:
        """Key of what additions add at the aims, shape (s, ..., j)."""
        if self.single:
            return np.asarray(added_kg[..., 0])
        return self.short.of(added_kg, np.arange(len(added_kg)))


def keys_of(problem: Problem, fixtures: Ints, density_kg_per_m: Floats) -> Keys:
    """Choose the comparisons for some fixtures.

    Parameters
    ----------
    problem : Problem
        The search problem.
    fixtures : array of int, shape (s,)
        Positions of the fixtures.
    density_kg_per_m : array, shape (k,)
        Density of each kind.
    """
    heights, count = len(problem.target.heights_m), fixtures.size
    none = np.zeros(count, dtype=np.int64)
    if heights < 2:
        one = Comparison(none, none, np.ones(count))
        return Keys(short=one, much=one, grows=np.ones(count), single=True)
    lift_kg = density_kg_per_m[:, None] * problem.lift_m[fixtures][:, :, :heights]
    lift_kg = lift_kg * problem.allowed[fixtures][:, :, None]
    short, much = (none + heights - 1, none), (none, none + heights - 1)
    if heights > 2:
        short, much = _deciding(problem, fixtures, lift_kg.sum(axis=1))
    first, second = (Comparison(*pair, _count(problem, pair[0])) for pair in (short, much))
    return Keys(short=first, much=second, grows=_growth(first, second, lift_kg), single=False)


def _count(problem: Problem, at: Ints) -> Floats:
    """Miss for each kilogram of difference: half at either aim, or all at one below its limit."""
    if problem.target.never_over:
        return np.asarray(1.0 / np.array(problem.target.under_per_kg)[at])
    return np.full(at.shape, 0.5)


def _growth(short: Comparison, much: Comparison, lift_kg: Floats) -> Floats:
    """How much the second comparison grows, at least, with each kilogram of key."""
    fixture = np.arange(len(lift_kg))
    key_kg, grown_kg = short.of(lift_kg, fixture), -much.of(lift_kg, fixture)
    counts = key_kg > _NOTHING_KG
    each = np.divide(grown_kg, key_kg, out=np.full_like(key_kg, np.inf), where=counts)
    least = each.min(axis=1)
    return np.where(np.isfinite(least), np.maximum(least, 0.0), 0.0)


def _deciding(
    problem: Problem, fixtures: Ints, shape_kg: Floats
) -> tuple[tuple[Ints, Ints], tuple[Ints, Ints]]:
    """Pairs that decide just below and just above the best amount of chain of one shape.

    Where no amount is too little, or none too much, the last and the first height stand in.
    """
    there_kg = problem.held_kg[fixtures] + (problem.band.load_kg if problem.band else 0.0)
    missing_kg = (problem.wanted_kg - there_kg)[:, : shape_kg.shape[1]]
    rise_kg = np.maximum(np.ptp(shape_kg, axis=1), _NOTHING_KG)
    most = 2.0 * (np.ptp(missing_kg, axis=1) + 1.0) / rise_kg
    best, step = _best_amount(problem, missing_kg, shape_kg, most), _ASIDE * most
    less, more = ((best + side * step)[:, None] * shape_kg for side in (-1, 1))
    short_at, short_held = _worst(problem, missing_kg - less)
    much_at, much_held = _worst(problem, missing_kg - more)
    row, last = np.arange(fixtures.size), shape_kg.shape[1] - 1
    rises = shape_kg[row, short_at] > shape_kg[row, short_held]
    falls = shape_kg[row, much_held] > shape_kg[row, much_at]
    return (
        (np.where(rises, short_at, last), np.where(rises, short_held, 0)),
        (np.where(falls, much_at, 0), np.where(falls, much_held, last)),
    )


def _best_amount(problem: Problem, missing_kg: Floats, shape_kg: Floats, most: Floats) -> Floats:
    """How many times the shape leaves least to miss under each fixture: golden section."""
    low, high = np.zeros_like(most), most
    for _ in range(_ROUNDS):
        left, right = high - _SHRINK * (high - low), low + _SHRINK * (high - low)
        misses = [_over_kg(problem, missing_kg - x[:, None] * shape_kg) for x in (left, right)]
        better = misses[0].max(axis=1) <= misses[1].max(axis=1)
        low, high = np.where(better, low, left), np.where(better, right, high)
    return np.asarray(0.5 * (low + high))


def _worst(problem: Problem, missing_kg: Floats) -> tuple[Ints, Ints]:
    """The aim that is missed most, and the aim that holds the plates back."""
    return np.argmax(_over_kg(problem, missing_kg), axis=1), np.argmin(missing_kg, axis=1)


def _over_kg(problem: Problem, missing_kg: Floats) -> Floats:
    """What is missing beyond the least, as a limit at each aim counts it [kg]."""
    over_kg = missing_kg - missing_kg.min(axis=1, keepdims=True)
    if problem.target.never_over:
        return np.asarray(over_kg / np.array(problem.target.under_per_kg))
    return np.asarray(over_kg)
