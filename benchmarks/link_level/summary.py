"""What the fixtures say, in the words of topheavy's curves; needs no engine.

The height of a heap is what the bar's height is short of the length of chain that the load
weighs: height - load / (density x strands). In pitches, since links of one shape heap alike
whatever their size: slow, nothing but lengths, weight and friction enters.
"""

from __future__ import annotations

import csv
from collections import defaultdict
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Final

import numpy as np

from benchmarks.link_level.sizes import SIZES
from topheavy.constants import STANDARD_GRAVITY_M_PER_S2

if TYPE_CHECKING:
    from collections.abc import Iterable

    from benchmarks.link_level.sizes import LinkSize

FOLDER: Final = Path(__file__).parent.parent.parent / "tests" / "outside" / "data" / "link_level"
SIZE: Final = {size.name: size for size in SIZES}

_ALL_UP: Final = 1.5
"""Within so many pitches of its length a strand has no slack to heap."""

Row = dict[str, str]


def read(name: str) -> list[Row]:
    """Rows of one fixture."""
    lines = (FOLDER / f"{name}.csv").read_text(encoding="utf-8").splitlines()
    return list(csv.DictReader(line for line in lines if not line.startswith("#")))


@dataclass(frozen=True, slots=True)
class Heap:
    """One heap on one way.

    Parameters
    ----------
    size : LinkSize
        The links.
    strands, links : int
        Strands, and links of each.
    seed : int
        Which heap.
    way : str
        'raising' or 'lowering'.
    variant : str
        How the engine was set; 'as run' otherwise.
    links_down : tuple of float
        Links of each strand that lie, at each height.
    pitches : tuple of float
        Height of the heap in pitches, at each height.
    """

    size: LinkSize
    strands: int
    links: int
    seed: int
    way: str
    variant: str
    links_down: tuple[float, ...]
    pitches: tuple[float, ...]

    @property
    def mean(self) -> float:
        """Mean over the heights, in pitches."""
        return float(np.mean(self.pitches))


def heaps(rows: Iterable[Row]) -> list[Heap]:
    """Heights of every heap of a fixture."""
    groups: defaultdict[tuple[str, ...], list[tuple[float, float]]] = defaultdict(list)
    for row in rows:
        size, strands = SIZE[row["size"]], int(row["strands"])
        above = float(row["height_m"]) / size.pitch_m
        if above > int(row["links"]) - _ALL_UP:
            continue
        hung = float(row["load_kg"]) / (strands * size.density_kg_per_m) / size.pitch_m
        key = (*(row[k] for k in ("size", "strands", "links", "seed", "way")),)
        groups[(*key, row.get("variant", "as run"))].append(
            (int(row["links"]) - above, above - hung)
        )
    return [
        Heap(
            SIZE[size],
            int(strands),
            int(links),
            int(seed),
            way,
            variant,
            tuple(down for down, _ in pairs),
            tuple(pitches for _, pitches in pairs),
        )
        for (size, strands, links, seed, way, variant), pairs in groups.items()
    ]


def pick_up(row: Row) -> float:
    """Coefficient of density x speed2, from a fast stroke and the slow one over the same heap."""
    size, strands = SIZE[row["size"]], int(row["strands"])
    more_n = (float(row["load_kg"]) - float(row["slow_load_kg"])) * STANDARD_GRAVITY_M_PER_S2
    return more_n / (strands * size.density_kg_per_m * float(row["speed_m_per_s"]) ** 2)


def main() -> None:
    """Print heap heights and pick-up coefficients."""
    print("heaps, pitches: size, strands x links, way: mean (each seed)")
    table: defaultdict[str, list[float]] = defaultdict(list)
    for heap in heaps([*read("slow"), *read("artefact")]):
        name = f"{heap.size.name}, {heap.strands} x {heap.links}, {heap.way}, {heap.variant}"
        table[name].append(heap.mean)
    for name, means in table.items():
        print(f"{name}: {np.mean(means):.2f} ({', '.join(f'{m:.2f}' for m in means)})")
    print("coefficient of density x speed2: way, speed: mean, standard deviation")
    speeds: defaultdict[str, list[float]] = defaultdict(list)
    for row in read("fast"):
        speeds[f"{row['way']} {row['speed_m_per_s']} m/s"].append(pick_up(row))
    for name, values in speeds.items():
        print(f"{name}: {np.mean(values):.2f}, {np.std(values, ddof=1):.2f}")


if __name__ == "__main__":
    main()
