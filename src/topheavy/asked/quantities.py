"""Masses, loads, lengths and names as they were typed; mistakes name where they stand."""

from __future__ import annotations

from topheavy.errors import BadInputError
from topheavy.units import parse_quantity


def mass_kg(text: str | None, option: str, best_kg: float | None = None) -> float | None:
    """Read a mass; a percentage is of the lifter's best [kg]."""
    if text is None:
        return None
    if not text.strip().endswith("%"):
        return parse_quantity(text, "mass", field=option)
    share = parse_quantity(text, "share", field=option)
    if best_kg is None:
        raise BadInputError(
            "A percentage here is of the lifter's best, and no best is known",
            field=option,
            got=repr(text),
            wanted="a mass, or --best, or a best in the gym file",
        )
    return share * best_kg


def load_kg(text: str | None, option: str, best_kg: float | None = None) -> float | None:
    """Read a load on the bar [kg], which is never below nothing; a percentage is of the best."""
    found_kg = mass_kg(text, option, best_kg)
    if found_kg is not None and found_kg < 0:
        raise BadInputError(
            "A load must not be negative", field=option, got=repr(text), wanted="a load above zero"
        )
    return found_kg


def name_in(text: str | None, option: str) -> str | None:
    """Refuse a name that is empty; None when the option was left out."""
    if text is not None and not text.strip():
        raise BadInputError(
            "There is no name in it",
            field=option,
            got=repr(text),
            wanted="a name, or no such option",
        )
    return text


def length_m(text: str | None, option: str) -> float | None:
    """Read a length [m]."""
    if text is None:
        return None
    return parse_quantity(text, "length", field=option)
