"""A block of weeks as a TOML file: read, checked and explained."""

from topheavy.planfile.example import demo_plan, demo_plan_text
from topheavy.planfile.read import PlanFileError, parse_plan, read_plan
from topheavy.planfile.tables import plan_schema

__all__ = ["PlanFileError", "demo_plan", "demo_plan_text", "parse_plan", "plan_schema", "read_plan"]
