"""The tables of a room file."""

import datetime as dt
import re
from functools import cache
from typing import Annotated, Any, Final, Literal

from pydantic import ConfigDict, Field

from topheavy.gymfile.quantities import Mass, Quantity, ShareOrMass, Written, refusal
from topheavy.gymfile.schema import schema_of
from topheavy.gymfile.tables_stock import Name, Table, Tag
from topheavy.rigging.limits import MOST_BANDS

MOST_SESSIONS: Final = 2000
"""Most tables of one kind; a guard against slips of the pen."""

MOST_DAYS: Final = 14

_SECONDS: Final = {"s": 1.0, "sec": 1.0, "min": 60.0, "h": 3600.0}
_TERM: Final = re.compile(r"\s*(\d+(?:[.,]\d+)?)\s*([a-z]+)\s*")
_LENGTH: Final = r"^\s*(\d+([.,]\d+)?\s*(s|sec|min|h)\s*)+$"
_TIME: Final = r"^([01]?\d|2[0-3]):[0-5]\d(:[0-5]\d)?$"


class _Seconds(Written):
    """A length of time, to seconds."""

    def read(self, value: object) -> float:
        """Turn text with its units into seconds."""
        wanted = 'text in quotes, such as "3 min", "90 s" or "1 h 30 min"; at most 24 h'
        if not isinstance(value, str) or not re.fullmatch(_LENGTH, value):
            raise refusal("Not a length of time", wanted)
        terms = _TERM.findall(value)
        seconds = sum(float(number.replace(",", ".")) * _SECONDS[unit] for number, unit in terms)
        if seconds > 24 * 3600:
            raise refusal("A time too long to be true", wanted)
        return float(seconds)

    def schema(self) -> dict[str, Any]:
        """Give the JSON Schema of what may be written."""
        return {"type": "string", "maxLength": 40, "pattern": _LENGTH}


class _Clock(Written):
    """A time of day, to seconds after midnight."""

    def read(self, value: object) -> int:
        """Turn hours and minutes in quotes, or TOML's own, into seconds."""
        if isinstance(value, dt.time):
            return value.hour * 3600 + value.minute * 60 + value.second
        if not isinstance(value, str) or not re.fullmatch(_TIME, value):
            raise refusal("Not a time of day", 'hours and minutes in quotes, such as "18:30"')
        hours, minutes, *seconds = map(int, value.split(":"))
        return hours * 3600 + minutes * 60 + sum(seconds)

    def schema(self) -> dict[str, Any]:
        """Give the JSON Schema of what may be written."""
        return {"type": "string", "pattern": _TIME}


Seconds = Annotated[float, _Seconds()]
Clock = Annotated[int, _Clock()]
Load = Annotated[Any, ShareOrMass('a mass such as "105 kg", or a share of the best such as "60 %"')]
Share = Annotated[float, Quantity("share", 1.0)]


class RoomTable(Table):
    """The session: when, where, with how many hands, and how long things take."""

    name: Name = Field("Session", description="name of the session", examples=["Tuesday"])
    opens: Clock = Field(description="time of day when it opens", examples=["18:00"])
    closes: Clock = Field(description="time of day when all must have done", examples=["19:45"])
    stations: Annotated[list[Name], Field(min_length=1, max_length=200)] | None = Field(
        None, description="stations in use; all when left out", examples=[["bench 1", "rack"]]
    )
    spotters: Annotated[int, Field(ge=0, le=100)] = Field(
        1, description="people who only spot", examples=[2]
    )
    most_in_group: Annotated[int, Field(ge=1, le=8)] = Field(
        4, description="lifters who share a bar at most", examples=[3]
    )
    within: Mass | None = Field(
        None,
        description="how far a load may be off; 1.5 % of the top load when left out",
        examples=["2.5 kg"],
    )
    hang: Annotated[
        list[Literal["doubled", "draped", "straight"]], Field(min_length=1, max_length=3)
    ] = Field(
        ["doubled"],
        description="how chain may hang: doubled (the rule), draped, straight",
        examples=[["doubled", "draped"]],
        json_schema_extra={"default": ["doubled"]},
    )
    bands: Annotated[int, Field(ge=0, le=MOST_BANDS)] = Field(
        0, description="bands on each end at most, beside chain or instead of it", examples=[1]
    )
    broken: Annotated[list[Tag], Field(max_length=1000)] = Field(
        default_factory=list,
        description="chain pieces and bands that are not to be hung today",
        examples=[["A3"]],
    )
    rep: Seconds = Field(
        4.0, description="one repetition", examples=["4 s"], json_schema_extra={"default": "4 s"}
    )
    ready: Seconds = Field(
        30.0,
        description='from "next" to the first repetition',
        examples=["30 s"],
        json_schema_extra={"default": "30 s"},
    )
    plates: Seconds = Field(
        45.0,
        description="changing plates between two lifters",
        examples=["45 s"],
        json_schema_extra={"default": "45 s"},
    )
    rig: Seconds = Field(
        240.0,
        description="hanging other chain at a station, both ends",
        examples=["4 min"],
        json_schema_extra={"default": "4 min"},
    )
    between_lifts: Seconds = Field(
        300.0,
        description="least time for a lifter between two lifts",
        examples=["5 min"],
        json_schema_extra={"default": "5 min"},
    )
    a_day: Annotated[int, Field(ge=1, le=5)] | None = Field(
        None,
        description="in a week: lifts of one lifter on a day at most; 1 when left out",
        examples=[2],
    )


class DayTable(Table):
    """A day of a week; what is left out is as in [room]."""

    name: Name = Field(description="name of the day", examples=["Monday"])
    opens: Clock | None = Field(None, description="time of day when it opens", examples=["17:00"])
    closes: Clock | None = Field(
        None, description="time of day when all must have done", examples=["20:30"]
    )
    stations: Annotated[list[Name], Field(min_length=1, max_length=200)] | None = Field(
        None, description="stations in use that day", examples=[["bench 1", "rack"]]
    )
    spotters: Annotated[int, Field(ge=0, le=100)] | None = Field(
        None, description="people who only spot that day", examples=[2]
    )
    broken: Annotated[list[Tag], Field(max_length=1000)] = Field(
        default_factory=list,
        description="chain pieces and bands that are not to be hung that day either",
        examples=[["A3"]],
    )


class SessionTable(Table):
    """One lift of one lifter today."""

    lifter: Name = Field(description="who, as in the gym file", examples=["Osric"])
    lift: Name = Field(description="which lift", examples=["bench press"])
    bottom: Load | None = Field(None, description="load at the bottom", examples=["85 kg"])
    top: Load | None = Field(None, description="load at the top", examples=["115 kg"])
    mean: Load | None = Field(None, description="mean load over the lift", examples=["100 kg"])
    straight: Load | None = Field(
        None, description="bar, collars and plates, kept exactly", examples=["80 kg"]
    )
    chain: Share | None = Field(
        None, description="how much more at the top, of the top load", examples=["25 %"]
    )
    match: bool = Field(
        default=False, description="match the rig to the lifter's strength", examples=[True]
    )
    effort: Share | None = Field(
        None, description="share of strength to use when matched; 90 % usual", examples=["85 %"]
    )
    within: Mass | None = Field(
        None, description="how far this load may be off", examples=["1.5 kg"]
    )
    part_deload: bool = Field(
        default=False,
        description="whether chain may hang at the bottom too; draped and straight need it",
        examples=[True],
    )
    sets: Annotated[int, Field(ge=1, le=20)] = Field(
        5, description="whole number of sets", examples=[5]
    )
    reps: Annotated[int, Field(ge=1, le=30)] = Field(
        3, description="whole number of reps in a set", examples=[3]
    )
    rest: Seconds = Field(
        180.0,
        description="least rest between two sets",
        examples=["3 min"],
        json_schema_extra={"default": "3 min"},
    )
    kind: Literal["heavy", "speed", "repetition", "technique"] = Field(
        "heavy",
        description="kind of day: reps left and the end of a set on the lifter's phone",
        examples=["speed"],
    )
    arrive: Clock | None = Field(
        None, description="when the lifter can begin, if later than opening", examples=["18:20"]
    )
    leave: Clock | None = Field(
        None, description="when the lifter must have done", examples=["19:30"]
    )
    station: Name | None = Field(None, description="only at this station", examples=["bench 2"])
    start: Clock | None = Field(
        None, description="the group's first round starts just then", examples=["18:30"]
    )
    spotters: Annotated[int, Field(ge=0, le=5)] | None = Field(
        None,
        description="people at each set; on a bench 1, in a rack 2, overhead and on a platform "
        "none when left out",
        examples=[2],
    )
    may_spot: bool = Field(
        default=True, description="whether this lifter spots for others", examples=[False]
    )
    days: Annotated[list[Name], Field(min_length=1, max_length=MOST_DAYS)] | None = Field(
        None,
        description="in a week: the days it may be on, one of them; any when left out",
        examples=[["Monday", "Thursday"]],
    )


class RoomFile(Table):
    """One session of a whole gym, or a week of them."""

    model_config = ConfigDict(title="topheavy room file")

    room: RoomTable = Field(
        description="the session", examples=[{"opens": "18:00", "closes": "19:45"}]
    )
    day: Annotated[list[DayTable], Field(max_length=MOST_DAYS)] = Field(
        default_factory=list,
        description="days of a week, in their order; none: the file is of one session",
        examples=[[{"name": "Monday"}, {"name": "Thursday", "closes": "20:30"}]],
    )
    session: Annotated[list[SessionTable], Field(min_length=1, max_length=MOST_SESSIONS)] = Field(
        description="who lifts what, a table for each lift of a lifter",
        examples=[[{"lifter": "Osric", "lift": "squat", "bottom": "110 kg", "top": "150 kg"}]],
    )


@cache
def room_schema() -> dict[str, Any]:
    """Describe the format of a room file.

    Returns
    -------
    dict
        JSON Schema, draft 2020-12; every key with a description and examples.

    Examples
    --------
    >>> room_schema()["title"]
    'topheavy room file'
    """
    return schema_of(RoomFile)
