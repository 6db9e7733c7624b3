"""What `make demo` prints and draws, for the README."""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
from functools import cache
from pathlib import Path
from typing import Final

from docs.makers.markers import fill

_UP_TO: Final = "\nMind\n"
"""The README shows the first part of the output, up to this heading."""


def readme(page: str) -> str:
    """Fill in what the demo prints."""
    printed, _ = _demo()
    shown = printed.split(_UP_TO)[0].rstrip()
    lines = "\n".join(line.rstrip() for line in shown.splitlines())
    return fill(page, "demo", f"\n```text\n{lines}\n```\n")


def picture(_: str) -> str:
    """Draw what the demo draws."""
    return _demo()[1]


@cache
def _demo() -> tuple[str, str]:
    with tempfile.TemporaryDirectory() as folder:
        done = subprocess.run(  # noqa: S603 -- our own command
            [sys.executable, "-m", "topheavy", "demo", "--out", folder],
            env={**os.environ, "COLUMNS": "80", "PYTHONIOENCODING": "utf-8"},
            capture_output=True,
            encoding="utf-8",
            check=True,
        )
        drawn = (Path(folder) / "rig.svg").read_text(encoding="utf-8")
    return done.stdout, drawn
