"""The tables of a plan file."""

import datetime as dt
import re
from functools import cache
from typing import Annotated, Any, Final, Literal

from pydantic import BeforeValidator, ConfigDict, Field, WithJsonSchema

from topheavy.gymfile.quantities import Quantity, ShareOrMass, listed, refusal, text_schema
from topheavy.gymfile.schema import schema_of
from topheavy.gymfile.tables_stock import Name, Table
from topheavy.training.session import MOST_REPS, MOST_SETS
from topheavy.training.weeks import MOST_WAVE_WEEKS, MOST_WEEKS

MOST_TABLES: Final = 500
"""Most tables of one kind; a guard against slips of the pen."""

DAY_PATTERN: Final = r"^\d{4}-\d{2}-\d{2}$"
TIME_PATTERN: Final = r"^([01]?\d|2[0-3]):[0-5]\d$"


def _day(value: object) -> object:
    """A day in quotes, or TOML's own."""
    if isinstance(value, dt.date) and not isinstance(value, dt.datetime):
        return value.isoformat()
    if not isinstance(value, str) or not re.fullmatch(DAY_PATTERN, value):
        raise refusal("Not a day", 'year-month-day in quotes, such as "2026-11-30"')
    try:
        return dt.date.fromisoformat(value).isoformat()
    except ValueError:
        raise refusal("There is no such day", "a day that is on the calendar") from None


def _time(value: object) -> object:
    """A time in quotes, or TOML's own."""
    if isinstance(value, dt.time):
        return f"{value:%H:%M}"
    if not isinstance(value, str) or not re.fullmatch(TIME_PATTERN, value):
        raise refusal("Not a time of day", 'hours and minutes in quotes, such as "18:30"')
    return value


def _one_or_more(item: dict[str, Any], most: int) -> WithJsonSchema:
    several = {"type": "array", "items": item, "minItems": 1, "maxItems": most}
    return WithJsonSchema({"anyOf": [item, several]})


Load = Annotated[float, Quantity("share", 1.5)]
"""A share of the best, or of strength [-]."""

Share = Annotated[float, Quantity("share", 0.9)]
"""An accommodating share [-]."""

_SHARE: Final = text_schema("share")
_NAME: Final = {"type": "string", "maxLength": 60}

Loads = Annotated[
    list[Load],
    Field(min_length=1, max_length=MOST_WAVE_WEEKS),
    BeforeValidator(listed),
    _one_or_more(_SHARE, MOST_WAVE_WEEKS),
]
Shares = Annotated[
    list[Share],
    Field(min_length=1, max_length=MOST_WAVE_WEEKS),
    BeforeValidator(listed),
    _one_or_more(_SHARE, MOST_WAVE_WEEKS),
]
Names = Annotated[
    list[Name],
    Field(min_length=1, max_length=MOST_TABLES),
    BeforeValidator(listed),
    _one_or_more(_NAME, MOST_TABLES),
]
Note = Annotated[str, Field(max_length=120, pattern=r"^[^\x00-\x1f\x7f]*$")]
"""One line of text."""

LoadOrMass = Annotated[Any, ShareOrMass('a share such as "82 %", or a mass such as "120 kg"')]
Day = Annotated[str, Field(pattern=DAY_PATTERN, max_length=10), BeforeValidator(_day)]
Time = Annotated[str, Field(pattern=TIME_PATTERN, max_length=5), BeforeValidator(_time)]
Hang = Literal["straight", "chain", "bands", "mixed"]
Weekday = Literal["monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday"]
Sets = Annotated[int, Field(ge=1, le=MOST_SETS)]
Reps = Annotated[int, Field(ge=1, le=MOST_REPS)]

_OF_THE_BEST: Final = "one for the wave, or one a week; when left out they rise as is usual"


class PlanTable(Table):
    """The block itself."""

    start: Day = Field(
        description="a day of the first week, year-month-day; nothing is planned before it",
        examples=["2026-11-30"],
    )
    name: Name = Field(
        "Weeks", description="name of the block, as it stands on the sheets", examples=["Winter"]
    )
    lifters: Names | None = Field(
        None,
        description="who trains; everybody who was measured for a lift when left out",
        examples=[["Osric", "Runa"]],
    )
    test_week: bool = Field(
        default=True,
        description="whether a week of singles up to a max, straight weight, follows the waves",
        examples=[False],
    )
    time_zone: Name | None = Field(
        None,
        description="time zone of the gym, needed when days have times",
        examples=["Europe/Vienna"],
    )


class DayTable(Table):
    """What is done on a day of the week."""

    weekday: Weekday = Field(description="day of the week", examples=["monday"])
    lift: Names = Field(
        description="the lift; of several, each wave has the next", examples=["squat"]
    )
    kind: Literal["heavy", "speed", "repetition", "technique"] = Field(
        "heavy", description="kind of day", examples=["speed"]
    )
    sets: Sets | None = Field(
        None, description="whole number of sets, when other than usual", examples=[5]
    )
    reps: Reps | None = Field(
        None, description="whole number of reps in a set, when other than usual", examples=[3]
    )
    lifters: Names | None = Field(
        None, description="who, when not everybody of the plan", examples=[["Pip"]]
    )
    station: Name | None = Field(
        None, description="where, when not where the lifter was measured", examples=["bench 2"]
    )
    hang: Hang | None = Field(
        None, description="what hangs, when other than the wave says", examples=["straight"]
    )
    time: Time | None = Field(
        None, description="when it begins, hours and minutes", examples=["18:30"]
    )
    minutes: Annotated[int, Field(ge=5, le=600)] = Field(
        60, description="whole number of minutes it lasts", examples=[75]
    )


class WaveTable(Table):
    """One to four weeks on one way of loading."""

    hang: Hang = Field(description="what hangs", examples=["chain"])
    weeks: Annotated[int, Field(ge=1, le=MOST_WAVE_WEEKS)] = Field(
        description="whole number of weeks", examples=[3]
    )
    share: Shares | None = Field(
        None,
        description="accommodating share: how much more at the top, one for the wave or one a "
        "week; 20 % when left out",
        examples=["20 %"],
    )
    of: Literal["top", "bottom", "best"] = Field(
        "top", description="what share is a percentage of", examples=["top"]
    )
    match: bool = Field(
        default=False,
        description="the rig follows the lifter's strength, and loads are percentages of it where "
        "the lift is hardest",
        examples=[True],
    )
    load_at: Literal["straight", "bottom", "mean", "top"] = Field(
        "mean", description="which load of the rig the percentages speak of", examples=["mean"]
    )
    heavy: Loads | None = Field(
        None,
        description=f"loads of heavy days, of the best: {_OF_THE_BEST}",
        examples=[["80 %", "84 %", "88 %"]],
    )
    speed: Loads | None = Field(
        None,
        description=f"loads of speed days, of the best: {_OF_THE_BEST}",
        examples=[["52 %", "55 %", "58 %"]],
    )
    repetition: Loads | None = Field(
        None,
        description=f"loads of repetition days, of the best: {_OF_THE_BEST}",
        examples=[["60 %", "63 %", "66 %"]],
    )
    technique: Loads | None = Field(
        None,
        description=f"loads of technique days, of the best: {_OF_THE_BEST}",
        examples=["45 %"],
    )
    deload: bool = Field(
        default=False,
        description="the last week is a planned deload: lighter, and half the sets",
        examples=[True],
    )


class ChangeTable(Table):
    """What you changed by hand in one week."""

    week: Annotated[int, Field(ge=1, le=MOST_WEEKS)] = Field(
        description="whole number, the first week is 1", examples=[3]
    )
    lifter: Name | None = Field(
        None, description="whose; everybody's when left out", examples=["Pip"]
    )
    lift: Name | None = Field(None, description="which lift; all when left out", examples=["squat"])
    weekday: Weekday | None = Field(
        None, description="which day; all when left out", examples=["monday"]
    )
    load: LoadOrMass | None = Field(
        None, description="another load: a percentage, or a mass", examples=["82 %"]
    )
    share: Share | None = Field(None, description="another accommodating share", examples=["15 %"])
    sets: Sets | None = Field(None, description="whole number of sets", examples=[3])
    reps: Reps | None = Field(None, description="whole number of reps in a set", examples=[2])
    off: bool = Field(default=False, description="no session at all", examples=[True])
    note: Note | None = Field(
        None, description="why; it stands on the sheet", examples=["back from a cold"]
    )


class PlanFile(Table):
    """A block of weeks."""

    model_config = ConfigDict(title="topheavy plan file")

    plan: PlanTable = Field(description="the block itself", examples=[{"start": "2026-11-30"}])
    day: Annotated[list[DayTable], Field(min_length=1, max_length=MOST_TABLES)] = Field(
        description="days of the week, a table for each lift",
        examples=[[{"weekday": "monday", "lift": "squat"}]],
    )
    wave: Annotated[list[WaveTable], Field(max_length=MOST_WEEKS)] = Field(
        default_factory=list,
        description="waves in their order; straight weight for two weeks and chain for four, the "
        "last a deload, when left out",
        examples=[[{"hang": "chain", "weeks": 3}]],
    )
    change: Annotated[list[ChangeTable], Field(max_length=MOST_TABLES)] = Field(
        default_factory=list,
        description="what you changed by hand",
        examples=[[{"week": 3, "lifter": "Pip", "off": True}]],
    )


@cache
def plan_schema() -> dict[str, Any]:
    """Describe the format of a plan file.

    Returns
    -------
    dict
        JSON Schema, draft 2020-12; every key with a description and examples.

    Examples
    --------
    >>> plan_schema()["title"]
    'topheavy plan file'
    """
    return schema_of(PlanFile)
