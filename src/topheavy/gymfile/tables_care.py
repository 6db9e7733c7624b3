"""The tables of a gym file for inspections and weighings of chain, by day."""

from typing import Annotated, Literal

from pydantic import Field

from topheavy.gymfile.quantities import Mass
from topheavy.gymfile.tables_stock import MOST_PIECES, Grown, Name, Table, Tag, Weighed

Day = Annotated[str, Field(max_length=10)]
Tags = Annotated[list[Tag], Field(min_length=1, max_length=MOST_PIECES)]


class CareTable(Table):
    """What an entry of either kind has."""

    day: Day = Field(description="when, year-month-day in quotes", examples=["2026-09-01"])
    tags: Tags = Field(description="which pieces, by their tags", examples=[["A1", "A2"]])
    by: Name | None = Field(None, description="who did it", examples=["Wren"])
    note: Name | None = Field(None, description="whatever else", examples=["cleaned and oiled"])


class InspectionTable(CareTable):
    """One inspection of one or several pieces."""

    pitch_growth: Grown | None = Field(
        None,
        description="how much longer the pitch has grown where it is worst; retired from 3 %",
        examples=["1.2 %"],
    )
    lost_section: Grown | None = Field(
        None,
        description="how much of the wire's section is worn away where it is worst; retired from "
        "10 %",
        examples=["4 %"],
    )
    found: Annotated[
        list[Literal["crack", "bend", "twist", "gouge", "heat", "binding"]], Field(max_length=6)
    ] = Field(
        default_factory=list,
        description="what was seen; any of these retires the pieces for good",
        examples=[["gouge"]],
    )


class WeighingTable(CareTable):
    """One weighing of one or several pieces."""

    masses: Weighed = Field(
        description="what the scale said: one mass, or a list with one a piece",
        examples=["9.61 kg", ["9.61 kg", "9.58 kg"]],
    )
    scale_reading: Mass | None = Field(
        None,
        description="smallest step the scale shows, when other than the gym's",
        examples=["50 g"],
    )
