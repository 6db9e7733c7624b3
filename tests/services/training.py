"""Questions for ramps and sessions on a gym with next to nothing in it."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING

from topheavy.gym.lifts import lift_named
from topheavy.gym.people import Lifter
from topheavy.gymfile import read_gym
from topheavy.lifter.evidence import FullRange
from topheavy.rigging.target import Ask
from topheavy.services.ramp import RampAnswer, RampQuestion, Tried, answer_ramp
from topheavy.services.rig import Place, RigQuestion
from topheavy.services.session import SessionAnswer, SessionQuestion, answer_session
from topheavy.training.days import day_named
from topheavy.training.session import Plan

if TYPE_CHECKING:
    from topheavy.gym.gym import Gym

TINY = read_gym(Path(__file__).parents[1] / "data" / "tiny_gym.toml")


def place(gym: Gym = TINY, *, best_kg: float | None = 100.0) -> Place:
    """Ansa on the bench, with this best."""
    ansa, bench = gym.lifters[0], lift_named("bench")
    lifts = {bench.name: replace(ansa.measured(bench), best_kg=best_kg)}
    lifter = Lifter(name=ansa.name, lifts=lifts)
    return Place(gym=gym, lifter=lifter, lift=bench, station=gym.station_for(bench))


def rig(*, best_kg: float | None = 100.0, typed_kg: float | None = None) -> RigQuestion:
    """65 kg at the bottom, 84 kg at the top."""
    ask = Ask(bottom_kg=65.0, top_kg=84.0, best_kg=typed_kg)
    evidence = () if typed_kg is None else (FullRange(load_kg=typed_kg),)
    return RigQuestion(place=place(best_kg=best_kg), ask=ask, evidence=evidence)


@cache
def ramp(
    *,
    best_kg: float | None = 100.0,
    singles: bool = False,
    chain_from: int = 1,
    tried: Tried | None = None,
) -> RampAnswer:
    """A ramp to that rig."""
    return answer_ramp(
        RampQuestion(
            rig=rig(best_kg=best_kg),
            reps=1 if singles else 3,
            singles=singles,
            chain_from=chain_from,
            tried=tried,
        )
    )


@cache
def session(day: str = "heavy", *, best_kg: float | None = 100.0) -> SessionAnswer:
    """A session with that rig."""
    plan = Plan.of(day_named(day))
    return answer_session(SessionQuestion(rig=rig(best_kg=best_kg), plan=plan))
