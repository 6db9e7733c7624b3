"""Small random stocks, targets and limits, each from a seed."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np

from topheavy.gym.bands import Band
from topheavy.gym.people import StationPeg, Travel
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
from topheavy.mechanics.band_readings import BandReadings
from topheavy.mechanics.banded import Peg
from topheavy.mechanics.chain import Chain
from topheavy.mechanics.ground import Ground
from topheavy.rigging.limits import Limits
from topheavy.rigging.problem import Setup
from topheavy.rigging.target import Target

if TYPE_CHECKING:
    from numpy.random import Generator

    from topheavy.rigging.limits import Style

_STYLES: tuple[tuple[Style, ...], ...] = (
    ("doubled",),
    ("doubled",),
    ("straight",),
    ("draped",),
    ("doubled", "straight", "draped"),
    ("draped", "doubled"),
)


def random_problem(seed: int) -> tuple[Setup, Target, Limits]:
    """Make a problem of at most seven pieces: small enough to try every rig."""
    rng = np.random.default_rng(seed)
    bottom_m = float(rng.uniform(0.45, 0.95))
    travel = Travel(bottom_m=bottom_m, top_m=bottom_m + float(rng.uniform(0.25, 0.75)))
    stock = _stock(rng, travel)
    setup = Setup(
        stock=stock,
        bar=stock.bars[0],
        collar=stock.collars[0] if _chance(rng, 0.5) else None,
        travel=travel,
        ground=_ground(rng),
    )
    limits = _limits(rng)
    return setup, _target(rng, setup), limits


def random_limits_problem(seed: int) -> tuple[Setup, Target, Limits]:
    """Make a problem whose loads are limits by height, each with its own count of a miss."""
    setup, target, limits = random_problem(seed)
    rng = np.random.default_rng([seed, 1])
    if len(target.heights_m) < 2 or target.mean_kg is not None:
        heights_m = tuple(np.linspace(setup.travel.bottom_m, setup.travel.top_m, 3).tolist())
        start_kg = setup.bar_kg + rng.uniform(0, 60)
        loads_kg = tuple(float(start_kg + rise) for rise in np.sort(rng.uniform(0, 40, size=3)))
        target = replace(target, heights_m=heights_m, loads_kg=loads_kg, mean_kg=None)
    counts = tuple(float(count) for count in rng.uniform(0.6, 1.7, size=len(target.loads_kg)))
    return setup, replace(target, under_per_kg=counts), limits


def random_bands_problem(seed: int) -> tuple[Setup, Target, Limits]:
    """Make a problem of at most four pieces and six bands, with limits by height now and then."""
    setup, target, limits = (random_problem if seed % 3 else random_limits_problem)(seed)
    rng = np.random.default_rng([seed, 2])
    travel = setup.travel
    some = int(rng.integers(1, 5))
    pegs = tuple(
        StationPeg(
            name=name, peg=Peg(height_m=float(rng.choice([0.1, 0.2])), offset_m=float(offset_m))
        )
        for name, offset_m in zip("ab"[: int(rng.integers(1, 3))], (0.05, 0.2), strict=False)
    )
    bands = [band for _ in range(int(rng.integers(1, 3))) for band in _bands(rng, travel)]
    stock = replace(
        setup.stock,
        chains=setup.stock.chains[:some],
        bands=tuple(
            replace(band, readings=replace(band.readings, tag=f"band {number}"))
            for number, band in enumerate(bands)
        ),
    )
    most_bands = int(rng.integers(1, 3))
    limits = replace(
        limits,
        most_pieces=int(rng.choice([0, 4, 4])),
        most_bands=most_bands,
        least_bands=int(rng.choice([0, 0, 0, most_bands])),
        band_price_kg=float(rng.choice([0.0, 0.0, 0.2])),
        piece_price_kg=float(rng.choice([0.0, 0.05])),
        kind_price_kg=float(rng.choice([0.0, 0.1])),
        most_imbalance_kg=float(rng.choice([0.5, 2.0, 4.0, math.inf])),
    )
    return replace(setup, stock=stock, pegs=pegs), target, limits


def _bands(rng: Generator, travel: Travel) -> list[Band]:
    """Two to four bands that look alike, each with a pull and a rest length of its own."""
    strands = 2 if _chance(rng, 0.5) else 1
    rest_m = float(strands * (travel.bottom_m - rng.uniform(0.25, 0.45)))
    stiff = rng.uniform(10, 40)
    longest_m = strands * (travel.top_m + (0.1 if _chance(rng, 0.9) else -0.3))
    return [_band(rng, rest_m, stiff, longest_m) for _ in range(int(rng.integers(2, 5)))]


def _band(rng: Generator, rest_m: float, stiff: float, longest_m: float) -> Band:
    own_m, own = rest_m * rng.uniform(0.98, 1.02), stiff * rng.uniform(0.97, 1.03)
    lengths = np.linspace(own_m + 0.05, max(longest_m, own_m + 0.3), 5)
    stretch = lengths - own_m
    return Band(
        readings=BandReadings(
            tag="band",
            rest_m=float(own_m),
            length_m=tuple(float(length) for length in lengths),
            tension_kg=tuple(float(kg) for kg in own * (stretch - 0.1 * stretch**2)),
        ),
        retired="a nick" if _chance(rng, 0.08) else "",
    )


def _chance(rng: Generator, share: float) -> bool:
    return bool(rng.random() < share)


def _stock(rng: Generator, travel: Travel) -> Stock:
    pieces: list[ChainPiece] = []
    for _ in range(int(rng.integers(1, 4))):
        pieces += _batch(rng, len(pieces), min(5, 7 - len(pieces)))
    connectors = tuple(_connector(rng, name) for name in "ab"[: int(rng.integers(1, 3))])
    return Stock(
        chains=tuple(pieces),
        feeders=tuple(_feeder(rng, name, travel) for name in "ab"[: int(rng.integers(1, 3))]),
        connectors=connectors,
        bars=(Bar(name="bar", mass_kg=20.0, sleeve_m=float(rng.choice([0.13, 0.2, 0.415]))),),
        collars=(Collar(name="collar", mass_kg=2.5, width_m=0.05, count=2),),
        plates=tuple(
            Plate(
                mass_kg=mass_kg,
                width_m=float(rng.uniform(0.01, 0.05)),
                diameter_m=0.45,
                count=int(rng.integers(0, 6)),
            )
            for mass_kg in rng.choice([0.5, 1.25, 2.5, 5.0, 10.0, 20.0], size=3, replace=False)
        ),
    )


def _batch(rng: Generator, first: int, most: int) -> list[ChainPiece]:
    """Some pieces of one kind: alike, each weighed, or of two makes; now and then one retired."""
    if most < 1:
        return []
    pitch_m = float(rng.choice([0.036, 0.0475, 0.056]))
    links = int(rng.integers(8, 40))
    density = float(rng.uniform(2.5, 6.0))
    scatter = float(rng.choice([0.0, 0.003, 0.03]))
    weighed = scatter > 0 and _chance(rng, 0.7)
    count = int(rng.integers(min(2, most), most + 1))
    off = rng.standard_normal(count) if weighed else np.arange(count) % 2
    return [
        ChainPiece(
            tag=f"{first + i}",
            size=f"{pitch_m * 1e3:g} mm",
            wire_diameter_m=pitch_m / 3.5,
            chain=Chain(
                links=links,
                pitch_m=pitch_m,
                density_kg_per_m=density * (1 + scatter * float(off[i])),
            ),
            weighed=weighed,
            retired="a bent link" if _chance(rng, 0.08) else "",
        )
        for i in range(count)
    ]


def _feeder(rng: Generator, name: str, travel: Travel) -> Feeder:
    about_m = travel.bottom_m * rng.uniform(0.5, 1.15, size=int(rng.integers(1, 4)))
    whole_m = float(max(about_m) * rng.uniform(0.9, 1.4))
    return Feeder(
        name=name,
        form="rings",
        settings=tuple(
            FeederSetting(label=str(i), length_m=float(length_m))
            for i, length_m in enumerate(np.sort(about_m))
        ),
        whole_m=whole_m,
        density_kg_per_m=float(rng.choice([0.0, 0.4, 1.2])),
        rating_kg=None if _chance(rng, 0.04) else float(rng.uniform(15, 250)),
        count=1 if _chance(rng, 0.04) else 2,
        setting_u_m=0.002,
    )


def _connector(rng: Generator, name: str) -> Connector:
    return Connector(
        name=name,
        mass_kg=float(rng.uniform(0.05, 0.6)),
        length_m=0.0 if _chance(rng, 0.3) else float(rng.uniform(0.04, 0.12)),
        rating_kg=None if _chance(rng, 0.06) else float(rng.uniform(15, 250)),
        count=1 if _chance(rng, 0.06) else int(rng.integers(2, 5)),
    )


def _ground(rng: Generator) -> Ground:
    surface_m = 0.0 if _chance(rng, 0.5) else float(rng.uniform(-0.15, 0.15))
    if _chance(rng, 0.25):
        return Ground(surface_m=surface_m, lay="dragged", friction=float(rng.uniform(0, 1)))
    return Ground(surface_m=surface_m, raising_pitches=float(rng.uniform(0, 1)))


def _target(rng: Generator, setup: Setup) -> Target:
    """Loads that this stock can come near, in one of the shapes that a target takes."""
    travel = setup.travel
    hung_kg = rng.uniform(0.1, 1.0) * sum(p.chain.mass_kg for p in setup.stock.chains)
    plates_kg = sum(2 * (p.count // 2) * p.mass_kg for p in setup.stock.plates)
    start_kg = setup.bar_kg + rng.uniform(0, 1) * plates_kg
    aims = str(rng.choice(["ends", "curve", "mean", "ends and mean", "point"]))
    shares = {
        "ends": np.array([0.0, 1.0]),
        "ends and mean": np.array([0.0, 1.0]),
        "curve": np.sort(rng.uniform(0, 1, size=int(rng.integers(3, 6)))),
        "mean": np.array([]),
        "point": rng.uniform(0, 1, size=1),
    }[aims]
    bend = rng.uniform(0.6, 1.6)
    rule = str(rng.choice(["", "", "", "", "deload", "links", "clear", "links and deload"]))
    plate = setup.stock.plates[int(rng.integers(3))]
    pairs_kg = 2 * plate.mass_kg * int(rng.integers(0, 2 if _chance(rng, 0.8) else 4))
    return Target(
        heights_m=tuple(travel.bottom_m + travel.travel_m * float(s) for s in shares),
        loads_kg=tuple(float(start_kg + hung_kg * s**bend) for s in shares),
        mean_kg=float(start_kg + 0.5 * hung_kg) if "mean" in aims else None,
        straight_weight_kg=setup.bar_kg + pairs_kg if _chance(rng, 0.2) else None,
        full_deload="deload" in rule,
        links_down=int(rng.integers(0, 4)) if "links" in rule else None,
        all_clear=rule == "clear",
    )


def _limits(rng: Generator) -> Limits:
    return Limits(
        most_pieces=int(rng.integers(2, 9)),
        design_factor=float(rng.choice([1.0, 6.0, 12.0])),
        most_imbalance_kg=float(rng.choice([0.005, 0.1, 0.5, math.inf])),
        styles=_STYLES[int(rng.integers(len(_STYLES)))],
        piece_price_kg=float(rng.choice([0.0, 0.05, 0.4])),
        kind_price_kg=float(rng.choice([0.0, 0.2, 1.0])),
        fold_price_kg_per_m=float(rng.choice([0.0, 1.0, 10.0])),
        sizes=("56 mm", "36 mm") if _chance(rng, 0.12) else (),
    )
