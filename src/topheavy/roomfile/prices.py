"""A price file: what a shop sells, read and checked."""

from __future__ import annotations

from functools import cache
from importlib import resources
from typing import TYPE_CHECKING, Annotated, Any, Final

from pydantic import ConfigDict, Field, ValidationError

from topheavy.catalogue.sizes import chain_of_size
from topheavy.errors import BadInputError
from topheavy.gym.stock import Connector
from topheavy.gymfile.feeders import feeder_from
from topheavy.gymfile.places import Place, header_lines, quoted
from topheavy.gymfile.problems import GymFileError, Problems, unknown_key
from topheavy.gymfile.quantities import Length, Mass, Rating  # noqa: TC001 - pydantic reads them
from topheavy.gymfile.read import file_text, toml_of
from topheavy.gymfile.schema import keys_at, schema_of
from topheavy.gymfile.tables import SCALE_READING_KG
from topheavy.gymfile.tables_bands import LEAST_READINGS, MOST_READINGS, ReadingTable
from topheavy.gymfile.tables_stock import Grade, Name, StrapTable, Table
from topheavy.mechanics.band import fit_band
from topheavy.mechanics.band_readings import BandReadings
from topheavy.room.shelf import BandOffer, ChainOffer, Shelf
from topheavy.units import SYSTEMS

if TYPE_CHECKING:
    from pathlib import Path

PRICES_NAME: Final = "demo_prices.toml"

Price = Annotated[float, Field(ge=0, le=1_000_000)]
Links = Annotated[int, Field(ge=2, le=1000)]


class PriceFileError(GymFileError):
    """A price file with mistakes, all of them told."""


class ShopTable(Table):
    """The shop, and what may be carried."""

    currency: Annotated[str, Field(max_length=8, pattern=r"^\S+$")] = Field(
        "EUR", description="what prices are in", examples=["EUR"]
    )
    most_carried: Mass = Field(
        15.0,
        description="heaviest piece that one person should carry",
        examples=["15 kg"],
        json_schema_extra={"default": "15 kg"},
    )


class ChainPriceTable(Table):
    """Chain for sale, in lengths or by the metre."""

    name: Name = Field(description="what the shop calls it", examples=["5/8 in, 6 m lengths"])
    size: Name = Field(description="trade size", examples=["5/8 in"])
    grade: Grade = Field("", description="grade as marked", examples=["30"])
    standard: Name | None = Field(None, description="standard it is made to", examples=["DIN 764"])
    cuts: Annotated[list[Links], Field(min_length=1, max_length=8)] = Field(
        description="links of the pieces it may be cut to", examples=[[20, 32]]
    )
    sold: Length | None = Field(None, description="length as sold", examples=["6 m"])
    price: Price | None = Field(
        None, description="number: price of one length as sold", examples=[84.0]
    )
    metre: Price | None = Field(
        None, description="number: price of a metre, cut to any length", examples=[9.5]
    )
    cut: Price = Field(0.0, description="number: price of one cut", examples=[2.0])


class ConnectorPriceTable(Table):
    """A connector for sale."""

    name: Name = Field(description="what it is called", examples=["12 mm screw link"])
    mass: Mass = Field(description="mass of one", examples=["290 g"])
    length: Length = Field(
        description="inside length between the bearing points", examples=["84 mm"]
    )
    rating: Rating = Field(description="working load limit as marked", examples=["1200 kg"])
    price: Price = Field(description="number: price of one", examples=[11.0])


class BandPriceTable(Table):
    """Bands for sale."""

    name: Name = Field(description="what they are called", examples=["blue loop"])
    rest: Length = Field(
        description="length laid flat, just not pulling, of one like them", examples=["45 cm"]
    )
    readings: Annotated[
        list[ReadingTable], Field(min_length=LEAST_READINGS, max_length=MOST_READINGS)
    ] = Field(
        description="stretched lengths and pulls of one like them, three at least",
        examples=[
            [
                {"length": "60 cm", "pull": "4.7 kg"},
                {"length": "80 cm", "pull": "10.4 kg"},
                {"length": "100 cm", "pull": "14.6 kg"},
            ]
        ],
    )
    price: Price = Field(description="number: price of one", examples=[14.0])


class FeederPriceTable(StrapTable):
    """A strap for sale."""

    count: Annotated[int, Field(ge=2, le=2)] = Field(
        2, description="a pair is bought", examples=[2]
    )
    price: Price = Field(description="number: price of one", examples=[24.0])


class PriceFile(Table):
    """What a shop sells."""

    model_config = ConfigDict(title="topheavy price file")

    shop: ShopTable = Field(
        default_factory=lambda: ShopTable.model_validate({}),
        description="the shop",
        examples=[{"currency": "EUR"}],
    )
    chain: list[ChainPriceTable] = Field(
        default_factory=list,
        description="chain",
        examples=[[{"name": "5/8 in", "size": "5/8 in", "cuts": [32], "metre": 14.0}]],
    )
    connector: list[ConnectorPriceTable] = Field(
        default_factory=list, description="connectors", examples=[[]]
    )
    feeder: list[FeederPriceTable] = Field(
        default_factory=list, description="straps to hang doubled chain from", examples=[[]]
    )
    band: list[BandPriceTable] = Field(
        default_factory=list,
        description="bands; bought only where the room file allows bands",
        examples=[[]],
    )


@cache
def price_schema() -> dict[str, Any]:
    """Describe the format of a price file: JSON Schema, draft 2020-12.

    Examples
    --------
    >>> price_schema()["title"]
    'topheavy price file'
    """
    return schema_of(PriceFile)


def demo_prices_text() -> str:
    """Read the text of the example, comments and all."""
    return resources.files(__package__).joinpath(PRICES_NAME).read_text(encoding="utf-8")


def read_prices(path: str | Path) -> Shelf:
    """Read a price file.

    Raises
    ------
    FileError
        The file can't be read, or is no TOML.
    PriceFileError
        It is no price file; its `problems` list everything that is wrong.
    """
    text, name = file_text(path, "price file")
    return parse_prices(text, name)


def parse_prices(text: str, name_of_source: str = "price file") -> Shelf:
    """Read what is for sale from the text of a price file; raises as `read_prices`.

    Examples
    --------
    >>> shelf = parse_prices('''
    ... [[chain]]
    ... name = "half inch"
    ... size = "1/2 in"
    ... cuts = [38]
    ... metre = 9.5
    ... ''')
    >>> shelf.chains[0].piece_price(38)  # 38 links of 45.5 mm at 9.50 a metre, in hundredths
    1643
    """
    problems = Problems(price_schema())
    raw = toml_of(text, name_of_source, "chain")
    known = keys_at((), "", price_schema())
    for key in raw:
        if key not in known:
            problems.note(unknown_key(key, Place(()), known), Place(()))
    shelf = _Maker(raw, text, problems).shelf()
    if len(problems):
        raise PriceFileError(name_of_source, problems.in_order)
    return shelf


class _Maker:
    """From parsed TOML to what is for sale."""

    def __init__(self, raw: dict[str, Any], text: str, problems: Problems) -> None:
        self.raw, self.problems = raw, problems
        self.lines = header_lines(text)

    def shelf(self) -> Shelf:
        """Make everything; what is wrong is noted."""
        shop = self._checked(ShopTable, self.raw.get("shop", {}), Place(("shop",)))
        chains, feeders, connectors = [], [], []
        for place, raw in self._each("chain"):
            chain = self._checked(ChainPriceTable, raw, place)
            with self.problems.caught(place):
                chains += [_chain(chain)] if chain else []
        for place, raw in self._each("feeder"):
            strap = self._checked(FeederPriceTable, raw, place)
            with self.problems.caught(place):
                feeders += [_feeder(strap)] if strap else []
        for place, raw in self._each("connector"):
            part = self._checked(ConnectorPriceTable, raw, place)
            connectors += [_connector(part)] if part else []
        bands = []
        for place, raw in self._each("band"):
            band = self._checked(BandPriceTable, raw, place)
            with self.problems.caught(place):
                bands += [_band(band)] if band else []
        for section in ("chain", "feeder", "connector", "band"):
            named = [
                (raw["name"], place, ("name",))
                for place, raw in self._each(section)
                if isinstance(raw, dict) and isinstance(raw.get("name"), str)
            ]
            self.problems.refuse_twice(section, named)
        head = shop or ShopTable.model_validate({})
        return Shelf(
            currency=head.currency,
            most_carried_kg=head.most_carried,
            chains=tuple(chains),
            feeders=tuple(feeders),
            connectors=tuple(connectors),
            bands=tuple(bands),
        )

    def _each(self, section: str) -> list[tuple[Place, Any]]:
        raw = self.raw.get(section, [])
        if not isinstance(raw, list):
            wanted = f"[[{section}]] in double brackets, one for each"
            place = Place((section,))
            self.problems.note(
                BadInputError("There can be several", field=place.key(), wanted=wanted), place
            )
            return []
        lines = self.lines.get(section, [])
        found = []
        for index, table in enumerate(raw):
            line = lines[index] if len(lines) == len(raw) else None
            called = table.get("name") if isinstance(table, dict) else None
            name = quoted(called)[1:-1] if isinstance(called, str) else ""
            found.append((Place((section, index), name, line), table))
        return found

    def _checked(self, model: Any, raw: object, place: Place) -> Any:
        try:
            return model.model_validate(raw)
        except ValidationError as error:
            self.problems.note_invalid(error, place, raw)
            return None


def _hundredths(price: float) -> int:
    return round(100 * price)


def _chain(table: ChainPriceTable) -> ChainOffer:
    sized = chain_of_size(table.size, grade=table.grade, standard=table.standard or "")
    by_length = table.sold is not None and table.price is not None and table.metre is None
    by_metre = table.sold is None and table.price is None and table.metre is not None
    if not (by_length or by_metre):
        raise BadInputError(
            "Chain is sold in lengths or by the metre",
            field="price",
            wanted='sold = "6 m" with price = 84.0, or metre = 9.5',
        )
    links = None if table.sold is None else int(table.sold / sized.pitch_m + 1e-6)
    if links is not None and links < max(table.cuts):
        raise BadInputError(
            "A piece longer than the length it is cut from",
            field="cuts",
            got=f"{max(table.cuts)} links",
            wanted=f"at most {links} links, what {table.sold:g} m hold",
        )
    return ChainOffer(
        name=table.name,
        size=table.size,
        grade=table.grade,
        wire_diameter_m=sized.wire_diameter_m,
        pitch_m=sized.pitch_m,
        density_kg_per_m=sized.density_kg_per_m,
        density_u_kg_per_m=sized.density_u_kg_per_m,
        cuts=tuple(sorted(set(table.cuts))),
        price=_hundredths((table.price if by_length else table.metre) or 0.0),
        sold=links,
        cut_price=_hundredths(table.cut),
    )


def _feeder(table: FeederPriceTable) -> tuple[Any, int]:
    return feeder_from(table, SYSTEMS["kg"]), _hundredths(table.price)


def _band(table: BandPriceTable) -> BandOffer:
    readings = BandReadings(
        tag=table.name,
        rest_m=table.rest,
        length_m=tuple(reading.length for reading in table.readings),
        tension_kg=tuple(reading.pull for reading in table.readings),
        tension_u_kg=SCALE_READING_KG,
    )
    fit_band(readings)  # what contradicts itself is told here, with its place
    return BandOffer(name=table.name, readings=readings, price=_hundredths(table.price))


def _connector(table: ConnectorPriceTable) -> tuple[Connector, int]:
    part = Connector(
        name=table.name,
        mass_kg=table.mass,
        length_m=table.length,
        rating_kg=table.rating,
        count=2,
    )
    return part, _hundredths(table.price)
