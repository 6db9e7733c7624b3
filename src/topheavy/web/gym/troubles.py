"""Mistakes in a form, each beside the field it belongs to, in the words of the terminal."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from topheavy.gymfile import GymFileError
from topheavy.gymfile.places import written

if TYPE_CHECKING:
    from collections.abc import Sequence

    from topheavy.errors import TopheavyError
    from topheavy.web.gym.sheets import Sheet

_REST: Final = re.compile(r"[.\[]?([^\s(]*)")


@dataclass(frozen=True, slots=True, kw_only=True)
class Trouble:
    """One mistake.

    Parameters
    ----------
    field : str
        Key of the field it stands beside; empty when it belongs to the whole form.
    message : str
        What is wrong, a sentence.
    got, wanted : str
        What came and what would be right; empty when there is nothing to say.
    where : str
        The place in the gym file, for what is not in this form; else empty.
    """

    field: str
    message: str
    got: str = ""
    wanted: str = ""
    where: str = ""


def troubles_of(
    error: TopheavyError, sheet: Sheet, path: Sequence[str | int]
) -> tuple[Trouble, ...]:
    """Sort the mistakes of a gym into the fields of a form.

    Parameters
    ----------
    error : TopheavyError
        What the reader of gym files said; every mistake of a `GymFileError`.
    sheet : Sheet
        The form.
    path : sequence of str or int
        Where the form's table stands in the file, positions from 0.
    """
    several = error.problems if isinstance(error, GymFileError) else (error,)
    return tuple(_trouble(one, sheet, written(path)) for one in several)


def _trouble(error: TopheavyError, sheet: Sheet, start: str) -> Trouble:
    place = error.field or ""
    key = _key(place, start)
    field = sheet.field("tags" if key == "tag" and sheet.field("tags") else key) if key else None
    here = key is not None
    return Trouble(
        field=field.key if field else "",
        message=error.lines()[0],
        got="" if error.got is None else str(error.got),
        wanted=error.wanted or "",
        where="" if here else place,
    )


def _key(place: str, start: str) -> str | None:
    """The key within a form's table that a place in the file names; None for another table."""
    for part in reversed(place.split(" and ")):
        if part.startswith(start) and part[len(start) :][:1] in {"", ".", " ", "["}:
            rest = _REST.match(part[len(start) :])
            return rest[1] if rest else ""
    return None
