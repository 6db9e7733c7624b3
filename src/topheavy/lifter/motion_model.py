"""The model of a rep: its numbers for each lift, where each comes from, and its forces.

A lifter pushes with F = A(t) phi(t) F_iso(z) (1 - x)/(1 + x/h), x = v/v_max. The numbers were
fitted to published load-velocity lines. They trade off against each other: they are constants of
a fit, not physiology, and no study has tested what the model predicts with chain or bands.
"""

from __future__ import annotations

from dataclasses import dataclass, fields
from typing import TYPE_CHECKING, Final, Literal

import numpy as np

from topheavy.constants import STANDARD_GRAVITY_M_PER_S2
from topheavy.errors import BadInputError, NotInStockError
from topheavy.lifter.motion.columns import taken

if TYPE_CHECKING:
    from collections.abc import Mapping

    from numpy.typing import ArrayLike, NDArray

    Floats = NDArray[np.float64]

Pattern = Literal["bench press", "squat", "deadlift"]
"""The lifts that a load-velocity line is published for."""


@dataclass(frozen=True, slots=True)
class Ranged:
    """A number with the range it may lie in.

    Parameters
    ----------
    value, low, high : float
        The number and its bounds, in the unit its name says.
    source : str
        Where both come from; 'assumed' when from nowhere.
    """

    value: float
    low: float
    high: float
    source: str

    def __post_init__(self) -> None:
        if not self.low <= self.value <= self.high:
            raise BadInputError(
                "A number lies within its range",
                field="value",
                got=self.value,
                wanted=f"{self.low:g} to {self.high:g}",
            )

    def drawn(self, dice: np.random.Generator, count: int) -> Floats:
        """Draw from the range, most often near the value: shape (count,)."""
        if not self.low < self.high:
            return np.full(count, self.value)
        return dice.triangular(self.low, self.value, self.high, count)


@dataclass(frozen=True, slots=True, kw_only=True)
class Motion:
    """The numbers of the model, of one lifter or of n: each a float or an array of shape (n,).

    Parameters
    ----------
    speed_limit_m_per_s : float or array
        Speed at which no force is left, v_max [m/s], > 0.
    hill : float or array
        h in (1 - x)/(1 + x/h) [-], > 0: small is a hollow force-velocity curve, infinite a line.
    activation_s : float or array
        Time constant of full activation from what just holds the load [s], > 0.
    fatigue_s : float or array
        Time constant by which force fades [s], > 0, infinite for none.
    reserve : float or array
        1RM as a share of the least isometric strength, limbs left out [-], 0 to 1. It sets
        how fast a 1RM moves.
    ease_m_per_s2 : float or array
        How hard the bar is slowed before lockout with a 1RM at the top [m/s2], > 0.
    ease_power : float or array
        How much harder with less: ease x (load at top / 1RM)^-power [-], >= 0.
    hardest_ease_g : float or array
        The most by which any bar is slowed before lockout [g], > 0.
    limb_share : float or array
        Mass of the limbs (bench) or body (squat, deadlift) that moves with the bar, as a share
        of the 1RM [-], >= 0.
    dip_at : float or array
        Where strength is least, as a share of the travel [-], 0 to 1.
    bottom_surplus, top_surplus : float or array
        Strength at the bottom and high above the dip, over the least, less 1 [-], >= 0.
    top_width : float or array
        Share of the travel over which strength rises above the dip [-], > 0.
    pick_up : float or array
        Pick-up coefficient k of chain [-], 1/2 to 1.
    """

    speed_limit_m_per_s: Floats | float
    hill: Floats | float
    activation_s: Floats | float
    fatigue_s: Floats | float
    reserve: Floats | float
    ease_m_per_s2: Floats | float
    ease_power: Floats | float
    hardest_ease_g: Floats | float
    limb_share: Floats | float
    dip_at: Floats | float
    bottom_surplus: Floats | float
    top_surplus: Floats | float
    top_width: Floats | float
    pick_up: Floats | float = 1.0

    @property
    def count(self) -> int:
        """How many lifters these numbers are of: 1 when all are floats."""
        sizes = {np.size(getattr(self, field.name)) for field in fields(self)} - {1}
        if len(sizes) > 1:
            raise BadInputError("Every number needs one value, or one for each lifter")
        return sizes.pop() if sizes else 1

    def spread(self, count: int) -> Motion:
        """Repeat every number for `count` lifters, so that all are arrays of shape (count,)."""
        return Motion(
            **{
                field.name: np.broadcast_to(
                    np.asarray(getattr(self, field.name), dtype=np.float64), (count,)
                )
                for field in fields(self)
            }
        )

    def taken(self, which: ArrayLike) -> Motion:
        """Take some of n lifters, by index or mask."""
        return taken(self.spread(self.count), np.asarray(which))

    def shape_at(self, part: ArrayLike) -> Floats:
        """Strength over its least at parts of the travel [-]; a row for each lifter.

        s = 1 + b ((d - u)+/d)^2 + c (1 - exp(-((u - d)+/w)^2)), u the part, d the dip.

        Parameters
        ----------
        part : array_like, shape (p,)
            Parts of the travel [-], 0 bottom, 1 top.

        Returns
        -------
        array, shape (n, p)
            s [-], 1 at the dip.
        """
        u = np.asarray(part, dtype=np.float64)[None, :]
        dip, bottom, top, width = (
            np.reshape(np.asarray(value, dtype=np.float64), (-1, 1))
            for value in (self.dip_at, self.bottom_surplus, self.top_surplus, self.top_width)
        )
        below = np.maximum(dip - u, 0.0) / np.maximum(dip, 1e-12)
        above = np.maximum(u - dip, 0.0) / width
        return np.asarray(1.0 + bottom * below**2 + top * (1.0 - np.exp(-(above**2))))

    def ease_at(self, top_share: ArrayLike) -> Floats:
        """How hard the bar is slowed before lockout [m/s2].

        Parameters
        ----------
        top_share : array_like
            Load at the top / 1RM [-], > 0.
        """
        share = np.minimum(np.asarray(top_share, dtype=np.float64), 1.0)
        eased = self.ease_m_per_s2 * share ** -np.asarray(self.ease_power)
        most = np.asarray(self.hardest_ease_g) * STANDARD_GRAVITY_M_PER_S2
        return np.asarray(np.minimum(eased, most))


@dataclass(frozen=True, slots=True, kw_only=True)
class MotionModel:
    """The numbers of the model for one lift, with their ranges.

    Parameters
    ----------
    pattern : {'bench press', 'squat', 'deadlift'}
        The lift.
    numbers : mapping of str to Ranged
        One for each field of `Motion`, by name.
    travel_m : Ranged
        How far the bar goes when it was not measured [m].
    rms_m_per_s : float
        What is left between model and published line, root mean square over 40 to 100 % of 1RM
        [m/s].
    """

    pattern: Pattern
    numbers: Mapping[str, Ranged]
    travel_m: Ranged
    rms_m_per_s: float

    def typical(self) -> Motion:
        """The numbers themselves, of one lifter."""
        return Motion(**{name: number.value for name, number in self.numbers.items()})

    def drawn(self, count: int, seed: int = 0) -> Motion:
        """Draw every number from its range, each by itself: `count` lifters, repeatable.

        Most of such lifters do not move as any measured one did; `plausible` keeps those that do.

        Parameters
        ----------
        count : int
            How many lifters [-], >= 1.
        seed : int
            Which draw [-].
        """
        dice = np.random.default_rng(seed)
        return Motion(**{name: one.drawn(dice, count) for name, one in self.numbers.items()})


_FITTED: Final = "fitted to the load-velocity line; trades off against the others"
_HELD: Final = "assumed and held in the fit; the line does not tell it"
_LIMBS: Final = "assumed: segment masses are from memory"
_TRAVEL: Final = "assumed: no published value read; measure it"


def _model(
    pattern: Pattern,
    travel: tuple[float, float, float],
    rms_m_per_s: float,
    **numbers: tuple[float, float, float, str],
) -> MotionModel:
    """Write down one lift's numbers: value, low, high, source."""
    return MotionModel(
        pattern=pattern,
        numbers={name: Ranged(*number) for name, number in numbers.items()},
        travel_m=Ranged(*travel, _TRAVEL),
        rms_m_per_s=rms_m_per_s,
    )


BENCH: Final = _model(
    "bench press",
    travel=(0.40, 0.28, 0.50),
    rms_m_per_s=0.012,
    speed_limit_m_per_s=(4.3, 3.2, 6.0, _FITTED),
    hill=(1.09, 0.6, 3.0, _FITTED),
    activation_s=(0.01, 0.005, 0.05, _FITTED),
    fatigue_s=(61.4, 25.0, 200.0, _FITTED),
    reserve=(0.971, 0.945, 0.993, _FITTED),
    ease_m_per_s2=(0.8, 0.5, 1.3, _FITTED),
    ease_power=(5.88, 4.9, 6.9, _FITTED),
    hardest_ease_g=(2.5, 1.5, 3.0, _HELD),
    limb_share=(0.045, 0.03, 0.08, _LIMBS),
    dip_at=(0.281, 0.21, 0.37, "fitted: slowest 10 to 15 cm above the chest (Jidovtseff 2011)"),
    bottom_surplus=(0.21, 0.08, 0.35, _FITTED),
    top_surplus=(0.4, 0.2, 0.8, _HELD),
    top_width=(0.3, 0.2, 0.5, _HELD),
    pick_up=(1.0, 0.8, 1.0, "loose pile; a link-by-link simulation supports 1 or a little more"),
)
"""The bench press, fitted to Gonzalez-Badillo & Sanchez-Medina 2010 and to the sticking period of
van den Tillaar & Ettema 2010."""

SQUAT: Final = _model(
    "squat",
    travel=(0.62, 0.45, 0.80),
    rms_m_per_s=0.006,
    speed_limit_m_per_s=(8.27, 5.5, 12.0, _FITTED),
    hill=(3.05, 1.2, 10.0, _FITTED),
    activation_s=(0.01, 0.005, 0.05, _FITTED),
    fatigue_s=(60.0, 25.0, 200.0, _HELD),
    reserve=(0.964, 0.92, 0.992, _FITTED),
    ease_m_per_s2=(2.5, 1.5, 3.6, _FITTED),
    ease_power=(3.95, 3.2, 4.9, _FITTED),
    hardest_ease_g=(2.5, 1.5, 3.0, _HELD),
    limb_share=(0.35, 0.25, 0.50, _LIMBS),
    dip_at=(0.33, 0.25, 0.42, _HELD),
    bottom_surplus=(0.228, 0.08, 0.4, _FITTED),
    top_surplus=(0.4, 0.2, 1.2, _HELD),
    top_width=(0.4, 0.25, 0.6, _HELD),
    pick_up=(1.0, 0.8, 1.0, "loose pile; a link-by-link simulation supports 1 or a little more"),
)
"""The squat, fitted to Sanchez-Medina et al. 2017."""

DEADLIFT: Final = _model(
    "deadlift",
    travel=(0.53, 0.38, 0.70),
    rms_m_per_s=0.003,
    speed_limit_m_per_s=(3.74, 2.6, 5.2, _FITTED),
    hill=(1.4, 0.7, 3.5, _FITTED),
    activation_s=(0.067, 0.03, 0.12, _FITTED),
    fatigue_s=(60.0, 25.0, 200.0, _HELD),
    reserve=(0.884, 0.84, 0.95, _FITTED),
    ease_m_per_s2=(2.87, 1.8, 4.2, _FITTED),
    ease_power=(3.45, 2.7, 4.3, _FITTED),
    hardest_ease_g=(2.5, 1.5, 3.0, _HELD),
    limb_share=(0.2, 0.1, 0.35, _LIMBS),
    dip_at=(0.33, 0.25, 0.42, _HELD),
    bottom_surplus=(0.029, 0.0, 0.12, _FITTED),
    top_surplus=(0.4, 0.2, 1.0, _HELD),
    top_width=(0.4, 0.25, 0.6, _HELD),
    pick_up=(1.0, 0.8, 1.0, "loose pile; a link-by-link simulation supports 1 or a little more"),
)
"""The deadlift, fitted to a line put together from two published facts: the weakest of all."""

MODELS: Final[Mapping[str, MotionModel]] = {m.pattern: m for m in (BENCH, SQUAT, DEADLIFT)}
"""Every model by its lift."""


def model_for(lift: str) -> MotionModel:
    """Find the model of a lift.

    Variants of a lift have no model of their own: no load-velocity line was read for them.

    Parameters
    ----------
    lift : str
        Name of a lift, such as `gym.lifts.Lift.name`.

    Raises
    ------
    NotInStockError
        No model for this lift.

    Examples
    --------
    >>> model_for("squat").typical().limb_share
    0.35
    """
    found = MODELS.get(lift)
    if found is None:
        raise NotInStockError(
            f"No load-velocity line was read for the {lift}, so its reps can't be simulated",
            field="lift",
            got=lift,
            wanted=", ".join(MODELS),
        )
    return found
