"""Kinds of day: what each is for, at which loads, how near to failure, and when a set ends."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal, get_args

from topheavy.errors import BadInputError

DayName = Literal["heavy", "speed", "repetition", "technique"]
DAY_NAMES: Final[tuple[DayName, ...]] = get_args(DayName)

VELOCITY_LOSS: Final = (
    "Trials ended sets at losses of 5 to 45 %. Low ones, 5 to 20 %, did better for speed and "
    "power, with no difference in maximal strength (a meta-analysis of 15 trials). How many reps "
    "come before one threshold varies from day to day and between lifters (Jukic et al. 2023). "
    "All with plain weight."
)
"""What is published on ending a set when speed drops; abstracts read."""

MOST_LOSS: Final = 0.45
"""Greatest loss of speed that the trials above used [-]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Day:
    """A kind of day.

    Parameters
    ----------
    name : {'heavy', 'speed', 'repetition', 'technique'}
        Its name.
    sets, reps : int
        When nobody says otherwise.
    low, high : float
        Usual load, as a share of the best [-].
    reps_left : tuple of (int, int)
        Reps in reserve to end each set with, fewest and most.
    rest_s : tuple of (float, float)
        Rest between sets [s], shortest and longest.
    loss : float or None
        Loss of speed that ends a set [-]: from the fastest rep of the set. None: no speed rule.
    aim : str
        What a rep should be like.
    source : str
        Where the loads come from.
    """

    name: DayName
    sets: int
    reps: int
    low: float
    high: float
    reps_left: tuple[int, int]
    rest_s: tuple[float, float]
    loss: float | None
    aim: str
    source: str


_STUDIES: Final = "what studies of chain and bands used, over 3 to 24 weeks"
_TRADE: Final = "common practice, no source"

DAYS: Final = {
    day.name: day
    for day in (
        Day(
            name="heavy",
            sets=5,
            reps=3,
            low=0.80,
            high=0.90,
            reps_left=(1, 2),
            rest_s=(180.0, 300.0),
            loss=0.20,
            aim="Every rep as hard as it can be driven, and full lockout.",
            source=_STUDIES,
        ),
        Day(
            name="speed",
            sets=8,
            reps=3,
            low=0.45,
            high=0.75,
            reps_left=(4, 8),
            rest_s=(60.0, 120.0),
            loss=0.10,
            aim="Every rep as fast as can be. A slow rep ends the set, not a number.",
            source=_STUDIES,
        ),
        Day(
            name="repetition",
            sets=4,
            reps=8,
            low=0.55,
            high=0.70,
            reps_left=(2, 3),
            rest_s=(120.0, 180.0),
            loss=0.30,
            aim="Every rep alike, to full lockout.",
            source=_TRADE,
        ),
        Day(
            name="technique",
            sets=5,
            reps=3,
            low=0.30,
            high=0.55,
            reps_left=(6, 10),
            rest_s=(60.0, 120.0),
            loss=None,
            aim="Never hard. The set ends when a rep looks unlike the one before.",
            source=_TRADE,
        ),
    )
}
"""Kinds of day by name. Long rests for heavy sets: ACSM position stand 2009, 3 to 5 min (summary
read). Sets, reps and the reps left: common practice, no source. A repetition day's loss of speed
lies between the trials' low and high groups."""


def day_named(name: str) -> Day:
    """Find a kind of day by its name, upper or lower case.

    Raises
    ------
    BadInputError
        No such day; the error names those there are.

    Examples
    --------
    >>> day_named("heavy").rest_s
    (180.0, 300.0)
    """
    for day in DAYS.values():
        if day.name == name.strip().casefold():
            return day
    raise BadInputError(
        "No such kind of day", field="day", got=repr(name), wanted=", ".join(DAY_NAMES)
    )


def stop_speed_m_per_s(fastest_m_per_s: float, loss: float) -> float:
    """Speed below which a set ends [m/s].

    Parameters
    ----------
    fastest_m_per_s : float
        Fastest rep of the set [m/s], > 0.
    loss : float
        Loss of speed that ends it [-], above 0, at most `MOST_LOSS`.

    Raises
    ------
    BadInputError
        A speed or loss out of range.

    Examples
    --------
    >>> round(stop_speed_m_per_s(0.80, 0.10), 2)
    0.72
    """
    check_loss(loss)
    if not 0 < fastest_m_per_s < 10:
        raise BadInputError(
            "No bar moves at that speed",
            field="fastest_m_per_s",
            got=f"{fastest_m_per_s:g} m/s",
            wanted="above 0, below 10 m/s",
        )
    return fastest_m_per_s * (1 - loss)


def check_loss(loss: float) -> None:
    """Refuse a loss of speed [-] that no trial used."""
    if not 0 < loss <= MOST_LOSS:
        raise BadInputError(
            "No study read ended sets at this loss of speed",
            field="stop_at",
            got=f"{loss:.0%}",
            wanted=f"above 0 %, at most {MOST_LOSS:.0%}; 10 % is usual for speed",
        )
