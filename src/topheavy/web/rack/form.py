"""The form of one set, as a browser without scripts sends it."""

from __future__ import annotations

from datetime import UTC, datetime
from typing import TYPE_CHECKING, Any

from pydantic import BaseModel, ConfigDict, Field

from topheavy.units import parse_quantity
from topheavy.web.typed import with_unit

if TYPE_CHECKING:
    from topheavy.units import UnitSystem


class LogForm(BaseModel):
    """One set: which, and how it went."""

    model_config = ConfigDict(extra="ignore")

    id: str = Field(max_length=36)
    work: str = Field(max_length=36)
    step: int
    number: int
    reps: int
    left: str = Field(default="", max_length=4)
    missed: str = Field(default="", max_length=4)
    third: str = Field(default="", max_length=6)
    planned: str = Field(default="", max_length=60)
    straight: str = Field(default="", max_length=60)
    note: str = Field(default="", max_length=2000)
    back: str = Field(default="/rack", max_length=200)

    def as_set(self, units: UnitSystem) -> dict[str, Any]:
        """Write it as programs send a set."""
        sent: dict[str, Any] = {
            "id": self.id,
            "work": self.work,
            "step": self.step,
            "number": self.number,
            "reps": self.reps,
            "note": self.note,
            "time": datetime.now(UTC).astimezone().strftime("%H:%M"),
        }
        if self.missed:
            sent |= {"missed": True, "third": self.third or None}
        elif self.left:
            sent["reps_left"] = self.left
        text = (self.straight or self.planned).strip()
        if text:
            typed = with_unit(text, units.mass_unit)
            sent["straight_kg"] = parse_quantity(typed, "mass", field="straight")
        return sent
