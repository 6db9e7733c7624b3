"""Simulate chain link by link: ``python -m benchmarks.link_level``.

Names of groups (still, heaped, dragged, artefact) run those only; all take some fifteen minutes of
one core. Each writes its fixtures anew.
"""

from __future__ import annotations

import sys
from concurrent.futures import ProcessPoolExecutor
from pathlib import Path
from typing import TYPE_CHECKING

from benchmarks.link_level import scenes
from benchmarks.link_level.table import write

if TYPE_CHECKING:
    from collections.abc import Callable

FOLDER = Path(__file__).parent.parent.parent / "tests" / "outside" / "data" / "link_level"


def heaped() -> None:
    """Slow and fast strokes over every heap."""
    slow_rows, fast_rows = _pooled(list(scenes.heaped()))
    write(FOLDER / "slow.csv", slow_rows)
    write(FOLDER / "fast.csv", fast_rows)


def artefact() -> None:
    """One heap with the engine set otherwise."""
    write(FOLDER / "artefact.csv", _pooled(list(scenes.artefact()))[0])


def _pooled(jobs: list[scenes.Job]) -> tuple[list[scenes.Row], list[scenes.Row]]:
    slow_rows, fast_rows = [], []
    with ProcessPoolExecutor() as pool:
        for job, (slow, fast) in zip(jobs, pool.map(scenes.run, jobs), strict=True):
            slow_rows += slow
            fast_rows += fast
            scene = job.scene
            print(
                f"  {scene.size.name}, {scene.strands} x {scene.links}, {job.variant}", flush=True
            )
    return slow_rows, fast_rows


GROUPS: dict[str, Callable[[], None]] = {
    "still": lambda: write(FOLDER / "still.csv", list(scenes.still())),
    "heaped": heaped,
    "dragged": lambda: write(FOLDER / "dragged.csv", list(scenes.dragged())),
    "artefact": artefact,
}


def main(names: list[str]) -> int:
    """Run the groups named, all by default; return the exit code."""
    if not set(names) <= set(GROUPS):
        print(f"usage: python -m benchmarks.link_level [{' '.join(GROUPS)}]", file=sys.stderr)
        return 2
    FOLDER.mkdir(parents=True, exist_ok=True)
    for name in names or list(GROUPS):
        GROUPS[name]()
        print(f"{name}: written", flush=True)
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
