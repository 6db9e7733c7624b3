"""Forms of the weeks: the least that makes a block, and a change by hand."""

from __future__ import annotations

from typing import Annotated, Any

from pydantic import BaseModel, ConfigDict, Field

from topheavy.web.typed import whole_number

Typed = Annotated[str, Field(max_length=120)]


class BeginForm(BaseModel):
    """The least that makes a block: a first day, and what is done on which days."""

    model_config = ConfigDict(extra="ignore")

    start: Typed = ""
    name: Typed = ""
    weekday: list[Typed] = Field(default=[], max_length=14)
    lift: list[Typed] = Field(default=[], max_length=14)
    kind: list[Typed] = Field(default=[], max_length=14)
    lifters: list[Typed] = Field(default=[], max_length=500)
    test_week: Typed = ""
    over: int = 0

    def days(self) -> list[tuple[str, str, str]]:
        """Days that were filled in."""
        rows = zip(self.weekday, self.lift, self.kind, strict=False)
        return [(weekday, lift, kind) for weekday, lift, kind in rows if weekday and lift]

    def tables(self) -> dict[str, Any]:
        """Write it as the tables of a plan file."""
        head: dict[str, Any] = {"start": self.start, "test_week": bool(self.test_week)}
        head |= {"name": self.name.strip()} if self.name.strip() else {}
        head |= {"lifters": self.lifters} if self.lifters else {}
        days = [
            {"weekday": weekday, "lift": lift, **({"kind": kind} if kind else {})}
            for weekday, lift, kind in self.days()
        ]
        return {"plan": head, "day": days}


class ChangeForm(BaseModel):
    """What is changed by hand in one week."""

    model_config = ConfigDict(extra="ignore")

    week: int
    lifter: Typed = ""
    lift: Typed = ""
    weekday: Typed = ""
    load: Typed = ""
    share: Typed = ""
    sets: Typed = ""
    reps: Typed = ""
    off: Typed = ""
    note: Typed = ""
    over: int = 0

    def table(self) -> dict[str, Any]:
        """Write it as a table of a plan file; only what was said."""
        names = ("lifter", "lift", "weekday", "load", "share", "note")
        said: dict[str, Any] = {name: getattr(self, name).strip() for name in names}
        said |= {name: _whole(getattr(self, name), name) for name in ("sets", "reps")}
        said["off"] = bool(self.off)
        return {"week": self.week, **{name: value for name, value in said.items() if value}}


def _whole(text: str, what: str) -> int:
    return whole_number(text, what, "1 or more") if text.strip() else 0
