"""A rig out of what `topheavy rig --json` printed."""

from __future__ import annotations

import json
import sys
from dataclasses import replace
from typing import TYPE_CHECKING, Any, Final

from topheavy.errors import BadInputError, FileError

if TYPE_CHECKING:
    from pathlib import Path

    from topheavy.asked.described import RigDescribed
    from topheavy.gym.gym import Gym

_LARGEST: Final = 5_000_000
_WANTED: Final = "what topheavy rig --json printed, whole"


def read_rig_file(path: Path, said: RigDescribed, gym: Gym) -> RigDescribed:
    """Read a rig that was found before.

    Parameters
    ----------
    path : Path
        JSON of `topheavy rig`; ``-`` reads standard input.
    said : RigDescribed
        What was typed besides; must not describe the rig again, but may change the rest.
    gym : Gym
        The gym whose pieces hang.

    Raises
    ------
    FileError
        No such file, or not what `topheavy rig` prints.
    BadInputError
        The rig is described twice, or is of another gym.
    """
    if not said.empty:
        raise BadInputError(
            "The rig is described twice",
            field="--rig",
            got=str(path),
            wanted="--rig alone, or --left and --right, or --chain",
        )
    name = "standard input" if str(path) == "-" else str(path)
    found = _parsed(_text(path, name), name)
    parts = found.get("described") if isinstance(found, dict) else None
    if not isinstance(parts, dict):
        raise FileError("There is no rig in the file", field=name, wanted=_WANTED)
    told = {key: _word(parts, key, name) for key in _KEYS}
    if told["gym"] != gym.name:
        raise BadInputError(
            "The rig is of another gym",
            field="--gym",
            got=gym.name,
            wanted=f"the gym file of {told['gym']}",
        )
    straight = None if said.bar or said.plates else told["straight"]
    return replace(
        said,
        left=(told["left"],),
        right=(told["right"],),
        feeder=said.feeder or told["feeder"] or None,
        connector=said.connector or told["connector"] or None,
        hang=told["hang"],
        left_band=_words(parts, "left_bands", name),
        right_band=_words(parts, "right_bands", name),
        straight=said.straight or straight,
        lifter=said.lifter or told["lifter"],
        lift=said.lift or told["lift"],
        station=said.station or told["station"],
        dragged=said.dragged or told["slack"] == "dragged",
    )


_KEYS: Final = (
    "gym", "left", "right", "hang", "feeder", "connector", "straight", "lifter", "lift",
    "station", "slack",
)  # fmt: skip


def _text(path: Path, name: str) -> str:
    try:
        if str(path) == "-":
            return sys.stdin.read(_LARGEST)
        with path.open(encoding="utf-8-sig") as file:
            return file.read(_LARGEST)
    except FileNotFoundError:
        raise FileError("There is no such file", field=name, wanted=_WANTED) from None
    except (OSError, ValueError) as error:
        reason = error.strerror if isinstance(error, OSError) else "it is not text"
        raise FileError(f"The file can't be read: {reason}", field=name) from None


def _parsed(text: str, name: str) -> Any:
    try:
        return json.loads(text)
    except json.JSONDecodeError as error:
        raise FileError(
            f"Not valid JSON: {error.msg}",
            field=f"{name}, line {error.lineno}, column {error.colno}",
            wanted=_WANTED,
        ) from None
    except (RecursionError, ValueError):
        raise FileError("Not valid JSON", field=name, wanted=_WANTED) from None


def _word(parts: dict[str, Any], key: str, name: str) -> str:
    value = parts.get(key)
    if not isinstance(value, str):
        raise FileError(
            f"The rig in the file has no {key}", field=f"{name}, described.{key}", wanted=_WANTED
        )
    return value


def _words(parts: dict[str, Any], key: str, name: str) -> tuple[str, ...]:
    """Several words; none in a file from before there were such."""
    value = parts.get(key, [])
    if not (isinstance(value, list) and all(isinstance(word, str) for word in value)):
        raise FileError(
            f"The rig in the file has no list of {key}",
            field=f"{name}, described.{key}",
            wanted=_WANTED,
        )
    return tuple(value)
