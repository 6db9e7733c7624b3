"""Whatever stands in a gym file, the reader makes a gym of it or says what is wrong."""

from __future__ import annotations

import copy
import tomllib
from typing import TYPE_CHECKING, Any

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from jsonschema import Draft202012Validator

from topheavy.errors import TopheavyError
from topheavy.gymfile import GymFileError, demo_text, gym_schema, parse_gym, read_gym
from topheavy.gymfile.schema import in_toml
from topheavy.units import UNITS

if TYPE_CHECKING:
    import pytest

    from topheavy.gym.gym import Gym

VALIDATOR = Draft202012Validator(gym_schema())
TEXT = demo_text()
RAW: dict[str, Any] = tomllib.loads(TEXT)
RAW["lifter"][2]["lifts"]["bench press"] |= tomllib.loads("""
isometrics = [{ height = "80 cm", effort = "290 kg", rest = "115 kg", day = "2026-10-31" }]
speeds = [{ load = "120 kg", speed = "0.35 m/s", kind = "propulsive" }]
[[hung]]
straight = "125 kg"
left = ["A1"]
right = ["A2"]
feeder = "ring strap"
setting = "7"
connector = "10 mm screw link"
[[hung]]
straight = "120 kg"
tried = false
bands = [{ left = "red-1", right = "red-3", peg = "low" }]
""")
"""The demo gym, and records of every kind."""

units = st.sampled_from(
    [*UNITS["mass"], *UNITS["length"], *UNITS["linear density"], *UNITS["speed"], "%", "stone"]
)
quantities = st.builds(
    "{}{}{}".format,
    st.one_of(
        st.integers(-5, 10**6).map(str),
        st.floats(0, 1e3).map(lambda value: f"{value:.3g}"),
        st.sampled_from(["5/8", "1 1/4", "1/0", "0", "1e99", "-1", ",5", "nan"]),
    ),
    st.sampled_from(["", " ", "  "]),
    units,
)
scalars = st.one_of(
    quantities,
    st.text(max_size=8),
    st.integers(-(2**70), 2**70),
    st.booleans(),
    st.sampled_from(["rings", "links", "strap", "bench", "rack", "kg", "lb", "A1", "bench 1"]),
)
values = st.recursive(
    scalars,
    lambda inner: (
        st.lists(inner, max_size=3)
        | st.dictionaries(st.sampled_from(["wire", "width", "ten_links", "bottom", "top"]), inner)
    ),
    max_leaves=6,
)
words = st.sampled_from(
    ["name", "mass", "links", "count", "tag", "tags", "size", "rings", "pairs", "lifts", "x y", "",
     "start", "reps", "third", "height", "hung", "left", "day", "tried"]
)  # fmt: skip


def read_or_refuse(text: str) -> Gym | None:
    """Read a gym; refuse only with an error of our own, in our own words."""
    try:
        return parse_gym(text, "fuzz.toml")
    except GymFileError as error:
        said, problems = str(error), error.problems
    except TopheavyError as error:
        said, problems = str(error), (error,)
    assert problems
    assert "Input should" not in said
    assert all(line.isprintable() for line in said.split("\n"))
    return None


def as_toml(raw: dict[str, Any]) -> str:
    return "\n".join(f"{key} = {in_toml(value)}" for key, value in raw.items())


@given(st.text(max_size=200))
def test_random_text(text: str) -> None:
    read_or_refuse(text)


@given(st.binary(max_size=200))
@settings(suppress_health_check=[HealthCheck.function_scoped_fixture])
def test_random_bytes(tmp_path_factory: pytest.TempPathFactory, content: bytes) -> None:
    path = tmp_path_factory.getbasetemp() / "fuzz.toml"
    path.write_bytes(content)
    try:
        read_gym(path)
    except TopheavyError:
        return


@given(
    st.integers(0, len(TEXT)),
    st.integers(0, 40),
    st.one_of(st.text(max_size=5), st.sampled_from(['"', "[", "]]", "=", "\n", "{", '"""', "#"])),
)
@settings(max_examples=60, deadline=None)
def test_a_gym_file_with_a_slip_of_the_pen(start: int, length: int, put: str) -> None:
    read_or_refuse(TEXT[:start] + put + TEXT[start + length :])


def spots(node: object, path: tuple[str | int, ...] = ()) -> list[tuple[str | int, ...]]:
    """List the paths of everything inside a parsed file."""
    inner: list[tuple[str | int, object]] = []
    if isinstance(node, dict):
        inner = list(node.items())
    elif isinstance(node, list):
        inner = list(enumerate(node))
    return [path, *(spot for key, value in inner for spot in spots(value, (*path, key)))]


SPOTS = [spot for spot in spots(RAW) if spot]
mutations = st.lists(
    st.tuples(
        st.sampled_from(SPOTS),
        st.sampled_from(["set", "drop", "add", "twice", *4 * ["nudge"]]),
        values,
        words,
    ),
    min_size=1,
    max_size=3,
)


def nudged(value: Any) -> Any:
    """Make a quantity a little larger; leave anything else."""
    parts = str(value).split(" ")
    if isinstance(value, str) and len(parts) == 2 and parts[0].replace(".", "").isdigit():
        return f"{float(parts[0]) * 1.01:.6g} {parts[1]}"
    return value


def mutate(
    raw: dict[str, Any], spot: tuple[str | int, ...], how: str, value: Any, key: str
) -> None:
    """Change a parsed file at a spot, if the spot is still there."""
    node: Any = raw
    for step in spot[:-1]:
        try:
            node = node[step]
        except (KeyError, IndexError, TypeError):
            return
    last = spot[-1]
    if isinstance(node, dict) and isinstance(last, str) and last in node:
        if how == "nudge":
            node[last] = nudged(node[last])
        elif how == "set":
            node[last] = value
        elif how == "drop":
            del node[last]
        else:
            node[key] = value
    elif isinstance(node, list) and isinstance(last, int) and last < len(node):
        if how == "drop":
            del node[last]
        elif how == "twice":
            node.append(copy.deepcopy(node[last]))
        else:
            node[last] = value


@given(mutations)
@settings(max_examples=100, deadline=None)
def test_a_changed_gym_is_read_or_refused_and_what_is_read_fits_the_schema(
    changes: list[tuple[tuple[str | int, ...], str, Any, str]],
) -> None:
    raw = copy.deepcopy(RAW)
    for spot, how, value, key in changes:
        mutate(raw, spot, how, value, key)
    gym = read_or_refuse(as_toml(raw))
    if gym is not None:
        VALIDATOR.validate(raw)


@given(st.integers(0, 10**4))
@settings(max_examples=20, deadline=None)
def test_deep_nesting(depth: int) -> None:
    read_or_refuse("x = " + "[" * depth + "]" * depth)


def test_a_number_too_long_to_print() -> None:
    assert read_or_refuse(f'[gym]\nname = "x"\n[[bar]]\nmass = 0x{"f" * 20_000}') is None
