"""Numbers of a moving bar as people see them: speed, time, push, power, work."""

from __future__ import annotations

from dataclasses import dataclass
from math import isfinite
from typing import TYPE_CHECKING

from topheavy.constants import STANDARD_GRAVITY_M_PER_S2
from topheavy.present.figure import Figure

if TYPE_CHECKING:
    from collections.abc import Callable

    from topheavy.units import UnitSystem


@dataclass(frozen=True, slots=True)
class Spread:
    """A figure of the likeliest lifter, and what nine in ten of the plausible ones lie between."""

    likely: Figure
    low: Figure
    high: Figure

    @property
    def between(self) -> str:
        """The range, its unit once.

        >>> Spread(speed(0.58), speed(0.53), speed(0.63)).between
        '0.53 to 0.63 m/s'
        """
        low, _, unit = self.low.text.rpartition(" ")
        high = self.high.text
        return f"{low} to {high}" if high.endswith(unit) else f"{self.low} to {high}"


def spread(span: tuple[float, float, float], shown: Callable[[float], Figure]) -> Spread:
    """Show low, likeliest and high.

    Parameters
    ----------
    span : tuple of float
        Low, likeliest, high.
    shown : callable
        Makes a figure of one value.
    """
    low, likely, high = span
    return Spread(shown(likely), shown(low), shown(high))


def speed(speed_m_per_s: float) -> Figure:
    """Show the speed of a bar [m/s], which gyms read in m/s everywhere.

    >>> speed(0.5766).text
    '0.58 m/s'
    """
    return Figure(speed_m_per_s, "m/s", f"{speed_m_per_s:.2f} m/s")


def seconds(time_s: float) -> Figure:
    """Show a time [s].

    >>> seconds(0.712).text
    '0.71 s'
    """
    return Figure(time_s, "s", f"{time_s:.2f} s")


def power(power_w: float) -> Figure:
    """Show a power [W].

    >>> power(812.4).text
    '812 W'
    """
    return Figure(power_w, "W", f"{power_w:.0f} W")


def work(work_j: float) -> Figure:
    """Show work [J].

    >>> work(431.6).text
    '432 J'
    """
    return Figure(work_j, "J", f"{work_j:.0f} J")


def push(units: UnitSystem, force_n: float) -> Figure:
    """Show a force of the lifter [N] as the load it would hold.

    >>> from topheavy.units import METRIC
    >>> push(METRIC, 1500.0).text
    '153 kg'
    """
    return Figure(force_n, "N", units.mass(force_n / STANDARD_GRAVITY_M_PER_S2, 0))


def in_g(acceleration_g: float) -> Figure:
    """Show an acceleration [g].

    >>> in_g(1.347).text
    '1.35 g'
    """
    return Figure(acceleration_g, "g", f"{acceleration_g:.2f} g")


def known(value: float, shown: Callable[[float], Figure]) -> Figure | None:
    """Show a value that may be nan: None then.

    Parameters
    ----------
    value : float
        In the unit that `shown` takes.
    shown : callable
        Makes a figure of it.

    >>> known(float("nan"), speed) is None
    True
    """
    return shown(value) if isfinite(value) else None


def percent(fraction: float) -> Figure:
    """Show a fraction [-] in whole percent.

    >>> percent(0.643).text, percent(-0.002).text
    ('64 %', '0 %')
    """
    number = f"{100 * fraction:.0f}"
    return Figure(fraction, "", f"{'0' if number == '-0' else number} %")
