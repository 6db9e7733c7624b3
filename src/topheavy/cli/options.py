"""Options that several commands share, and how their words are read."""

from __future__ import annotations

from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from topheavy.asked.quantities import length_m, load_kg, mass_kg, name_in
from topheavy.cli.panels import GYM_UNITS, option
from topheavy.errors import BadInputError

if TYPE_CHECKING:
    from topheavy.gym.gym import Gym
    from topheavy.units import UnitSystem

__all__ = [
    "WHERE",
    "GymOption",
    "JsonOption",
    "LiftOption",
    "LifterOption",
    "StationOption",
    "UnitsOption",
    "length_m",
    "load_gym",
    "load_kg",
    "mass_kg",
    "name_in",
    "unit_system",
]  # fmt: skip

GymOption = Annotated[
    Path | None,
    typer.Option(
        "--gym",
        metavar="FILE",
        help="Gym file (TOML), or store:NAME. Without it: the built-in gym.",
    ),
]
UnitsOption = Annotated[
    str | None,
    typer.Option("--units", metavar="kg|lb", help="Show kg and cm, or lb and in."),
]
JsonOption = Annotated[
    bool, typer.Option("--json", help="Print the same facts as JSON, SI values beside the words.")
]
WHERE = "Where and who"


_where = partial(option, panel=WHERE)
LifterOption = Annotated[
    str | None,
    _where(
        "--lifter", "NAME", "Whose heights and bests. Without it: the first measured for the lift."
    ),
]
LiftOption = Annotated[str, _where("--lift", "LIFT", "bench press, squat, deadlift, ...")]
StationOption = Annotated[
    str | None, _where("--station", "NAME", "Where. Without it: the first that suits.")
]


def load_gym(path: Path | None) -> Gym:
    """Read the gym file, fetch ``store:NAME`` with what its log tells, or take the built-in gym."""
    from topheavy.gymfile import demo_gym, read_gym

    if path is not None and str(path).startswith("store:"):
        from topheavy.cli.stored import gym_with_log

        found = gym_with_log(str(path))
    else:
        found = demo_gym() if path is None else read_gym(path)
    GYM_UNITS.set(found.units)
    return found


def unit_system(name: str | None, gym: Gym | None = None) -> UnitSystem:
    """Choose the units to show: as asked, else as the gym says, else kg and cm."""
    from topheavy.units import SYSTEMS

    chosen = name or (gym.units if gym else "kg")
    if chosen not in SYSTEMS:
        raise BadInputError(
            "Unknown units", field="--units", got=repr(chosen), wanted=" or ".join(SYSTEMS)
        )
    return SYSTEMS[chosen]
