"""The gym as a TOML file: read, checked and explained."""

from topheavy.gymfile.demo import demo_gym, demo_text
from topheavy.gymfile.problems import GymFileError
from topheavy.gymfile.read import parse_gym, read_gym
from topheavy.gymfile.schema import gym_schema

__all__ = ["GymFileError", "demo_gym", "demo_text", "gym_schema", "parse_gym", "read_gym"]
