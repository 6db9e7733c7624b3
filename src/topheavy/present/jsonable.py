"""Views as JSON: the same facts as on the screen, every figure with its SI value."""

from __future__ import annotations

import json
from dataclasses import fields, is_dataclass
from typing import Any

from topheavy.present.figure import Figure


def to_json(view: object, *, ascii_only: bool = False) -> str:
    """Write a view as JSON text, indented, in the order of its fields.

    Parameters
    ----------
    view : dataclass
        What is to be shown.
    ascii_only : bool
        Write other characters as escapes, for streams that don't have them.
    """
    return json.dumps(plain(view), indent=2, ensure_ascii=ascii_only, allow_nan=False)


def plain(value: object) -> Any:
    """Turn frozen views into dicts, lists, numbers and words."""
    if isinstance(value, Figure):
        return _figure(value)
    if is_dataclass(value) and not isinstance(value, type):
        return {f.name: plain(getattr(value, f.name)) for f in fields(value)}
    if isinstance(value, tuple | list):
        return [plain(item) for item in value]
    if isinstance(value, dict):
        return {str(key): plain(item) for key, item in value.items()}
    return value


def _figure(figure: Figure) -> dict[str, Any]:
    name = figure.unit or "fraction"
    found: dict[str, Any] = {name: round(figure.value, 9), "shown": figure.text}
    if figure.u is not None:
        found["standard_uncertainty"] = round(figure.u, 9)
    return found
