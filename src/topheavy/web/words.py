"""What a page or a program asks with: words of a query, bounded and known by name."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Field

Name = Annotated[str, Field(max_length=200)]
Quantity = Annotated[str, Field(max_length=60)]
Units = Annotated[
    Literal["", "kg", "lb"], Field(description="What to show; else the visitor's, or the gym's.")
]
Day = Annotated[str, Field(max_length=10)]
Hung = Annotated[list[Name], Field(max_length=2)]


class UnitWords(BaseModel):
    """Any question: no word that is not known, and what the answer is shown in."""

    model_config = ConfigDict(extra="forbid", frozen=True)

    units: Units = ""


class RigWords(UnitWords):
    """A question for a rig.

    Loads are quantities with their unit, ``85kg`` or ``60%`` of the lifter's best; a bare number
    is in the units that are shown. Lifter, lift and station may be left out: the first that suit.
    """

    lifter: Name = Field(default="", description="Whose heights and bests.")
    lift: Name = Field(default="", description="Such as bench press, squat, deadlift.")
    station: Name = Field(default="", description="Bench, rack or platform, by its name.")
    way: Literal["loads", "match"] = Field(
        default="loads", description="Aim at loads, or match the lifter's strength."
    )
    bottom: Quantity = Field(default="", description="Load wanted at the bottom: 85kg, 185lb, 60%.")
    top: Quantity = Field(default="", description="Load wanted at the top.")
    effort: Quantity = Field(default="", description="With way=match: share of strength; else 90%.")
    bands: int = Field(default=0, ge=0, le=2, description="Most bands on each end.")


class ChosenWords(RigWords):
    """The same question, and the parts of a rig to be read for it."""

    left: list[Name] = Field(default=[], max_length=40, description="Tags of the pieces, left end.")
    right: list[Name] = Field(
        default=[], max_length=40, description="Tags of the pieces, right end."
    )
    hang: Literal["doubled", "draped", "straight"] = Field(default="doubled", description="How.")
    feeder: Name = Field(default="", description="Name of the feeders, alike on both ends.")
    setting: Name = Field(default="", description="Their setting, as the gym file labels it.")
    connector: Name = Field(default="", description="Name of the connectors.")
    plate: list[Quantity] = Field(
        default=[],
        max_length=60,
        description="Each plate of one side: 25kg, 45lb, or a number in kg.",
    )
    left_band: Hung = Field(default=[], description="Bands, left end: red-1 doubled on low.")
    right_band: Hung = Field(default=[], description="Bands, right end.")


class StageWords(ChosenWords):
    """A chosen rig, and where the bar is."""

    height: Quantity = Field(default="", description="Height of the bar: 80cm; else the bottom.")


class MotionWords(ChosenWords):
    """A chosen rig, to be moved."""

    straight: bool = Field(default=False, description="The same chain hung straight, alone.")
