"""Chain in motion: what speed and acceleration add to the load, up, down and let go."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

import numpy as np

from topheavy.constants import STANDARD_GRAVITY_M_PER_S2
from topheavy.errors import BadInputError
from topheavy.mechanics.chain import require_not_negative, require_positive

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    from topheavy.mechanics.curve import LoadCurve

    Floats = NDArray[np.float64]

ENERGY_KEPT: Final = 0.5
"""Least pick-up coefficient: no energy is lost as links join (Wong & Yasui 2006)."""

LOOSE_PILE: Final = 1.0
"""Greatest and usual pick-up coefficient: links join from rest, the floor does not push."""

FREE_FALL_M_PER_S2: Final = -STANDARD_GRAVITY_M_PER_S2
"""Least acceleration of the bar [m/s2, up is positive] that chain can follow. Chain can't push:
when the bar is driven down faster, the chain goes slack and adds nothing."""


def pick_up_force_n(
    hung: LoadCurve,
    height_m: ArrayLike,
    speed_m_per_s: ArrayLike,
    pick_up: float = LOOSE_PILE,
) -> Floats:
    """Force [N] that brings links from rest to the bar's speed: k (dC/dheight) v2.

    The slope of the load curve is the mass that joins per metre of lift, so a doubled hang,
    with its two strands, takes twice what a straight one does.

    Parameters
    ----------
    hung : LoadCurve
        Load of what hangs [kg] by height [m].
    height_m : array_like
        Height of the bar [m].
    speed_m_per_s : array_like
        Speed upwards [m/s], >= 0.
    pick_up : float
        k [-], 1/2 (energy kept) to 1 (loose pile).

    Returns
    -------
    array
        Force [N]; the knock of a connector leaving the floor is left out.

    Raises
    ------
    BadInputError
        A downward speed, or k outside its range.

    References
    ----------
    k = 1: Kleppner & Kolenkow, An Introduction to Mechanics; Morin, Introduction to Classical
    Mechanics (both from memory). k = 1/2: Wong & Yasui, Am. J. Phys. 74 (2006) 490
    (abstract). Between, by a push from the pile: Biggins & Warner, Proc. R. Soc. A 470 (2014)
    20130689 (abstract).

    Examples
    --------
    >>> from topheavy.mechanics.curve import LoadCurve
    >>> float(pick_up_force_n(LoadCurve.strand(5.0, 1.5, 0.0), 0.8, 0.5))
    1.25
    """
    speed = np.asarray(speed_m_per_s, dtype=np.float64)
    if not np.all((speed >= 0) & np.isfinite(speed)):
        raise BadInputError(
            "Links are picked up on the way up only",
            field="speed_m_per_s",
            got=speed_m_per_s,
            wanted="a speed upwards, 0 or more; use the lowering force on the way down",
        )
    _require_pick_up(pick_up)
    return pick_up * hung.slope_at(height_m) * speed**2


def raising_force_n(
    hung: LoadCurve,
    straight_weight_kg: float,
    height_m: ArrayLike,
    speed_m_per_s: ArrayLike,
    acceleration_m_per_s2: ArrayLike,
    pick_up: float = LOOSE_PILE,
) -> Floats:
    """Force on the bar [N] on the way up: (W + C) (g + a) + k (dC/dheight) v2.

    Parameters
    ----------
    hung : LoadCurve
        Load of what hangs, C [kg] by height [m]; take the raising curve.
    straight_weight_kg : float
        Bar, collars and plates, W [kg], >= 0.
    height_m : array_like
        Height of the bar [m].
    speed_m_per_s : array_like
        Speed upwards [m/s], >= 0.
    acceleration_m_per_s2 : array_like
        Acceleration of the bar, up positive [m/s2].
    pick_up : float
        k [-], 1/2 to 1.

    Returns
    -------
    array
        Force the lifter gives [N], shape as the inputs broadcast. Chain never pushes: its part
        is never below zero. A negative value means the lifter pulls the bar down.

    Raises
    ------
    BadInputError
        Weight below zero, a downward speed, or k outside its range.

    References
    ----------
    See `pick_up_force_n`.

    Examples
    --------
    >>> from topheavy.mechanics.curve import LoadCurve
    >>> chain = LoadCurve.strand(5.0, 1.5, 0.0)
    >>> round(float(raising_force_n(chain, 0.0, 0.8, 0.5, 0.0)), 3)
    40.477
    """
    require_not_negative("straight_weight_kg", straight_weight_kg)
    joining_n = pick_up_force_n(hung, height_m, speed_m_per_s, pick_up)
    apparent = STANDARD_GRAVITY_M_PER_S2 + np.asarray(acceleration_m_per_s2, dtype=np.float64)
    chain_n = np.maximum(hung.at(height_m) * apparent + joining_n, 0.0)
    return straight_weight_kg * apparent + chain_n


def lowering_force_n(
    hung: LoadCurve,
    straight_weight_kg: float,
    height_m: ArrayLike,
    acceleration_m_per_s2: ArrayLike,
) -> Floats:
    """Force on the bar [N] on the way down: (W + C) (g + a), no push from the pile.

    Links that land give their momentum to the floor, not to the bar, so speed does not enter.

    Parameters
    ----------
    hung : LoadCurve
        Load of what hangs, C [kg] by height [m]; take the lowering curve.
    straight_weight_kg : float
        Bar, collars and plates, W [kg], >= 0.
    height_m : array_like
        Height of the bar [m].
    acceleration_m_per_s2 : array_like
        Acceleration of the bar, up positive [m/s2]: braking a descent is positive.

    Returns
    -------
    array
        Force the lifter gives [N]. Below free fall (`FREE_FALL_M_PER_S2`) the chain is slack and
        only the straight weight counts, negative: the lifter would have to pull the bar down.

    Raises
    ------
    BadInputError
        Weight below zero.

    Examples
    --------
    >>> from topheavy.mechanics.curve import LoadCurve
    >>> chain = LoadCurve.strand(5.0, 1.5, 0.0)
    >>> lowering_force_n(chain, 0.0, 0.8, [0.0, -9.80665, -20.0]).round(3).tolist()
    [39.227, 0.0, 0.0]
    """
    require_not_negative("straight_weight_kg", straight_weight_kg)
    apparent = STANDARD_GRAVITY_M_PER_S2 + np.asarray(acceleration_m_per_s2, dtype=np.float64)
    chain_n = hung.at(height_m) * np.maximum(apparent, 0.0)
    return straight_weight_kg * apparent + chain_n


def chain_follows(acceleration_m_per_s2: ArrayLike) -> NDArray[np.bool_]:
    """Tell whether hung chain stays taut at an acceleration of the bar [m/s2, up positive].

    Chain falls no faster than free fall, so it can never speed the bar down: a descent with
    chain is no faster than one without. A band, which has force without mass, can.

    Examples
    --------
    >>> chain_follows([-5.0, -9.9]).tolist()
    [True, False]
    """
    return np.asarray(acceleration_m_per_s2, dtype=np.float64) >= FREE_FALL_M_PER_S2


def extra_chain_m(speed_m_per_s: ArrayLike, pick_up: float = LOOSE_PILE) -> Floats:
    """Length of still chain [m] that would weigh what picking up takes: k v2 / g.

    Parameters
    ----------
    speed_m_per_s : array_like
        Speed of the bar [m/s].
    pick_up : float
        k [-], 1/2 to 1.

    Returns
    -------
    array
        Length [m] of each strand.

    Examples
    --------
    Nothing in heavy work, real in speed work.

    >>> (100 * extra_chain_m([0.5, 1.0, 1.5])).round(1).tolist()
    [2.5, 10.2, 22.9]
    """
    _require_pick_up(pick_up)
    speed = np.asarray(speed_m_per_s, dtype=np.float64)
    return pick_up * speed**2 / STANDARD_GRAVITY_M_PER_S2


def drop_force_n(density_kg_per_m: float, length_m: float, fallen_m: ArrayLike) -> Floats:
    """Force [N] on a scale under a chain let go with its lower end just touching.

    Three times the weight landed, 3 density g x, while it falls; its plain weight once it lies.

    Parameters
    ----------
    density_kg_per_m : float
        Mass per length [kg/m], > 0.
    length_m : float
        Length L [m], > 0.
    fallen_m : array_like
        How far the top has fallen, x [m], >= 0; from L on the chain lies.

    Returns
    -------
    array
        Force [N]: up to 3 M g just before the last link lands, then M g.

    Raises
    ------
    BadInputError
        A value out of range.

    References
    ----------
    Hamm & Geminard, Am. J. Phys. 78 (2010) 828: theory in the introduction (read); real chain
    falls a little faster than free, pulled down as its links turn on the pan.

    Examples
    --------
    >>> drop_force_n(5.0, 2.0, [0.0, 1.0, 2.0]).round(2).tolist()
    [0.0, 147.1, 98.07]
    """
    require_positive("density_kg_per_m", density_kg_per_m)
    require_positive("length_m", length_m)
    fallen = np.asarray(fallen_m, dtype=np.float64)
    if not np.all((fallen >= 0) & np.isfinite(fallen)):
        raise BadInputError(
            "A dropped chain falls down", field="fallen_m", got=fallen_m, wanted="0 or more"
        )
    weight_n_per_m = density_kg_per_m * STANDARD_GRAVITY_M_PER_S2
    return weight_n_per_m * np.where(fallen < length_m, 3 * fallen, length_m)


def _require_pick_up(pick_up: float) -> None:
    if not ENERGY_KEPT <= pick_up <= LOOSE_PILE:
        raise BadInputError(
            "The pick-up coefficient lies between energy kept and a loose pile",
            field="pick_up",
            got=pick_up,
            wanted=f"{ENERGY_KEPT:g} to {LOOSE_PILE:g}",
        )
