"""The tables of a gym file for bands and for the pegs that hold them."""

from typing import Annotated

from pydantic import Field

from topheavy.gymfile.quantities import Length, Mass, PegHeight, Pull, Thickness
from topheavy.gymfile.tables_stock import Name, Table, Tag

LEAST_READINGS = 3
MOST_READINGS = 100


class ReadingTable(Table):
    """One reading of a band: a scale in line with it, a tape beside it."""

    length: Length = Field(
        description="stretched length, between the points that hold the band", examples=["80 cm"]
    )
    pull: Pull = Field(description="what the scale shows", examples=["10.4 kg"])


class BandTable(Table):
    """One band with its own readings."""

    tag: Tag = Field(description="the name of this very band", examples=["red-1"])
    rest: Length = Field(
        description="length laid flat, just not pulling, between the points that hold the band",
        examples=["45 cm"],
    )
    readings: Annotated[
        list[ReadingTable], Field(min_length=LEAST_READINGS, max_length=MOST_READINGS)
    ] = Field(
        description="stretched lengths and what the scale showed, from the shortest to the "
        "longest that will be used; three at least",
        examples=[
            [
                {"length": "60 cm", "pull": "4.7 kg"},
                {"length": "80 cm", "pull": "10.4 kg"},
                {"length": "100 cm", "pull": "14.6 kg"},
            ]
        ],
    )
    within: Length = Field(
        0.005,
        description="how far each length may be off (one standard deviation)",
        examples=["5 mm"],
        json_schema_extra={"default": "5 mm"},
    )
    scale_reading: Mass | None = Field(
        None,
        description="smallest step the scale shows, when other than the gym's",
        examples=["50 g"],
    )
    measured: Name | None = Field(
        None,
        description="day of the readings, year-month-day in quotes",
        examples=["2026-09-12"],
    )
    retired: Name | None = Field(
        None, description="why this band must not be used", examples=["nick near one end"]
    )


class PegTable(Table):
    """A peg for bands at a station, alike on both sides."""

    name: Name = Field(description="what you call it", examples=["low"])
    height: PegHeight = Field(
        description="floor to where the band bears, from the floor that bar heights are "
        "measured from",
        examples=["12 cm"],
    )
    offset: Thickness = Field(
        0.0,
        description="how far the peg is from straight below the sleeve",
        examples=["8 cm"],
        json_schema_extra={"default": "0 cm"},
    )
    within: Length = Field(
        0.005,
        description="how far its height may be off (one standard deviation)",
        examples=["5 mm"],
        json_schema_extra={"default": "5 mm"},
    )
