"""The way from page to page: a table of links, shown to those who may go there."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from collections.abc import Iterable

    from topheavy.web.access.visit import Visit


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """A link in the head of every page.

    Parameters
    ----------
    label, path : str
        What it says and where it goes.
    coach_only : bool
        Whether lifters don't see it.
    stored_only : bool
        Whether it works only with a gym in the store.
    """

    label: str
    path: str
    coach_only: bool = False
    stored_only: bool = True

    def shown(self, visit: Visit) -> bool:
        """Whether a visitor may go there."""
        coach = visit.visitor is not None and visit.visitor.coach
        return (coach or not self.coach_only) and (visit.desk is not None or not self.stored_only)


PLACES: Final = (
    Place(label="Rig", path="/rig", stored_only=False),
    Place(label="Rack", path="/rack"),
    Place(label="Gym", path="/gym", coach_only=True),
    Place(label="Lifters", path="/lifters"),
    Place(label="Weeks", path="/weeks"),
    Place(label="Log", path="/log"),
    Place(label="Review", path="/review"),
    Place(label="Room", path="/room", coach_only=True),
    Place(label="People", path="/people", coach_only=True, stored_only=False),
)


def places_among(paths: Iterable[str]) -> tuple[Place, ...]:
    """Keep the places whose page is there."""
    there = set(paths)
    return tuple(one for one in PLACES if one.path in there)
