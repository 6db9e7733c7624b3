"""Rooms drawn by a seed: many lifters, a few stations, one pile of chain."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

import numpy as np

from topheavy.gym.gym import Gym
from topheavy.gym.lifts import lift_named
from topheavy.gym.people import Lifter, Measured, Station, Travel
from topheavy.gym.stock import (
    Bar,
    ChainPiece,
    Collar,
    Connector,
    Feeder,
    FeederSetting,
    Plate,
    Stock,
)
from topheavy.mechanics.chain import Chain
from topheavy.rigging.target import Ask
from topheavy.room.ask import Booking, Room

if TYPE_CHECKING:
    from topheavy.gym.lifts import Lift, StationKind

LIFTS: Final = ("bench press", "squat", "deadlift", "close-grip bench press", "front squat")
_STATIONS: Final[tuple[StationKind, ...]] = (
    "bench",
    "bench",
    "bench",
    "rack",
    "rack",
    "rack",
    "platform",
    "platform",
)


def room_of(
    seed: int, lifters: int = 60, stations: int = 8, pieces: int = 40, minutes: int = 150
) -> Room:
    """Draw a room: people of 1.55 to 1.95 m, chain of three cut lengths, plates enough.

    Parameters
    ----------
    seed : int
        What to draw from.
    lifters, stations, pieces : int
        How many.
    minutes : int
        How long it is open.
    """
    draw = np.random.default_rng(seed)
    kinds = [_STATIONS[i * len(_STATIONS) // stations] for i in range(stations)]
    places = tuple(
        Station(name=f"{kind} {number + 1}", kind=kind, pad_m=0.44 if kind == "bench" else None)
        for number, kind in enumerate(kinds)
    )
    gym = Gym(name="Drawn", stock=_stock(pieces, stations), stations=places)
    lifts = [one for one in map(lift_named, LIFTS) if one.station in kinds]
    bookings = [_booking(number, lifts[number % len(lifts)], draw) for number in range(lifters)]
    return Room(
        gym=gym,
        bookings=tuple(bookings),
        name=f"seed {seed}",
        length=minutes * 4,
        stations=places,
        spotters=max(2, stations // 2),
    )


def _stock(pieces: int, stations: int) -> Stock:
    cuts = (("A", 32, 0.4), ("B", 24, 0.2), ("E", 46, 0.4))
    chains = []
    for name, links, share in cuts:
        for number in range(2 * round(pieces * share / 2)):
            chain = Chain(links=links, pitch_m=0.056, density_kg_per_m=5.3)
            chains.append(
                ChainPiece(
                    tag=f"{name}{number + 1}", size="5/8 in", wire_diameter_m=0.016, chain=chain
                )
            )
    rings = tuple(FeederSetting(label=f"{n}", length_m=0.10 + 0.04 * n) for n in range(1, 30))
    return Stock(
        chains=tuple(chains),
        feeders=(
            Feeder(
                name="ring strap",
                form="rings",
                settings=rings,
                whole_m=1.3,
                density_kg_per_m=0.3,
                rating_kg=300.0,
                count=2 * stations,
                setting_u_m=0.003,
            ),
        ),
        connectors=(
            Connector(
                name="screw link", mass_kg=0.175, length_m=0.072, rating_kg=850.0,
                count=2 * stations,
            ),
        ),
        bars=(Bar(name="bar", mass_kg=20.0, sleeve_m=0.415),),
        collars=(Collar(name="collar", mass_kg=2.5, width_m=0.05, count=2 * stations),),
        plates=tuple(
            Plate(mass_kg=mass_kg, width_m=width_m, diameter_m=0.45, count=2 * pairs * stations)
            for mass_kg, width_m, pairs in (
                (25.0, 0.042, 6), (20.0, 0.036, 2), (15.0, 0.032, 2), (10.0, 0.028, 2),
                (5.0, 0.024, 2), (2.5, 0.018, 2), (1.25, 0.014, 2),
            )
        ),
    )  # fmt: skip


def _booking(number: int, lift: Lift, draw: np.random.Generator) -> Booking:
    tall_m = float(draw.uniform(1.55, 1.95))
    strong = float(draw.uniform(0.8, 1.6))
    travel, best_kg = _travel_and_best(lift, tall_m, strong)
    top_kg = 2.5 * round(best_kg * draw.uniform(0.78, 0.9) / 2.5)
    share = draw.uniform(0.12, 0.17) if lift.station == "platform" else draw.uniform(0.16, 0.25)
    bottom_kg = 2.5 * round(top_kg * (1 - share) / 2.5)
    lifter = Lifter(name=f"L{number + 1}", lifts={lift.name: Measured(travel=travel)})
    return Booking(
        lifter=lifter,
        lift=lift,
        ask=Ask(bottom_kg=bottom_kg, top_kg=top_kg),
        sets=int(draw.choice([4, 5])),
        reps=int(draw.choice([3, 5])),
        rest_s=180.0,
        tolerance_kg=2.5,
        arrives=int(draw.choice([0, 0, 0, 40])),
    )


def _travel_and_best(lift: Lift, tall_m: float, strong: float) -> tuple[Travel, float]:
    """Heights that go with the lifter's size, and a best; drawn, no source."""
    if lift.station == "bench":
        return Travel(bottom_m=0.66, top_m=0.66 + 0.23 * tall_m), 85.0 * strong
    if lift.station == "rack":
        return Travel(bottom_m=0.48 * tall_m, top_m=0.82 * tall_m), 120.0 * strong
    return Travel(bottom_m=0.225, top_m=0.225 + 0.30 * tall_m), 145.0 * strong
