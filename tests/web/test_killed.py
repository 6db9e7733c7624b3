"""Killed while phones send: what was acknowledged is there, once, after the next start."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchmarks.killed import run_killed

if TYPE_CHECKING:
    from pathlib import Path


def test_every_acknowledged_set_outlives_the_server(tmp_path: Path) -> None:
    told = run_killed(str(tmp_path / "store.sqlite"), sets=300, kills=1)
    assert told.acknowledged >= 300
    assert told.lost == 0
    assert told.doubled == 0
    assert told.found >= told.acknowledged
