"""Options that several commands share, and how their words are read."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from topheavy.cli.panels import GYM_UNITS
from topheavy.errors import BadInputError

if TYPE_CHECKING:
    from topheavy.gym.gym import Gym
    from topheavy.units import UnitSystem

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


def _where(name: str, metavar: str, text: str) -> Any:
    return typer.Option(name, metavar=metavar, help=text, rich_help_panel=WHERE)


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


def mass_kg(text: str | None, option: str, best_kg: float | None = None) -> float | None:
    """Read a mass; a percentage is of the lifter's best [kg]."""
    if text is None:
        return None
    from topheavy.units import parse_quantity

    if not text.strip().endswith("%"):
        return parse_quantity(text, "mass", field=option)
    share = parse_quantity(text, "share", field=option)
    if best_kg is None:
        raise BadInputError(
            "A percentage here is of the lifter's best, and no best is known",
            field=option,
            got=repr(text),
            wanted="a mass, or --best, or a best in the gym file",
        )
    return share * best_kg


def load_kg(text: str | None, option: str, best_kg: float | None = None) -> float | None:
    """Read a load on the bar [kg], which is never below nothing; a percentage is of the best."""
    found_kg = mass_kg(text, option, best_kg)
    if found_kg is not None and found_kg < 0:
        raise BadInputError(
            "A load must not be negative", field=option, got=repr(text), wanted="a load above zero"
        )
    return found_kg


def name_in(text: str | None, option: str) -> str | None:
    """Refuse a name that is empty; None when the option was left out."""
    if text is not None and not text.strip():
        raise BadInputError(
            "There is no name in it",
            field=option,
            got=repr(text),
            wanted="a name, or no such option",
        )
    return text


def length_m(text: str | None, option: str) -> float | None:
    """Read a length [m]."""
    if text is None:
        return None
    from topheavy.units import parse_quantity

    return parse_quantity(text, "length", field=option)
