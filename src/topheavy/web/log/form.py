"""The form of a set: what was typed, and the set that it means."""

from __future__ import annotations

import re
import uuid
from dataclasses import replace
from typing import TYPE_CHECKING, Annotated, Any, Final, cast

from pydantic import BaseModel, ConfigDict, Field

from topheavy.errors import BadInputError
from topheavy.gym.log import LoggedSet, RigThen
from topheavy.units import parse_quantity
from topheavy.web.typed import whole_number, with_unit

if TYPE_CHECKING:
    from topheavy.gym.records import Third
    from topheavy.units import UnitSystem

Typed = Annotated[str, Field(max_length=60)]
_DECIMAL: Final = re.compile(r"[0-9]+([.,][0-9]+)?")
_DIGITS: Final = 6


class SetForm(BaseModel):
    """A set as it was typed; loads are quantities, a bare number is in the units shown."""

    model_config = ConfigDict(extra="ignore")

    id: Typed = ""
    lifter: Typed = ""
    lift: Typed = ""
    station: Typed = ""
    day: Typed = ""
    time: Typed = ""
    straight: Typed = ""
    bottom: Typed = ""
    mean: Typed = ""
    top: Typed = ""
    hung: str = Field(default="", max_length=500)
    reps: Typed = ""
    left: Typed = ""
    speed: Typed = ""
    missed: Typed = ""
    third: Typed = ""
    note: str = Field(default="", max_length=2000)

    def as_set(self, units: UnitSystem, by: str) -> LoggedSet:
        """Read it as a new set.

        Raises
        ------
        BadInputError
            Something is missing, or is no number, load or day.
        """
        return LoggedSet(
            id=self.id or str(uuid.uuid4()),
            lifter=_needed(self.lifter, "lifter"),
            lift=_needed(self.lift, "lift"),
            day=_needed(self.day, "day"),
            straight_kg=_load(_needed(self.straight, "straight weight"), units, "straight weight"),
            rig=self._rig(units),
            by=by,
            **self._how(),
        )

    def as_correction(self, old: LoggedSet, units: UnitSystem, by: str) -> LoggedSet:
        """Read it as what stands for an older set from now on; what hung then stays."""
        new: dict[str, Any] = self._how() | {"day": _needed(self.day, "day")}
        if old.rig is None:
            typed = _needed(self.straight, "straight weight")
            if typed != shown(old, units)["straight"]:
                new["straight_kg"] = _load(typed, units, "straight weight")
        return replace(
            old, **new, id=self.id or str(uuid.uuid4()), corrects=old.id, struck=False, by=by
        )

    def _how(self) -> dict[str, Any]:
        left, speed = self.left.strip(), self.speed.strip()
        missed = bool(self.missed or self.third)
        return {
            "station": self.station.strip(),
            "time": self.time.strip(),
            "reps": whole_number(_needed(self.reps, "repetitions"), "repetitions", "0 or more"),
            "reps_left": None if not left or missed else _number(left, "repetitions left"),
            "speed_m_per_s": _number(speed, "bar speed") if speed else None,
            "missed": missed,
            "third": cast("Third | None", self.third or None),
            "note": " ".join(self.note.split()),
        }

    def _rig(self, units: UnitSystem) -> RigThen | None:
        words = self.hung.strip()
        if not (self.bottom.strip() or self.top.strip() or self.mean.strip()):
            if words:
                raise BadInputError(
                    "Something hung, and no loads are given",
                    field="what hung",
                    got=words,
                    wanted="all that was on the bar at the bottom and at the top",
                )
            return None
        bottom, top = (
            _load(_needed(text, f"load at the {place}"), units, f"load at the {place}")
            for text, place in ((self.bottom, "bottom"), (self.top, "top"))
        )
        mean = _load(self.mean, units, "mean load") if self.mean.strip() else None
        return RigThen.told(bottom, top, mean, words=words)


def shown(old: LoggedSet, units: UnitSystem) -> dict[str, str]:
    """Fill the form of a correction from the set as it stands."""
    return {
        "id": str(uuid.uuid4()),
        "station": old.station,
        "day": old.day,
        "time": old.time,
        "straight": units.mass(old.straight_kg, 2),
        "reps": str(old.reps),
        "left": "" if old.reps_left is None else f"{old.reps_left:g}",
        "speed": "" if old.speed_m_per_s is None else f"{old.speed_m_per_s:g}",
        "missed": "yes" if old.missed else "",
        "third": old.third or "",
        "note": old.note,
    }


def _needed(text: str, what: str) -> str:
    if not text.strip():
        raise BadInputError(f"The {what} is missing", field=what)
    return text.strip()


def _load(text: str, units: UnitSystem, what: str) -> float:
    typed = with_unit(text, units.mass_unit)
    return round(parse_quantity(typed, "mass", field=what), _DIGITS)


def _number(text: str, what: str) -> float:
    if not _DECIMAL.fullmatch(text):
        raise BadInputError("Not a number", field=what, got=repr(text), wanted="such as 2 or 1.5")
    return float(text.replace(",", "."))
