"""The format of a plan file: its JSON Schema, and the tables of keys in its reference page."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Final

from docs.makers.gym_file import key_table
from docs.makers.markers import fill
from topheavy.planfile import demo_plan_text, plan_schema
from topheavy.training.days import DAYS
from topheavy.training.weeks import Wave
from topheavy.training.weeks_loads import loads_of_wave

if TYPE_CHECKING:
    from topheavy.training.days import Day

TABLES: Final = {
    "plan": "PlanTable",
    "day": "DayTable",
    "wave": "WaveTable",
    "change": "ChangeTable",
}
"""Which part of the page shows which definition of the schema."""


def schema_page(_: str) -> str:
    """Write the schema."""
    return json.dumps(plan_schema(), indent=2, ensure_ascii=False) + "\n"


def reference_page(page: str) -> str:
    """Fill the generated parts of the reference page."""
    definitions = plan_schema()["$defs"]
    for part, name in TABLES.items():
        page = fill(page, part, key_table(definitions[name]))
    page = fill(page, "usual", _usual())
    return fill(page, "example", f"```toml\n{demo_plan_text().rstrip()}\n```")


def _usual() -> str:
    rows = ["| kind | sets x reps | a wave of four weeks, of the best | with a deload |"]
    rows += ["|---|---|---|---|"]
    rows += [
        f"| {day.name} | {day.sets} x {day.reps} | {_loads(day)} | {_loads(day, deload=True)} |"
        for day in DAYS.values()
    ]
    return "\n".join(rows)


def _loads(day: Day, *, deload: bool = False) -> str:
    loads = loads_of_wave(Wave(hang="chain", weeks=4, deload=deload), day.name)
    return ", ".join(f"{100 * load:.0f} %" for load in loads)
