"""The repetition table, as a check on how much is done at which load."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal

from topheavy.errors import BadInputError

SOURCE: Final = (
    "Prilepin's table, as an article by Hristov (2005) and its copies quote it (read); the Soviet "
    "original was not seen."
)

WEAKNESS: Final = (
    "Known weakness: it was drawn from training logs of weightlifters, so from the snatch and the "
    "clean & jerk; it knows no set above six reps, no lifter and no chain; copies disagree whether "
    "70, 80 and 90 % belong above or below the line. A check, not a rule."
)

Verdict = Literal["few", "within", "many"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Zone:
    """A row of the repetition table.

    Parameters
    ----------
    low, high : float
        Load as a share of the best [-]: from `low` on, below `high`.
    name : str
        As printed.
    set_reps : tuple of (int, int)
        Fewest and most reps in a set.
    best_total : int
        Reps in a session that the table calls optimal.
    total : tuple of (int, int)
        Fewest and most reps in a session.
    """

    low: float
    high: float
    name: str
    set_reps: tuple[int, int]
    best_total: int
    total: tuple[int, int]


ZONES: Final = (
    Zone(
        low=0.0, high=0.7, name="below 70 %", set_reps=(3, 6), best_total=24, total=(18, 30)
    ),
    Zone(low=0.7, high=0.8, name="70s", set_reps=(3, 6), best_total=18, total=(12, 24)),
    Zone(low=0.8, high=0.9, name="80s", set_reps=(2, 4), best_total=15, total=(10, 20)),
    Zone(
        low=0.9, high=float("inf"), name="90 % and up", set_reps=(1, 2), best_total=7, total=(4, 10)
    ),
)  # fmt: skip
"""The rows. The edges themselves are taken into the heavier row, the more careful reading."""


@dataclass(frozen=True, slots=True, kw_only=True)
class VolumeCheck:
    """A session against the row it falls in.

    Parameters
    ----------
    share : float
        Load as a share of the best [-], the one the table was entered with.
    zone : Zone
        The row.
    reps, total : int
        Reps in a set, and in all sets.
    set_verdict, total_verdict : {'few', 'within', 'many'}
        How each compares with the row.
    """

    share: float
    zone: Zone
    reps: int
    total: int
    set_verdict: Verdict
    total_verdict: Verdict

    @property
    def within(self) -> bool:
        """Whether both lie in the row's ranges."""
        return self.set_verdict == self.total_verdict == "within"


def zone_of(share: float) -> Zone:
    """Find the row of a load.

    Parameters
    ----------
    share : float
        Load as a share of the best [-], above 0.

    Raises
    ------
    BadInputError
        A share that is not above zero.

    Examples
    --------
    >>> zone_of(0.8).name, zone_of(0.799).name
    ('80s', '70s')
    """
    if not share > 0:
        raise BadInputError(
            "The repetition table needs a load", field="share", got=share, wanted="above 0"
        )
    return next(zone for zone in reversed(ZONES) if share >= zone.low - 1e-12)


def check_volume(share: float, sets: int, reps: int) -> VolumeCheck:
    """Compare sets and reps with the repetition table.

    Parameters
    ----------
    share : float
        Load as a share of the best [-]; say which load of the rig it is.
    sets, reps : int
        Sets, and reps in each; 1 or more.

    Raises
    ------
    BadInputError
        A share, sets or reps that are not above zero.

    Examples
    --------
    >>> check = check_volume(0.85, sets=5, reps=3)
    >>> check.zone.name, check.total, check.set_verdict, check.total_verdict
    ('80s', 15, 'within', 'within')
    """
    for name, count in (("sets", sets), ("reps", reps)):
        if count < 1:
            raise BadInputError(
                f"A session needs {name}", field=name, got=count, wanted="1 or more"
            )
    zone = zone_of(share)
    return VolumeCheck(
        share=share,
        zone=zone,
        reps=reps,
        total=sets * reps,
        set_verdict=_verdict(reps, zone.set_reps),
        total_verdict=_verdict(sets * reps, zone.total),
    )


def _verdict(count: int, span: tuple[int, int]) -> Verdict:
    if count < span[0]:
        return "few"
    return "many" if count > span[1] else "within"
