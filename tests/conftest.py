"""What holds for every test: no test touches a person's own store; what is left out is said."""

from __future__ import annotations

import itertools
import os
from typing import TYPE_CHECKING

import pytest

if TYPE_CHECKING:
    from pathlib import Path

POSTGRES = "TOPHEAVY_TEST_POSTGRES"
LEFT_OUT = f"no PostgreSQL server: {POSTGRES} says where one is; bash .ci/postgres starts one"

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


def server() -> str:
    """Address of the PostgreSQL server for tests; without one they are left out, but not in CI."""
    address = os.environ.get(POSTGRES, "")
    if not address:
        if os.environ.get("CI"):
            pytest.fail(LEFT_OUT)
        pytest.skip(LEFT_OUT)
    return address
