"""From band and peg tables to the bands of the stock and the pegs of a station."""

from __future__ import annotations

from typing import TYPE_CHECKING

from topheavy.errors import BadInputError
from topheavy.gym.bands import Band
from topheavy.gym.people import StationPeg
from topheavy.gymfile.places import quoted
from topheavy.mechanics.band_readings import BandReadings
from topheavy.mechanics.banded import Peg

if TYPE_CHECKING:
    from collections.abc import Sequence

    from topheavy.gymfile.tables_bands import BandTable, PegTable


def band_from(table: BandTable, scale_reading_kg: float) -> Band:
    """Make a band of its table.

    One step of the scale is taken as the standard uncertainty of a tension, as for chain, and
    the tape's of a stretched length as that of the rest length too.

    Parameters
    ----------
    table : BandTable
        As read.
    scale_reading_kg : float
        Smallest step of the gym's scale [kg], where the table names none.

    Raises
    ------
    BadInputError
        Readings that contradict each other, or a day that is none; its field is the key of the
        table.
    """
    readings = BandReadings(
        tag=table.tag,
        rest_m=table.rest,
        length_m=tuple(reading.length for reading in table.readings),
        tension_kg=tuple(reading.pull for reading in table.readings),
        rest_u_m=table.within,
        length_u_m=table.within,
        tension_u_kg=table.scale_reading or scale_reading_kg,
    )
    return Band(readings=readings, measured_on=table.measured or "", retired=table.retired or "")


def pegs_from(tables: Sequence[PegTable]) -> tuple[StationPeg, ...]:
    """Make the pegs of a station.

    Raises
    ------
    BadInputError
        A name that stands twice; its field is the key of the station's table.
    """
    names = [table.name.casefold() for table in tables]
    for name in names:
        if names.count(name) > 1:
            raise BadInputError(
                "A peg is listed twice",
                field="pegs",
                got=quoted(name),
                wanted="each one once, upper and lower case alike",
            )
    return tuple(
        StationPeg(
            name=table.name,
            peg=Peg(height_m=table.height, offset_m=table.offset, u_m=table.within),
        )
        for table in tables
    )
