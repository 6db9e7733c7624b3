"""Whether a chain is heavy enough for the job, and why."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final, Literal

from topheavy.errors import BadInputError
from topheavy.mechanics.chain import require_positive
from topheavy.units import METRIC

if TYPE_CHECKING:
    from topheavy.units import UnitSystem

BENCH_TRAVEL_M: Final = 0.40
"""Bar travel of a bench press when nobody measured [m]; no published value read, so a marked
default."""

ASSUMED_BEST_KG: Final = 100.0
"""Best single when nobody said [kg]; a round number, so a marked default."""

USEFUL_SHARE: Final = 0.10
"""Least share of the one-repetition maximum at the top that counts as useful [-]: the lower end of
the 10 to 35 % that most studies used."""

TRADE_WIRE_M: Final = 0.0151
"""Least wire that passes for 5/8 in or 16 mm [m], tolerance of 5 % allowed. That working chain is
5/8 in or heavier: common practice, no source."""

TRADE_DENSITY_KG_PER_M: Final = 4.45
"""The same for chain known by mass only [kg/m]: the lightest printed 16 mm row, DIN 763."""

MOST_PIECES: Final = 4
"""Pieces a side beyond which clipping and counting eat the session: common practice, no source."""

Judgement = Literal["heavy enough", "light", "too thin"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Job:
    """What the chain is to do.

    Parameters
    ----------
    travel_m : float or None
        How far the bar goes [m]; None: a bench press, 0.40 m assumed.
    best_kg : float or None
        Best single [kg]; None: 100 kg assumed.
    share : float
        Share of the best single wanted from chain at the top [-], above 0 to 1.
    """

    travel_m: float | None = None
    best_kg: float | None = None
    share: float = USEFUL_SHARE

    def __post_init__(self) -> None:
        for name in ("travel_m", "best_kg"):
            value = getattr(self, name)
            if value is not None:
                require_positive(name, value)
        if not 0 < self.share <= 1:
            raise BadInputError(
                "A share of the best single lies between nothing and all of it",
                field="share",
                got=f"{self.share:g}",
                wanted="above 0 % up to 100 %",
            )


@dataclass(frozen=True, slots=True, kw_only=True)
class Verdict:
    """A plain judgement of a chain for a job.

    Parameters
    ----------
    judgement : {'heavy enough', 'light', 'too thin'}
        Light: it does the job, but either the trade takes heavier or it takes many pieces.
    trade_size : bool
        Whether it is 5/8 in (16 mm) or heavier.
    gain_per_piece_kg : float
        What one piece a side, doubled, adds to the bar over the whole travel [kg].
    wanted_kg : float
        What the chain is to add at the top [kg].
    pieces_a_side : int
        Pieces a side that add it.
    shortest_piece_m : float
        Length a piece must have so that both strands still reach the floor at the top [m].
    travel_m, best_kg, share : float
        The job [m, kg, -].
    assumed : tuple of str
        Which of travel and best single were assumed.
    """

    judgement: Judgement
    trade_size: bool
    gain_per_piece_kg: float
    wanted_kg: float
    pieces_a_side: int
    shortest_piece_m: float
    travel_m: float
    best_kg: float
    share: float
    assumed: tuple[str, ...]

    @property
    def words(self) -> str:
        """The judgement as a coach would say it."""
        if self.judgement == "heavy enough":
            return "Heavy enough: this is working chain"
        if self.judgement == "too thin":
            return (
                "Too thin: it looks like chain and weighs like string. "
                "Common practice is 5/8 in (16 mm) or heavier"
            )
        if self.trade_size:
            return "Good chain, but for this lifter and travel it takes many pieces"
        return "Light: it does something, but common practice is 5/8 in (16 mm) or heavier"

    def reasons(self, units: UnitSystem = METRIC) -> tuple[str, ...]:
        """Give the arithmetic behind the judgement, each a sentence without a final stop.

        Parameters
        ----------
        units : UnitSystem
            How to print it.
        """
        pieces = "one piece" if self.pieces_a_side == 1 else f"{self.pieces_a_side} pieces"
        gain, wanted = units.mass(self.gain_per_piece_kg), units.mass(self.wanted_kg)
        travel, piece = units.length(self.travel_m), units.length(self.shortest_piece_m, 0)
        best = units.mass(self.best_kg, 0)
        reasons = [
            f"one piece a side, doubled, adds {gain} over {travel}: two ends, two strands each",
            f"{100 * self.share:.0f} % of {best} is {wanted} at the top: {pieces} a side",
            f"each piece at least {piece} long, or it hangs clear before the top and adds less",
        ]
        if not self.trade_size:
            reasons.append("thinner than 5/8 in (16 mm), the least that working chain has")
        if self.pieces_a_side > MOST_PIECES:
            reasons.append(f"more than {MOST_PIECES} pieces a side is too much to clip and count")
        if self.assumed:
            reasons.append(f"assumed, since not given: {' and '.join(self.assumed)}")
        return tuple(reasons)


def judge_chain(
    density_kg_per_m: float, job: Job | None = None, *, wire_diameter_m: float | None = None
) -> Verdict:
    """Judge whether a chain is heavy enough.

    Doubled, one piece a side hangs on two ends in two strands, each picking up its density over
    the travel: 2 x 2 x density x travel. (With an odd number of links the middle one hangs above
    both strands; that holds when it hangs already at the bottom, else the piece gains a link less.)

    Parameters
    ----------
    density_kg_per_m : float
        Mass per length [kg/m], > 0.
    job : Job, optional
        Travel, best single and share wanted; a bench press of 100 kg and 10 % by default.
    wire_diameter_m : float, optional
        Wire [m]; without it the trade's rule is judged by the mass.

    Returns
    -------
    Verdict
        Judgement with what it rests on. Heavy enough: working chain and at most 4 pieces a side.
        Light: only one of the two. Too thin: neither.

    Examples
    --------
    >>> judge_chain(5.3).judgement, round(judge_chain(5.3).gain_per_piece_kg, 1)
    ('heavy enough', 8.5)
    >>> judge_chain(0.8, wire_diameter_m=0.006).words
    'Too thin: it looks like chain and weighs like string. Common practice is 5/8 in (16 mm) or
    heavier'
    """
    require_positive("density_kg_per_m", density_kg_per_m)
    job = job or Job()
    travel_m = BENCH_TRAVEL_M if job.travel_m is None else job.travel_m
    best_kg = ASSUMED_BEST_KG if job.best_kg is None else job.best_kg
    gain_kg = 2 * 2 * density_kg_per_m * travel_m
    wanted_kg = job.share * best_kg
    pieces = max(1, math.ceil(wanted_kg / gain_kg - 1e-9))
    trade = density_kg_per_m >= TRADE_DENSITY_KG_PER_M
    if wire_diameter_m is not None:
        require_positive("wire_diameter_m", wire_diameter_m)
        trade = wire_diameter_m >= TRADE_WIRE_M
    return Verdict(
        judgement=_judgement(trade=trade, few=pieces <= MOST_PIECES),
        trade_size=trade,
        gain_per_piece_kg=gain_kg,
        wanted_kg=wanted_kg,
        pieces_a_side=pieces,
        shortest_piece_m=2 * travel_m,
        travel_m=travel_m,
        best_kg=best_kg,
        share=job.share,
        assumed=_assumed(job),
    )


def _judgement(*, trade: bool, few: bool) -> Judgement:
    if trade and few:
        return "heavy enough"
    return "light" if trade or few else "too thin"


def _assumed(job: Job) -> tuple[str, ...]:
    missing = []
    if job.travel_m is None:
        missing.append("the travel (of a bench press)")
    if job.best_kg is None:
        missing.append("the best single")
    return tuple(missing)
