"""Drive the bar of a scene and record what it carries."""

from __future__ import annotations

import random
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Final

import mujoco
import numpy as np

from topheavy.constants import STANDARD_GRAVITY_M_PER_S2

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from benchmarks.link_level.model import Scene

    Floats = NDArray[np.float64]

_FASTER_M_PER_S2: Final = 20.0
_DISTURBED_M_PER_S: Final = 0.1


@dataclass(frozen=True, slots=True)
class Record:
    """One stroke of the bar.

    Parameters
    ----------
    height_m, load_kg, side_kg : array, shape (n,)
        Bearing point above the floor [m], vertical and horizontal pull on the bar [kg], each
        step of constant speed.
    """

    height_m: Floats
    load_kg: Floats
    side_kg: Floats

    def rising(self) -> Record:
        """Sort by height."""
        order = np.argsort(self.height_m, kind="stable")
        return Record(self.height_m[order], self.load_kg[order], self.side_kg[order])

    def smooth(self, heights_m: Floats, over_m: float) -> tuple[Floats, Floats]:
        """Load and side pull [kg] averaged over `over_m` [m] round each height; nan beyond."""
        line = self.rising()
        return _windowed(line.height_m, line.load_kg, heights_m, over_m), _windowed(
            line.height_m, line.side_kg, heights_m, over_m
        )


class Drive:
    """A scene in the engine, with the bar held wherever it is told to be.

    Parameters
    ----------
    scene : Scene
        What hangs.
    seed : int or None
        Of the small push that each link gets to begin with, so that each heap is another one;
        None: no push.
    """

    def __init__(self, scene: Scene, seed: int | None = None) -> None:
        self.scene = scene
        self.model: Any = mujoco.MjModel.from_xml_string(scene.xml())
        self.data: Any = mujoco.MjData(self.model)
        self.height_m = scene.first_m
        if seed is not None:
            rng = random.Random(seed)  # noqa: S311 - heaps, not secrets
            pushes = [rng.gauss(0.0, _DISTURBED_M_PER_S) for _ in range(self.model.nv)]
            self.data.qvel[3:] = pushes[3:]
        self.data.qpos[2] = self.height_m

    def hold(self, time_s: float) -> tuple[float, float]:
        """Keep the bar still; mean load and side pull [kg] over the last half."""
        record = self._steps(np.full(round(time_s / self.scene.contact.step_s), self.height_m))
        half = len(record.load_kg) // 2
        return float(np.mean(record.load_kg[half:])), float(np.mean(record.side_kg[half:]))

    def move(self, to_m: float, speed_m_per_s: float) -> Record:
        """Drive the bar to a height; what is gained in speed at first is left out."""
        step_s = self.scene.contact.step_s
        sign = 1.0 if to_m > self.height_m else -1.0
        ramp_s = speed_m_per_s / _FASTER_M_PER_S2
        whole_s = abs(to_m - self.height_m) / speed_m_per_s + ramp_s / 2
        time = np.arange(1, round(whole_s / step_s) + 1) * step_s
        gone = np.where(
            time < ramp_s,
            0.5 * _FASTER_M_PER_S2 * time**2,
            speed_m_per_s * (time - ramp_s / 2),
        )
        record = self._steps(self.height_m + sign * gone)
        even = time >= ramp_s
        return Record(record.height_m[even], record.load_kg[even], record.side_kg[even])

    def lowest_m(self) -> float:
        """Height of the middle of the last link [m]."""
        return float(self.data.xpos[-1][2])

    def state(self) -> tuple[Floats, Floats, float]:
        """Remember where everything is."""
        return self.data.qpos.copy(), self.data.qvel.copy(), self.height_m

    def go_back(self, state: tuple[Floats, Floats, float]) -> None:
        """Put everything back to where it was."""
        mujoco.mj_resetData(self.model, self.data)
        self.data.qpos[:], self.data.qvel[:], self.height_m = state

    def _steps(self, heights_m: Floats) -> Record:
        """Step along heights; the bar is put and sped by hand, its mass takes up the rest."""
        model, data, step_s = self.model, self.data, self.scene.contact.step_s
        pulls = np.empty((len(heights_m), 3))
        place = self.height_m
        for k, height in enumerate(heights_m.tolist()):
            data.qpos[:3] = (0.0, 0.0, place)
            data.qvel[:3] = (0.0, 0.0, (height - place) / step_s)
            mujoco.mj_step(model, data)
            pulls[k] = data.qfrc_constraint[:3]
            place = height
        self.height_m = place
        pulls /= STANDARD_GRAVITY_M_PER_S2
        return Record(heights_m, -pulls[:, 2], np.hypot(pulls[:, 0], pulls[:, 1]))


def _windowed(height_m: Floats, value: Floats, at_m: Floats, over_m: float) -> Floats:
    """Mean of a value over a window of heights, from its running integral."""
    middle = (value[1:] + value[:-1]) / 2
    total = np.concatenate([[0.0], np.cumsum(middle * np.diff(height_m))])
    high = np.interp(at_m + over_m / 2, height_m, total, right=np.nan)
    low = np.interp(at_m - over_m / 2, height_m, total, left=np.nan)
    mean: Floats = (high - low) / over_m
    return mean
