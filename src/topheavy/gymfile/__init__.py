"""The gym as a TOML file: read, checked and explained."""

from topheavy.gymfile.demo import demo_gym, demo_text
from topheavy.gymfile.problems import GymFileError
from topheavy.gymfile.read import gym_of_tables, parse_gym, read_gym, read_tables
from topheavy.gymfile.schema import gym_schema
from topheavy.gymfile.write import gym_text

__all__ = [
    "GymFileError",
    "demo_gym",
    "demo_text",
    "gym_of_tables",
    "gym_schema",
    "gym_text",
    "parse_gym",
    "read_gym",
    "read_tables",
]
