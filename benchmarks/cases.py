"""Stocks and questions of every size, made of chain that tables list."""

from __future__ import annotations

import random

from topheavy.gym.people import Travel
from topheavy.gym.stock import Bar, ChainPiece, Connector, Feeder, FeederSetting, Plate, Stock
from topheavy.mechanics.chain import Chain
from topheavy.mechanics.ground import Ground
from topheavy.rigging.kinds import forget_kinds
from topheavy.rigging.limits import Limits
from topheavy.rigging.problem import Problem, Setup, pose
from topheavy.rigging.target import Target

SIZES = (
    ("10 mm", 10, 28, 2.3),
    ("10 mm long", 10, 35, 2.1),
    ("13 mm", 13, 36, 3.9),
    ("13 mm long", 13, 45, 3.5),
    ("14 mm", 14, 41, 4.25),
    ("16 mm", 16, 45, 5.8),
    ("16 mm long", 16, 56, 5.3),
    ("18 mm long", 18, 63, 6.7),
)
"""Wire diameter and pitch [mm] and density [kg/m]: rows of DIN 766 and DIN 764."""

PLATES = ((25, 4), (20, 4), (15, 2), (10, 2), (5, 2), (2.5, 2), (1.25, 2), (0.5, 2))
"""Mass [kg] and count: just 200 totals on the sleeve below."""

TARGET = Target(heights_m=(0.75, 1.2), loads_kg=(80.0, 125.0))
"""45 kg of chain between chest and lockout: about a dozen pieces."""


def pieces_of(count: int, kinds: int, *, weighed: bool = False) -> tuple[ChainPiece, ...]:
    """Cut `count` pieces, shared out evenly among `kinds` sizes and lengths.

    Weighed pieces scatter by 1 % about the density of their size.
    """
    rng = random.Random(count)  # noqa: S311  (not for secrets)
    found = []
    for i in range(count):
        size, wire_mm, pitch_mm, density = SIZES[i % kinds % len(SIZES)]
        length_m = 1.5 + 0.13 * (i % kinds // len(SIZES))
        scatter = 1 + 0.01 * rng.gauss() if weighed else 1.0
        chain = Chain(
            links=round(length_m / pitch_mm * 1e3),
            pitch_m=pitch_mm / 1e3,
            density_kg_per_m=density * scatter,
        )
        found.append(
            ChainPiece(
                tag=f"{i}", size=size, wire_diameter_m=wire_mm / 1e3, chain=chain, weighed=weighed
            )
        )
    return tuple(found)


def setup_of(pieces: tuple[ChainPiece, ...], feeders: int = 3, settings: int = 20) -> Setup:
    """Put chain into a gym of so many feeder settings, one connector and the plates above."""
    stock = Stock(
        chains=pieces,
        feeders=tuple(_feeder(j, settings) for j in range(feeders)),
        connectors=(
            Connector(name="screw link", mass_kg=0.2, length_m=0.08, rating_kg=900.0, count=2),
        ),
        bars=(Bar(name="bar", mass_kg=20.0, sleeve_m=0.415),),
        plates=tuple(
            Plate(mass_kg=mass_kg, width_m=0.005 + 0.001 * mass_kg, diameter_m=0.45, count=count)
            for mass_kg, count in PLATES
        ),
    )
    travel = Travel(bottom_m=0.75, top_m=1.2)
    return Setup(stock=stock, bar=stock.bars[0], collar=None, travel=travel, ground=Ground())


def _feeder(number: int, settings: int) -> Feeder:
    step_m = 0.48 / max(1, settings - 1)
    lengths_m = (0.32 + step_m * i + 0.007 * number for i in range(settings))
    return Feeder(
        name=f"feeder {number}",
        form="rings",
        settings=tuple(FeederSetting(label=f"{m:.3f}", length_m=m) for m in lengths_m),
        whole_m=0.9,
        density_kg_per_m=0.3 + 0.1 * number,
        rating_kg=900.0,
        count=2,
        setting_u_m=0.002,
    )


def forty_pieces() -> tuple[Setup, Target, Limits]:
    """40 pieces in 8 kinds, 60 feeder settings, 200 plate totals, as many pieces as there are."""
    return setup_of(pieces_of(40, 8)), TARGET, Limits(most_pieces=40)


def twelve_pieces() -> tuple[Setup, Target, Limits]:
    """12 pieces in 3 kinds, 6 feeder settings: small enough to try every rig in no time."""
    target = Target(heights_m=(0.75, 1.2), loads_kg=(80.0, 105.0))
    return setup_of(pieces_of(12, 3), feeders=2, settings=3), target, Limits(most_pieces=12)


def rigs_in(problem: Problem) -> int:
    """How many rigs a search of everything tries."""
    chains = 1
    for kind in problem.kinds:
        chains *= kind.each_end.size
    return (chains - 1) * len(problem.fixtures) * len(problem.plates)


def posed(case: tuple[Setup, Target, Limits]) -> Problem:
    """Pose a case, as a question that was never asked before."""
    forget_kinds()
    return pose(*case)
