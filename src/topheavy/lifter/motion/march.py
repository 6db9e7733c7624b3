"""The way up, step by step, for thousands of reps at once: classic Runge-Kutta on two states."""

from __future__ import annotations

from dataclasses import dataclass, fields
from typing import TYPE_CHECKING, Final

import numpy as np

from topheavy.lifter.motion.easing import can_ease
from topheavy.lifter.motion.raising import Rates, Under

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    from topheavy.lifter.motion.raising import Climb

    Floats = NDArray[np.float64]
    Ints = NDArray[np.intp]

STALLED: Final = 1
EASED: Final = 2
ARRIVED: Final = 3
"""How the way up ends: stopped short; eased into lockout; still moving at lockout."""

LONGEST_S: Final = 12.0
"""A rep that still creeps after this time counts as missed."""

_LADDER: Final = (
    (0.048, 0.006),
    (0.144, 0.016),
    (1.2, 0.032),
    (LONGEST_S, 0.06),
)
"""Until when [s] a step of which length [s] is taken: fine while the force builds up."""


_BELOW_TOP: Final = 1.0 - 1e-9


@dataclass(slots=True, eq=False)
class Steps:
    """Every step of n reps, and the step in which each ended.

    Rows of `height_m`, `speed_m_per_s` and `force_n`, shape (rows, n), belong to `time_s`; what
    stands after the step in which a rep ended has no meaning. `last` is the row at which that step
    began, `end` tells how it ended, `drive` and `push` are w and dw/dt at both its ends, shape
    (2, n), `work_j` the lifter's work up to its beginning, `joined_j` twice the kinetic energy
    that links had taken up by then as they joined.
    """

    time_s: Floats
    height_m: Floats
    speed_m_per_s: Floats
    force_n: Floats
    drive: Floats
    push: Floats
    last: Ints
    end: NDArray[np.int8]
    work_j: Floats
    joined_j: Floats

    @classmethod
    def empty(cls, count: int, steps_s: list[float]) -> Steps:
        """Make room for `count` reps and their steps [s]."""
        height, speed, force = (np.empty((len(steps_s) + 1, count)) for _ in range(3))
        return cls(
            time_s=np.concatenate([[0.0], np.cumsum(steps_s)]),
            height_m=height,
            speed_m_per_s=speed,
            force_n=force,
            drive=np.zeros((2, count)),
            push=np.zeros((2, count)),
            last=np.zeros(count, np.intp),
            end=np.zeros(count, np.int8),
            work_j=np.zeros(count),
            joined_j=np.zeros(count),
        )

    def write(self, row: int, ids: Ints, state: _State) -> None:
        """Write down where the reps `ids` are after a step."""
        whole = ids.size == self.last.size
        for table, value in (
            (self.height_m, state.height),
            (self.speed_m_per_s, state.now.speed),
            (self.force_n, state.now.force),
        ):
            if whole:
                table[row] = value
            else:
                table[row, ids] = value

    def replace(self, which: Ints, other: Steps) -> None:
        """Put other steps of the same times in the place of the reps `which`."""
        for name in ("height_m", "speed_m_per_s", "force_n", "drive", "push"):
            getattr(self, name)[:, which] = getattr(other, name)
        for name in ("last", "end", "work_j", "joined_j"):
            getattr(self, name)[which] = getattr(other, name)

    def note(self, row: int, gone: Ints, ids: Ints, states: tuple[_State, _State]) -> None:
        """Note that the reps at the places `gone` end in the step from `row` on."""
        ended = ids[gone]
        self.last[ended] = row
        self.work_j[ended] = states[0].work[gone]
        self.joined_j[ended] = states[0].joined[gone]
        for side, state in enumerate(states):
            self.drive[side, ended] = state.drive[gone]
            self.push[side, ended] = state.now.push[gone]


@dataclass(slots=True, eq=False)
class _State:
    """Where the reps under way are: height [m], drive w, energies so far [J], and the rates."""

    height: Floats
    drive: Floats
    work: Floats
    joined: Floats
    now: Rates

    def kept(self, on: Ints) -> _State:
        now = Rates(*(value.take(on) for value in self.now))
        return _State(
            self.height.take(on), self.drive.take(on), self.work.take(on), self.joined.take(on), now
        )


@dataclass(slots=True, eq=False)
class _Clock:
    """Activation A(t) and freshness phi(t), carried on by products instead of exponentials."""

    rest: Floats
    fresh: Floats
    rest_half: Floats
    fresh_half: Floats

    @classmethod
    def start(cls, climb: Climb) -> _Clock:
        ones = np.ones(climb.count)
        return cls(1.0 - climb.start_share, ones, ones, ones)

    def set_step(self, climb: Climb, ids: Ints, step_s: float) -> None:
        self.rest_half = np.exp(-0.5 * step_s / climb.activation_s[ids])
        self.fresh_half = np.exp(-0.5 * step_s / climb.fatigue_s[ids])

    def half_on(self) -> Floats:
        self.rest = self.rest * self.rest_half
        self.fresh = self.fresh * self.fresh_half
        return self.active

    @property
    def active(self) -> Floats:
        return (1.0 - self.rest) * self.fresh

    def keep(self, on: Ints) -> None:
        for field in fields(self):
            setattr(self, field.name, getattr(self, field.name).take(on))


def climb_up(climb: Climb, fineness: int = 1) -> Steps:
    """Raise every rep from rest at the bottom until it stalls or reaches lockout.

    Parameters
    ----------
    climb : Climb
        The reps.
    fineness : int
        Divides every step [-], >= 1.
    """
    steps_s = list(_ladder(fineness))
    kept = _march(climb, steps_s, careful=False)
    doubted = np.flatnonzero((kept.end == EASED) & ~_able(climb, kept))
    if doubted.size:
        kept.replace(doubted, _march(climb.part(doubted), steps_s, careful=True))
    return kept


def _able(climb: Climb, kept: Steps) -> NDArray[np.bool_]:
    """Tell which reps have the force to ease off where they end."""
    at = np.arange(climb.count)
    end = kept.last + 1
    height = np.minimum(kept.height_m[end, at], climb.travel_m * _BELOW_TOP)
    return can_ease(climb, at, kept.time_s[end], height, kept.speed_m_per_s[end, at])


def _march(climb: Climb, steps_s: list[float], *, careful: bool) -> Steps:
    """March all reps; `careful` asks at every step whether a lifter has the force to ease off."""
    kept = Steps.empty(climb.count, steps_s)
    under, clock = Under.of(climb, np.arange(climb.count)), _Clock.start(climb)
    none = np.zeros(climb.count)
    state = _State(none, none, none, none, under.rates(climb, none, none, clock.active))
    kept.write(0, under.ids, state)
    size = 0.0
    for row, step_s in enumerate(steps_s):
        if step_s != size:
            size = step_s
            clock.set_step(climb, under.ids, size)
        was, state = state, _step(climb, under, clock, state, size)
        kept.write(row + 1, under.ids, state)
        over = _ending(climb, under, state, float(kept.time_s[row + 1]) if careful else None)
        if over is None:
            continue
        gone, on = np.flatnonzero(over), np.flatnonzero(over == 0)
        kept.note(row, gone, under.ids, (was, state))
        kept.end[under.ids[gone]] = over[gone]
        if not on.size:
            return kept
        under.keep(on)
        clock.keep(on)
        state = state.kept(on)
    kept.note(len(steps_s) - 1, np.arange(under.ids.size), under.ids, (was, state))
    kept.end[under.ids] = STALLED
    return kept


def _step(climb: Climb, under: Under, clock: _Clock, was: _State, h: float) -> _State:
    """One step of classic Runge-Kutta, the lifter's work carried along with the same weights."""
    z, w, one = was.height, was.drive, was.now
    half, sixth = 0.5 * h, h / 6.0
    middle = clock.half_on()
    two = under.rates(climb, z + half * one.speed, w + half * one.push, middle)
    three = under.rates(climb, z + half * two.speed, w + half * two.push, middle)
    end = clock.half_on()
    four = under.rates(climb, z + h * three.speed, w + h * three.push, end)
    z = z + sixth * (one.speed + 2.0 * (two.speed + three.speed) + four.speed)
    w = w + sixth * (one.push + 2.0 * (two.push + three.push) + four.push)
    power = two.force * two.speed + three.force * three.speed
    gain = sixth * (one.force * one.speed + 2.0 * power + four.force * four.speed)
    now = under.rates(climb, z, w, end)
    joined = 0.5 * (now.mass - one.mass) * (now.speed**2 + one.speed**2)
    return _State(z, w, was.work + gain, was.joined + joined, now)


def _ending(
    climb: Climb, under: Under, state: _State, time_s: float | None
) -> NDArray[np.int8] | None:
    """Tell which reps end with this step, and how; None when none does.

    A lifter eases off once slowing down steadily just reaches lockout, and only one who has the
    force that takes, all the way: a bar that slows by itself is pushed on. Without a time that is
    not asked yet, as hardly any lifter lacks it.
    """
    left, speed = under.travel - state.height, state.now.speed
    stalled = state.drive <= 0.0
    near = (speed**2 >= 2.0 * under.ease * left) & ~stalled
    if not (near.any() or stalled.any()):
        return None
    over = np.where(stalled, STALLED, np.where(near, EASED, 0)).astype(np.int8)
    if time_s is None or not near.any():
        return over
    some = np.flatnonzero(near)
    height = np.minimum(state.height[some], under.travel[some] * _BELOW_TOP)
    able = can_ease(climb, under.ids[some], np.full(some.size, time_s), height, speed[some])
    over[some] = np.where(able, EASED, np.where(left[some] <= 0.0, ARRIVED, 0))
    return over if over.any() else None


def _ladder(fineness: int) -> Iterator[float]:
    start_s = 0.0
    for until_s, step_s in _LADDER:
        count = round((until_s - start_s) / step_s) * fineness
        yield from [step_s / fineness] * count
        start_s = until_s
