"""The whole room in a browser: what is asked, planning, the plan, the wall, what to buy."""

from __future__ import annotations

from typing import TYPE_CHECKING

from topheavy.web.room.asking import asking_routes
from topheavy.web.room.board import board_routes
from topheavy.web.room.buy import buy_routes
from topheavy.web.room.jobs import Jobs
from topheavy.web.room.planning import planning_routes
from topheavy.web.room.wall import wall_routes

if TYPE_CHECKING:
    from fastapi import APIRouter

    from topheavy.web.house import House


def room_routes(house: House) -> list[APIRouter]:
    """Make every route of the room's pages."""
    jobs = Jobs()
    return [
        asking_routes(house, jobs),
        planning_routes(house, jobs),
        board_routes(house, jobs),
        wall_routes(house),
        buy_routes(house),
    ]
