"""A gym looked over, as one frozen view for terminal and JSON."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from topheavy.present.figure import Figure, density, fine_mass, length, mass, plate_mark, sure_mass
from topheavy.present.rig.steps import setting_text

if TYPE_CHECKING:
    from topheavy.gym.gym import Gym
    from topheavy.gym.people import Lifter
    from topheavy.gym.stock import Connector, Feeder
    from topheavy.services.stock_check import ChainKind, GymCheck
    from topheavy.units import UnitSystem


@dataclass(frozen=True, slots=True, kw_only=True)
class ChainLine:
    """Pieces that are alike; `fit` of them may hang."""

    size: str
    links: int
    tags: tuple[str, ...]
    fit: int
    mass: Figure
    density: Figure
    known_by: str


@dataclass(frozen=True, slots=True, kw_only=True)
class FeederLine:
    """A feeder model and what it can be set to."""

    name: str
    count: int
    settings: int
    shortest: Figure
    longest: Figure
    first: str
    last: str
    rating: Figure | None


@dataclass(frozen=True, slots=True, kw_only=True)
class ConnectorLine:
    """A connector model."""

    name: str
    count: int
    mass: Figure
    length: Figure
    rating: Figure | None


@dataclass(frozen=True, slots=True, kw_only=True)
class GymView:
    """What a gym has, what can't be used, and what to mend."""

    name: str
    source: str
    chain: tuple[ChainLine, ...]
    feeders: tuple[FeederLine, ...]
    connectors: tuple[ConnectorLine, ...]
    bars: tuple[str, ...]
    bands: tuple[str, ...]
    plates: str
    plates_total: Figure
    stations: tuple[str, ...]
    lifters: tuple[str, ...]
    left_out: tuple[str, ...]
    remarks: tuple[str, ...]


def view_gym(check: GymCheck, units: UnitSystem, source: str) -> GymView:
    """Put a gym that was looked over into words and figures.

    Parameters
    ----------
    check : GymCheck
        From `topheavy.services.stock_check.check_gym`.
    units : UnitSystem
        What the user wants to see.
    source : str
        Name of the file.
    """
    gym, stock = check.gym, check.gym.stock
    return GymView(
        name=gym.name,
        source=source,
        chain=tuple(_chain(kind, units) for kind in check.kinds),
        feeders=tuple(_feeder(feeder, units) for feeder in stock.feeders),
        connectors=tuple(_connector(connector, units) for connector in stock.connectors),
        bars=(
            *(f"{bar.name}, {units.mass(bar.mass_kg)}" for bar in stock.bars),
            *(f"{c.count} {c.name}, {units.mass(c.mass_kg)} each" for c in stock.collars),
        ),
        bands=tuple(f"{b.tag}, {units.length(b.rest_m)} at rest" for b in stock.bands),
        plates=", ".join(f"{plate.count} x {plate_mark(plate.mass_kg)}" for plate in stock.plates),
        plates_total=mass(units, sum(plate.count * plate.mass_kg for plate in stock.plates)),
        stations=_stations(gym, units),
        lifters=tuple(f"{lifter.name}: {_lifts(lifter)}" for lifter in gym.lifters),
        left_out=check.left_out,
        remarks=tuple(remark.say(units) for remark in check.remarks),
    )


def _chain(kind: ChainKind, units: UnitSystem) -> ChainLine:
    first = kind.pieces[0]
    weighed = all(piece.weighed for piece in kind.counted)
    return ChainLine(
        size=first.size,
        links=first.chain.links,
        tags=tuple(piece.tag for piece in kind.pieces),
        fit=len(kind.fit),
        mass=sure_mass(units, kind.mass_kg, kind.mass_u_kg),
        density=density(units, first.chain.density_kg_per_m, first.chain.density_u_kg_per_m),
        known_by="a scale, each piece" if weighed else first.chain.known_by,
    )


def _feeder(feeder: Feeder, units: UnitSystem) -> FeederLine:
    first, last = feeder.settings[0], feeder.settings[-1]
    return FeederLine(
        name=feeder.name,
        count=feeder.count,
        settings=len(feeder.settings),
        shortest=length(units, first.length_m),
        longest=length(units, last.length_m),
        first=setting_text(first.label),
        last=setting_text(last.label),
        rating=_rating(feeder.rating_kg, units),
    )


def _connector(connector: Connector, units: UnitSystem) -> ConnectorLine:
    return ConnectorLine(
        name=connector.name,
        count=connector.count,
        mass=fine_mass(units, connector.mass_kg),
        length=length(units, connector.length_m),
        rating=_rating(connector.rating_kg, units),
    )


def _rating(rating_kg: float | None, units: UnitSystem) -> Figure | None:
    return None if rating_kg is None else Figure(rating_kg, "kg", units.mass(rating_kg, 0))


def _lifts(lifter: Lifter) -> str:
    """Lifts that were measured, and how many records each has."""
    said = []
    for name, measured in lifter.lifts.items():
        count = len(measured.records)
        records = "1 record" if count == 1 else f"{count} records"
        said.append(f"{name} ({records})" if count else name)
    return ", ".join(said) or "no lift measured"


def _stations(gym: Gym, units: UnitSystem) -> tuple[str, ...]:
    lines = []
    for station in gym.stations:
        said = [f"{station.name}, a {station.kind}"]
        if station.surface_m:
            said.append(f"chain lies at {units.length(station.surface_m)}")
        if station.pad_m is not None:
            said.append(f"pad at {units.length(station.pad_m)}")
        lines.append(", ".join(said))
    return tuple(lines)
