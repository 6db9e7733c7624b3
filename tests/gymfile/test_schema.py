"""The JSON Schema, checked by the jsonschema library (an outside judge of draft 2020-12)."""

from __future__ import annotations

import copy
import tomllib
from typing import TYPE_CHECKING, Any

import pytest
from jsonschema import Draft202012Validator

from topheavy.errors import TopheavyError
from topheavy.gymfile import demo_text, gym_schema, parse_gym
from topheavy.gymfile.schema import in_toml, keys_at, wanted_at

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

VALIDATOR = Draft202012Validator(gym_schema())


def demo() -> dict[str, Any]:
    return tomllib.loads(demo_text())


def as_toml(raw: dict[str, Any]) -> str:
    return "\n".join(f"{key} = {in_toml(value)}" for key, value in raw.items())


def entries(node: object) -> Iterator[tuple[str, dict[str, Any]]]:
    """Walk every key that the schema describes."""
    if isinstance(node, dict):
        yield from node.get("properties", {}).items()
        for inner in node.values():
            yield from entries(inner)
    elif isinstance(node, list):
        for inner in node:
            yield from entries(inner)


def test_the_schema_is_one() -> None:
    Draft202012Validator.check_schema(gym_schema())
    assert gym_schema()["$schema"] == Draft202012Validator.META_SCHEMA["$id"]


def test_the_demo_gym_fits() -> None:
    VALIDATOR.validate(demo())


def test_a_gym_written_in_line_reads_the_same() -> None:
    assert parse_gym(as_toml(demo())) == parse_gym(demo_text())


def test_every_key_has_words_and_an_example_that_fits() -> None:
    found = list(entries(gym_schema()))
    assert len(found) > 60
    definitions = {"$defs": gym_schema()["$defs"]}
    for key, entry in found:
        assert entry.get("description"), key
        assert entry.get("examples"), key
        for example in [*entry["examples"], *([entry["default"]] if "default" in entry else [])]:
            Draft202012Validator({**definitions, **entry}).validate(example)


def test_there_is_no_null_in_toml() -> None:
    assert "null" not in str(gym_schema())
    assert "None" not in str(gym_schema())


def of_osric(gym: dict[str, Any]) -> Any:
    """His bench press."""
    return gym["lifter"][2]["lifts"]["bench press"]


MUTATIONS: dict[str, Callable[[dict[str, Any]], object]] = {
    "gym missing": lambda gym: gym.pop("gym"),
    "gym a list": lambda gym: gym.update(gym=[gym["gym"]]),
    "name missing": lambda gym: gym["gym"].pop("name"),
    "unknown table": lambda gym: gym.update(chian=[]),
    "empty band": lambda gym: gym.update(band=[{}]),
    "two readings": lambda gym: gym["band"][0].update(readings=gym["band"][0]["readings"][:2]),
    "reading without pull": lambda gym: gym["band"][0]["readings"][0].pop("pull"),
    "day without quotes": lambda gym: gym["band"][0].update(measured=20260912),
    "peg without height": lambda gym: gym["station"][0]["pegs"][0].pop("height"),
    "unknown key": lambda gym: gym["bar"][0].update(colour="black"),
    "unknown units": lambda gym: gym["gym"].update(units="stone"),
    "single brackets": lambda gym: gym.update(bar=gym["bar"][0]),
    "bare number": lambda gym: gym["bar"][0].update(mass=20),
    "no unit": lambda gym: gym["bar"][0].update(mass="20"),
    "unit of a length": lambda gym: gym["bar"][0].update(mass="20 cm"),
    "links in quotes": lambda gym: gym["chain"][0].update(links="32"),
    "no links": lambda gym: gym["chain"][0].update(links=0),
    "half a link": lambda gym: gym["chain"][0].update(links=32.5),
    "tag and tags": lambda gym: gym["chain"][0].update(tag="X"),
    "no tag": lambda gym: gym["chain"][0].pop("tags"),
    "prefix alone": lambda gym: gym["chain"][2].pop("count"),
    "count alone": lambda gym: gym["chain"][2].pop("prefix"),
    "space in a tag": lambda gym: gym["chain"][0]["tags"].append("A 9"),
    "weighed and density": lambda gym: gym["chain"][0].update(density="5.3 kg/m"),
    "tape and calipers": lambda gym: gym["chain"][0].update(ten_links="592 mm"),
    "neither size nor calipers": lambda gym: gym["chain"][2].pop("size"),
    "half a caliper": lambda gym: gym["chain"][0]["calipers"].pop("wire"),
    "matched a word": lambda gym: gym["chain"][0].update(matched="yes"),
    "no form": lambda gym: gym["feeder"][0].pop("form"),
    "unknown form": lambda gym: gym["feeder"][0].update(form="rope"),
    "key of another form": lambda gym: gym["feeder"][0].update(pitch="26 mm"),
    "no rings": lambda gym: gym["feeder"][0].update(rings=[]),
    "mass and density": lambda gym: gym["feeder"][0].update(density="1 kg/m"),
    "neither mass nor density": lambda gym: gym["feeder"][0].pop("mass"),
    "count and pairs": lambda gym: gym["plate"][0].update(count=4),
    "neither count nor pairs": lambda gym: gym["plate"][0].pop("pairs"),
    "unknown kind": lambda gym: gym["station"][0].update(kind="bnch"),
    "name of spaces": lambda gym: gym["station"][0].update(name="  "),
    "lift a word": lambda gym: gym["lifter"][0]["lifts"].update(squat="deep"),
    "no top": lambda gym: gym["lifter"][0]["lifts"]["squat"].pop("top"),
    "a set without a load": lambda gym: of_osric(gym)["sets"][0].pop("load"),
    "no repetitions": lambda gym: of_osric(gym)["sets"][0].update(reps=0),
    "a miss twice placed": lambda gym: of_osric(gym)["misses"][0].update(third="top"),
    "a miss nowhere": lambda gym: of_osric(gym)["misses"][0].pop("height"),
    "hung without a weight": lambda gym: of_osric(gym).update(hung=[{"left": ["A1"]}]),
    "speed without a unit": lambda gym: of_osric(gym).update(
        speeds=[{"load": "100 kg", "speed": "0.4"}]
    ),
    "unknown key of a lift": lambda gym: gym["lifter"][0]["lifts"]["squat"].update(depth="1 m"),
}


@pytest.mark.parametrize("mistake", list(MUTATIONS))
def test_reader_and_schema_refuse_the_same_structure(mistake: str) -> None:
    gym = copy.deepcopy(demo())
    MUTATIONS[mistake](gym)
    assert not VALIDATOR.is_valid(gym)
    with pytest.raises(TopheavyError):
        parse_gym(as_toml(gym))


def test_the_schema_words_the_errors() -> None:
    assert keys_at(("bar", 0)) == ["name", "mass", "sleeve"]
    assert "loop_drop" in keys_at(("feeder", 0), "links")
    assert "loop_drop" not in keys_at(("feeder", 0), "rings")
    assert wanted_at(("plate", 3, "pairs")) == (
        "how many pairs, instead of count (1 to 1000), such as 2"
    )
    assert wanted_at(("nowhere",)) is None
