"""A found rig in the words of the options that describe it to `curve` and `weigh`."""

from __future__ import annotations

import shlex
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from topheavy.units import SYSTEMS

if TYPE_CHECKING:
    from topheavy.rigging.hung_band import HungBand
    from topheavy.services.rig import RigAnswer

_WIDTH: Final = 74
_OPTIONS: Final = ("left", "right", "hang", "feeder", "connector", "straight", "lifter", "lift",
                   "station")  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Described:
    """What was found, each part as its option takes it; empty when there is none."""

    gym: str
    left: str
    right: str
    hang: str
    feeder: str
    connector: str
    straight: str
    lifter: str
    lift: str
    station: str
    slack: str
    left_bands: tuple[str, ...] = ()
    right_bands: tuple[str, ...] = ()


def described_words(answer: RigAnswer) -> Described:
    """Describe the best rig of an answer."""
    place, best = answer.question.place, answer.best
    held = best.fixture
    feeder = f"{held.feeder.name}:{held.setting.label}" if held.feeder and held.setting else ""
    return Described(
        gym=place.gym.name,
        left="+".join(piece.tag for piece in best.left) or "none",
        right="+".join(piece.tag for piece in best.right) or "none",
        hang=held.style if best.pieces else "doubled",
        feeder=feeder,
        connector=held.connector.name if held.connector else "",
        straight=_mass(best.rig.straight_weight_kg, place.gym.units),
        lifter=place.lifter.name,
        lift=place.lift.name,
        station=place.station.name,
        slack=place.lay,
        left_bands=tuple(_band(hung) for hung in best.left_bands),
        right_bands=tuple(_band(hung) for hung in best.right_bands),
    )


def _band(hung: HungBand) -> str:
    return f"{hung.band.tag} {'doubled ' if hung.doubled else ''}on {hung.peg.name}"


def _mass(mass_kg: float, gym_units: str) -> str:
    """Write a mass [kg] in the unit where it is round, else in the gym's own; exact either way.

    >>> _mass(61.2349699, "lb"), _mass(83.5, "lb"), _mass(80.000001, "kg")
    ('135 lb', '83.5 kg', '80.000001 kg')
    """
    written = {
        units.name: f"{round(mass_kg / units.kg_per_mass, 6):.9g} {units.mass_unit}"
        for units in SYSTEMS.values()
    }
    own = written[gym_units]
    return min(own, *written.values(), key=lambda text: (len(text), text != own))


def as_options(words: Described) -> tuple[str, ...]:
    """Write a description as options for a shell, each with its value.

    Examples
    --------
    >>> found = Described(
    ...     gym="The Barn", left="A1+A2", right="A3+A4", hang="doubled", feeder="ring strap:7",
    ...     connector="10 mm screw link", straight="80 kg", lifter="Osric", lift="bench press",
    ...     station="bench 1", slack="piled",
    ... )
    >>> as_options(found)[:3]
    ('--left A1+A2', '--right A3+A4', "--feeder 'ring strap:7'")
    """
    options = [
        f"--{name} {shlex.quote(value)}"
        for name in _OPTIONS
        if (value := getattr(words, name)) and (name, value) != ("hang", "doubled")
    ]
    options += [f"--left-band {shlex.quote(band)}" for band in words.left_bands]
    options += [f"--right-band {shlex.quote(band)}" for band in words.right_bands]
    return (*options, *(["--dragged"] if words.slack == "dragged" else []))


def command_lines(command: str, options: tuple[str, ...]) -> str:
    r"""Lay a long command out in lines that a shell takes as one.

    >>> print(command_lines("topheavy weigh", ("--left " + "A" * 50, "--right B1")))
    topheavy weigh --left AAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAA \
      --right B1
    """
    lines = [command]
    for option in options:
        if len(lines[-1]) + len(option) + 1 > _WIDTH:
            lines[-1] += " \\"
            lines.append(f"  {option}")
        else:
            lines[-1] += f" {option}"
    return "\n".join(lines)
