"""When a chain must be retired: readings against its nominal size."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final, Literal

from topheavy.errors import BadInputError
from topheavy.mechanics.chain import require_not_negative, require_positive

if TYPE_CHECKING:
    from topheavy.catalogue.table import ChainRow

LONGEST_PITCH: Final = 0.03
"""Retire at this growth of the pitch [-]. Stricter than the 5 % of DGUV Information 209-021 and
DGUV Regel 109-004, section 7 (read); makers of hoists, whose chain runs on pocketed wheels, say 2
to 3 % (read)."""

MOST_LOST_SECTION: Final = 0.10
"""Retire at this loss of the wire's cross section [-], about 5 % of its diameter. Stricter than
what was read: 10 % of the mean thickness (DGUV Information 209-021, citing DIN 685:2020), 22 % in
the tables of American codes (Michigan R 408.14923, table 1: 5/8 in chain down to 31/64 in)."""

RETIRE_ON_SIGHT: Final = (
    "a crack",
    "a bent or twisted link",
    "a gouge",
    "heat colour",
    "links that bind",
)
"""What no reading shows: retire the piece. DGUV Regel 109-004, section 7 (read) has cracks,
surface damage and bends; heat and binding are from makers' inspection lists (read)."""

WearJudgement = Literal["retire", "inspect", "within limits"]
_COVERAGE: Final = 2.0
_OTHER_CHAIN: Final = 0.10


@dataclass(frozen=True, slots=True, kw_only=True)
class Wear:
    """A chain's readings against what it was when new.

    Parameters
    ----------
    row : ChainRow
        What it was when new.
    pitch_growth : float
        Pitch beyond nominal, as a fraction [-]; negative when short.
    lost_section : float
        Cross section lost, as a fraction [-]; negative when thicker than nominal.
    pitch_growth_u, lost_section_u : float
        Their standard uncertainties [-].
    judgement : {'retire', 'inspect', 'within limits'}
        Retire: at a limit. Inspect: a limit lies within two standard uncertainties of the reading.
    reasons : tuple of str
        Why, each a sentence without a final stop.
    """

    row: ChainRow
    pitch_growth: float
    lost_section: float
    pitch_growth_u: float
    lost_section_u: float
    judgement: WearJudgement
    reasons: tuple[str, ...]


def wear_of(
    row: ChainRow,
    *,
    wire_diameter_m: float,
    pitch_m: float,
    wire_u_m: float = 0.0,
    pitch_u_m: float = 0.0,
) -> Wear:
    """Judge a chain's wear against its nominal size.

    Parameters
    ----------
    row : ChainRow
        What the chain was when new; its pitch must be printed.
    wire_diameter_m : float
        Wire at its thinnest place [m], mean of two readings at right angles.
    pitch_m : float
        Pitch [m], of the longest link or mean over ten.
    wire_u_m, pitch_u_m : float
        Standard uncertainties of the readings [m].

    Returns
    -------
    Wear
        Growth, loss, judgement and reasons. Readings within limits do not make a chain sound:
        look for `RETIRE_ON_SIGHT` too.

    Raises
    ------
    BadInputError
        The row prints no pitch, or a size is not above zero.

    Examples
    --------
    >>> from topheavy.catalogue.table import find_rows
    >>> row = find_rows(standard="DIN 764", trade_size_m=0.016)[0]
    >>> wear_of(row, wire_diameter_m=0.0155, pitch_m=0.0578).judgement
    'retire'
    """
    require_positive("wire_diameter_m", wire_diameter_m)
    require_positive("pitch_m", pitch_m)
    require_not_negative("wire_u_m", wire_u_m)
    require_not_negative("pitch_u_m", pitch_u_m)
    if row.pitch_m is None:
        raise BadInputError(
            f"No table here prints the pitch of {row.name}, so wear can't be told",
            field="nominal",
            wanted="a size with a printed pitch, or the sizes of the chain when new",
        )
    growth, growth_u = pitch_m / row.pitch_m - 1, pitch_u_m / row.pitch_m
    thickness = wire_diameter_m / row.wire_diameter_m
    lost, lost_u = 1 - thickness**2, 2 * thickness * wire_u_m / row.wire_diameter_m
    pitch_says, pitch_why = _judge(growth, growth_u, LONGEST_PITCH)
    wire_says, wire_why = _judge(lost, lost_u, MOST_LOST_SECTION)
    reasons = [
        f"pitch {_change(growth, 'longer than', 'shorter than')} {pitch_why}",
        f"wire section {_change(lost, 'below', 'above')} {wire_why}",
    ]
    if max(abs(growth), abs(lost) / 2) > _OTHER_CHAIN:
        reasons.append("so far from nominal that it may be another chain: check the size")
    return Wear(
        row=row,
        pitch_growth=growth,
        lost_section=lost,
        pitch_growth_u=growth_u,
        lost_section_u=lost_u,
        judgement=_worst(pitch_says, wire_says),
        reasons=tuple(reasons),
    )


def _judge(value: float, value_u: float, limit: float) -> tuple[WearJudgement, str]:
    said = f"nominal, limit {100 * limit:.0f} %"
    if value >= limit - 1e-9:
        return "retire", said
    if value + _COVERAGE * value_u >= limit:
        return "inspect", said + ", within what the reading leaves open: measure finer"
    return "within limits", said


def _change(value: float, more: str, less: str) -> str:
    percent = f"{100 * abs(value):.1f}"
    return "at" if percent == "0.0" else f"{percent} % {more if value > 0 else less}"


def _worst(*judgements: WearJudgement) -> WearJudgement:
    order: tuple[WearJudgement, ...] = ("retire", "inspect", "within limits")
    return min(judgements, key=order.index)
