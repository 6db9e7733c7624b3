"""The lifts a rig is built for, and the heights a human can reach in them."""

from __future__ import annotations

import difflib
from dataclasses import dataclass
from typing import Final, Literal

from topheavy.errors import BadInputError, NotInStockError
from topheavy.mechanics.chain import require_travel

StationKind = Literal["bench", "rack", "platform"]


@dataclass(frozen=True, slots=True)
class Lift:
    """One lift.

    Parameters
    ----------
    name : str
        As the trade says it.
    station : {'bench', 'rack', 'platform'}
        What it is done on.
    bottom_at : str
        What the bottom height is measured at.
    top_at : str
        What the top height is measured at.
    bottom_m, top_m : tuple of float
        Plausible range of each height, floor to bar centre [m]: from a 1.20 m child to a
        2.30 m giant, rounded outwards; a guard against slips of the pen, no source.
    overhead : bool
        The bar passes above the head.
    """

    name: str
    station: StationKind
    bottom_at: str
    top_at: str
    bottom_m: tuple[float, float]
    top_m: tuple[float, float]
    overhead: bool = False

    def check_heights(self, bottom_m: float, top_m: float, *, field: str) -> None:
        """Refuse heights [m] that no human reaches in this lift, or bottom not below top."""
        require_travel(bottom_m, top_m, field=field)
        for word, height_m, (low, high) in (
            ("bottom", bottom_m, self.bottom_m),
            ("top", top_m, self.top_m),
        ):
            if not low <= height_m <= high:
                raise BadInputError(
                    f"No human {self.name} has its {word} there",
                    field=f"{field}.{word}",
                    got=f"{height_m:g} m",
                    wanted=f"{low:g} to {high:g} m, floor to bar centre",
                )


_CHEST = "bar touching the chest"
_ARMS = "elbows locked"
_HIPS = "standing locked out"
_BENCH_TOP = (0.55, 1.45)
_SQUAT_TOP = (0.85, 2.0)
_PULL_TOP = (0.40, 1.30)
_PRESS_TOP = (1.30, 2.90)

LIFTS: Final = {
    lift.name: lift
    for lift in (
        Lift("bench press", "bench", _CHEST, _ARMS, (0.35, 0.95), _BENCH_TOP),
        Lift("paused bench press", "bench", _CHEST, _ARMS, (0.35, 0.95), _BENCH_TOP),
        Lift("close-grip bench press", "bench", _CHEST, _ARMS, (0.35, 0.95), _BENCH_TOP),
        Lift("incline press", "bench", _CHEST, _ARMS, (0.45, 1.30), (0.75, 1.90)),
        Lift("board press", "bench", "bar on the boards", _ARMS, (0.40, 1.20), _BENCH_TOP),
        Lift("pin press", "bench", "bar on the pins", _ARMS, (0.40, 1.30), _BENCH_TOP),
        Lift("floor press", "rack", "upper arms on the floor", _ARMS, (0.15, 0.60), (0.35, 1.05)),
        Lift("squat", "rack", "hip crease below the knee", _HIPS, (0.35, 1.30), _SQUAT_TOP),
        Lift("paused squat", "rack", "hip crease below the knee", _HIPS, (0.35, 1.30), _SQUAT_TOP),
        Lift("front squat", "rack", "hip crease below the knee", _HIPS, (0.35, 1.30), _SQUAT_TOP),
        Lift("box squat", "rack", "sitting on the box", _HIPS, (0.40, 1.45), _SQUAT_TOP),
        Lift("half squat", "rack", "bar on the pins", _HIPS, (0.50, 1.80), _SQUAT_TOP),
        Lift("deadlift", "platform", "plates on the floor", _HIPS, (0.15, 0.30), _PULL_TOP),
        Lift("paused deadlift", "platform", "plates on the floor", _HIPS, (0.15, 0.30), _PULL_TOP),
        Lift("sumo deadlift", "platform", "plates on the floor", _HIPS, (0.15, 0.30), _PULL_TOP),
        Lift("deficit deadlift", "platform", "plates on the floor", _HIPS, (0.05, 0.29), _PULL_TOP),
        Lift("block pull", "platform", "plates on the blocks", _HIPS, (0.20, 0.90), _PULL_TOP),
        Lift("rack pull", "rack", "bar on the pins", _HIPS, (0.20, 1.00), _PULL_TOP),
        Lift(
            "overhead press",
            "rack",
            "bar at the shoulders",
            _ARMS,
            (0.80, 2.0),
            _PRESS_TOP,
            overhead=True,
        ),
        Lift(
            "push press",
            "rack",
            "bar at the shoulders",
            _ARMS,
            (0.80, 2.0),
            _PRESS_TOP,
            overhead=True,
        ),
        Lift(
            "overhead pin press",
            "rack",
            "bar on the pins",
            _ARMS,
            (0.80, 2.6),
            _PRESS_TOP,
            overhead=True,
        ),
    )
}
"""Every lift by name."""


def lift_named(name: str) -> Lift:
    """Find a lift by name; `bench` and `press` are taken as short for their full names.

    Raises
    ------
    NotInStockError
        No such lift; the error names those that are called much the same, or else all.
    """
    short = {"bench": "bench press", "press": "overhead press"}
    wanted = " ".join(name.lower().split())
    lift = LIFTS.get(short.get(wanted, wanted))
    if lift is None:
        near = difflib.get_close_matches(wanted, LIFTS, n=3, cutoff=0.65)
        raise NotInStockError(
            f"No lift called {name!r}",
            field="lift",
            got=repr(name),
            wanted=f"{' or '.join(near)}?" if near else ", ".join(LIFTS),
        )
    return lift
