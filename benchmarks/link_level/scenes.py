"""Which scenes are run, and what each tells: jobs in, rows out."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any, Final

import numpy as np

from benchmarks.link_level.drive import Drive
from benchmarks.link_level.model import Contact, Scene
from benchmarks.link_level.sizes import HEAVY, LONG, MEDIUM, SHORT

if TYPE_CHECKING:
    from collections.abc import Iterator

Row = dict[str, Any]

SLOW_M_PER_S: Final = 0.1
"""At this speed picking up links adds density x speed2: 1 mm of chain a strand."""

FAST_M_PER_S: Final = (0.25, 0.5, 1.0, 1.5)
_LOWEST_PITCHES: Final = 4.4
_FRICTIONS: Final = (0.7, 0.3)

VARIANTS: Final = {
    "half the step, contacts twice as hard": Contact(step_s=0.0005, soft_s=0.002),
    "contacts twice as soft": Contact(soft_s=0.008),
    "five chords a half circle": Contact(arc_sides=5),
    "link friction 0.15": Contact(link_friction=0.15),
    "link friction 0.4": Contact(link_friction=0.4),
}


@dataclass(frozen=True, slots=True)
class Job:
    """One heap to make and lift: scene, seed, slow speed [m/s], its variant's name, fast or not."""

    scene: Scene
    seed: int
    speed_m_per_s: float = SLOW_M_PER_S
    variant: str = "as run"
    fast_too: bool = False


def heaped() -> Iterator[Job]:
    """Every scene whose slack is piled, with the seeds it is run with."""
    for size, straight, doubled, fast_too in (
        (MEDIUM, 3, 2, True),
        (SHORT, 3, 2, True),
        (LONG, 2, 1, False),
        (HEAVY, 1, 1, False),
    ):
        scene = Scene(size=size, strands=1, links=20)
        yield from (Job(scene, seed, fast_too=fast_too) for seed in range(1, straight + 1))
        folded = replace(scene, strands=2, links=14)
        yield from (Job(folded, seed) for seed in range(1, doubled + 1))
    for size in (MEDIUM, SHORT):
        yield Job(Scene(size=size, strands=4, links=12), 1)
    yield Job(Scene(size=MEDIUM, strands=1, links=32), 1)


def artefact() -> Iterator[Job]:
    """One scene with other contacts, steps, rings and half the speed."""
    scene = Scene(size=MEDIUM, links=20)
    yield Job(scene, 1, SLOW_M_PER_S / 2, "half the speed")
    for name, contact in VARIANTS.items():
        yield Job(replace(scene, contact=contact), 1, variant=name)


def run(job: Job) -> tuple[list[Row], list[Row]]:
    """Rows of one heap: slow strokes, and fast ones if wanted."""
    drive, strokes, rows = slow(job.scene, job.seed, job.speed_m_per_s)
    if job.variant != "as run":
        rows = [row | {"variant": job.variant} for row in rows]
    return rows, list(fast(drive, strokes, job.seed)) if job.fast_too else []


def still() -> Iterator[Row]:
    """Hang each size still: what it weighs and how long it is in the engine."""
    for size in (MEDIUM, HEAVY, SHORT):
        for strands in (1, 2):
            scene = Scene(size=size, strands=strands, links=8)
            drive = Drive(scene)
            load_kg, _ = drive.hold(1.0)
            yield _scene_row(scene) | {
                "load_kg": load_kg,
                "last_link_m": drive.lowest_m(),
                "mass_kg": scene.per_m_kg * scene.length_m,
            }


def slow(
    scene: Scene, seed: int, speed_m_per_s: float = SLOW_M_PER_S
) -> tuple[Drive, dict[str, Any], list[Row]]:
    """Let the chain down on the floor and lift it again; the load at whole pitches."""
    drive = Drive(scene, seed)
    drive.hold(0.5)
    pitch_m = scene.size.pitch_m
    top_m, low_m = drive.height_m, _LOWEST_PITCHES * pitch_m
    down = drive.move(low_m, speed_m_per_s)
    drive.hold(0.3)
    heap = drive.state()
    up = drive.move(top_m, speed_m_per_s)
    heights = pitch_m * np.arange(5.0, scene.links + 1)
    rows = []
    for way, record in (("lowering", down), ("raising", up)):
        loads, _ = record.smooth(heights, pitch_m)
        rows += [
            _scene_row(scene) | {"seed": seed, "way": way, "height_m": h, "load_kg": load}
            for h, load in zip(heights, loads, strict=True)
            if np.isfinite(load)
        ]
    return drive, {"heap": heap, "raising": up, "lowering": down}, rows


def fast(drive: Drive, before: dict[str, Any], seed: int) -> Iterator[Row]:
    """Lift the same heap faster, and let a hanging chain down faster; means over a stretch."""
    scene, pitch_m = drive.scene, drive.scene.size.pitch_m
    low_m, high_m = 7 * pitch_m, (scene.links - 3) * pitch_m
    for speed in FAST_M_PER_S:
        for way in ("raising", "lowering"):
            if way == "raising":
                drive.go_back(before["heap"])
                record = drive.move(scene.first_m, speed)
            else:
                hung = Drive(scene, seed)
                hung.hold(0.5)
                record = hung.move(_LOWEST_PITCHES * pitch_m, speed)
            middle, over = np.array([(low_m + high_m) / 2]), high_m - low_m
            loads = [r.smooth(middle, over)[0][0] for r in (record, before[way])]
            yield _scene_row(scene) | {
                "seed": seed,
                "way": way,
                "speed_m_per_s": speed,
                "from_m": low_m,
                "to_m": high_m,
                "load_kg": loads[0],
                "slow_load_kg": loads[1],
            }


def dragged() -> Iterator[Row]:
    """Lift a chain that lies straight to one side."""
    for size, links, friction in [(MEDIUM, 20, f) for f in _FRICTIONS] + [(SHORT, 20, 0.7)]:
        contact = Contact(floor_friction=friction)
        scene = Scene(size=size, links=links, start="laid", contact=contact)
        drive = Drive(scene)
        drive.hold(0.3)
        record = drive.move(scene.length_m, SLOW_M_PER_S)
        heights = size.pitch_m * np.arange(2.0, links)
        loads, sides = record.smooth(heights, size.pitch_m)
        for h, load, side in zip(heights, loads, sides, strict=True):
            yield _scene_row(scene) | {
                "friction": friction,
                "height_m": h,
                "load_kg": load,
                "side_kg": side,
            }


def _scene_row(scene: Scene) -> Row:
    return {"size": scene.size.name, "strands": scene.strands, "links": scene.links}
