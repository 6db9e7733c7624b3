"""From inspection and weighing tables to the pieces they are about."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, TypeVar

from topheavy.errors import BadInputError, NotInStockError
from topheavy.gym.care import Inspection, Weighing
from topheavy.gym.day import day_number
from topheavy.gymfile.places import quoted
from topheavy.gymfile.tables_care import InspectionTable, WeighingTable

if TYPE_CHECKING:
    from collections.abc import Sequence

    from topheavy.gymfile.places import Place
    from topheavy.gymfile.problems import Problems
    from topheavy.gymfile.sections import Document, Placed

T = TypeVar("T", InspectionTable, WeighingTable)

_FEW = 12


def inspections_in(document: Document, tags: Sequence[str]) -> dict[str, list[Inspection]]:
    """Read every ``[[inspection]]``: what was written down of each piece, by its tag in lower case.

    Parameters
    ----------
    document : Document
        The gym file.
    tags : sequence of str
        Of every piece there is.
    """
    found: dict[str, list[Inspection]] = {}
    for placed in document.tables("inspection", InspectionTable):
        table = placed.table
        for tag in _tags(placed, tags, document.problems):
            entry = Inspection(
                day=table.day,
                pitch_growth=table.pitch_growth,
                lost_section=table.lost_section,
                found=tuple(dict.fromkeys(table.found)),
                by=table.by or "",
                note=table.note or "",
            )
            found.setdefault(tag, []).append(entry)
    return found


@dataclass(frozen=True, slots=True)
class PlacedWeighing:
    """A weighing of a piece, and where it stands."""

    place: Place
    entry: Weighing


def weighings_in(
    document: Document, tags: Sequence[str], scale_reading_kg: float
) -> dict[str, list[PlacedWeighing]]:
    """Read every ``[[weighing]]``: what was written down of each piece, by its tag in lower case.

    Parameters
    ----------
    document : Document
        The gym file.
    tags : sequence of str
        Of every piece there is.
    scale_reading_kg : float
        Smallest step of the gym's scale [kg], unless the table says another.
    """
    found: dict[str, list[PlacedWeighing]] = {}
    for placed in document.tables("weighing", WeighingTable):
        table, named = placed.table, _tags(placed, tags, document.problems)
        with document.problems.caught(placed.place, "masses"):
            if len(table.masses) != len(table.tags):
                raise BadInputError(
                    "Not one mass for each piece",
                    got=f"{len(table.masses)} for {len(table.tags)} pieces",
                    wanted=f"a list of {len(table.tags)}, in the order of the tags",
                )
            for tag, mass_kg in zip(named, table.masses, strict=True) if named else ():
                entry = Weighing(
                    day=table.day,
                    mass_kg=mass_kg,
                    scale_u_kg=table.scale_reading or scale_reading_kg,
                    by=table.by or "",
                    note=table.note or "",
                )
                found.setdefault(tag, []).append(PlacedWeighing(placed.place, entry))
    return found


def _tags(placed: Placed[T], known: Sequence[str], problems: Problems) -> list[str]:
    """Tags of an entry in lower case; none when its day or any of them is wrong."""
    table, before = placed.table, len(problems)
    with problems.caught(placed.place, "day"):
        day_number(table.day, "day")
    there = {tag.casefold() for tag in known}
    with problems.caught(placed.place, "tags"):
        named = [tag.casefold() for tag in table.tags]
        for tag, low in zip(table.tags, named, strict=True):
            if named.count(low) > 1:
                raise BadInputError(
                    "A piece is named twice", got=quoted(tag), wanted="each tag once"
                )
            if low not in there:
                raise NotInStockError(
                    "There is no chain piece of that tag",
                    got=quoted(tag),
                    wanted=f"one of {_some(known)}" if known else "a [[chain]] with that tag",
                )
    return named if len(problems) == before else []


def _some(tags: Sequence[str]) -> str:
    more = len(tags) - _FEW
    return ", ".join(tags[:_FEW]) + (f" and {more} more" if more > 0 else "")
