"""What the main job needs stays small enough for a gym's old laptop."""

from __future__ import annotations

import re
from importlib.metadata import Distribution, distribution
from pathlib import Path

LIMIT_MB = 400


def needed(name: str, found: dict[str, Distribution] | None = None) -> dict[str, Distribution]:
    """Follow what topheavy requires, without extras."""
    found = {} if found is None else found
    key = re.sub(r"[-_.]+", "-", name).lower()
    if key in found:
        return found
    found[key] = distribution(name)
    for requirement in found[key].requires or []:
        words, _, marker = requirement.partition(";")
        if "extra" in marker or "platform" in marker or "python_version <" in marker:
            continue
        match = re.match(r"[\w.-]+", words.strip())
        if match:
            needed(match[0], found)
    return found


def test_install_size() -> None:
    """Sum of the files of every distribution that the main job needs."""
    sizes = {
        name: sum(_size(Path(str(file.locate()))) for file in dist.files or [])
        for name, dist in needed("topheavy").items()
    }
    assert {"numpy", "scipy", "pydantic", "typst", "rich", "typer"} <= set(sizes)
    assert sum(sizes.values()) / 1e6 < LIMIT_MB, sizes


def _size(path: Path) -> int:
    return path.stat().st_size if path.is_file() else 0
