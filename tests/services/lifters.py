"""A small gym with one lifter, for tests of strength."""

from __future__ import annotations

from typing import TYPE_CHECKING

from topheavy.gym.bands import Band
from topheavy.gym.gym import Gym
from topheavy.gym.lifts import lift_named
from topheavy.gym.people import Lifter, Measured, Station, StationPeg, Travel
from topheavy.gym.stock import ChainPiece, Connector, Feeder, FeederSetting, Stock
from topheavy.mechanics.band_readings import BandReadings
from topheavy.mechanics.banded import Peg
from topheavy.mechanics.chain import Chain
from topheavy.services.rig import Place

if TYPE_CHECKING:
    from topheavy.gym.records import Record

CHAIN = Chain(links=32, pitch_m=0.056, density_kg_per_m=5.3)
STOCK = Stock(
    chains=tuple(
        ChainPiece(tag=tag, size="5/8 in", wire_diameter_m=0.016, chain=CHAIN, retired=why)
        for tag, why in (("A1", ""), ("A2", ""), ("old", "bent link"))
    ),
    feeders=(
        Feeder(
            name="strap",
            form="rings",
            settings=(FeederSetting(label="1", length_m=0.54),),
            whole_m=0.7,
            density_kg_per_m=0.3,
            rating_kg=250.0,
            count=2,
            setting_u_m=0.002,
        ),
    ),
    connectors=(Connector(name="link", mass_kg=0.2, length_m=0.06, rating_kg=500.0, count=2),),
    bands=tuple(
        Band(
            readings=BandReadings(
                tag=tag, rest_m=0.45, length_m=(0.6, 0.8, 1.0), tension_kg=(4.7, 10.4, 14.6)
            )
        )
        for tag in ("red-1", "red-2")
    ),
)
STATIONS = (
    Station(
        name="bench 1",
        kind="bench",
        pad_m=0.43,
        pegs=(StationPeg(name="low", peg=Peg(height_m=0.12, offset_m=0.06)),),
    ),
    Station(name="bench 2", kind="bench", pad_m=0.46),
    Station(name="odd bench", kind="bench"),
    Station(name="rack", kind="rack"),
    Station(name="platform", kind="platform"),
)
BENCH = Travel(bottom_m=0.66, top_m=1.07)


def measured(
    bottom_m: float = 0.66,
    top_m: float = 1.07,
    *,
    best_kg: float | None = None,
    station: str = "bench 1",
    records: tuple[Record, ...] = (),
) -> Measured:
    """What was measured of a lift; of the bench press unless said otherwise."""
    travel = Travel(bottom_m=bottom_m, top_m=top_m)
    return Measured(travel=travel, station=station, best_kg=best_kg, records=records)


def place(
    lifts: dict[str, Measured], *, lift: str = "bench press", station: str = "bench 1"
) -> Place:
    """Where the lifter does a lift."""
    lifter = Lifter(name="Odda", lifts=lifts)
    gym = Gym(name="The Shed", stock=STOCK, stations=STATIONS, lifters=(lifter,))
    return Place(gym=gym, lifter=lifter, lift=lift_named(lift), station=gym.station(station))
