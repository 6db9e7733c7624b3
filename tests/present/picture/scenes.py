"""Scenes of our own invention that the picture's tests share."""

from __future__ import annotations

from dataclasses import replace

from topheavy.mechanics.band import fit_band
from topheavy.mechanics.band_readings import BandReadings
from topheavy.mechanics.banded import Banded, Peg
from topheavy.mechanics.chain import Chain
from topheavy.mechanics.ground import Ground
from topheavy.mechanics.hang import Doubled, Draped, Hang, Straight, Suspension
from topheavy.mechanics.rig import End, Rig
from topheavy.present.picture import Disc, HangNote, Scene
from topheavy.units import METRIC, POUNDS

Span = tuple[float, float]


def chain(links: int, pitch_m: float = 0.056) -> Chain:
    """A chain of 5.3 kg/m."""
    return Chain(links=links, pitch_m=pitch_m, density_kg_per_m=5.3)


def rig(plates_kg: float, *hangs: Hang) -> Rig:
    """A 20 kg bar with the same hangs on both ends."""
    return Rig(20.0, plates_kg, End(hangs), End(hangs))


def banded(
    tag: str = "red-1", *, peg_m: float = 0.12, doubled: bool = False, scene_m: Span = (0.6, 1.0)
) -> Banded:
    """A band that is taut over the lift, a hand's width aside of its peg."""
    peg = Peg(height_m=peg_m, offset_m=0.06)
    strands = 2 if doubled else 1
    nearest_m = min(abs(height_m - peg_m) for height_m in scene_m)
    rest_m = 0.8 * strands * nearest_m
    lengths = tuple(rest_m + strands * step for step in (0.2, 0.5, 0.8, 1.2))
    readings = BandReadings(
        tag=tag, rest_m=rest_m, length_m=lengths, tension_kg=(4.0, 9.0, 12.5, 16.0)
    )
    second = peg if doubled else None
    return Banded(band=fit_band(readings), peg=peg, travel_m=scene_m, second=second)


def with_bands(scene: Scene, *bands: Banded, pegs: tuple[str, ...] = ()) -> Scene:
    """Put the same bands on both ends."""
    ends = (replace(end, bands=bands) for end in (scene.rig.left, scene.rig.right))
    return replace(scene, rig=Rig(scene.rig.bar_kg, scene.rig.plates_kg, *ends), pegs=pegs)


def held(feeder_m: float, whole_m: float | None = None) -> Suspension:
    """A ring feeder and a connector 85 mm long."""
    return Suspension(
        feeder_m=feeder_m,
        feeder_whole_m=whole_m,
        feeder_density_kg_per_m=0.3,
        connector_m=0.085,
        connector_kg=0.2,
    )


_RINGS = tuple(0.1 + 0.05 * step for step in range(13))

BENCH = Scene(
    rig=rig(60.0, Doubled(chains=(chain(32), chain(32)), suspension=held(0.5, 0.7))),
    straight=rig(60.0, Straight(chain=chain(32), drop_m=0.03)),
    bottom_m=0.60,
    top_m=1.00,
    units=METRIC,
    station_kind="bench",
    pad_m=0.43,
    notes=(HangNote(feeder="ring 9", marks_m=_RINGS, pieces=("A3", "A4"), wire_m=(0.016, 0.016)),),
    discs=(Disc(width_m=0.055, diameter_m=0.45), Disc(width_m=0.03, diameter_m=0.3)),
    plates="20 + 10 kg",
    heading="Bench press",
)

SQUAT = Scene(
    rig=rig(140.0, Doubled(chains=(chain(61, 0.0475),), suspension=held(0.86, 1.2))),
    bottom_m=0.95,
    top_m=1.5,
    units=POUNDS,
    station_kind="rack",
    notes=(
        HangNote(
            feeder="link 29",
            form="links",
            marks_m=tuple(0.03 * step for step in range(3, 40)),
            pieces=("C1",),
        ),
    ),
)

DEADLIFT = Scene(
    rig=rig(160.0, Draped(chains=(chain(41), chain(40)))),
    bottom_m=0.225,
    top_m=0.82,
    units=METRIC,
    station_kind="platform",
)

PRESS = Scene(
    rig=rig(20.0, Doubled(chains=(chain(40),), suspension=held(1.4))),
    bottom_m=1.45,
    top_m=2.4,
    units=METRIC,
    station_kind="rack",
    notes=(HangNote(feeder="mark 14", form="strap", marks_m=(1.2, 1.3, 1.4), pieces=("D",)),),
)

MIXED = Scene(
    rig=rig(
        100.0,
        Doubled(chains=(chain(24),), suspension=held(0.5)),
        Doubled(chains=(chain(32), chain(31), chain(30, 0.042)), suspension=held(0.4)),
        Straight(chain=chain(60, 0.028), drop_m=0.05),
    ),
    bottom_m=0.62,
    top_m=1.02,
    units=POUNDS,
    station_kind="rack",
)

SCENES = {
    "bench": BENCH,
    "squat": SQUAT,
    "deadlift": DEADLIFT,
    "press": PRESS,
    "mixed": MIXED,
    "thin": replace(BENCH, rig=rig(60.0, Straight(chain=chain(60, 0.028), drop_m=0.05)), notes=()),
    "short": replace(
        BENCH, rig=rig(60.0, Doubled(chains=(chain(10),), suspension=held(0.2))), notes=()
    ),
    "slack": replace(
        BENCH, rig=rig(60.0, Doubled(chains=(chain(32),), suspension=held(0.85))), notes=()
    ),
    "lump": replace(
        BENCH,
        rig=rig(
            60.0,
            Doubled(chains=(chain(1),), suspension=Suspension(feeder_m=0.6, connector_kg=0.2)),
        ),
        notes=(),
    ),
    "mat": replace(BENCH, ground=Ground(surface_m=0.08)),
    "beside": replace(DEADLIFT, ground=Ground(surface_m=-0.1)),
    "deficit": replace(DEADLIFT, ground=Ground(surface_m=-0.1), bottom_m=0.125, top_m=0.75),
    "dragged": replace(BENCH, ground=Ground(lay="dragged")),
    "bare": replace(BENCH, rig=rig(60.0), straight=None, notes=()),
    "banded": with_bands(BENCH, banded(), pegs=("low",)),
    "bands alone": with_bands(
        replace(BENCH, rig=rig(60.0), straight=None, notes=()), banded(), banded("b", doubled=True)
    ),
    "band from above": with_bands(SQUAT, banded(peg_m=2.15, scene_m=(0.95, 1.5)), pegs=("high",)),
    "partial": replace(BENCH, bottom_m=0.97),
}
SCENES |= {f"{name} tall": replace(scene, layout="tall") for name, scene in SCENES.items()}
