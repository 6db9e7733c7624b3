"""One rep with scipy's solve_ivp, in plain floats: the model written down once more, and lean.

Nothing here is shared with the simulation that is measured, but the numbers of the model: the load
is read from the curve itself, not from a grid, and the strength from its formula.
"""

from __future__ import annotations

from bisect import bisect_right
from dataclasses import dataclass
from math import exp
from typing import TYPE_CHECKING, Any, Literal

import numpy as np
from scipy.integrate import solve_ivp

from topheavy.constants import STANDARD_GRAVITY_M_PER_S2 as G

if TYPE_CHECKING:
    from collections.abc import Callable

    from topheavy.mechanics.curve import LoadCurve

Method = Literal["RK45", "DOP853", "LSODA"]


@dataclass(frozen=True, slots=True)
class Tolerance:
    """How a rep is solved: method, tolerances, how many points force is read at."""

    method: Method
    relative: float
    absolute: float
    points: int


TIGHT = Tolerance("DOP853", 1e-9, 1e-11, 4001)


class _Event:
    """Where the solver is to stop: a crossing of zero, in one direction."""

    terminal = True

    def __init__(self, crossing: Callable[[float, Any], float], direction: float) -> None:
        self.crossing, self.direction = crossing, direction

    def __call__(self, t: float, state: Any) -> float:
        return self.crossing(t, state)


class OneRep:
    """One lifter's rep. `numbers` holds the fields of `Motion` as floats."""

    def __init__(
        self, numbers: dict[str, float], lifter: tuple[float, float, float], hung: LoadCurve
    ) -> None:
        self.best, self.bottom, self.travel = lifter
        self.n = numbers
        self.knots = hung.height_m.tolist()
        self.below, self.above = hung.below_kg.tolist(), hung.above_kg.tolist()
        self.limbs = numbers["limb_share"] * self.best

    def hung(self, z: float) -> float:
        """Chain off the floor [kg]."""
        height = self.bottom + z
        i = bisect_right(self.knots, height)
        if i == 0:
            return float(self.below[0])
        if i == len(self.knots):
            return float(self.above[-1])
        share = (height - self.knots[i - 1]) / (self.knots[i] - self.knots[i - 1])
        return float(self.above[i - 1] + share * (self.below[i] - self.above[i - 1]))

    def capacity(self, z: float) -> float:
        """Force at no speed, active and fresh [N]."""
        n, u = self.n, z / self.travel
        dip = n["dip_at"]
        if u < dip:
            shape = 1.0 + n["bottom_surplus"] * ((dip - u) / dip) ** 2
        else:
            rise = (u - dip) / n["top_width"]
            shape = 1.0 + n["top_surplus"] * (1.0 - exp(-rise * rise))
        return G * (self.best * shape / n["reserve"] + self.limbs)

    def solve(self, straight_kg: float, how: Tolerance) -> tuple[bool, float, float]:
        """Completed or not, duration [s] and greatest force [N]."""
        n, steady = self.n, straight_kg + self.limbs
        k, activation, fatigue = n["pick_up"], n["activation_s"], n["fatigue_s"]
        limit, hill = n["speed_limit_m_per_s"], n["hill"]
        top = min((straight_kg + self.hung(self.travel)) / self.best, 1.0)
        ease: float = min(n["ease_m_per_s2"] * top ** -n["ease_power"], n["hardest_ease_g"] * G)
        rest = 1.0 - min((steady + self.hung(0.0)) * G / self.capacity(0.0), 1.0)

        def force(t: float, z: float, v: float) -> float:
            x = v / limit
            active = (1.0 - rest * exp(-t / activation)) * exp(-t / fatigue)
            return active * self.capacity(z) * (1.0 - x) / (1.0 + x / hill)

        def rates(t: float, state: Any) -> tuple[float, float]:
            z, w = float(state[0]), float(state[1])
            mass = steady + self.hung(z)
            v = w / mass**k
            return v, mass ** (k - 1.0) * (force(t, z, v) - mass * G)

        def speed(state: Any) -> float:
            return float(float(state[1]) / (steady + self.hung(float(state[0]))) ** k)

        def stalls(t: float, state: Any) -> float:
            return float(state[1]) if t > 1e-3 else 1.0

        def eases(_t: float, state: Any) -> float:
            return float(speed(state) ** 2) - 2.0 * ease * (self.travel - float(state[0]))

        solved = solve_ivp(
            rates,
            (0.0, 12.0),
            (0.0, 0.0),
            method=how.method,
            rtol=how.relative,
            atol=how.absolute,
            dense_output=True,
            events=(_Event(stalls, -1.0), _Event(eases, 1.0)),
        )
        end = float(solved.t[-1])
        assert solved.t_events is not None
        assert solved.sol is not None
        done = len(solved.t_events[1]) > 0
        times = end * np.linspace(0.0, 1.0, how.points) ** 2
        states = solved.sol(times)
        forces = [
            force(t, z, speed((z, w)))
            for t, z, w in zip(times.tolist(), *states.tolist(), strict=True)
        ]
        return done, end + (speed(solved.y[:, -1]) / ease if done else 0.0), max(forces)
