"""From station and lifter tables to the gym's places and people."""

from __future__ import annotations

from typing import TYPE_CHECKING

from topheavy.errors import BadInputError, NotInStockError
from topheavy.gym.day import day_number
from topheavy.gym.lifts import lift_named
from topheavy.gym.people import Lifter, Measured, Station, Travel
from topheavy.gymfile.bands import pegs_from
from topheavy.gymfile.places import quoted
from topheavy.gymfile.records import records_from

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from topheavy.gym.lifts import Lift
    from topheavy.gymfile.problems import Problems
    from topheavy.gymfile.sections import Placed
    from topheavy.gymfile.tables import LiftTable, StationTable

_PAD_M = (0.20, 0.80)


def station_from(table: StationTable, bars: Sequence[str]) -> Station:
    """Make a station of its table.

    Parameters
    ----------
    table : StationTable
        As read.
    bars : sequence of str
        Names of the gym's bars.

    Raises
    ------
    BadInputError
        A pad where there is none, a pad no bench has, a bar the gym does not list, or a peg
        listed twice; its field is the key of the table.
    """
    if table.pad is not None and table.kind != "bench":
        raise BadInputError(
            "Only a bench has a pad", field="pad", got=f"a {table.kind}", wanted="no pad here"
        )
    if table.pad is not None and not _PAD_M[0] <= table.pad <= _PAD_M[1]:
        raise BadInputError(
            "No bench has its pad there",
            field="pad",
            got=f"{table.pad:g} m",
            wanted=f"{_PAD_M[0]:g} to {_PAD_M[1]:g} m, floor to pad; about 0.43 m is usual",
        )
    if table.bar is not None and table.bar not in bars:
        raise BadInputError(
            "No bar of that name in this file",
            field="bar",
            got=quoted(table.bar),
            wanted="one of " + ", ".join(bars) if bars else "a [[bar]] of that name",
        )
    return Station(
        name=table.name,
        kind=table.kind,
        surface_m=table.mat + table.block - table.lifter_raised,
        pad_m=table.pad,
        bar=table.bar or "",
        pegs=pegs_from(table.pegs),
    )


def lifter_from(
    name: str,
    lifts: Sequence[Placed[LiftTable]],
    stations: Mapping[str, StationTable | None],
    problems: Problems,
) -> Lifter:
    """Make a lifter of a name and the tables of the lifts; whatever is wrong is noted.

    Parameters
    ----------
    name : str
        The lifter's.
    lifts : sequence of placed tables
        As read; the last step of a place's path is the lift's name.
    stations : mapping
        Each station's table by name; None where the table has mistakes of its own.
    problems : Problems
        Where whatever is wrong gets noted.
    """
    measured: dict[str, Measured] = {}
    written: dict[str, str] = {}
    for placed in lifts:
        lift_name = str(placed.place.path[-1])
        with problems.caught(placed.place):
            lift = lift_named(lift_name)
            if lift.name in written:
                raise BadInputError(
                    f"The {lift.name} is listed twice",
                    got=f"{quoted(written[lift.name])} and {quoted(lift_name)}",
                    wanted="each lift once",
                )
            written[lift.name] = lift_name
            try:
                lift.check_heights(placed.table.bottom, placed.table.top, field="")
            except BadInputError as error:
                raise placed.as_written(error) from None
            measured[lift.name] = _measured(placed, lift, stations, problems)
    return Lifter(name=name, lifts=measured)


def _measured(
    placed: Placed[LiftTable],
    lift: Lift,
    stations: Mapping[str, StationTable | None],
    problems: Problems,
) -> Measured:
    table = placed.table
    station = ""
    if table.station is not None:
        with problems.caught(placed.place, "station"):
            station, there = _station_of(table.station, stations)
            if there is not None:
                _check_station(table, lift, there)
    if table.best_day is not None:
        with problems.caught(placed.place, "best_day"):
            _check_best_day(table)
    travel = Travel(bottom_m=table.bottom, top_m=table.top, height_u_m=table.within)
    return Measured(
        travel=travel,
        station=station,
        best_kg=table.best,
        best_day=table.best_day or "",
        records=records_from(placed, travel, problems),
    )


def _check_best_day(table: LiftTable) -> None:
    """Refuse a day that is none, and a day of no best."""
    if table.best is None:
        raise BadInputError(
            "A day, and no best", got=quoted(table.best_day), wanted="best beside it, or no day"
        )
    day_number(table.best_day or "", "best_day")


def _station_of(
    name: str, stations: Mapping[str, StationTable | None]
) -> tuple[str, StationTable | None]:
    for known, table in stations.items():
        if known.casefold() == name.casefold():
            return known, table
    raise NotInStockError(
        "No station of that name in this file",
        got=quoted(name),
        wanted="one of " + ", ".join(stations) if stations else "a [[station]] of that name",
    )


def _check_station(table: LiftTable, lift: Lift, station: StationTable) -> None:
    if station.kind != lift.station:
        raise BadInputError(
            f"The {lift.name} is not done on a {station.kind}",
            got=quoted(station.name),
            wanted=f"a station of kind {quoted(lift.station)}",
        )
    if station.pad is not None and table.bottom <= station.pad:
        raise BadInputError(
            "The bar would be inside the bench at the bottom",
            got=f"bottom {table.bottom:g} m, pad {station.pad:g} m",
            wanted="bottom above the pad; both measured from the floor",
        )
