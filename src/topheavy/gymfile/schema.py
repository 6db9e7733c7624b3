"""The format of a gym file as a JSON Schema, and its words for error messages."""

from __future__ import annotations

import json
import re
from functools import cache
from typing import TYPE_CHECKING, Any, Final

from pydantic.json_schema import GenerateJsonSchema, JsonSchemaValue

from topheavy.gymfile.tables import GymFile

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from pydantic import BaseModel
    from pydantic_core import core_schema

    Schema = dict[str, Any]

_BARE_KEY: Final = re.compile(r"[A-Za-z0-9_-]+")
DIALECT: Final = "https://json-schema.org/draft/2020-12/schema"


def gym_schema() -> dict[str, Any]:
    """Describe the format of a gym file.

    Returns
    -------
    dict
        JSON Schema, draft 2020-12; every key with a description and examples. What no schema can
        say (units, heights, names that must exist) the reader checks on top.

    Examples
    --------
    >>> gym_schema()["title"]
    'topheavy gym file'
    """
    return schema_of(GymFile)


def schema_of(model: type[BaseModel]) -> dict[str, Any]:
    """Describe the format of a file by the model of its whole."""
    schema = model.model_json_schema(mode="validation", schema_generator=_Plain)
    return {"$schema": DIALECT, **_without_noise(schema)}


class _Plain(GenerateJsonSchema):
    """TOML has no null, so what may be left out is simply not required."""

    def nullable_schema(self, schema: core_schema.NullableSchema) -> JsonSchemaValue:
        return self.generate_inner(schema["schema"])

    def sort(self, value: JsonSchemaValue, parent_key: str | None = None) -> JsonSchemaValue:  # noqa: ARG002 - the hook's shape
        return value

    def field_title_should_be_set(self, schema: object) -> bool:  # noqa: ARG002 - the hook's shape
        return False


def _without_noise(schema: dict[str, Any]) -> dict[str, Any]:
    for node in [schema, *schema["$defs"].values()]:
        if node is not schema:
            del node["title"]
        for entry in node["properties"].values():
            if entry.get("default", "") in (None, "", []):
                entry.pop("default", None)
    return schema


@cache
def _schema() -> dict[str, Any]:
    return gym_schema()


def keys_at(path: Sequence[str | int], form: str = "", schema: Schema | None = None) -> list[str]:
    """List the keys that a table in a file may have.

    Parameters
    ----------
    path : sequence of str or int
        Keys and list positions from the file's root, such as ``("chain", 0)``.
    form : str
        Which form of feeder, when the path leads into one.
    schema : dict, optional
        Of the file; a gym file's when left out.
    """
    nodes = _nodes(path, form, schema or _schema())
    keys = [key for node in nodes for key in node.get("properties", {})]
    return list(dict.fromkeys(keys))


def wanted_at(
    path: Sequence[str | int], form: str = "", schema: Schema | None = None
) -> str | None:
    """Say in plain words what belongs at a place in a file; parameters as `keys_at`.

    Examples
    --------
    >>> wanted_at(("chain", 0, "links"))
    'whole number of links in each piece (1 to 1000), such as 32'
    """
    for node in _nodes(path, form, schema or _schema()):
        if "description" in node:
            return f"{node['description']}{_limits(node)}{_choices(node)}{_example(node)}"
    return None


def in_toml(value: object) -> str:
    """Write a value as a coach would type it in the file.

    >>> in_toml({"wire": "16 mm", "links": [1, True]})
    '{ wire = "16 mm", links = [1, true] }'
    """
    if isinstance(value, dict):
        return (
            "{ "
            + ", ".join(f"{key_in_toml(key)} = {in_toml(item)}" for key, item in value.items())
            + " }"
        )
    if isinstance(value, list):
        return "[" + ", ".join(in_toml(item) for item in value) + "]"
    return _in_json(value)


def _in_json(value: object) -> str:
    """Write a text or number as JSON does, which TOML takes too, but for one character."""
    return json.dumps(value, ensure_ascii=False).replace("\x7f", "\\u007f")


def key_in_toml(key: str) -> str:
    """Write a key, in quotes when TOML asks for them."""
    return key if _BARE_KEY.fullmatch(key) else _in_json(key)


def _nodes(path: Sequence[str | int], form: str, schema: Schema) -> list[Schema]:
    nodes = [schema]
    for step in path:
        nodes = [deeper for node in nodes for deeper in _step(node, step, form, schema)]
    return nodes if not path else [kind for node in nodes for kind in _kinds(node, form, schema)]


def _step(node: Schema, step: str | int, form: str, schema: Schema) -> Iterator[Schema]:
    for kind in _kinds(node, form, schema):
        if isinstance(step, int):
            if "items" in kind:
                yield kind["items"]
        elif step in kind.get("properties", {}):
            yield kind["properties"][step]
        elif isinstance(kind.get("additionalProperties"), dict):
            yield kind["additionalProperties"]


def _kinds(node: Schema, form: str, schema: Schema) -> Iterator[Schema]:
    """Follow references and alternatives; of the feeders' forms only the one asked for."""
    yield node
    if "$ref" in node:
        yield from _kinds(schema["$defs"][node["$ref"].rpartition("/")[2]], form, schema)
    mapping = node.get("discriminator", {}).get("mapping", {})
    if form in mapping:
        yield from _kinds({"$ref": mapping[form]}, form, schema)
        return
    for word in ("anyOf", "oneOf"):
        for kind in node.get(word, []):
            yield from _kinds(kind, form, schema)


def _limits(node: dict[str, Any]) -> str:
    return f" ({node['minimum']} to {node['maximum']})" if "minimum" in node else ""


def _choices(node: dict[str, Any]) -> str:
    return f" ({' or '.join(in_toml(one) for one in node['enum'])})" if "enum" in node else ""


def _example(node: dict[str, Any]) -> str:
    return f", such as {in_toml(node['examples'][0])}" if node.get("examples") else ""
