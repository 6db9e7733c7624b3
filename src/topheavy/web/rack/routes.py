"""Everything at the rack: its pages, what gives work, and the same for programs."""

from __future__ import annotations

from typing import TYPE_CHECKING

from topheavy.web.rack.api import rack_api
from topheavy.web.rack.give import give_routes
from topheavy.web.rack.pages import rack_pages
from topheavy.web.rack.receive import Works

if TYPE_CHECKING:
    from fastapi import APIRouter

    from topheavy.web.house import House


def rack_routes(house: House) -> list[APIRouter]:
    """Make the routes at the rack."""
    works = Works()
    return [rack_api(house, works), rack_pages(house, works), give_routes(house)]
