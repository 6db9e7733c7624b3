"""Reps and speed work of our own invention, each simulated once for all tests."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from typing import TYPE_CHECKING

from tests.present.answers import ANSWERS
from topheavy.gym.bands import Band
from topheavy.gym.people import StationPeg
from topheavy.mechanics.band_readings import BandReadings
from topheavy.mechanics.banded import Peg
from topheavy.services.reps.rep import RepAnswer, RepQuestion, answer_rep
from topheavy.services.reps.rig import FoundRig
from topheavy.services.reps.speed import SpeedAnswer, SpeedQuestion, answer_speed
from topheavy.services.strength import strength_of

if TYPE_CHECKING:
    from topheavy.mechanics.rig import Rig
    from topheavy.services.rig import Place, RigAnswer

LOW = StationPeg(name="low", peg=Peg(height_m=0.12, offset_m=0.06))
HIGH = StationPeg(name="high", peg=Peg(height_m=2.2, offset_m=0.06))


def band(tag: str, pull: float = 1.0, rest_m: float = 0.45) -> Band:
    """A band that pulls about 18 kg at 1.1 m, times `pull`."""
    lengths = (0.55, 0.7, 0.85, 1.0, 1.15)
    return Band(
        readings=BandReadings(
            tag=tag,
            rest_m=rest_m,
            length_m=lengths,
            tension_kg=tuple(pull * 30.0 * (m - rest_m) - 4.0 * (m - rest_m) ** 2 for m in lengths),
        )
    )


def with_bands(where: Place, *bands: Band, pegs: tuple[StationPeg, ...] = (LOW,)) -> Place:
    """The same place with bands in stock and pegs at the station."""
    stock = replace(where.gym.stock, bands=bands)
    station = replace(where.station, pegs=pegs)
    gym = replace(where.gym, stock=stock, stations=(station,))
    return replace(where, gym=gym, station=station)


def found(name: str) -> RigAnswer:
    """A rig of the shared answers."""
    return ANSWERS[name]


def place_for(name: str) -> Place:
    """Its place, with a pair of bands at the low peg."""
    return with_bands(found(name).question.place, band("red-1"), band("red-2", 1.01))


def heavier(rig: Rig, plates_kg: float) -> Rig:
    """The same chain with other plates."""
    return replace(rig, plates_kg=plates_kg)


MANY = 40
"""Plausible lifters: enough for a range, few enough to be quick."""


def rep_of(
    name: str = "bench", effort: float | None = None, plates_kg: float | None = None
) -> RepAnswer:
    """The rep with one of the shared rigs."""
    return _rep_of(name, effort, plates_kg)


@cache
def _rep_of(name: str, effort: float | None, plates_kg: float | None) -> RepAnswer:
    rig = found(name).best.rig
    rig = rig if plates_kg is None else heavier(rig, plates_kg)
    place = place_for(name)
    return answer_rep(
        RepQuestion(place=place, rig=rig, strength=strength_of(place), effort=effort, many=MANY)
    )


def speed_of(name: str = "bench", shares: tuple[float, ...] = (0.4, 0.5, 0.7)) -> SpeedAnswer:
    """Speed work with the chain of one of the shared rigs."""
    return _speed_of(name, shares)


@cache
def _speed_of(name: str, shares: tuple[float, ...]) -> SpeedAnswer:
    place = place_for(name)
    return answer_speed(
        SpeedQuestion(
            place=place,
            rig=found(name).best.rig,
            strength=strength_of(place),
            shares=shares,
            many=MANY,
        )
    )


def rig_of(name: str = "bench") -> FoundRig:
    """What the views want to know of a shared rig."""
    one = found(name)
    return FoundRig(
        best=one.best, reading=one.reading, cautions=one.cautions, miss_kg=one.best.miss_kg
    )
