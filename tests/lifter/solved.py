"""One rep solved by scipy's solve_ivp with Newton's law as it stands: height, speed, load's slope.

The simulation carries M^k v and reads a grid; here the state is the speed itself, links that join
enter as k (dC/dz) v^2, curves are read exactly, and the step is the solver's own.
"""

from __future__ import annotations

from dataclasses import dataclass, fields
from typing import TYPE_CHECKING, Any

import numpy as np
from scipy.integrate import solve_ivp

from topheavy.constants import STANDARD_GRAVITY_M_PER_S2 as G

if TYPE_CHECKING:
    from collections.abc import Callable

    from topheavy.lifter.motion_model import Motion
    from topheavy.mechanics.curve import LoadCurve


@dataclass(frozen=True, slots=True, kw_only=True)
class Case:
    """One rep, in plain numbers; loads as curves."""

    motion: Motion
    best_kg: float
    bottom_m: float
    travel_m: float
    straight_kg: float
    hung: LoadCurve
    band: LoadCurve


@dataclass(frozen=True, slots=True)
class Solved:
    """What the solver says."""

    completed: bool
    duration_s: float
    peak_force_n: float
    height_m: float


class _Crossing:
    terminal = True

    def __init__(self, value: Callable[[float, Any], float], direction: float) -> None:
        self.value, self.direction = value, direction

    def __call__(self, t: float, state: Any) -> float:
        return self.value(t, state)


def solve(case: Case) -> Solved:
    """Solve a rep at tight tolerance."""
    n = {f.name: float(np.ravel(getattr(case.motion, f.name))[0]) for f in fields(case.motion)}
    limbs = n["limb_share"] * case.best_kg

    def hung(z: float) -> float:
        return float(case.hung.at(case.bottom_m + z))

    def pull(z: float) -> float:
        return G * float(case.band.at(case.bottom_m + z))

    def capacity(z: float) -> float:
        u = z / case.travel_m
        below = max(n["dip_at"] - u, 0.0) / n["dip_at"]
        above = max(u - n["dip_at"], 0.0) / n["top_width"]
        shape = 1 + n["bottom_surplus"] * below**2 + n["top_surplus"] * (1 - np.exp(-(above**2)))
        return float(G * (case.best_kg * shape / n["reserve"] + limbs))

    start_n = (case.straight_kg + limbs + hung(0.0)) * G + pull(0.0)
    held = min(start_n / capacity(0.0), 1.0)
    top_kg = case.straight_kg + hung(case.travel_m) + pull(case.travel_m) / G
    ease = n["ease_m_per_s2"] * min(top_kg / case.best_kg, 1.0) ** -n["ease_power"]
    ease = float(min(ease, n["hardest_ease_g"] * G))

    def force(t: float, z: float, v: float) -> float:
        active = 1.0 - (1.0 - held) * np.exp(-t / n["activation_s"])
        x = v / n["speed_limit_m_per_s"]
        fresh = np.exp(-t / n["fatigue_s"])
        return float(active * fresh * capacity(z) * (1 - x) / (1 + x / n["hill"]))

    def motion(t: float, state: Any) -> tuple[float, float]:
        z, v = float(state[0]), float(state[1])
        mass = case.straight_kg + limbs + hung(z)
        slope = float(case.hung.slope_at(case.bottom_m + z))
        net = force(t, z, v) - mass * G - pull(z) - n["pick_up"] * slope * v**2
        return v, net / mass

    stalls = _Crossing(lambda t, y: float(y[1]) if t > 1e-3 else 1.0, -1.0)
    eases = _Crossing(lambda _, y: float(y[1] ** 2 - 2 * ease * (case.travel_m - y[0])), 1.0)
    done = solve_ivp(
        motion,
        (0.0, 12.0),
        (0.0, 0.0),
        method="DOP853",
        rtol=1e-8,
        atol=1e-10,
        max_step=0.02,
        dense_output=True,
        events=(stalls, eases),
    )
    assert done.t_events is not None
    assert done.sol is not None
    end = float(done.t[-1])
    completed = len(done.t_events[1]) > 0
    times = end * np.linspace(0.0, 1.0, 1501) ** 2
    forces = [force(t, z, v) for t, (z, v) in zip(times, done.sol(times).T, strict=True)]
    tail = float(done.y[1, -1]) / ease if completed else 0.0
    height = case.travel_m if completed else float(done.y[0, -1])
    return Solved(completed, end + tail, max(forces), height)
