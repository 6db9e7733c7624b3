"""The weeks in the browser: a block planned, changed by hand, looked at, printed, exported."""

from __future__ import annotations

from typing import TYPE_CHECKING

from topheavy.web.weeks.changing import changing_routes
from topheavy.web.weeks.planning import planning_routes
from topheavy.web.weeks.routes import show_routes

if TYPE_CHECKING:
    from fastapi import APIRouter

    from topheavy.web.house import House

__all__ = ["weeks_routes"]


def weeks_routes(house: House) -> list[APIRouter]:
    """Make every route of the weeks."""
    return [show_routes(house), planning_routes(), changing_routes(house)]
