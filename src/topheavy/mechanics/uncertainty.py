"""How sure the load is: what each uncertain input does to it, by linear propagation.

First-order propagation of standard uncertainties (JCGM 100:2008, GUM, 5.1.2 and 5.2.2). One
thing needs care. A good rig has its connector just touching the floor at the bottom, which is a
kink of the load curve: the slope is zero below it and twice the chain's density above. There the
slope is averaged over the spread of the strand's own height instead (statistical linearisation:
Gelb, Applied Optimal Estimation, 1974, chapter 6; from memory).
"""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from topheavy.errors import BadInputError
from topheavy.mechanics.chain import require_travel
from topheavy.mechanics.curve import LoadCurve
from topheavy.mechanics.influence import (
    BAR,
    BOTTOM,
    FRICTION,
    HEIGHT,
    PLATES,
    TOP,
    InputSpread,
    Part,
    rig_parts,
    smoothed_slope,
)
from topheavy.mechanics.rig import Rig

__all__ = [
    "Budget",
    "InputSpread",
    "ShareBudget",
    "deload_budget",
    "ends_budget",
    "load_budget",
    "mean_budget",
    "share_budget",
]

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator, Mapping

    from numpy.typing import ArrayLike, NDArray

    from topheavy.mechanics.ground import Ground
    from topheavy.mechanics.hang import Way

    Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Budget:
    """What each input does to a load.

    Parameters
    ----------
    contributions : mapping of str to array
        By input: change of the load [kg] when that input is one standard uncertainty more than
        assumed, one value a height, with its sign. Inputs are independent of each other.
    """

    contributions: Mapping[str, Floats]

    @property
    def combined_kg(self) -> Floats:
        """Combined standard uncertainty of the load [kg]: root of the sum of squares."""
        return _root_sum_square(self.contributions.values())

    def grouped(self) -> dict[str, Floats]:
        """Standard uncertainty of the load [kg] by group of inputs, without sign.

        Inputs alike before the comma of their names are one group, as "pile height": root of
        the sum of squares. A group of one keeps its whole name, as "density of chain, DIN 764".

        Examples
        --------
        >>> heaps = {"pile height, left strand 1": 0.3, "pile height, left strand 2": -0.4}
        >>> Budget({name: np.array(kg) for name, kg in heaps.items()}).grouped()
        {'pile height': np.float64(0.5)}
        """
        return _grouped(self.contributions)

    def largest(self) -> str:
        """Name the group of inputs that does most, by root mean square over the heights."""
        return _largest(self.grouped())


@dataclass(frozen=True, slots=True)
class ShareBudget:
    """What each input does to a share of the load at the top.

    Parameters
    ----------
    share : float
        1 - load at the bottom / load at the top [-].
    contributions : mapping of str to array
        By input: signed change of the share [-] at one standard uncertainty.
    """

    share: float
    contributions: Mapping[str, Floats]

    @property
    def combined(self) -> float:
        """Combined standard uncertainty of the share [-]."""
        return float(_root_sum_square(self.contributions.values()))

    def grouped(self) -> dict[str, Floats]:
        """Standard uncertainty of the share [-] by group of inputs, as `Budget.grouped`."""
        return _grouped(self.contributions)

    def largest(self) -> str:
        """Name the group of inputs that does most."""
        return _largest(self.grouped())


def load_budget(
    rig: Rig, heights_m: ArrayLike, ground: Ground, way: Way, spread: InputSpread
) -> Budget:
    """Uncertainty of the load on the bar at each height, input by input.

    Independent inputs: the density of each kind of chain (pieces with the same `known_by` err
    together, a piece without it alone), the working length of each feeder, the height of the
    bar, the rule for the height of the pile (one for the whole ground), the heap under each
    strand by itself, bar and collars, plates; the readings, rest length and peg of each band, as
    "band red-1, peg"; for dragged slack the floor's friction. An error
    in a feeder's working length moves what hangs below it, it does not make the feeder heavier.
    Masses of feeders and connectors are taken as known.

    Parameters
    ----------
    rig : Rig
        Bar, plates and what hangs, with the uncertainties of its chain and feeders.
    heights_m : array_like
        Heights of the bar centre [m], any shape.
    ground : Ground
        Where the chain lies, with the uncertainty of its pile.
    way : {'still', 'raising', 'lowering'}
        Which pile height applies.
    spread : InputSpread
        The other uncertainties.

    Returns
    -------
    Budget
        Contributions [kg] of the shape of `heights_m`.

    Notes
    -----
    On a kink the budget is the linear part, 0.50 of slope x spread; the full standard deviation
    of a clipped normal is 0.58 (sqrt(1/2 - 1/(2 pi))), and the expected load is 0.40 of slope x
    spread above the nominal one.

    Examples
    --------
    >>> from topheavy.mechanics.chain import Chain
    >>> from topheavy.mechanics.ground import Ground
    >>> from topheavy.mechanics.hang import Straight
    >>> from topheavy.mechanics.rig import End, Rig
    >>> chain = Chain(
    ...     links=20, pitch_m=0.05, density_kg_per_m=5, density_u_kg_per_m=0.25, known_by="DIN 764"
    ... )
    >>> end = End((Straight(chain=chain),))
    >>> budget = load_budget(Rig(20, 0, end, end), 0.8, Ground(), "still", InputSpread())
    >>> budget.largest(), round(float(budget.combined_kg), 3)
    ('density of chain, DIN 764', 0.404)
    """
    heights = np.asarray(heights_m, dtype=np.float64)

    def read(curve: LoadCurve) -> Floats:
        return curve.at(heights)

    def move(part: Part) -> Iterator[tuple[str, Floats]]:
        if part.spread_m == 0:
            return
        slope = smoothed_slope(part.curve, heights, part.spread_m)
        for name, shift_m in part.shifts_m.items():
            yield name, shift_m * slope

    return Budget(_gather(_Question(rig, ground, way, spread), read, move))


def ends_budget(
    rig: Rig, travel_m: tuple[float, float], ground: Ground, way: Way, spread: InputSpread
) -> Budget:
    """Uncertainty of the load at bottom and top, heights measured separately.

    Parameters
    ----------
    rig, ground, way, spread
        As for `load_budget`.
    travel_m : tuple of float
        Bottom and top [m], bottom < top.

    Returns
    -------
    Budget
        Contributions [kg], shape (2,): bottom, top.

    Raises
    ------
    BadInputError
        Bottom not below top.
    """
    _check_travel(travel_m)
    parts = dict(load_budget(rig, travel_m, ground, way, spread).contributions)
    height = parts.pop(HEIGHT, np.zeros(2))
    parts[BOTTOM] = height * [1.0, 0.0]
    parts[TOP] = height * [0.0, 1.0]
    return Budget(parts)


def mean_budget(
    rig: Rig, travel_m: tuple[float, float], ground: Ground, way: Way, spread: InputSpread
) -> Budget:
    """Uncertainty of the mean load over the travel, input by input.

    The mean M of a curve C over bottom b to top t. A density shifts M in proportion; a feeder
    or pile shifts the curve, and M by half the difference of the means one standard uncertainty
    either way; an error in the top shifts M by (C(t) - M)/(t - b), in the bottom by
    (M - C(b))/(t - b).

    Parameters
    ----------
    rig, ground, way, spread
        As for `load_budget`.
    travel_m : tuple of float
        Bottom and top [m], bottom < top; each has the spread's `height_u_m`, independent.

    Returns
    -------
    Budget
        Contributions [kg], one value each.

    Raises
    ------
    BadInputError
        Bottom not below top.
    """
    bottom_m, top_m = _check_travel(travel_m)

    def read(curve: LoadCurve) -> Floats:
        return np.asarray(curve.mean(bottom_m, top_m))

    def move(part: Part) -> Iterator[tuple[str, Floats]]:
        for name, shift_m in part.shifts_m.items():
            if name != HEIGHT:
                up, down = part.curve.raised(-shift_m), part.curve.raised(shift_m)
                yield name, 0.5 * (read(up) - read(down))

    parts = _gather(_Question(rig, ground, way, spread), read, move)
    curve = rig.curve(ground, way)
    mean, per_m = read(curve), spread.height_u_m / (top_m - bottom_m)
    parts[BOTTOM] = (mean - curve.at(bottom_m)) * per_m
    parts[TOP] = (curve.at(top_m) - mean) * per_m
    return Budget(parts)


def share_budget(
    rig: Rig, travel_m: tuple[float, float], ground: Ground, way: Way, spread: InputSpread
) -> ShareBudget:
    """Accommodating share and its uncertainty: (load at top - load at bottom) / load at top.

    An input that moves both loads moves the share once: d share = L_b dL_t / L_t^2 - dL_b / L_t,
    input by input.

    Parameters
    ----------
    rig, travel_m, ground, way, spread
        As for `ends_budget`.

    Returns
    -------
    ShareBudget
        Share of the whole load at the top [-], with contributions [-].

    Raises
    ------
    BadInputError
        Bottom not below top, or nothing on the bar at the top.
    """
    loads = rig.curve(ground, way).at(_check_travel(travel_m))
    return _share(loads, ends_budget(rig, travel_m, ground, way, spread))


def deload_budget(
    rig: Rig, travel_m: tuple[float, float], ground: Ground, way: Way, spread: InputSpread
) -> ShareBudget:
    """Deload and its uncertainty: 1 - hung load at bottom / hung load at top.

    Parameters, returns and errors as for `share_budget`, of the chain that hangs only [-]: no
    plates, and no bands, which never come off the bar.
    """
    ends = (replace(end, bands=()) for end in (rig.left, rig.right))
    bare = Rig(0.0, 0.0, *ends)
    return share_budget(bare, travel_m, ground, way, spread)


@dataclass(frozen=True, slots=True)
class _Question:
    """What `load_budget` was asked."""

    rig: Rig
    ground: Ground
    way: Way
    spread: InputSpread


def _gather(
    asked: _Question,
    read: Callable[[LoadCurve], Floats],
    move: Callable[[Part], Iterator[tuple[str, Floats]]],
) -> dict[str, Floats]:
    """Sum what each input does to what is read from the curves, part by part."""
    rig, spread = asked.rig, asked.spread
    zero = np.zeros_like(read(LoadCurve.constant(0.0)))
    parts: defaultdict[str, Floats] = defaultdict(lambda: zero)
    parts[BAR] = zero + rig.bar_kg * spread.bar_relative_u
    parts[PLATES] = zero + rig.plates_kg * spread.plate_relative_u
    for part in rig_parts(rig, asked.ground, asked.way, spread.height_u_m):
        if part.density_relative_u > 0:
            change = part.density_relative_u * read(part.curve)
            parts[part.density] = parts[part.density] + change
        for name, change in move(part):
            parts[name] = parts[name] + change
    for band in (*rig.left.bands, *rig.right.bands):
        for name, curve in band.change_curves().items():
            parts[name] = parts[name] + read(curve)
    if asked.ground.lay == "dragged" and spread.friction_u > 0:
        parts[FRICTION] = _friction(asked, read)
    return dict(parts)


def _friction(asked: _Question, read: Callable[[LoadCurve], Floats]) -> Floats:
    """Half the difference of the loads with friction one standard uncertainty either way."""
    ground, friction_u = asked.ground, asked.spread.friction_u
    high, low = ground.friction + friction_u, max(ground.friction - friction_u, 0.0)
    ends = (replace(ground, friction=high), replace(ground, friction=low))
    loads = [read(asked.rig.hung_curve(end, asked.way)) for end in ends]
    return (loads[0] - loads[1]) * friction_u / (high - low)


def _share(loads_kg: Floats, budget: Budget) -> ShareBudget:
    bottom_kg, top_kg = (float(load) for load in loads_kg)
    if not top_kg > 0:
        raise BadInputError(
            "A share of the load at the top needs a load there", field="rig", got=f"{top_kg:g} kg"
        )
    changes = {
        name: np.asarray(change[1] * bottom_kg / top_kg**2 - change[0] / top_kg)
        for name, change in budget.contributions.items()
    }
    return ShareBudget(1 - bottom_kg / top_kg, changes)


def _check_travel(travel_m: tuple[float, float]) -> tuple[float, float]:
    bottom_m, top_m = travel_m
    require_travel(bottom_m, top_m)
    return bottom_m, top_m


def _root_sum_square(changes: Iterable[Floats]) -> Floats:
    squares: Floats = np.sum([change**2 for change in changes], axis=0)
    return np.sqrt(squares)


def _grouped(contributions: Mapping[str, Floats]) -> dict[str, Floats]:
    groups: defaultdict[str, list[str]] = defaultdict(list)
    for name in contributions:
        groups[name.partition(",")[0]].append(name)
    return {
        group if len(names) > 1 else names[0]: _root_sum_square([contributions[n] for n in names])
        for group, names in groups.items()
    }


def _largest(sizes: Mapping[str, Floats]) -> str:
    return max(sizes, key=lambda name: float(np.mean(sizes[name] ** 2)))
