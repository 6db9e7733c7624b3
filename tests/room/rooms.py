"""Small rooms, so that a test names only what it is about."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from tests.rigging.builders import connector, feeder, piece, plate
from topheavy.gym.gym import Gym
from topheavy.gym.lifts import lift_named
from topheavy.gym.people import Lifter, Measured, Station, Travel
from topheavy.gym.stock import Bar, Collar, Stock
from topheavy.rigging.target import Ask
from topheavy.room.ask import Booking, Room
from topheavy.room.solve import Effort

if TYPE_CHECKING:
    from topheavy.gym.stock import ChainPiece

RACK, RACK_2 = (Station(name=name, kind="rack") for name in ("rack", "rack 2"))
STEPS = Effort(steps=2.0, workers=1, seconds_s=1.0)
"""Counted work on one thread: the same answer on any machine."""


def squat(name: str, bottom_kg: float, top_kg: float, tall_m: float = 0.0, **more: Any) -> Booking:
    """Book a squat from 80 to 135 cm, or that much higher."""
    travel = Travel(bottom_m=0.80 + tall_m, top_m=1.35 + tall_m)
    return Booking(
        lifter=Lifter(name=name, lifts={"squat": Measured(travel=travel)}),
        lift=lift_named("squat"),
        ask=Ask(bottom_kg=bottom_kg, top_kg=top_kg),
        **{"sets": 3, "tolerance_kg": 2.0, "spotters": 0, **more},
    )


def pieces(pairs: int, links: int = 32) -> tuple[ChainPiece, ...]:
    """Cut pairs of pieces of 5.3 kg/m."""
    return tuple(piece(f"P{n + 1}", links=links) for n in range(2 * pairs))


def room(
    *bookings: Booking,
    pairs: int = 4,
    feeders: int = 4,
    stations: tuple[Station, ...] = (RACK, RACK_2),
    **more: Any,
) -> Room:
    """Open a room of two racks with some chain and feeders."""
    stock = Stock(
        chains=pieces(pairs),
        feeders=(feeder("strap", (0.73, 0.79), rating_kg=400.0, count=feeders),),
        connectors=(connector(count=8),),
        bars=(Bar(name="bar", mass_kg=20.0, sleeve_m=0.415),),
        collars=(Collar(name="collar", mass_kg=2.5, width_m=0.05, count=4),),
        plates=tuple(plate(mass_kg, 8) for mass_kg in (20, 10, 5, 2.5, 1.25)),
    )
    gym = Gym(name="Small", stock=stock, stations=stations)
    return Room(gym=gym, bookings=bookings, stations=stations, **{"length": 480, **more})
