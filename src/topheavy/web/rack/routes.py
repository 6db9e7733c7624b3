"""Everything at the rack: its pages, what gives work, and the same for programs."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fastapi import APIRouter

from topheavy.web.rack.api import rack_api
from topheavy.web.rack.receive import Works

if TYPE_CHECKING:
    from topheavy.web.house import House


def rack_routes(house: House) -> APIRouter:
    """Make the routes at the rack."""
    works = Works()
    routes = APIRouter()
    routes.include_router(rack_api(house, works))
    return routes
