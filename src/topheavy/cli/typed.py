"""A mistake told in the words of the options that were typed, not in those of the code."""

from __future__ import annotations

import copy
from typing import TYPE_CHECKING, Any, Final

if TYPE_CHECKING:
    from topheavy.errors import TopheavyError

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
}
"""Names in the code whose option is called otherwise; every other option is called the same."""


def in_typed_words(error: TopheavyError, typed: dict[str, Any]) -> TopheavyError:
    """Name the option that a mistake is in, and show what was typed.

    Parameters
    ----------
    error : TopheavyError
        What was wrong.
    typed : dict
        Value of every option of the command by its name in the code; None where left out.

    Returns
    -------
    TopheavyError
        A copy; the same error when its field is no option of the command, or is of a gym file.

    Examples
    --------
    >>> from topheavy.errors import BadInputError
    >>> slip = BadInputError("wire_diameter_m must be above zero", field="wire_diameter_m", got=-5)
    >>> str(in_typed_words(slip, {"wire": "-5mm"}))
    '--wire must be above zero; where: --wire; got: -5mm = -5 m'
    """
    field = (error.field or "").lstrip(".")
    name = field.replace(" ", "_").replace("-", "_")
    names = [one for one in _OPTIONS.get(name, (name,)) if typed.get(one) is not None]
    in_a_file = hasattr(error, "problems")
    if not names or in_a_file or field.startswith("--"):
        return error
    options = " and ".join(f"--{one.replace('_', '-')}" for one in names)
    told = copy.copy(error)
    told.message = error.message.replace(field, options) if "_" in field else error.message
    told.field, told.got = options, _got(error, field, names, typed)
    return told


def _got(error: TopheavyError, field: str, names: list[str], typed: dict[str, Any]) -> object:
    """What came as it was typed, and as it was understood where that differs."""
    values = [typed[name] for name in names]
    if not all(isinstance(value, str) for value in values):
        return error.got
    said = ", ".join(values) if len(values) == 1 else ", ".join(
        f"{name} {value}" for name, value in zip(names, values, strict=True)
    )  # fmt: skip
    if error.got is None or _close(said) in _close(str(error.got)):
        return error.got
    unit = next((f" {u}" for u in ("m", "kg") if field.endswith(f"_{u}")), "")
    understood = f"{error.got:g}{unit}" if isinstance(error.got, int | float) else error.got
    return f"{said} = {understood}"


def _close(text: str) -> str:
    return "".join(text.split())
