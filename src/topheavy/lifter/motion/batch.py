"""Reps laid out for the kernel: one lifter or many, one rig or many, thousands at once."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Final

import numpy as np

from topheavy.constants import STANDARD_GRAVITY_M_PER_S2
from topheavy.errors import BadInputError
from topheavy.lifter.motion.inputs import NOTHING, OnBar
from topheavy.lifter.motion.raising import CELLS, Climb
from topheavy.mechanics.chain import require_not_negative, require_positive

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import ArrayLike, NDArray

    from topheavy.lifter.motion.inputs import HeightTable, RepLifter
    from topheavy.lifter.motion_model import Motion

    Floats = NDArray[np.float64]

PICK_UP_RANGE: Final = (0.5, 1.0)
"""Bounds of the pick-up coefficient: energy kept, loose pile."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class RepBatch:
    """Reps to simulate, n at once, of any lifters with any rigs.

    Parameters
    ----------
    motion : Motion
        Numbers of the model, one for all or n.
    best_kg, travel_m, straight_kg : float or array, shape (n,)
        1RM [kg], travel [m], bar and plates [kg].
    strength_kg : array, shape (s, CELLS + 1)
        Strength at evenly spaced heights from bottom to top [kg].
    hung_kg : array, shape (r, CELLS + 1)
        What hangs, by the same heights [kg].
    band_kg : array, shape (r, CELLS + 1), or None
        Pull of bands [kg].
    strength_of, rig_of : array of int, shape (n,), or None
        Which row of strength and of rigs belongs to each rep; None: row i to rep i, or the
        only row to all.
    """

    motion: Motion
    best_kg: ArrayLike
    travel_m: ArrayLike
    straight_kg: ArrayLike
    strength_kg: Floats
    hung_kg: Floats
    band_kg: Floats | None = None
    strength_of: NDArray[np.intp] | None = None
    rig_of: NDArray[np.intp] | None = None

    @classmethod
    def of(
        cls,
        lifter: RepLifter,
        on_bar: OnBar | Sequence[OnBar],
        motion: Motion,
        straight_kg: ArrayLike | None = None,
    ) -> RepBatch:
        """Put one lifter under one rig or several.

        With several lifters in `motion` and several rigs, their numbers must agree: lifter i
        moves rig i.

        Parameters
        ----------
        lifter : RepLifter
            Who.
        on_bar : OnBar or sequence of OnBar
            What.
        motion : Motion
            Numbers of the model.
        straight_kg : array_like, optional
            Bar and plates of each rep [kg], instead of the rigs' own.
        """
        rigs = [on_bar] if isinstance(on_bar, OnBar) else list(on_bar)
        grid = lifter.grid_m
        bands = any(one.band is not None for one in rigs)
        own = [one.straight_kg for one in rigs] if straight_kg is None else straight_kg
        return cls(
            motion=motion,
            best_kg=lifter.best_kg,
            travel_m=lifter.travel_m,
            straight_kg=own,
            strength_kg=lifter.strength_kg(motion),
            hung_kg=np.array([_sampled("hung", one.hung, grid) for one in rigs]),
            band_kg=np.array([_sampled("band", one.band or NOTHING, grid) for one in rigs])
            if bands
            else None,
        )

    @classmethod
    def crossed(
        cls, lifter: RepLifter, rigs: Sequence[OnBar], motion: Motion, straight_kg: Floats
    ) -> RepBatch:
        """Put each of n lifters under each of m rigs, k times over.

        Parameters
        ----------
        lifter : RepLifter
            Heights, 1RM and strength that all share.
        rigs : sequence of OnBar
            What hangs; m of them.
        motion : Motion
            Numbers of n lifters.
        straight_kg : array, shape (k, m, n)
            Bar and plates [kg].

        Returns
        -------
        RepBatch
            k m n reps, in the order of `straight_kg`.
        """
        base = cls.of(lifter, rigs, motion, straight_kg=0.0)
        shape = straight_kg.shape
        who = np.broadcast_to(np.arange(shape[2]), shape).ravel()
        rig = np.broadcast_to(np.arange(shape[1])[:, None], shape).ravel()
        rows = len(base.strength_kg)
        return replace(
            base,
            motion=motion.spread(shape[2]).taken(who),
            straight_kg=straight_kg.ravel(),
            strength_of=who if rows > 1 else np.zeros_like(who),
            rig_of=rig,
        )

    @property
    def count(self) -> int:
        """How many reps."""
        rows = [] if self.strength_of is not None else [len(self.strength_kg)]
        rows += [] if self.rig_of is not None else [len(self.hung_kg)]
        given = (self.best_kg, self.travel_m, self.straight_kg, self.strength_of, self.rig_of)
        sizes = {np.size(value) for value in given if value is not None} | {*rows}
        sizes = (sizes | {self.motion.count}) - {1}
        if len(sizes) > 1:
            raise BadInputError(
                "A batch needs one value for all reps, or one for each",
                got=f"arrays of {', '.join(str(size) for size in sorted(sizes))}",
            )
        return sizes.pop() if sizes else 1

    def order(self) -> NDArray[np.intp]:
        """Sort the reps by how heavy they are, so that those that march together end together."""
        count = self.count
        rig = _rows(self.rig_of, len(self.hung_kg), count)
        row = _rows(self.strength_of, len(self.strength_kg), count)
        load = np.broadcast_to(np.asarray(self.straight_kg, dtype=np.float64), (count,))
        load = load + self.hung_kg[rig, CELLS // 2]
        least = np.min(self.strength_kg, axis=1)[row]
        return np.argsort(load / least, kind="stable")

    def climb(self, part: NDArray[np.intp] | None = None) -> Climb:
        """Lay out the reps, or those of the indices `part`, for the kernel.

        Raises
        ------
        BadInputError
            A mass, travel or number of the model outside its range.
        """
        count = self.count
        which = np.arange(count) if part is None else part
        motion = self.motion.spread(count).taken(which)
        best, travel, straight = (
            np.broadcast_to(np.asarray(value, dtype=np.float64), (count,))[which]
            for value in (self.best_kg, self.travel_m, self.straight_kg)
        )
        _check(motion, best, travel, straight)
        rig = _rows(self.rig_of, len(self.hung_kg), count)[which]
        row = _rows(self.strength_of, len(self.strength_kg), count)[which]
        limbs = best * motion.limb_share
        top_kg = straight + self.hung_kg[rig, -1]
        if self.band_kg is not None:
            top_kg = top_kg + self.band_kg[rig, -1]
        capacity_n = np.take(self.strength_kg, row, axis=0)
        _even_out(capacity_n)
        capacity_n *= _column(STANDARD_GRAVITY_M_PER_S2 / motion.reserve)
        capacity_n += _column(STANDARD_GRAVITY_M_PER_S2 * limbs)
        arrays = {name: np.array(getattr(motion, name)) for name in _PASSED_ON}
        hangs = np.max(self.hung_kg, axis=1)[rig] > 0.0
        return Climb(
            hung_kg=np.ascontiguousarray(self.hung_kg, dtype=np.float64),
            pull_n=None if self.band_kg is None else STANDARD_GRAVITY_M_PER_S2 * self.band_kg,
            rig=rig,
            capacity_n=capacity_n,
            steady_kg=straight + limbs,
            limbs_kg=limbs,
            travel_m=travel,
            ease_m_per_s2=motion.ease_at(np.maximum(top_kg / best, 1e-3)),
            pick_up=np.where(hangs, motion.pick_up, 1.0),
            **arrays,
        )


_OFF_THE_BOTTOM_M: Final = 1e-7
"""A connector that meets the floor as the bar meets the chest is lifted from the very start."""

_PASSED_ON: Final = ("speed_limit_m_per_s", "hill", "activation_s", "fatigue_s")


def _sampled(name: str, table: HeightTable, grid: Floats) -> Floats:
    heights = grid.copy()
    heights[0] += _OFF_THE_BOTTOM_M
    load = np.asarray(table.at(heights), dtype=np.float64)
    if not np.all(((load >= 0) | (name == "band")) & np.isfinite(load)):
        raise BadInputError(
            "What hangs on the bar has a load, and no less than none",
            field=name,
            got=f"least {np.min(load):g} kg",
            wanted="finite, 0 kg or more" if name == "hung" else "finite",
        )
    return load


def _even_out(rows: Floats) -> None:
    """Shift a table so that straight lines between its heights run through the curve, not over it.

    A line between two points of a curve that bends is off to one side, by a twelfth of the second
    difference on average. A rep near the limit would feel that.
    """
    bend = rows[:, 2:] + rows[:, :-2]
    bend -= 2.0 * rows[:, 1:-1]
    bend /= 12.0
    rows[:, 1:-1] -= bend


def _rows(given: NDArray[np.intp] | None, rows: int, count: int) -> NDArray[np.intp]:
    if given is not None:
        return np.broadcast_to(np.asarray(given, dtype=np.intp), (count,))
    return np.zeros(count, np.intp) if rows == 1 else np.arange(count)


def _check(motion: Motion, best: Floats, travel: Floats, straight: Floats) -> None:
    for name, values, low, high in (
        ("best_kg", best, 0.0, np.inf),
        ("travel_m", travel, 0.0, np.inf),
        ("speed_limit_m_per_s", motion.speed_limit_m_per_s, 0.0, np.inf),
        ("hill", motion.hill, 0.0, None),
        ("activation_s", motion.activation_s, 0.0, np.inf),
        ("fatigue_s", motion.fatigue_s, 0.0, None),
        ("reserve", motion.reserve, 0.0, np.inf),
        ("ease_m_per_s2", motion.ease_m_per_s2, 0.0, np.inf),
    ):
        if not np.all(np.greater(values, low)) or (high and not np.all(np.less(values, high))):
            require_positive(name, float(np.min(values)))
    require_not_negative("straight_kg", float(np.min(straight)))
    if not np.all((motion.pick_up >= PICK_UP_RANGE[0]) & (motion.pick_up <= PICK_UP_RANGE[1])):
        raise BadInputError(
            "The pick-up coefficient lies between energy kept and a loose pile",
            field="pick_up",
            wanted="0.5 to 1",
        )


def _column(values: ArrayLike) -> Floats:
    return np.asarray(values, dtype=np.float64)[:, None]
