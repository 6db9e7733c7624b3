"""What a program asks with: the options of the commands of the same name, as words of a query."""

from __future__ import annotations

from typing import Annotated, Any, Literal

from pydantic import Field

from topheavy.asked.catalogue import ChainAsked
from topheavy.asked.described import FRICTION, RigDescribed
from topheavy.asked.training import RampAsked
from topheavy.asked.weighing import HEIGHT_WITHIN, SCALE_WITHIN
from topheavy.rigging.limits import DESIGN_FACTOR
from topheavy.web.words import Name, Quantity, RigWords, UnitWords

Told = Annotated[str, Field(max_length=300)]
Several = Annotated[list[Told], Field(max_length=40)]
Day = Annotated[
    str,
    Field(
        pattern=r"^(\d{4}-\d{2}-\d{2})?$",
        description="The day it is, for bands to read again: 2026-11-25; else the clock's.",
    ),
]
Factor = Annotated[float, Field(gt=0, le=100, description="Rated load over what hangs on it.")]


class StrengthWords(UnitWords):
    """What tells how strong a lifter is, beside the gym."""

    best: Quantity = Field(default="", description="Best single, straight weight; else the gym's.")
    sets: Several = Field(default=[], alias="set", description="Sets: 5x100kg, or 5x100kg@2.")
    partial: Several = Field(default=[], description="Bests from pins: 95cm=120kg, 95cm=3x110kg.")
    miss: Several = Field(default=[], description="Misses: 90cm=105kg, or middle=105kg.")
    isometric: Several = Field(default=[], description="Efforts on pins: 60cm=280kg-90kg.")
    speeds: Several = Field(default=[], alias="speed", description="Bar speeds: 100kg=0.45.")


class WhoWords(StrengthWords):
    """Of whom the strength is asked."""

    lifter: Name = Field(default="", description="Whose heights and bests.")
    lift: Name = Field(default="bench press", description="Such as bench press, squat, deadlift.")
    station: Name = Field(default="", description="Where; else the first that suits.")

    def evidence(self) -> dict[str, Any]:
        """What tells of strength, as services take it."""
        return {
            name.rstrip("s") if name == "speeds" else name: value
            for name, value in said_in(self, {"lifter", "lift", "station", "units"}).items()
        }


class AskedWords(RigWords, StrengthWords):
    """A question for a rig, with everything that ``topheavy rig`` can be asked.

    Of the loads just two are needed, or ``way=match``. What tells how strong the lifter is counts
    with ``way=match``, and where the answer is about the lifter.
    """

    mean: Quantity = Field(default="", description="Mean load over the lift.")
    straight: Quantity = Field(default="", description="Bar, collars and plates, kept exactly.")
    chain: Quantity = Field(default="", description="How much more at the top, such as 25%.")
    of: Literal["top", "bottom", "best"] = Field(
        default="top", description="What `chain` is a percentage of."
    )
    follow: Several = Field(default=[], description="Points of a curve to follow: 66cm=80kg.")
    links_down: int | None = Field(
        default=None, ge=0, le=1000, description="Links left down at lockout; else 1."
    )
    all_clear: bool = Field(default=False, description="Every link clear at lockout.")
    part_deload: bool = Field(default=False, description="Chain may hang at the bottom too.")
    dragged: bool = Field(default=False, description="The slack is laid out to the side.")
    hang: list[Literal["doubled", "draped", "straight"]] = Field(
        default=[], max_length=3, description="Ways to hang; else doubled."
    )
    most_pieces: int = Field(default=8, ge=0, le=40, description="Chain pieces, both ends.")
    design_factor: Factor = DESIGN_FACTOR
    most_imbalance: Quantity = Field(
        default="0.5 kg", description="Difference between the ends at the top."
    )
    within: Quantity = Field(default="", description="Largest miss that counts as met.")
    size: list[Name] = Field(default=[], max_length=20, description="Only chain of these sizes.")
    today: Day = ""


class RepWords(AskedWords):
    """A rig, and how the bar moves with it; others stand beside it at `effort`."""

    lower: float = Field(
        default=2.0, gt=0, le=60, description="Seconds the bar takes down under control."
    )


class RampWords(AskedWords):
    """The rig of the top set, and the ramp to it."""

    reps: int | None = Field(default=None, ge=1, le=100, description="Of the top set; else 3.")
    singles: bool = Field(default=False, description="Singles up to a max.")
    chain_from: int = Field(default=1, ge=1, le=100, description="Set from which chain is on.")
    after: Quantity = Field(default="", description="Straight weight of the last single.")
    missed: bool = Field(default=False, description="It was missed.")
    missed_before: bool = Field(default=False, description="The one before it was missed too.")
    reps_left: float | None = Field(
        default=None, ge=0, le=100, description="How many more reps were in it."
    )
    bar_speed: float | None = Field(
        default=None, gt=0, le=10, description="Its mean speed on the way up, m/s."
    )
    attempt: int = Field(default=1, ge=1, le=100, description="Which attempt it was.")

    def ramp(self) -> RampAsked:
        """What was said of the ramp."""
        return RampAsked(**said_in(self, set(AskedWords.model_fields)))


class SessionWords(AskedWords):
    """The rig of the day, and the session with it."""

    day: Literal["heavy", "speed", "repetition", "technique"] = Field(
        default="heavy", description="Kind of day."
    )
    do: Quantity = Field(default="", description="Sets and reps, such as 5x3; else as usual.")
    stop_at: Quantity = Field(default="", description="Loss of speed that ends a set: 10%.")


class DescribedWords(UnitWords):
    """A rig as somebody describes it: ``topheavy curve`` says how."""

    left: Several = Field(default=[], description="Left end: A1+A2; none for bare.")
    right: Several = Field(default=[], description="Right end.")
    chain: Several = Field(default=[], description="Chain of no gym, on both ends: 32 x 5/8 in.")
    feeder: Told = Field(default="", description="ring strap:7, or 62cm.")
    connector: Told = Field(default="", description="A name, or 175 g, 72 mm, rated 850 kg.")
    hang: Literal["doubled", "draped", "straight"] = Field(
        default="doubled", description="For what does not say."
    )
    left_band: Several = Field(default=[], description="Bands, left: red-1 doubled on low.")
    right_band: Several = Field(default=[], description="Bands, right.")
    beyond: bool = Field(default=False, description="Bands may stretch further than read: a guess.")
    straight: Quantity = Field(default="", description="Bar, collars and plates together.")
    bar: Name = Field(default="", description="A bar by name, or mass of bar and collars.")
    plates: Told = Field(default="", description="Plates of one side: 25kg + 2x10kg.")
    lifter: Name = Field(default="", description="Whose bottom and top, whose best.")
    lift: Name = Field(default="", description="Which lift; bench press for a lifter.")
    station: Name = Field(default="", description="Which station, for its bar and floor.")
    best: Quantity = Field(default="", description="Best single; else the gym's.")
    mat: Quantity = Field(default="", description="Height of what lies under the chain.")
    dragged: bool = Field(default=False, description="The slack is laid out to the side.")
    friction: float = Field(
        default=FRICTION, gt=0, le=10, description="Of chain on this floor, for slack laid out."
    )
    design_factor: Factor = DESIGN_FACTOR
    today: Day = ""

    def described(self, today: str) -> RigDescribed:
        """The same as the services' words; `today` where no day was said."""
        said = said_in(self, {"units", *_OF_CURVE, *_OF_WEIGHING})
        return RigDescribed(**{**said, "today": self.today or today})


_OF_CURVE = ("bottom", "top", "at", "reach")
_OF_WEIGHING = ("reading", "carries", "bare", "scale_within", "height_within")


class CurveWords(DescribedWords):
    """A described rig, and where its load is asked for."""

    bottom: Quantity = Field(default="", description="Where the lift turns; else the lifter's.")
    top: Quantity = Field(default="", description="Where it locks out; else the lifter's.")
    at: Several = Field(default=[], description="Heights to read.")
    reach: Several = Field(default=[], description="Loads whose height is asked for.")


class WeighWords(DescribedWords):
    """A described rig, and what a scale showed of it."""

    reading: list[Told] = Field(
        default=[], max_length=200, description="Such as 70cm=92.1kg; :up or :down when known."
    )
    carries: Name = Field(
        default="bar", description="bar, left, right, floor, floor left or floor right."
    )
    bare: Quantity = Field(default="", description="What it shows with all chain on the floor.")
    scale_within: Quantity = Field(default=SCALE_WITHIN, description="How sure the scale is.")
    height_within: Quantity = Field(default=HEIGHT_WITHIN, description="How sure each height is.")


class ChainWords(UnitWords):
    """Chain by standard, grade and size, or by caliper readings."""

    standard: Name = Field(default="", description="DIN 764, EN 818-2, ASTM A413, ...")
    grade: Name = Field(default="", description="Grade, or the mark on the link.")
    size: Name = Field(default="", description="5/8 in, 16 mm, 16 x 56 mm.")
    wire: Quantity = Field(default="", description="Wire diameter, away from the weld.")
    outside: Quantity = Field(default="", description="Outer face to outer face over links.")
    links_over: int = Field(default=10, ge=1, le=1000, description="How many links that is.")
    pitch: Quantity = Field(default="", description="Inside length of one link, instead.")
    width: Quantity = Field(default="", description="Inside width of a link.")
    wire_within: Quantity = Field(default="0.3 mm", description="How sure the wire is.")
    outside_within: Quantity = Field(default="2 mm", description="How sure that length is.")
    travel: Quantity = Field(default="", description="Bottom to top of the lift; else 40 cm.")
    best: Quantity = Field(default="", description="Best single; else 100 kg.")
    share: Quantity = Field(default="10 %", description="Chain at the top, of the best.")

    def asked(self) -> ChainAsked:
        """The same as the services' words."""
        return ChainAsked(**said_in(self, {"units"}))


class WeeksWords(UnitWords):
    """Which part of a plan is asked for."""

    lifter: Name = Field(default="", description="Only this lifter, the whole block.")
    week: int | None = Field(default=None, ge=1, le=104, description="Only this week; else all.")


def said_in(words: UnitWords, without: set[str]) -> dict[str, Any]:
    """Words as services take them: nothing where nothing was said, lists as tuples."""
    found: dict[str, Any] = {}
    for name in type(words).model_fields:
        value = getattr(words, name)
        if name in without or value == "":
            continue
        found[name] = tuple(value) if isinstance(value, list) else value
    return found
