"""A plan kept for later: who lifts where and when, to stay near to when planning anew."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Annotated, Literal

from pydantic import Field, ValidationError

from topheavy.errors import FileError
from topheavy.gymfile.read import file_text
from topheavy.gymfile.tables_stock import Name, Table
from topheavy.room.plan import key_of

if TYPE_CHECKING:
    from pathlib import Path

    from topheavy.room.plan import Former, Plan


class KeptLift(Table):
    """One lift of one lifter: where, and when the group starts."""

    lifter: Name
    lift: Name
    station: Name
    starts: Annotated[int, Field(ge=0, le=5760)]


class KeptPlan(Table):
    """A plan that was kept; times in quarter minutes after opening."""

    topheavy: Literal["room plan"]
    lifts: Annotated[list[KeptLift], Field(max_length=5000)]


def kept_text(plan: Plan) -> str:
    """Write a plan down as JSON."""
    lifts = []
    for number, booking in enumerate(plan.room.bookings):
        group = plan.of(number)
        lifter, lift = key_of(booking)
        lifts.append(
            {"lifter": lifter, "lift": lift, "station": group.station, "starts": group.starts}
        )
    return json.dumps({"topheavy": "room plan", "lifts": lifts}, indent=1, ensure_ascii=False)


def read_kept(path: str | Path) -> Former:
    """Read a plan that was kept.

    Raises
    ------
    FileError
        It can't be read, or is no plan that was kept.
    """
    text, name = file_text(path, "kept plan")
    try:
        kept = KeptPlan.model_validate_json(text)
    except ValidationError as error:
        first = error.errors(include_url=False)[0]
        raise FileError(
            "Not a plan that was kept",
            field=name,
            got=f"{'.'.join(map(str, first['loc'])) or 'the whole'}: {first['msg']}",
            wanted="a file that topheavy room plan --save wrote",
        ) from None
    return {(one.lifter, one.lift): (one.station, one.starts) for one in kept.lifts}
