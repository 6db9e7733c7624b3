"""A whole gym file: the gym, its stations and lifters, and the stock tables."""

from typing import Annotated, Final, Literal

from pydantic import ConfigDict, Field

from topheavy.gym.care import INSPECT_DAYS
from topheavy.gymfile.quantities import Length, Mass, Thickness
from topheavy.gymfile.tables_bands import BandTable, PegTable
from topheavy.gymfile.tables_care import InspectionTable, WeighingTable
from topheavy.gymfile.tables_records import RecordTables
from topheavy.gymfile.tables_stock import (
    BarTable,
    ChainTable,
    CollarTable,
    ConnectorTable,
    LinksTable,
    Name,
    PlateTable,
    RingsTable,
    StrapTable,
    Table,
)

SCALE_READING_KG: Final = 0.05
"""Smallest step of a bathroom or luggage scale when the gym says nothing [kg]."""

MOST_PEGS: Final = 50
"""Most pegs of a station; a guard against slips of the pen."""

AnyFeederTable = Annotated[
    RingsTable | LinksTable | StrapTable,
    Field(discriminator="form"),
]


class GymTable(Table):
    """The gym itself."""

    name: Name = Field(
        description="name of the gym, as it stands on the cards", examples=["The Barn"]
    )
    units: Literal["kg", "lb"] = Field(
        "kg", description="what you want to see: kg and cm, or lb and in", examples=["kg", "lb"]
    )
    scale_reading: Mass = Field(
        SCALE_READING_KG,
        description="smallest step your scale shows",
        examples=["50 g"],
        json_schema_extra={"default": "50 g"},
    )
    inspect_days: Annotated[int, Field(ge=1, le=3650)] = Field(
        INSPECT_DAYS,
        description="days after which chain is due for a thorough inspection",
        examples=[182],
    )


class StationTable(Table):
    """A bench, rack or platform."""

    name: Name = Field(description="what you call it", examples=["bench 1"])
    kind: Literal["bench", "rack", "platform"] = Field(description="what it is", examples=["bench"])
    pad: Length | None = Field(
        None, description="height of a bench's pad above the floor", examples=["43 cm"]
    )
    mat: Thickness = Field(
        0.0,
        description="thickness of the mat that the chain lies on and the lifter does not",
        examples=["2 cm"],
        json_schema_extra={"default": "0 cm"},
    )
    block: Thickness = Field(
        0.0,
        description="height of a block or box under the chain",
        examples=["15 cm"],
        json_schema_extra={"default": "0 cm"},
    )
    lifter_raised: Thickness = Field(
        0.0,
        description="how far lifter or bench stands above the floor that the chain lies on",
        examples=["5 cm"],
        json_schema_extra={"default": "0 cm"},
    )
    bar: Name | None = Field(
        None,
        description="the bar that lives there; the first [[bar]] when left out",
        examples=["power bar"],
    )
    pegs: Annotated[list[PegTable], Field(max_length=MOST_PEGS)] = Field(
        default_factory=list,
        description="where bands are anchored, alike on both sides",
        examples=[[{"name": "low", "height": "12 cm", "offset": "8 cm"}]],
    )


class HeightsTable(Table):
    """Heights and best of one lifter in one lift."""

    bottom: Length = Field(
        description="floor to bar centre where the lift turns round", examples=["66 cm"]
    )
    top: Length = Field(description="floor to bar centre at lockout", examples=["107 cm"])
    best: Mass | None = Field(
        None,
        description="best single with straight weight, bar and collars counted",
        examples=["140 kg"],
    )
    best_day: Name | None = Field(
        None,
        description="day of the best single, year-month-day in quotes",
        examples=["2026-10-03"],
    )
    station: Name | None = Field(
        None, description="the station where the heights were measured", examples=["bench 1"]
    )
    within: Length = Field(
        0.005,
        description="how far each height may be off (one standard deviation)",
        examples=["5 mm"],
        json_schema_extra={"default": "5 mm"},
    )


class LiftTable(RecordTables, HeightsTable):
    """One lift of one lifter."""


class LifterTable(Table):
    """A lifter."""

    name: Name = Field(description="first name or nickname", examples=["Osric"])
    lifts: dict[str, LiftTable] = Field(
        default_factory=dict,
        description="what was measured, by the name of the lift",
        examples=[{"bench press": {"bottom": "66 cm", "top": "107 cm"}}],
    )


class GymFile(Table):
    """A gym: what it owns, where it lifts and who lifts there."""

    model_config = ConfigDict(title="topheavy gym file")

    gym: GymTable = Field(description="the gym itself", examples=[{"name": "The Barn"}])
    chain: list[ChainTable] = Field(
        default_factory=list,
        description="chain pieces, single or in batches",
        examples=[[{"tag": "A1", "size": "5/8 in", "links": 32, "weighed": "9.61 kg"}]],
    )
    inspection: list[InspectionTable] = Field(
        default_factory=list,
        description="inspections of chain; all are kept, and the newest readings count",
        examples=[[{"day": "2026-09-01", "tags": ["A1", "A2"], "pitch_growth": "1.2 %"}]],
    )
    weighing: list[WeighingTable] = Field(
        default_factory=list,
        description="later weighings of chain; all are kept, and the newest counts",
        examples=[[{"day": "2026-09-01", "tags": ["A1"], "masses": "9.58 kg"}]],
    )
    feeder: list[AnyFeederTable] = Field(
        default_factory=list,
        description="what lowers the connector from the sleeve",
        examples=[
            [
                {
                    "name": "strap",
                    "form": "strap",
                    "count": 2,
                    "mass": "0.3 kg",
                    "shortest": "40 cm",
                    "longest": "100 cm",
                }
            ]
        ],
    )
    connector: list[ConnectorTable] = Field(
        default_factory=list,
        description="what holds the fold",
        examples=[[{"name": "screw link", "count": 4, "mass": "180 g", "length": "70 mm"}]],
    )
    bar: list[BarTable] = Field(
        default_factory=list,
        description="bars, the usual one first",
        examples=[[{"name": "power bar", "mass": "20 kg", "sleeve": "41.5 cm"}]],
    )
    collar: list[CollarTable] = Field(
        default_factory=list,
        description="collars",
        examples=[[{"name": "screw collar", "count": 2, "mass": "2.5 kg", "width": "5 cm"}]],
    )
    plate: list[PlateTable] = Field(
        default_factory=list,
        description="plates",
        examples=[[{"mass": "20 kg", "width": "4 cm", "diameter": "45 cm", "pairs": 2}]],
    )
    band: list[BandTable] = Field(
        default_factory=list,
        description="bands, each with its own readings",
        examples=[
            [
                {
                    "tag": "red-1",
                    "rest": "45 cm",
                    "readings": [
                        {"length": "60 cm", "pull": "4.7 kg"},
                        {"length": "80 cm", "pull": "10.4 kg"},
                        {"length": "100 cm", "pull": "14.6 kg"},
                    ],
                }
            ]
        ],
    )
    station: list[StationTable] = Field(
        default_factory=list,
        description="benches, racks and platforms",
        examples=[[{"name": "bench 1", "kind": "bench", "pad": "43 cm"}]],
    )
    lifter: list[LifterTable] = Field(
        default_factory=list, description="who lifts here", examples=[[{"name": "Osric"}]]
    )
