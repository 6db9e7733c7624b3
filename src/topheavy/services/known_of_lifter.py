"""What a gym file knows of one lifter's strength, piece by piece, with what can't be used."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Final

from topheavy.errors import TopheavyError
from topheavy.gym.lifts import LIFTS
from topheavy.gym.records import HungLift, LiftedSet, MissedRep, PinEffort, SpeedRead
from topheavy.lifter.by_speed import best_by_speed
from topheavy.lifter.evidence import (
    PIN_HEIGHT_U_M,
    FullRange,
    HungBest,
    Isometric,
    Miss,
    Partial,
)
from topheavy.lifter.one_rm import DAY_TO_DAY
from topheavy.phrase import Amount, Phrase, literal
from topheavy.services.hung_then import hung_curve_then
from topheavy.units import METRIC

if TYPE_CHECKING:
    from topheavy.gym.lifts import Lift
    from topheavy.gym.people import Measured, Station, Travel
    from topheavy.gym.records import HungLoads, HungThen, Record
    from topheavy.lifter.evidence import Evidence
    from topheavy.mechanics.curve import LoadCurve
    from topheavy.services.rig import Place
    from topheavy.units import UnitSystem

VARIANTS: Final = {
    "bench press": ("pin press", "board press"),
    "squat": ("half squat",),
    "deadlift": ("rack pull", "block pull"),
    "overhead press": ("overhead pin press",),
}
"""Lifts that the trade holds to be the upper part of another: common practice, no source.

Not among them: a floor press, without legs and from another surface; close grip, incline, pause,
front bar, box, sumo stance, deficit and push press, all of them other movements.
"""

SAME_TOP_M: Final = 0.03
"""How far apart two lockouts may be to count as the same [m]: own judgement, three tape errors of
both, and shoes."""

_FILE_BEST: Final = "best in the gym file"
_LOG: Final = "logged "


@dataclass(frozen=True, slots=True)
class Used:
    """A piece of evidence, and where it comes from in a few words."""

    piece: Evidence
    origin: str

    @property
    def given(self) -> bool:
        """Whether it was given with the question."""
        return self.origin == "as given"

    @property
    def logged(self) -> bool:
        """Whether it is from the log of sets."""
        return self.origin.startswith(_LOG)

    @property
    def is_file_best(self) -> bool:
        """Whether it is the best of the gym file."""
        return self.origin == _FILE_BEST


@dataclass(frozen=True, slots=True)
class LeftOut:
    """Something known that is no evidence here: what, where from, and why not."""

    what: Phrase
    origin: str
    why: Phrase

    def say(self, units: UnitSystem = METRIC) -> str:
        """Say it in the units a person wants to see."""
        return f"{self.what.say(units)} ({self.origin}): {self.why.say(units)}"


Found = tuple[list[Used], list[LeftOut]]


def from_lift(place: Place) -> Found:
    """Take best and records of the lift itself."""
    measured = place.measured
    used: list[Used] = []
    left_out: list[LeftOut] = []
    if measured.best_kg is not None:
        used.append(Used(FullRange(load_kg=measured.best_kg), _FILE_BEST))
    reader = _Reader(place, place.lift, measured, place.travel)
    for record in measured.records:
        _take(reader, record, _record_origin("", record), used, left_out)
    for record in measured.logged:
        _take(reader, record, f"{_LOG}{record.day}", used, left_out)
    return used, left_out


def from_variants(place: Place) -> Found:
    """Take bests and records of the same lift from higher up, where the lockout is the same."""
    used: list[Used] = []
    left_out: list[LeftOut] = []
    for name in VARIANTS.get(place.lift.name, ()):
        lift = LIFTS[name]
        measured = place.lifter.lifts.get(name)
        if measured is None or (measured.best_kg is None and not measured.records):
            continue
        why = None
        try:
            travel = _travel_here(place, lift, measured)
            why = _other_movement(place.travel, travel)
        except TopheavyError as error:
            why = Phrase(literal(error.message))
        if why is not None:
            what = Phrase(f"what is known of the {name}")
            left_out.append(LeftOut(what, f"{name} in the gym file", why))
            continue
        records = measured.records
        if measured.best_kg is not None:
            records = (LiftedSet(load_kg=measured.best_kg), *records)
        reader = _Reader(place, lift, measured, travel)
        for record in records:
            _take(reader, record, _record_origin(name, record), used, left_out)
    return used, left_out


def _take(
    reader: _Reader, record: Record, origin: str, used: list[Used], left_out: list[LeftOut]
) -> None:
    try:
        used.append(Used(reader.inside(reader.evidence(record)), origin))
    except TopheavyError as error:
        why = f"{error.message[:1].lower()}{error.message[1:]}"
        why += f" ({error.got})" if error.got is not None else ""
        left_out.append(LeftOut(_record_phrase(record), origin, Phrase(literal(why))))


def _record_origin(variant: str, record: Record) -> str:
    what = f"{variant}, " if variant else ""
    return f"{what}{record.day}" if record.day else f"{what}gym file"


def _travel_here(place: Place, lift: Lift, measured: Measured) -> Travel:
    """Heights of a variant at the station at hand [m]; only benches move them."""
    if lift.station == "bench":
        return place.gym.travel(place.lifter, lift, place.station)
    return measured.travel


def _other_movement(full: Travel, part: Travel) -> Phrase | None:
    off_m = abs(full.top_m - part.top_m)
    if off_m > SAME_TOP_M:
        return Phrase("its lockout is {} off, another movement", (Amount(off_m, "length"),))
    if part.bottom_m <= full.bottom_m:
        return Phrase("it starts no higher than the full lift")
    return None


@dataclass(frozen=True, slots=True)
class _Reader:
    """Turns records of a lift, or of its upper part, into evidence on the lift at hand.

    `travel` is the recorded lift's here, `measured` what was measured of it, perhaps elsewhere.
    """

    place: Place
    lift: Lift
    measured: Measured
    travel: Travel

    @property
    def shift_m(self) -> float:
        """How much higher the bar is here than where the heights were measured [m]."""
        return self.travel.bottom_m - self.measured.travel.bottom_m

    @property
    def is_part(self) -> bool:
        """Whether the records are of the upper part of the lift at hand."""
        return self.lift.name != self.place.lift.name

    def evidence(self, record: Record) -> Evidence:
        """Read one record; raises TopheavyError saying why it is no evidence."""
        if isinstance(record, LiftedSet):
            return self._of_set(record)
        if isinstance(record, PinEffort):
            at_m = record.height_m + self.shift_m
            made = Isometric.from_scale(
                height_m=at_m, effort_kg=record.effort_kg, rest_kg=record.rest_kg
            )
            return replace(made, height_u_m=self._height_u_m(PIN_HEIGHT_U_M))
        if isinstance(record, MissedRep):
            return self._of_miss(record)
        if isinstance(record, HungLift):
            return self._of_hung(record)
        return self._of_speed(record)

    def inside(self, piece: Evidence) -> Evidence:
        """Refuse what lies outside the lift at hand."""
        if isinstance(piece, Partial | Isometric | Miss):
            travel = self.place.travel
            if not travel.bottom_m <= piece.height_m < travel.top_m:
                raise TopheavyError(f"its height lies outside the {self.place.lift.name}")
        return piece

    def _height_u_m(self, own_u_m: float) -> float:
        """Its own, and how far the two lockouts are apart."""
        off_m = self.place.travel.top_m - self.travel.top_m if self.is_part else 0.0
        return math.hypot(own_u_m, off_m)

    def _of_set(self, record: LiftedSet) -> FullRange | Partial:
        if record.from_m is None and not self.is_part:
            return FullRange(
                load_kg=record.load_kg,
                reps=record.reps,
                reps_left=record.reps_left,
                maximal=record.tried,
            )
        from_m = self.travel.bottom_m
        if record.from_m is not None:
            from_m = record.from_m + self.shift_m
        return Partial(
            height_m=from_m,
            load_kg=record.load_kg,
            reps=record.reps,
            reps_left=record.reps_left,
            maximal=record.tried,
            height_u_m=self._height_u_m(max(PIN_HEIGHT_U_M, self.measured.travel.height_u_m)),
        )

    def _of_miss(self, record: MissedRep) -> Miss:
        stopped_m, u_m = record.stopped_at(self.measured.travel)
        load_kg, slope = record.straight_kg, 0.0
        if record.hung is not None:
            hung = self._hung(record.hung)
            load_kg += float(hung.at(stopped_m))
            slope = float(hung.slope_at(stopped_m))
        return Miss(
            height_m=stopped_m + self.shift_m,
            load_kg=load_kg,
            load_u_kg=math.hypot(DAY_TO_DAY * load_kg, slope * u_m),
            height_u_m=self._height_u_m(u_m),
        )

    def _of_hung(self, record: HungLift) -> HungBest:
        if self.is_part:
            raise TopheavyError("a best under hung load counts over the full range only")
        hung = self._hung(record.hung).raised(self.shift_m)
        return HungBest(straight_kg=record.straight_kg, hung=hung, maximal=record.tried)

    def _of_speed(self, record: SpeedRead) -> FullRange:
        if self.is_part:
            raise TopheavyError("no published line tells a best from bar speed over part of a lift")
        return best_by_speed(self.lift.name, record.load_kg, record.speed_m_per_s, record.kind)

    def _hung(self, hung: HungThen | HungLoads) -> LoadCurve:
        """Load by height where the heights were measured [kg over m]."""
        return hung_curve_then(hung, self.place.gym.stock, self._station, self.measured.travel)

    @property
    def _station(self) -> Station:
        """Where the heights were measured, and so where the records were made."""
        gym = self.place.gym
        if self.measured.station:
            return gym.station(self.measured.station)
        if self.place.station.kind == self.lift.station:
            return self.place.station
        return gym.station_for(self.lift)


def _record_phrase(record: Record) -> Phrase:
    if isinstance(record, LiftedSet):
        reps = f"a set of {record.reps} with" if record.reps > 1 else "a single with"
        return Phrase(f"{reps} {{}}", (Amount(record.load_kg, "mass"),))
    if isinstance(record, PinEffort):
        return Phrase("an effort on pins at {}", (Amount(record.height_m, "length"),))
    if isinstance(record, MissedRep):
        return Phrase("a miss of {} straight weight", (Amount(record.straight_kg, "mass"),))
    if isinstance(record, HungLift):
        said = "a single of {} straight weight with a hung load"
        return Phrase(said, (Amount(record.straight_kg, "mass"),))
    said = f"{record.speed_m_per_s:g} m/s with {{}}"
    return Phrase(said, (Amount(record.load_kg, "mass"),))
