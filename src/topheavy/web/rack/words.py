"""A set as a phone or a program sends it, and what comes back."""

from __future__ import annotations

from typing import Annotated, Any, Final, Literal

from pydantic import BaseModel, ConfigDict, Field, WithJsonSchema

Id = Annotated[str, Field(max_length=36)]
Name = Annotated[str, Field(max_length=60)]

MOST_AT_ONCE: Final = 500
"""How many sets go in one request."""


class SentSet(BaseModel):
    """A set, sent to be logged.

    With `work` and `step` everything that was planned is taken from there: lifter, lift, station,
    day, loads and what hung. Without, `lifter`, `lift` and `straight_kg` are needed. With
    `corrects` what is left out stays as it was; with `struck` besides, that set never happened.
    """

    model_config = ConfigDict(extra="forbid", frozen=True)

    id: Id = Field(description="A UUID that the sender makes; sending it again never doubles.")
    work: Id = Field(default="", description="Id of the work of the day that it belongs to.")
    step: int | None = Field(default=None, ge=1, description="Which set of that work, from 1.")
    lifter: Name = ""
    lift: Name = ""
    station: Name = ""
    day: str = Field(default="", max_length=10, description="Year-month-day; else today.")
    time: str = Field(default="", max_length=5, description="By the clock in the gym: 18:05.")
    session: Name = ""
    number: int | None = Field(default=None, ge=1, description="Which set of the session.")
    straight_kg: float | None = Field(
        default=None, description="Bar, collars and plates [kg]; else as planned."
    )
    bottom_kg: float | None = Field(default=None, description="All on the bar at the bottom [kg].")
    mean_kg: float | None = Field(default=None, description="Its mean over the way up [kg].")
    top_kg: float | None = Field(default=None, description="All on the bar at the top [kg].")
    hung: str = Field(default="", max_length=500, description="What hung, in words.")
    reps: int | None = Field(default=None, description="Repetitions done.")
    reps_left: float | None = Field(default=None, description="How many more were in it.")
    speed_m_per_s: float | None = Field(default=None, description="Mean speed on the way up.")
    missed: bool | None = Field(default=None, description="Whether it ended with a miss.")
    third: Literal["lower", "middle", "top"] | None = None
    note: str | None = Field(default=None, max_length=2000)
    corrects: Id = Field(default="", description="Id of the set that it stands for now.")
    struck: bool = False


class SentSets(BaseModel):
    """Sets to be logged; each is answered for itself, so that none holds up the others."""

    model_config = ConfigDict(extra="forbid")

    sets: list[Annotated[Any, WithJsonSchema(SentSet.model_json_schema())]] = Field(
        min_length=1, max_length=MOST_AT_ONCE
    )


class Trouble(BaseModel):
    """Why a set was refused."""

    detail: str
    field: str | None = None
    got: str | None = None
    wanted: str | None = None


class SetAnswer(BaseModel):
    """What became of one set."""

    id: str = Field(description="As it was sent; empty when there was none.")
    outcome: Literal["new", "known", "refused"]
    trouble: Trouble | None = None


class SetAnswers(BaseModel):
    """What became of each set, in the order they were sent."""

    answers: list[SetAnswer]
