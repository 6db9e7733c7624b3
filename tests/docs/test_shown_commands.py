"""Every command shown with a prompt in the docs runs."""

from __future__ import annotations

import re
import shlex
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
SHOWN = sorted(
    {
        match
        for page in (ROOT / "README.md", *(ROOT / "docs").rglob("*.md"))
        for match in re.findall(r"^\$ topheavy (.+)$", page.read_text("utf-8"), re.MULTILINE)
    }
)


@pytest.mark.parametrize("words", SHOWN)
def test_command_in_the_docs_runs(words: str, tmp_path: Path) -> None:
    done = subprocess.run(
        [sys.executable, "-m", "topheavy", *shlex.split(words)],
        cwd=tmp_path,
        capture_output=True,
        text=True,
        check=False,
    )

    assert done.returncode == 0, done.stderr
    assert done.stdout
