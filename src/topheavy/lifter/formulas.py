"""The published formulas from a set of repetitions to a one-repetition maximum (1RM).

Each is 1RM = load x factor(reps). The coefficients were read on pages that quote them (a coaching
site for Brzycki, Lander and Epley, a list of all of them, a page on Wathen's); the originals,
and the references below, are from memory.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from collections.abc import Callable


@dataclass(frozen=True, slots=True)
class Formula:
    """One published formula.

    Parameters
    ----------
    name : str
        First author.
    rule : str
        The formula as printed; w is the load, r the repetitions.
    source : str
        Where it was published; from memory.
    factor : callable
        1RM / load [-] for a number of repetitions, whole or not, from 1 to 30.
    """

    name: str
    rule: str
    source: str
    factor: Callable[[float], float]


FORMULAS: Final = (
    Formula(
        "Epley",
        "w (1 + r/30)",
        "Epley, Poundage chart, in: Boyd Epley Workout, Body Enterprises, 1985",
        lambda r: 1 + r / 30,
    ),
    Formula(
        "Brzycki",
        "36 w / (37 - r)",
        "Brzycki, Strength testing: predicting a one-rep max from reps-to-fatigue, JOPERD 64(1), "
        "88-90, 1993",
        lambda r: 36 / (37 - r),
    ),
    Formula(
        "Lombardi",
        "w r^0.1",
        "Lombardi, Beginning Weight Training, W. C. Brown, 1989",
        lambda r: r**0.1,
    ),
    Formula(
        "O'Conner",
        "w (1 + 0.025 r)",
        "O'Conner, Simmons & O'Shea, Weight Training Today, West, 1989",
        lambda r: 1 + 0.025 * r,
    ),
    Formula(
        "Wathen",
        "100 w / (48.8 + 53.8 exp(-0.075 r))",
        "Wathen, Load assignment, in: Essentials of Strength Training and Conditioning, Human "
        "Kinetics, 1994",
        lambda r: 100 / (48.8 + 53.8 * math.exp(-0.075 * r)),
    ),
    Formula(
        "Mayhew",
        "100 w / (52.2 + 41.9 exp(-0.055 r))",
        "Mayhew et al., Relative muscular endurance performance as a predictor of bench press "
        "strength, J Appl Sport Sci Res 6, 200-206, 1992",
        lambda r: 100 / (52.2 + 41.9 * math.exp(-0.055 * r)),
    ),
    Formula(
        "Lander",
        "100 w / (101.3 - 2.67123 r)",
        "Lander, Maximums based on reps, NSCA Journal 6(6), 60-61, 1985",
        lambda r: 100 / (101.3 - 2.67123 * r),
    ),
)
"""Every formula, in the order of the table in the tests."""
