"""What a shop sells: chain by the piece or in lengths, feeders, connectors, bands, with prices."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from topheavy.gym.bands import Band
from topheavy.mechanics.chain import Chain

if TYPE_CHECKING:
    from topheavy.gym.stock import Connector, Feeder
    from topheavy.mechanics.band_readings import BandReadings


@dataclass(frozen=True, slots=True, kw_only=True)
class ChainOffer:
    """Chain for sale.

    Parameters
    ----------
    name : str
        As the seller calls it.
    size, grade : str
        Trade size and grade.
    wire_diameter_m, pitch_m : float
        Sizes [m].
    density_kg_per_m, density_u_kg_per_m : float
        Mass per length and its standard uncertainty [kg/m].
    cuts : tuple of int
        Links of the pieces it may be cut to.
    price : int
        Hundredths of the currency for one length as sold, or for a metre where `sold` is None.
    sold : int or None
        Links of one length as sold; None when the seller cuts to any length.
    cut_price : int
        Hundredths for cutting off one piece.
    """

    name: str
    size: str
    grade: str
    wire_diameter_m: float
    pitch_m: float
    density_kg_per_m: float
    density_u_kg_per_m: float
    cuts: tuple[int, ...]
    price: int
    sold: int | None = None
    cut_price: int = 0

    def chain(self, links: int) -> Chain:
        """Cut so many links."""
        return Chain(
            links=links,
            pitch_m=self.pitch_m,
            density_kg_per_m=self.density_kg_per_m,
            density_u_kg_per_m=self.density_u_kg_per_m,
            known_by=f"on offer: {self.name}",
        )

    def piece_price(self, links: int) -> int:
        """Price of one piece in hundredths, where the seller cuts to any length."""
        return round(self.price * links * self.pitch_m) + self.cut_price


@dataclass(frozen=True, slots=True, kw_only=True)
class BandOffer:
    """Bands for sale.

    Parameters
    ----------
    name : str
        As the seller calls them.
    readings : BandReadings
        Of one like them; each that comes must be read anew.
    price : int
        Hundredths of the currency for one.
    """

    name: str
    readings: BandReadings
    price: int

    def band(self, number: int) -> Band:
        """Make one of them, with a tag of its own."""
        return Band(readings=replace(self.readings, tag=f"{self.name} #{number}"))


@dataclass(frozen=True, slots=True, kw_only=True)
class Shelf:
    """Everything for sale, with prices in hundredths of a currency.

    Parameters
    ----------
    currency : str
        Such as ``"EUR"``.
    chains : tuple of ChainOffer
        Chain.
    feeders, connectors : tuple of (Feeder or Connector, int)
        Parts with the price of one.
    bands : tuple of BandOffer
        Bands.
    most_carried_kg : float
        Heaviest piece that anyone should carry [kg].
    """

    currency: str
    chains: tuple[ChainOffer, ...] = ()
    feeders: tuple[tuple[Feeder, int], ...] = ()
    connectors: tuple[tuple[Connector, int], ...] = ()
    bands: tuple[BandOffer, ...] = ()
    most_carried_kg: float = 15.0
