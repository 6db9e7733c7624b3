"""From a checked document to the gym's frozen values."""

from __future__ import annotations

from typing import TYPE_CHECKING, TypeVar

from topheavy.gym.gym import Gym
from topheavy.gym.stock import Stock
from topheavy.gymfile.bands import band_from
from topheavy.gymfile.care import inspections_in, weighings_in
from topheavy.gymfile.chains import inspected_again, pieces_from, tags_of, weighed_again
from topheavy.gymfile.feeders import feeder_from
from topheavy.gymfile.parts import bar_from, collar_from, connector_from, plate_from
from topheavy.gymfile.people import lifter_from, station_from
from topheavy.gymfile.records import check_hung
from topheavy.gymfile.tables import SCALE_READING_KG, StationTable
from topheavy.gymfile.tables_bands import BandTable
from topheavy.gymfile.tables_stock import (
    BarTable,
    ChainTable,
    CollarTable,
    ConnectorTable,
    FeederTable,
    PlateTable,
    Table,
)
from topheavy.units import SYSTEMS

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping, Sequence

    from topheavy.gym.people import Lifter
    from topheavy.gym.stock import ChainPiece
    from topheavy.gymfile.care import PlacedWeighing
    from topheavy.gymfile.places import Place
    from topheavy.gymfile.sections import Document, Placed
    from topheavy.gymfile.tables import GymTable, LiftTable

T = TypeVar("T", bound=Table)
V = TypeVar("V")
N = TypeVar("N", StationTable, FeederTable, ConnectorTable, BarTable, CollarTable)


def gym_from(document: Document) -> Gym | None:
    """Make a gym of a document.

    Returns
    -------
    Gym or None
        None when anything is wrong; the document's problems then say what.
    """
    document.check_keys()
    head = document.gym()
    stock = _Parts(document, head)
    places = document.tables("station", StationTable)
    bars = document.names("bar")
    stations = _made(document, places, lambda table: station_from(table, bars))
    by_name: dict[str, StationTable | None] = dict.fromkeys(document.names("station"))
    by_name |= {placed.table.name: placed.table for placed in places}
    people = document.lifters()
    lifters = _lifters(document, people, by_name)
    _names_once(document, "station", places)
    if head is None or document.problems:
        return None
    gym = Gym(
        name=head.name,
        units=head.units,
        inspect_days=head.inspect_days,
        stock=stock.whole(),
        stations=tuple(stations),
        lifters=tuple(lifters),
    )
    check_hung(gym, people, document.problems)
    return None if document.problems else gym


class _Parts:
    """The parts of a stock, made and checked, put together only when all is well."""

    def __init__(self, document: Document, head: GymTable | None) -> None:
        units = SYSTEMS[head.units if head else "kg"]
        step_kg = head.scale_reading if head else SCALE_READING_KG
        self.chains = _chains(document, step_kg)
        feeders = document.feeders()
        self.feeders = _made(document, feeders, lambda table: feeder_from(table, units))
        connectors = document.tables("connector", ConnectorTable)
        self.connectors = _made(document, connectors, connector_from)
        bars = document.tables("bar", BarTable)
        self.bars = _made(document, bars, bar_from)
        collars = document.tables("collar", CollarTable)
        self.collars = _made(document, collars, collar_from)
        self.plates = _made(document, document.tables("plate", PlateTable), plate_from)
        bands = document.tables("band", BandTable)
        self.bands = _made(document, bands, lambda table: band_from(table, step_kg))
        tags = [(placed.table.tag, placed.place, ("tag",)) for placed in bands]
        document.problems.refuse_twice("band", tags)
        _names_once(document, "feeder", feeders)
        _names_once(document, "connector", connectors)
        _names_once(document, "bar", bars)
        _names_once(document, "collar", collars)

    def whole(self) -> Stock:
        return Stock(
            chains=tuple(self.chains),
            feeders=tuple(self.feeders),
            connectors=tuple(self.connectors),
            bars=tuple(self.bars),
            collars=tuple(self.collars),
            plates=tuple(self.plates),
            bands=tuple(self.bands),
        )


def _made(document: Document, tables: Sequence[Placed[T]], make: Callable[[T], V]) -> list[V]:
    made = []
    for placed in tables:
        with document.problems.caught(placed.place):
            made.append(make(placed.table))
    return made


def _names_once(document: Document, what: str, tables: Sequence[Placed[N]]) -> None:
    named = [(placed.table.name, placed.place, ("name",)) for placed in tables]
    document.problems.refuse_twice(what, named)


def _chains(document: Document, scale_reading_kg: float) -> list[ChainPiece]:
    pieces: list[tuple[ChainTable, ChainPiece]] = []
    tags = []
    for placed in document.tables("chain", ChainTable):
        with document.problems.caught(placed.place):
            own = tags_of(placed.table)
            tags += [(tag, placed.place, keys) for tag, keys in own]
            made = pieces_from(placed.table, [tag for tag, _ in own], scale_reading_kg)
            pieces += [(placed.table, piece) for piece in made]
    document.problems.refuse_twice("chain piece", tags)
    named = [tag for tag, _, _ in tags]
    weighed = weighings_in(document, named, scale_reading_kg)
    inspected = inspections_in(document, named)
    return [
        inspected_again(one, inspected.get(one.tag.casefold(), ()))
        for one in _weighed(document, pieces, weighed)
    ]


def _weighed(
    document: Document,
    pieces: Sequence[tuple[ChainTable, ChainPiece]],
    later: Mapping[str, Sequence[PlacedWeighing]],
) -> list[ChainPiece]:
    """Weigh pieces again; a mass that no such chain has is a mistake of that entry."""
    found = []
    for table, piece in pieces:
        own = later.get(piece.tag.casefold(), ())
        found.append(piece)
        for at in range(len(own)):
            with document.problems.caught(own[at].place, "masses"):
                found[-1] = weighed_again(table, piece, [one.entry for one in own[: at + 1]])
    return found


def _lifters(
    document: Document,
    people: Sequence[tuple[Place, str, list[Placed[LiftTable]]]],
    by_name: Mapping[str, StationTable | None],
) -> list[Lifter]:
    lifters, named = [], []
    for place, name, lifts in people:
        lifters.append(lifter_from(name, lifts, by_name, document.problems))
        named += [(name, place, ("name",))] if name else []
    document.problems.refuse_twice("lifter", named)
    return lifters
