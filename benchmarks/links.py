"""One stroke down and up of one chain: by its curves, and simulated link by link."""

from __future__ import annotations

import importlib.util
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

import numpy as np

from benchmarks.link_level.sizes import MEDIUM
from benchmarks.measure import median_cpu_s
from topheavy.constants import STANDARD_GRAVITY_M_PER_S2
from topheavy.lifter.motion.batch import RepBatch
from topheavy.lifter.motion.inputs import OnBar, RepLifter
from topheavy.lifter.motion_model import BENCH
from topheavy.lifter.rep import simulate_batch
from topheavy.mechanics.ground import Ground
from topheavy.mechanics.hang import Straight
from topheavy.mechanics.moving import lowering_force_n, raising_force_n
from topheavy.mechanics.rig import End

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Floats = NDArray[np.float64]

LINKS: Final = 20
SPEED_M_PER_S: Final = 0.5
"""A usual speed of a heavy rep's quicker half."""

LOW_PITCHES: Final = 5.0
HEIGHTS_M: Final = MEDIUM.pitch_m * np.arange(LOW_PITCHES + 1, LINKS - 1)
"""Where the loads are compared [m]: whole pitches, clear of both turning points."""

_SEED: Final = 1
_LIFTER: Final = RepLifter(
    best_kg=100.0, bottom_m=LOW_PITCHES * MEDIUM.pitch_m, top_m=LINKS * MEDIUM.pitch_m
)
_STRAIGHT_KG: Final = 70.0


@dataclass(frozen=True, slots=True)
class LinkSpeed:
    """What was measured.

    Parameters
    ----------
    curves_s, rep_s, links_s : float
        Processor time of the loads from the curves, of one rep with that chain on the bar, and
        of the same stroke link by link [s].
    chain_kg : float
        Mass of the chain [kg].
    mean_off_kg, rms_off_kg : float
        Simulated less reckoned load over both ways [kg]: in the mean, and root mean square.
    """

    curves_s: float
    rep_s: float
    links_s: float
    chain_kg: float
    mean_off_kg: float
    rms_off_kg: float


def engine_there() -> bool:
    """Whether the physics engine can be imported."""
    return importlib.util.find_spec("mujoco") is not None


def run_links() -> LinkSpeed:
    """Take the stroke in both ways and compare; needs the engine."""
    off_kg = link_by_link() - by_curves()
    assert np.max(np.abs(off_kg)) < 0.25 * MEDIUM.density_kg_per_m, "not the same chain"
    return LinkSpeed(
        curves_s=median_cpu_s(by_curves, 101),
        rep_s=median_cpu_s(one_rep, 31),
        links_s=median_cpu_s(link_by_link, 3),
        chain_kg=MEDIUM.density_kg_per_m * MEDIUM.pitch_m * LINKS,
        mean_off_kg=float(np.mean(off_kg)),
        rms_off_kg=float(np.sqrt(np.mean(off_kg**2))),
    )


def by_curves() -> Floats:
    """Loads [kg] at the heights, lowering then raising, from links to curves to loads."""
    end, ground = End((Straight(chain=MEDIUM.chain(LINKS)),)), Ground()
    down = lowering_force_n(end.curve(ground, "lowering"), 0.0, HEIGHTS_M, 0.0)
    up = raising_force_n(end.curve(ground, "raising"), 0.0, HEIGHTS_M, SPEED_M_PER_S, 0.0)
    loads: Floats = np.concatenate([down, up]) / STANDARD_GRAVITY_M_PER_S2
    return loads


def one_rep() -> None:
    """Simulate a lifter's rep with that chain on the bar, from links to speeds."""
    hung = End((Straight(chain=MEDIUM.chain(LINKS)),)).curve(Ground(), "raising")
    on_bar = OnBar(straight_kg=_STRAIGHT_KG, hung=hung)
    done = simulate_batch(RepBatch.of(_LIFTER, on_bar, BENCH.typical()))
    assert done.completed.all()


def link_by_link() -> Floats:
    """The same loads [kg] from the engine: down on the floor, a moment's rest, and up."""
    from benchmarks.link_level.drive import Drive  # noqa: PLC0415 - few have the engine
    from benchmarks.link_level.model import Scene  # noqa: PLC0415 - goes with it

    drive = Drive(Scene(size=MEDIUM, links=LINKS), _SEED)
    drive.hold(0.5)
    top_m = drive.height_m
    down = drive.move(LOW_PITCHES * MEDIUM.pitch_m, SPEED_M_PER_S)
    drive.hold(0.3)
    up = drive.move(top_m, SPEED_M_PER_S)
    return np.concatenate([way.smooth(HEIGHTS_M, MEDIUM.pitch_m)[0] for way in (down, up)])


if __name__ == "__main__":
    print(run_links() if engine_there() else "needs requirements/physics.txt")
