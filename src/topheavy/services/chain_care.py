"""When chain is due for another inspection."""

from __future__ import annotations

from typing import TYPE_CHECKING

from topheavy.gym.care import INSPECT_DAYS
from topheavy.gym.day import day_number
from topheavy.phrase import Phrase, literal

if TYPE_CHECKING:
    from collections.abc import Iterable

    from topheavy.gym.stock import ChainPiece


def inspections_due(
    pieces: Iterable[ChainPiece], today: str, every_days: int = INSPECT_DAYS
) -> tuple[Phrase, ...]:
    """Say which pieces that may hang are due for an inspection.

    Parameters
    ----------
    pieces : iterable of ChainPiece
        Chain; retired pieces are passed over.
    today : str
        The day it is, as ``"2026-11-25"``.
    every_days : int
        Days after which an inspection is due.

    Returns
    -------
    tuple of Phrase
        One for each day of inspection, oldest first; nothing of chain whose inspection nobody
        notes: a gym that keeps no such book is reminded by the cautions.

    Raises
    ------
    BadInputError
        Today is no day.
    """
    now = day_number(today, "today")
    tags: dict[str, list[str]] = {}
    for piece in pieces:
        if piece.inspected_on and not piece.retired:
            tags.setdefault(piece.inspected_on, []).append(piece.tag)
    found = []
    for day, some in sorted(tags.items()):
        days = now - day_number(day, "inspected")
        who = literal(", ".join(some))
        if days < 0:
            found.append(Phrase(f"{who}: inspected on {day}, which is still to come."))
        elif days > every_days:
            found.append(
                Phrase(
                    f"{who}: last inspected {days} days ago. Look every link over, measure pitch "
                    "and wire where they are worst, and write down the day."
                )
            )
    return tuple(found)
