"""Coaches at the demonstration's gym."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.web.gym.keeping import Coach, keeping

if TYPE_CHECKING:
    from collections.abc import Iterator


@pytest.fixture
def coach() -> Iterator[Coach]:
    """A coach at a gym of its own for each test."""
    with keeping() as found:
        yield found


@pytest.fixture(scope="module")
def visitor() -> Iterator[Coach]:
    """A coach who only looks, or whose forms are refused."""
    with keeping("look") as found:
        yield found
