"""JSON Schema of views: what `topheavy.present.jsonable.plain` makes of each, described."""

from __future__ import annotations

import types
from dataclasses import fields, is_dataclass
from inspect import cleandoc
from typing import Any, Final, Literal, Union, get_args, get_origin, get_type_hints

from topheavy.present.figure import Figure

WHERE: Final = "#/components/schemas/"

_PLAIN: Final[dict[Any, dict[str, Any]]] = {
    str: {"type": "string"},
    bool: {"type": "boolean"},
    int: {"type": "integer"},
    float: {"type": "number"},
    type(None): {"type": "null"},
    Any: {},
}
_FIGURE: Final[dict[str, Any]] = {
    "type": "object",
    "description": "One number: its value under its SI unit (`fraction` for a share), as `shown` "
    "in the units asked for, and its standard uncertainty in SI where that is known.",
    "required": ["shown"],
    "properties": {
        "shown": {"type": "string"},
        "standard_uncertainty": {"type": "number", "minimum": 0},
    },
    "additionalProperties": {"type": "number"},
    "minProperties": 2,
    "examples": [{"kg": 115.37, "shown": "115.4 ± 1.5 kg", "standard_uncertainty": 1.52}],
}


class Schemas:
    """Schemas of views that were described so far, each under the name of its class.

    Examples
    --------
    >>> from topheavy.present.rig.view import OtherRig
    >>> schemas = Schemas()
    >>> schemas.of(OtherRig)
    {'$ref': '#/components/schemas/OtherRig'}
    >>> schemas.found["OtherRig"]["properties"]["pieces"], sorted(schemas.found)
    ({'type': 'integer'}, ['Figure', 'OtherRig'])
    """

    def __init__(self) -> None:
        self.found: dict[str, dict[str, Any]] = {}
        self._names: dict[type, str] = {}

    def of(self, kind: Any) -> dict[str, Any]:
        """Describe a type; views stand in `found` and are pointed at.

        Parameters
        ----------
        kind : type
            A view, or what a field of one may hold.

        Raises
        ------
        TypeError
            A type that no view has.
        """
        if kind in _PLAIN:
            return dict(_PLAIN[kind])
        if isinstance(kind, type) and is_dataclass(kind):
            return {"$ref": WHERE + self._named(kind)}
        made = _MAKERS.get(get_origin(kind))
        if made is None:
            raise TypeError(f"no view holds {kind!r}")
        described: dict[str, Any] = made(self, get_args(kind))
        return described

    def _named(self, view: type) -> str:
        if view not in self._names:
            name = view.__name__
            if name in self.found:
                name = f"{view.__module__.rpartition('.')[2].title().replace('_', '')}{name}"
            self._names[view] = name
            self.found[name] = {}
            self.found[name] = dict(_FIGURE) if view is Figure else self._object(view)
        return self._names[view]

    def _object(self, view: Any) -> dict[str, Any]:
        hints = get_type_hints(view)
        names = [field.name for field in fields(view)]
        return {
            "type": "object",
            "description": cleandoc(view.__doc__ or ""),
            "required": names,
            "properties": {name: self.of(hints[name]) for name in names},
            "additionalProperties": False,
        }

    def _either(self, kinds: tuple[Any, ...]) -> dict[str, Any]:
        return {"anyOf": [self.of(kind) for kind in kinds]}

    def _words(self, values: tuple[Any, ...]) -> dict[str, Any]:
        return {"enum": list(values)}

    def _row(self, kinds: tuple[Any, ...]) -> dict[str, Any]:
        if len(kinds) == 2 and kinds[1] is Ellipsis:
            return {"type": "array", "items": self.of(kinds[0])}
        size = len(kinds)
        items = self.of(kinds[0]) if len(set(kinds)) == 1 else self._either(kinds)
        return {"type": "array", "items": items, "minItems": size, "maxItems": size}

    def _table(self, kinds: tuple[Any, ...]) -> dict[str, Any]:
        return {"type": "object", "additionalProperties": self.of(kinds[1])}


_MAKERS: Final[dict[Any, Any]] = {
    Union: Schemas._either,
    types.UnionType: Schemas._either,
    Literal: Schemas._words,
    tuple: Schemas._row,
    list: lambda schemas, kinds: schemas._row((kinds[0], Ellipsis)),
    dict: Schemas._table,
}
