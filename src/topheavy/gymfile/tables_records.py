"""The tables of a gym file for what was written down of a lifter in a lift."""

from typing import Annotated, Any, Final, Literal

from pydantic import BeforeValidator, ConfigDict, Field, WithJsonSchema

from topheavy.gym.records import MOST_LEFT, MOST_REPS
from topheavy.gymfile.quantities import Length, Mass, Speed, small_as_text
from topheavy.gymfile.tables_stock import Name, Table, Tag

MOST_RECORDS: Final = 1000
"""Most records of one kind; a guard against slips of the pen."""

MOST_HUNG: Final = 50
"""Most pieces on one end."""

Day = Annotated[
    Name | None,
    Field(description="year-month-day in quotes", examples=["2026-10-03"]),
]


Setting = Annotated[
    str,
    Field(max_length=60),
    BeforeValidator(small_as_text),
    WithJsonSchema(
        {
            "anyOf": [
                {"type": "string", "maxLength": 60},
                {"type": "integer", "minimum": 0, "maximum": 999},
            ]
        }
    ),
]


class SetTable(Table):
    """A set or a single with straight weight."""

    load: Mass = Field(description="bar, collars and plates", examples=["120 kg"])
    reps: Annotated[int, Field(ge=1, le=MOST_REPS)] = Field(
        1, description="whole number of repetitions done", examples=[5]
    )
    reps_left: Annotated[float, Field(ge=0, le=MOST_LEFT)] = Field(
        0.0,
        description="repetitions that were left",
        examples=[2],
        json_schema_extra={"default": 0},
    )
    tried: bool = Field(
        default=True,
        description="false when nobody tried for more and nobody knows how many were left; then "
        "it counts as: at least that",
        examples=[False],
    )
    start: Length | None = Field(
        None,
        description="floor to bar centre where it started, when that was above the bottom: on "
        "pins, boards or blocks",
        examples=["82 cm"],
    )
    day: Day = None


class IsometricTable(Table):
    """An isometric effort: the bar against pins that don't move, the lifter on a scale."""

    height: Length = Field(description="floor to bar centre, on the pins", examples=["80 cm"])
    effort: Mass = Field(
        description="what the scale showed at the best effort: under bench and lifter, or under "
        "the lifter's feet",
        examples=["290 kg"],
    )
    rest: Mass = Field(description="what it showed with the lifter at rest", examples=["115 kg"])
    day: Day = None


class BandsUsedTable(Table):
    """A pair of bands, one on each end."""

    left: Tag = Field(description="tag of the band on the left", examples=["red-1"])
    right: Tag = Field(description="tag of the band on the right", examples=["red-3"])
    peg: Name = Field(
        description="the peg of the station that they hung from, alike on both sides",
        examples=["low"],
    )
    second_peg: Name | None = Field(
        None,
        description="where the other end was anchored, when the bands were doubled",
        examples=["low"],
    )


_PIECES = Annotated[list[Tag], Field(max_length=MOST_HUNG)]


class HungTable(Table):
    """What hung on the bar, by the names in the stock."""

    left: _PIECES = Field(
        default_factory=list, description="tags of the pieces on the left", examples=[["A1"]]
    )
    right: _PIECES = Field(
        default_factory=list, description="tags of the pieces on the right", examples=[["A2"]]
    )
    style: Literal["doubled", "draped", "straight"] = Field(
        "doubled", description="how the chain hung", examples=["doubled"]
    )
    feeder: Name | None = Field(
        None, description="what doubled chain hung from", examples=["ring strap"]
    )
    setting: Setting | None = Field(
        None, description="the feeder's setting, by its label", examples=["7"]
    )
    connector: Name | None = Field(
        None, description="what held the fold", examples=["10 mm screw link"]
    )
    bands: Annotated[list[BandsUsedTable], Field(max_length=MOST_HUNG)] = Field(
        default_factory=list,
        description="pairs of bands, one on each end",
        examples=[[{"left": "red-1", "right": "red-3", "peg": "low"}]],
    )


class HungLiftTable(HungTable):
    """A single over the full range with chain or bands on the bar."""

    straight: Mass = Field(
        description="straight weight: bar, collars and plates", examples=["120 kg"]
    )
    tried: bool = Field(
        default=True, description="false when nobody tried for more", examples=[False]
    )
    day: Day = None


_ONE_PLACE: Final[dict[str, Any]] = {
    "oneOf": [{"required": ["height"]}, {"required": ["third"]}],
}


class MissTable(Table):
    """A repetition that stopped on the way up."""

    model_config = ConfigDict(json_schema_extra=_ONE_PLACE)

    straight: Mass = Field(
        description="straight weight: bar, collars and plates", examples=["147.5 kg"]
    )
    height: Length | None = Field(
        None, description="floor to bar centre where it stopped", examples=["84 cm"]
    )
    third: Literal["lower", "middle", "top"] | None = Field(
        None,
        description="the third of the way up where it stopped, when nobody took a height",
        examples=["middle"],
    )
    hung: HungTable | None = Field(
        None,
        description="what hung on the bar besides, as in `hung` below",
        examples=[
            {"left": ["A1"], "right": ["A2"], "feeder": "ring strap", "setting": "7"},
        ],
    )
    day: Day = None


class SpeedTable(Table):
    """Speed of the bar on the way up, straight weight, as fast as the lifter could."""

    load: Mass = Field(description="bar, collars and plates", examples=["100 kg"])
    speed: Speed = Field(description="what the device showed", examples=["0.45 m/s"])
    kind: Literal["mean", "propulsive"] = Field(
        "mean",
        description="mean over the whole way up, or until the bar is braked; the device's "
        "booklet says which",
        examples=["propulsive"],
    )
    day: Day = None


class RecordTables(Table):
    """What a lift has of records; a part of its table."""

    sets: Annotated[list[SetTable], Field(max_length=MOST_RECORDS)] = Field(
        default_factory=list,
        description="sets and singles with straight weight, full range or from pins",
        examples=[[{"load": "120 kg", "reps": 5, "reps_left": 1}]],
    )
    isometrics: Annotated[list[IsometricTable], Field(max_length=MOST_RECORDS)] = Field(
        default_factory=list,
        description="efforts against pins that don't move, read from a scale",
        examples=[[{"height": "80 cm", "effort": "290 kg", "rest": "115 kg"}]],
    )
    misses: Annotated[list[MissTable], Field(max_length=MOST_RECORDS)] = Field(
        default_factory=list,
        description="repetitions that stopped on the way up",
        examples=[[{"straight": "147.5 kg", "third": "middle"}]],
    )
    hung: Annotated[list[HungLiftTable], Field(max_length=MOST_RECORDS)] = Field(
        default_factory=list,
        description="singles with chain or bands on the bar",
        examples=[
            [
                {
                    "straight": "120 kg",
                    "left": ["A1"],
                    "right": ["A2"],
                    "feeder": "ring strap",
                    "setting": "7",
                }
            ]
        ],
    )
    speeds: Annotated[list[SpeedTable], Field(max_length=MOST_RECORDS)] = Field(
        default_factory=list,
        description="bar speeds at known loads",
        examples=[[{"load": "100 kg", "speed": "0.45 m/s"}]],
    )
