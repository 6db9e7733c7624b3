"""Fixtures: rows of simulated loads as CSV, with how they were made in comments on top."""

from __future__ import annotations

import csv
import io
from typing import TYPE_CHECKING, Any

import mujoco

from benchmarks.link_level.model import Contact
from benchmarks.link_level.sizes import SIZES

if TYPE_CHECKING:
    from pathlib import Path


def write(path: Path, rows: list[dict[str, Any]]) -> None:
    """Write rows under their comments, lengths to a tenth of a millimetre, loads to a gram."""
    text = io.StringIO()
    text.writelines(f"# {line}\n" for line in _how())
    table = csv.DictWriter(text, fieldnames=list(rows[0]), lineterminator="\n")
    table.writeheader()
    for row in rows:
        table.writerow({name: _cell(name, value) for name, value in row.items()})
    path.write_text(text.getvalue(), encoding="utf-8", newline="\n")


def _how() -> list[str]:
    contact = Contact()
    sizes = "; ".join(
        f"{s.name}: wire {s.wire_m:g}, pitch {s.pitch_m:g}, inside width {s.width_m:g} m, "
        f"{s.density_kg_per_m:g} kg/m"
        for s in SIZES
    )
    return [
        f"Simulated, not measured: MuJoCo {mujoco.__version__}, python -m benchmarks.link_level",
        f"Unless a column says otherwise: {contact}",
        f"Sizes: {sizes}",
        "height_m: bearing point of the first link above the floor; loads are means over a pitch",
    ]


def _cell(name: str, value: object) -> object:
    if not isinstance(value, float):
        return value
    return f"{value:.4f}" if name.endswith("_m") else f"{value:.3f}"
