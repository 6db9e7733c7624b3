"""The log in the browser: sets listed, added, corrected, struck out, brought in and taken out."""

from __future__ import annotations

from typing import TYPE_CHECKING

from topheavy.web.log.changing import changing_routes
from topheavy.web.log.importing import import_routes
from topheavy.web.log.routes import list_routes

if TYPE_CHECKING:
    from fastapi import APIRouter

    from topheavy.web.house import House

__all__ = ["log_routes"]


def log_routes(house: House) -> list[APIRouter]:
    """Make every route of the log."""
    return [list_routes(house), changing_routes(house), import_routes(house)]
