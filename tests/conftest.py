"""What holds for every test: no test touches a person's own store; what is left out is said."""

from __future__ import annotations

import itertools
from typing import TYPE_CHECKING

import pytest

from tests.stores import LEFT_OUT, address, store, template

if TYPE_CHECKING:
    from pathlib import Path

__all__ = ["address", "store", "template"]  # fixtures for every folder

_NUMBERS = itertools.count()


@pytest.fixture(scope="session")
def _stores(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("stores")


@pytest.fixture(autouse=True)
def own_store(_stores: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Give the test a store of its own, made when it is first used."""
    path = _stores / f"{next(_NUMBERS)}.sqlite"
    monkeypatch.setenv("TOPHEAVY_STORE", str(path))
    return path


@pytest.hookimpl(trylast=True)
def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    """Say what was left out."""
    reports = terminalreporter.stats.get("skipped", [])
    count = sum(LEFT_OUT in str(report.longrepr) for report in reports)
    if count:
        terminalreporter.write_line(f"Left out: {count} tests of the store, {LEFT_OUT}.")
