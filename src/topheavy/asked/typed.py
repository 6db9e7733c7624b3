"""A mistake told in the words that were typed or sent, not in those of the code."""

from __future__ import annotations

import copy
import re
from typing import TYPE_CHECKING, Any, Final

from topheavy.errors import BadInputError, TopheavyError
from topheavy.units import parse_quantity, pounds_beside

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

_OPTIONS: Final = {
    "wire_diameter_m": ("wire",),
    "outside_m": ("outside",),
    "pitch_m": ("pitch",),
    "inside_width_m": ("width",),
    "wire_u_m": ("wire_within",),
    "outside_u_m": ("outside_within",),
    "links": ("links_over",),
    "travel_m": ("travel",),
    "best_kg": ("best",),
    "nominal_size": ("size",),
    "nominal_standard": ("standard",),
    "most_imbalance_kg": ("most_imbalance",),
    "styles": ("hang",),
    "heights": ("bottom", "top"),
    "heights.bottom": ("bottom",),
    "heights.top": ("top",),
    "height": ("at",),
    "target": ("bottom", "top"),
    "straight_weight": ("straight",),
    "lower_s": ("lower",),
    "speed_m_per_s": ("bar_speed",),
}
"""Names in the code whose option is called otherwise; every other option is called the same."""

_LOADS: Final = {"target"}
"""Mistakes that are in what the options say only when they give loads, not in how many."""

_OPTION: Final = re.compile(r"(?<![\w-])--([a-z][a-z-]*[a-z])")
_POUNDS: Final = re.compile(r"\d\s*(?:lbs?|oz|in|ft|\"|')(?![a-z])", re.IGNORECASE)


def in_typed_words(
    error: TopheavyError, typed: dict[str, Any], gym_units: str | None = None
) -> TopheavyError:
    """Name the option that a mistake is in, and show what was typed.

    Parameters
    ----------
    error : TopheavyError
        What was wrong; what came and what would be right are given in pounds and inches too when
        those were typed or asked for, or are the gym's.
    typed : dict
        Value of every option of the command by its name in the code; None where left out.
    gym_units : str, optional
        Units the gym shows, when one was read.

    Returns
    -------
    TopheavyError
        A copy; the mistake itself as it was when its field is no option of the command, or is
        of a gym file.

    Examples
    --------
    >>> from topheavy.errors import BadInputError
    >>> slip = BadInputError("wire_diameter_m must be above zero", field="wire_diameter_m", got=-5)
    >>> str(in_typed_words(slip, {"wire": "-5mm"}))
    '--wire must be above zero; where: --wire; got: -5mm = -5 m'
    >>> high = BadInputError("Too high", field="height", got="3.048 m", wanted="0 to 2.9 m")
    >>> str(in_typed_words(high, {"at": ["30in", "10ft"]}))
    'Too high; where: --at; got: 10ft = 3.048 m; wanted: 0 to 2.9 m (0.0 to 114.2 in)'
    """
    if hasattr(error, "problems"):
        return error  # of a file: told in the file's own words
    field = (error.field or "").lstrip(".")
    name = field.removeprefix("--").replace(" ", "_").replace("-", "_")
    names = [one for one in _OPTIONS.get(name, (name,)) if typed.get(one) is not None]
    if name in _LOADS and " kg" not in str(error.got):
        names = []
    told = copy.copy(error)
    if names and not field.startswith("--"):
        _by_option(told, field, names, typed)
    if _speaks_pounds(typed, names, gym_units):
        told.got = _in_both(told.got) if isinstance(told.got, str) else told.got
        told.wanted = told.wanted and pounds_beside(told.wanted)
    return told


def in_sent_words(error: TopheavyError, sent: Mapping[str, Any]) -> TopheavyError:
    """Name the word of a query that a mistake is in, and say everything without dashes.

    Parameters
    ----------
    error : TopheavyError
        What was wrong, as the code or the terminal tells it.
    sent : mapping
        Words of the query, each a text or a list of texts.

    Returns
    -------
    TopheavyError
        A copy.

    Examples
    --------
    >>> from topheavy.errors import BadInputError
    >>> slip = BadInputError("Not a set", field="--set", wanted="--set 5x100kg, or --links-down 1")
    >>> str(in_sent_words(slip, {}))
    'Not a set; where: set; wanted: set 5x100kg, or links_down 1'
    """
    told = TopheavyError(error.message, field=error.field, got=error.got, wanted=error.wanted)
    if hasattr(error, "problems"):
        return told  # of a file: told in the file's own words
    told = in_typed_words(told, dict(sent))
    for name in ("message", "field", "got", "wanted"):
        words = getattr(told, name)
        if isinstance(words, str):
            setattr(told, name, _OPTION.sub(lambda found: found[1].replace("-", "_"), words))
    return told


def _by_option(told: TopheavyError, field: str, names: list[str], typed: dict[str, Any]) -> None:
    """Name the options instead of the field, and show what was typed."""
    options = " and ".join(f"--{one.replace('_', '-')}" for one in names)
    told.message = told.message.replace(field, options) if "_" in field else told.message
    told.field, told.got = options, _got(told, field, names, typed)


def _got(error: TopheavyError, field: str, names: list[str], typed: dict[str, Any]) -> object:
    """What came as it was typed, and as it was understood where that differs."""
    values = [typed[name] for name in names]
    if len(values) == 1 and isinstance(values[0], list | tuple):
        values = [one for one in values[0] if _understood(one) == error.got][:1]
    if not values or not all(isinstance(value, str) for value in values):
        return error.got
    said = ", ".join(values) if len(values) == 1 else ", ".join(
        f"{name} {value}" for name, value in zip(names, values, strict=True)
    )  # fmt: skip
    if error.got is None or _close(said) in _close(str(error.got)):
        return error.got
    unit = next((f" {u}" for u in ("m", "kg") if field.endswith(f"_{u}")), "")
    understood = f"{error.got:g}{unit}" if isinstance(error.got, int | float) else error.got
    return f"{said} = {understood}"


def _understood(item: object) -> str:
    """A height as typed, alone or before its load, in metres as the errors say it."""
    try:
        return f"{parse_quantity(str(item).partition('=')[0], 'length', field=''):g} m"
    except BadInputError:
        return ""


def _speaks_pounds(typed: dict[str, Any], names: list[str], gym_units: str | None) -> bool:
    """Whether pounds and inches were asked for, or typed where the mistake is, or are the gym's."""
    if typed.get("units") is not None:
        return bool(typed["units"] == "lb")
    return gym_units == "lb" or any(
        _POUNDS.search(text) for name in names for text in _texts(typed[name])
    )


def _texts(value: object) -> Iterable[str]:
    several = value if isinstance(value, list | tuple) else [value]
    return (one for one in several if isinstance(one, str))


def _in_both(got: str) -> str:
    """Pounds and inches beside what came; not where they were typed and stand before it."""
    typed, equals, understood = got.partition(" = ")
    if not (equals and _POUNDS.search(typed)):
        return pounds_beside(got)
    first, stop, rest = understood.partition(";")
    return f"{typed}{equals}{first}{stop}{pounds_beside(rest)}"


def _close(text: str) -> str:
    return "".join(text.split())
