"""The stock tables of a gym file: chain, feeders, connectors, bars, collars, plates, bands."""

from typing import Annotated, Any, Final, Literal

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field, WithJsonSchema

from topheavy.gymfile.quantities import (
    Density,
    Length,
    Mass,
    Quantity,
    Rating,
    listed,
    small_as_text,
    text_schema,
)

MOST_PIECES: Final = 1000
"""Most pieces, links or parts of one kind; a guard against slips of the pen."""

Name = Annotated[
    str,
    Field(max_length=60, pattern=r"^[^\s\x00-\x1f\x7f]([^\x00-\x1f\x7f]*[^\s\x00-\x1f\x7f])?$"),
]
"""One line of text that neither begins nor ends with a space."""

Tag = Annotated[str, Field(max_length=24, pattern=r"^[^\s\x00-\x1f\x7f,;:+@\"']+$")]
"""A tag without spaces or separators, so that several can be typed in a row."""

Count = Annotated[int, Field(ge=1, le=MOST_PIECES)]


class Table(BaseModel):
    """A table that knows its keys and takes no others."""

    model_config = ConfigDict(extra="forbid", strict=True, frozen=True)


Weighed = Annotated[
    list[Mass],
    Field(min_length=1, max_length=MOST_PIECES),
    BeforeValidator(listed),
    WithJsonSchema(
        {
            "anyOf": [
                text_schema("mass"),
                {
                    "type": "array",
                    "items": text_schema("mass"),
                    "minItems": 1,
                    "maxItems": MOST_PIECES,
                },
            ]
        }
    ),
]

Grade = Annotated[
    str,
    Field(max_length=20),
    BeforeValidator(small_as_text),
    WithJsonSchema(
        {
            "anyOf": [
                {"type": "string", "maxLength": 20},
                {"type": "integer", "minimum": 0, "maximum": 999},
            ]
        }
    ),
]


Grown = Annotated[float, Quantity("share", 1.0, zero=True)]
"""Growth or loss, which may be nothing [-]."""


class CalipersTable(Table):
    """What calipers and a tape say of one link."""

    wire: Length = Field(
        description="wire diameter of the link, away from the weld", examples=["15.8 mm"]
    )
    width: Length | None = Field(
        None,
        description="inside width of the link; the usual one of its form when left out",
        examples=["20 mm"],
    )
    ten_links: Length = Field(
        description="outside length of ten links pulled straight", examples=["592 mm"]
    )


_CHAIN_RULES: Final[dict[str, Any]] = {
    "oneOf": [{"required": ["tag"]}, {"required": ["tags"]}, {"required": ["count"]}],
    "dependentRequired": {"count": ["prefix"], "prefix": ["count"]},
    "anyOf": [{"required": ["size"]}, {"required": ["calipers"]}],
    "allOf": [
        {"not": {"required": ["density", "weighed"]}},
        {"not": {"required": ["calipers", "ten_links"]}},
    ],
}


class ChainTable(Table):
    """One chain piece, or a batch of the same size and number of links."""

    model_config = ConfigDict(json_schema_extra=_CHAIN_RULES)

    tag: Tag | None = Field(None, description="the name of a single piece", examples=["A1"])
    tags: Annotated[list[Tag], Field(min_length=1, max_length=MOST_PIECES)] | None = Field(
        None, description="the names of a batch, one a piece", examples=[["A1", "A2", "A3", "A4"]]
    )
    count: Count | None = Field(
        None, description="how many pieces, named by prefix and number", examples=[4]
    )
    prefix: Tag | None = Field(
        None, description='what the names of a counted batch begin with: "C" gives C1, C2, ...',
        examples=["C"],
    )  # fmt: skip
    links: Count = Field(description="whole number of links in each piece", examples=[32])
    size: Name | None = Field(
        None,
        description="trade size as marked or sold; may be left out when there are calipers",
        examples=["5/8 in", "13 mm"],
    )
    grade: Grade = Field("", description="grade as marked on the links", examples=["30", 80])
    standard: Name | None = Field(
        None,
        description="standard the chain was made to; settles the pitch",
        examples=["DIN 764"],
    )
    weighed: Weighed | None = Field(
        None,
        description="what the scale said: one mass, or a list with one a piece",
        examples=["9.61 kg", ["9.61 kg", "9.58 kg"]],
    )
    scale_reading: Mass | None = Field(
        None,
        description="smallest step the scale shows, when other than the gym's",
        examples=["50 g"],
    )
    density: Density | None = Field(
        None, description="mass per length from the seller's sheet", examples=["5.3 kg/m"]
    )
    calipers: CalipersTable | None = Field(
        None,
        description="wire, inside width and ten links, measured",
        examples=[{"wire": "15.8 mm", "width": "20 mm", "ten_links": "592 mm"}],
    )
    ten_links: Length | None = Field(
        None,
        description="outside length of ten links pulled straight, when there are no calipers",
        examples=["592 mm"],
    )
    matched: bool = Field(
        default=False,
        description="true when the batch must split equally over both ends",
        examples=[True],
    )
    retired: Name | None = Field(
        None, description="why these pieces must not be hung", examples=["one link bent"]
    )
    inspected: Annotated[str, Field(max_length=10)] | None = Field(
        None,
        description="day when every link was looked over, year-month-day",
        examples=["2026-09-01"],
    )
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


_LOADED: Final[dict[str, Any]] = {
    "oneOf": [{"required": ["mass"]}, {"required": ["density"]}],
}


class FeederTable(Table):
    """What every feeder has, whatever its form."""

    model_config = ConfigDict(json_schema_extra=_LOADED)

    name: Name = Field(description="what you call it", examples=["ring strap"])
    count: Count = Field(description="how many alike; a rig takes two", examples=[4])
    rating: Rating | None = Field(
        None,
        description="working load limit as marked; leave out when unmarked",
        examples=["250 kg"],
    )
    mass: Mass | None = Field(None, description="mass of one whole feeder", examples=["0.4 kg"])
    density: Density | None = Field(
        None, description="mass per length, instead of mass", examples=["0.3 kg/m"]
    )
    within: Length | None = Field(
        None,
        description="how far a working length may be off (one standard deviation)",
        examples=["5 mm"],
    )


class RingsTable(FeederTable):
    """A strap or chain with fixed rings."""

    form: Literal["rings"] = Field(description="the form of the feeder", examples=["rings"])
    rings: Annotated[list[Length], Field(min_length=1, max_length=MOST_PIECES)] = Field(
        description="working length at each ring: bar centre to where the connector bears",
        examples=[["45 cm", "50 cm", "55 cm"]],
    )
    labels: Annotated[list[Name], Field(min_length=1, max_length=MOST_PIECES)] | None = Field(
        None,
        description="what each ring is called, when other than ring 1, ring 2, ...",
        examples=[["red", "white", "blue"]],
    )
    whole: Length | None = Field(
        None,
        description="length of the whole feeder, when longer than its last ring",
        examples=["90 cm"],
    )


class LinksTable(FeederTable):
    """A light chain: a loop round the sleeve, and the connector in any link below it."""

    form: Literal["links"] = Field(description="the form of the feeder", examples=["links"])
    links: Count = Field(description="links of the light chain, loop and all", examples=[48])
    pitch: Length = Field(description="inside length of one link", examples=["26 mm"])
    loop: Count = Field(description="how many links go round the sleeve", examples=[8])
    loop_drop: Length | None = Field(
        None,
        description="bar centre to where the loop closes, when measured",
        examples=["6 cm"],
    )


class StrapTable(FeederTable):
    """A strap that can be set to any length between two ends."""

    form: Literal["strap"] = Field(description="the form of the feeder", examples=["strap"])
    shortest: Length = Field(description="shortest working length", examples=["35 cm"])
    longest: Length = Field(description="longest working length", examples=["130 cm"])
    marks: Length = Field(
        0.005,
        description="step between the marks you set it to",
        examples=["5 mm"],
        json_schema_extra={"default": "5 mm"},
    )
    whole: Length | None = Field(
        None,
        description="length of the whole strap, tail and all; its longest when left out",
        examples=["160 cm"],
    )


class ConnectorTable(Table):
    """A carabiner, screw link or shackle that holds the fold."""

    name: Name = Field(description="what you call it", examples=["10 mm screw link"])
    count: Count = Field(description="how many alike; a rig takes two", examples=[4])
    mass: Mass = Field(description="mass of one", examples=["180 g"])
    length: Length = Field(
        description="inside length between the bearing points", examples=["70 mm"]
    )
    rating: Rating | None = Field(
        None,
        description="working load limit as marked; leave out when unmarked",
        examples=["900 kg"],
    )


class BarTable(Table):
    """A bar."""

    name: Name = Field(description="what you call it", examples=["power bar"])
    mass: Mass = Field(description="mass without collars", examples=["20 kg"])
    sleeve: Length = Field(description="loadable length of one sleeve", examples=["41.5 cm"])


class CollarTable(Table):
    """A kind of collar."""

    name: Name = Field(description="what you call it", examples=["screw collar"])
    count: Count = Field(description="how many alike; a bar takes two", examples=[2])
    mass: Mass = Field(description="mass of one", examples=["2.5 kg"])
    width: Length = Field(description="room it takes on the sleeve", examples=["5 cm"])


_COUNTED: Final[dict[str, Any]] = {
    "oneOf": [{"required": ["count"]}, {"required": ["pairs"]}],
}


class PlateTable(Table):
    """A size of plate."""

    model_config = ConfigDict(json_schema_extra=_COUNTED)

    mass: Mass = Field(description="mass of one", examples=["20 kg"])
    width: Length = Field(description="room one takes on the sleeve", examples=["4 cm"])
    diameter: Length = Field(description="outside diameter", examples=["45 cm"])
    count: Count | None = Field(None, description="how many single plates", examples=[5])
    pairs: Count | None = Field(None, description="how many pairs, instead of count", examples=[2])
