"""Parts with sensible values, so that a test names only what it is about."""

from __future__ import annotations

from topheavy.gym.people import Travel
from topheavy.gym.stock import Bar, ChainPiece, Connector, Feeder, FeederSetting, Plate, Stock
from topheavy.mechanics.chain import Chain
from topheavy.mechanics.ground import Ground
from topheavy.rigging.problem import Setup

TRAVEL = Travel(bottom_m=0.75, top_m=1.2)
BAR = Bar(name="bar", mass_kg=20.0, sleeve_m=0.415)


def piece(
    tag: str,
    size: str = "5/8 in",
    links: int = 40,
    density: float = 5.3,
    retired: str = "",
) -> ChainPiece:
    """Cut a piece of 56 mm pitch."""
    chain = Chain(links=links, pitch_m=0.056, density_kg_per_m=density)
    return ChainPiece(tag=tag, size=size, wire_diameter_m=0.016, chain=chain, retired=retired)


def batch(
    count: int, size: str = "5/8 in", links: int = 40, density: float = 5.3
) -> list[ChainPiece]:
    """Cut some pieces alike."""
    return [piece(f"{size} {links} {i}", size, links, density) for i in range(count)]


def feeder(
    name: str = "rings",
    lengths_m: tuple[float, ...] = (0.5, 0.6, 0.67),
    rating_kg: float | None = 500.0,
    count: int = 2,
) -> Feeder:
    """Make a feeder of 1 m with some settings."""
    return Feeder(
        name=name,
        form="rings",
        settings=tuple(FeederSetting(label=f"{m:g}", length_m=m) for m in lengths_m),
        whole_m=1.0,
        density_kg_per_m=0.4,
        rating_kg=rating_kg,
        count=count,
        setting_u_m=0.002,
    )


def connector(
    name: str = "link", rating_kg: float | None = 500.0, count: int = 2, length_m: float = 0.08
) -> Connector:
    """Make a connector of 0.2 kg."""
    return Connector(name=name, mass_kg=0.2, length_m=length_m, rating_kg=rating_kg, count=count)


def plate(mass_kg: float, count: int, width_m: float = 0.02) -> Plate:
    """Make a plate size."""
    return Plate(mass_kg=mass_kg, width_m=width_m, diameter_m=0.45, count=count)


PLATES = (plate(20, 4), plate(10, 2), plate(5, 2), plate(2.5, 2), plate(1.25, 2))


def setup_of(
    *pieces: ChainPiece,
    feeders: tuple[Feeder, ...] | None = None,
    connectors: tuple[Connector, ...] | None = None,
    plates: tuple[Plate, ...] = PLATES,
    ground: Ground | None = None,
    bar: Bar = BAR,
) -> Setup:
    """Put chain into a gym with one feeder, one connector and a few plates."""
    stock = Stock(
        chains=pieces,
        feeders=(feeder(),) if feeders is None else feeders,
        connectors=(connector(),) if connectors is None else connectors,
        bars=(bar,),
        plates=plates,
    )
    return Setup(stock=stock, bar=bar, collar=None, travel=TRAVEL, ground=ground or Ground())
