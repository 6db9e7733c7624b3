"""Simulate chain link by link: ``python -m benchmarks.link_level``.

Names of groups (still, heaped, dragged, artefact) run those only; all take some fifteen minutes of
one core. Each writes its fixtures anew.
"""

from __future__ import annotations

import sys
import time
from pathlib import Path
from typing import TYPE_CHECKING

from benchmarks.link_level import scenes
from benchmarks.link_level.table import write

if TYPE_CHECKING:
    from collections.abc import Callable

FOLDER = Path(__file__).parent.parent.parent / "tests" / "outside" / "data" / "link_level"


def heaped() -> None:
    """Slow and fast strokes over every heap."""
    slow_rows, fast_rows = [], []
    for scene, seed in scenes.heaped():
        drive, before, rows = scenes.slow(scene, seed)
        slow_rows += rows
        if scene.strands == 1 and scene.links == 20:
            fast_rows += list(scenes.fast(drive, before, seed))
        print(f"  {scene.size.name}, {scene.strands} x {scene.links}, seed {seed}", flush=True)
    write(FOLDER / "slow.csv", slow_rows)
    write(FOLDER / "fast.csv", fast_rows)


GROUPS: dict[str, Callable[[], None]] = {
    "still": lambda: write(FOLDER / "still.csv", list(scenes.still())),
    "heaped": heaped,
    "dragged": lambda: write(FOLDER / "dragged.csv", list(scenes.dragged())),
    "artefact": lambda: write(FOLDER / "artefact.csv", list(scenes.artefact())),
}


def main(names: list[str]) -> int:
    """Run the groups named, all by default; return the exit code."""
    if not set(names) <= set(GROUPS):
        print(f"usage: python -m benchmarks.link_level [{' '.join(GROUPS)}]", file=sys.stderr)
        return 2
    FOLDER.mkdir(parents=True, exist_ok=True)
    for name in names or list(GROUPS):
        begun = time.process_time()
        GROUPS[name]()
        print(f"{name}: {time.process_time() - begun:.0f} s of one core", flush=True)
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
