"""Calling the command line from tests: in this process, or as a user's shell does."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

from typer.testing import CliRunner

from topheavy.cli.app import app

if TYPE_CHECKING:
    from collections.abc import Mapping

TINY = str(Path(__file__).parents[1] / "data" / "tiny_gym.toml")
"""A gym with next to nothing in it: A1 to A4 are 32 links of 5/8 in chain."""

RIG = (
    "--gym", TINY, "--left", "A1+A2", "--right", "A3+A4", "--feeder", "strap:2",
    "--connector", "screw link", "--straight", "65kg",
)  # fmt: skip
"""A rig of the tiny gym, described."""

_RUNNER = CliRunner()


@dataclass(frozen=True)
class Called:
    """What a call printed, and how it ended."""

    code: int
    out: str
    err: str

    @property
    def json(self) -> Any:
        """What was printed, as JSON."""
        return json.loads(self.out)


def call(*words: str, stdin: str | None = None) -> Called:
    """Call a command in this process, on a terminal of 80 columns."""
    done = _RUNNER.invoke(
        app, list(words), input=stdin, env={"COLUMNS": "80"}, prog_name="topheavy"
    )
    if done.exception is not None and not isinstance(done.exception, SystemExit):
        raise done.exception
    return Called(done.exit_code, done.stdout, done.stderr)


def run(
    *words: str | bytes, env: Mapping[str, str] | None = None, cwd: Path | None = None
) -> Called:
    """Call a command in a process of its own."""
    done = subprocess.run(
        [sys.executable, "-m", "topheavy", *words],
        env={**os.environ, "COLUMNS": "80", **(env or {})},
        cwd=cwd,
        capture_output=True,
        check=False,
    )
    return Called(
        done.returncode, done.stdout.decode("utf-8"), done.stderr.decode("utf-8", "replace")
    )


def refused(done: Called, *words: str) -> None:
    """Assert that a call ended as a user's mistake does, and that its message says these words."""
    assert done.code == 2, done
    assert done.out == ""
    assert "Traceback" not in done.err
    for word in words:
        assert word in done.err, done.err
