"""What can be picked on the rig page: people, lifts, places, and the parts of the stock."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from topheavy.errors import TopheavyError
from topheavy.gym.lifts import LIFTS
from topheavy.present.figure import length, mass, plate_mark
from topheavy.present.rig.steps import setting_text
from topheavy.units import SYSTEMS

if TYPE_CHECKING:
    from topheavy.gym.bands import Band
    from topheavy.gym.gym import Gym
    from topheavy.gym.lifts import Lift
    from topheavy.gym.people import Lifter
    from topheavy.units import UnitSystem


@dataclass(frozen=True, slots=True, kw_only=True)
class PlaceChoice:
    """A station, what is known of the lifter there in words, and its pegs for bands."""

    station: str
    heights: str
    pegs: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class LiftChoice:
    """A lift of one lifter: best single in words, stations; those where it was measured first."""

    lift: str
    best: str
    stations: tuple[PlaceChoice, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class LifterChoice:
    """A lifter and the lifts that were measured."""

    lifter: str
    lifts: tuple[LiftChoice, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class SettingChoice:
    """A setting of a feeder: as the gym file labels it, and as it is said."""

    label: str
    said: str


@dataclass(frozen=True, slots=True, kw_only=True)
class FeederChoice:
    """A feeder of which there are two, with its settings, shortest first."""

    feeder: str
    settings: tuple[SettingChoice, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class KindChoice:
    """Fit pieces of one size and length, by their tags."""

    size: str
    links: int
    tags: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class PlateChoice:
    """A plate: its mass [kg], what stands on it, and how many go on each side at most."""

    mass_kg: float
    mark: str
    most: int


@dataclass(frozen=True, slots=True, kw_only=True)
class BandChoice:
    """A fit band, and the one most like it: by the length at which it begins to pull."""

    tag: str
    like: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Choices:
    """Everything that can be picked."""

    gym: str
    units: str
    lifters: tuple[LifterChoice, ...]
    feeders: tuple[FeederChoice, ...]
    connectors: tuple[str, ...]
    kinds: tuple[KindChoice, ...]
    plates: tuple[PlateChoice, ...]
    bands: tuple[BandChoice, ...]


def choices_of(gym: Gym, units: UnitSystem | None = None) -> Choices:
    """Say what a gym lets one pick.

    Parameters
    ----------
    gym : Gym
        The gym.
    units : UnitSystem, optional
        What words are in; else the gym's own.
    """
    units, stock = units or SYSTEMS[gym.units], gym.stock
    kinds: dict[tuple[str, int], list[str]] = {}
    for piece in stock.fit_chains:
        kinds.setdefault((piece.size, piece.chain.links), []).append(piece.tag)
    return Choices(
        gym=gym.name,
        units=units.name,
        lifters=tuple(_lifter(gym, lifter, units) for lifter in gym.lifters if lifter.lifts),
        feeders=tuple(
            FeederChoice(
                feeder=feeder.name,
                settings=tuple(
                    SettingChoice(
                        label=one.label,
                        said=_said(setting_text(one.label), length(units, one.length_m).text),
                    )
                    for one in feeder.settings
                ),
            )
            for feeder in stock.feeders
            if feeder.count >= 2 and feeder.rating_kg is not None
        ),
        connectors=tuple(
            one.name for one in stock.connectors if one.count >= 2 and one.rating_kg is not None
        ),
        kinds=tuple(
            KindChoice(size=size, links=links, tags=tuple(tags))
            for (size, links), tags in kinds.items()
            if len(tags) >= 2
        ),
        plates=tuple(
            PlateChoice(
                mass_kg=plate.mass_kg, mark=plate_mark(plate.mass_kg), most=plate.count // 2
            )
            for plate in sorted(stock.plates, key=lambda plate: -plate.mass_kg)
            if plate.count >= 2
        ),
        bands=_bands(stock.fit_bands),
    )


def _bands(bands: tuple[Band, ...]) -> tuple[BandChoice, ...]:
    if len(bands) < 2:
        return ()
    return tuple(
        BandChoice(
            tag=band.tag,
            like=min(
                (other for other in bands if other is not band),
                key=lambda other: (abs(other.rest_m - band.rest_m), other.tag),
            ).tag,
        )
        for band in bands
    )


def _said(setting: str, long: str) -> str:
    return setting if setting == long else f"{setting}, {long}"


def _lifter(gym: Gym, lifter: Lifter, units: UnitSystem) -> LifterChoice:
    lifts = (_lift(gym, lifter, LIFTS[name], units) for name in lifter.lifts)
    return LifterChoice(lifter=lifter.name, lifts=tuple(one for one in lifts if one.stations))


def _lift(gym: Gym, lifter: Lifter, lift: Lift, units: UnitSystem) -> LiftChoice:
    measured = lifter.measured(lift)
    stations = [station for station in gym.stations if station.kind == lift.station]
    stations.sort(key=lambda station: station.name != measured.station)
    places = []
    for station in stations:
        try:
            travel = gym.travel(lifter, lift, station)
        except TopheavyError:
            # Heights from one bench can't always be moved to another: then it is not offered.
            continue
        bottom, top = length(units, travel.bottom_m), length(units, travel.top_m)
        pegs = tuple(peg.name for peg in station.pegs)
        places.append(PlaceChoice(station=station.name, heights=f"{bottom} to {top}", pegs=pegs))
    best = "" if measured.best_kg is None else mass(units, measured.best_kg).text
    return LiftChoice(lift=lift.name, best=best, stations=tuple(places))
