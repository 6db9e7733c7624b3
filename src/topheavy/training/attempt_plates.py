"""The next attempt as plates that the gym has."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Final

from topheavy.phrase import Phrase
from topheavy.rigging.plates import loadings, nearest_loadings
from topheavy.training.plate_path import Window, plate_path

if TYPE_CHECKING:
    from topheavy.training.attempts import NextAttempt
    from topheavy.training.plate_path import PlateStop
    from topheavy.training.ramp_parts import Gear

MOST_STEP: Final = 0.075
"""No step up is larger, whatever the plates, as a share of the last load [-]."""

_HAIR_KG: Final = 5e-4


@dataclass(frozen=True, slots=True, kw_only=True)
class LoadedAttempt:
    """The next attempt, loaded.

    Parameters
    ----------
    advice : NextAttempt
        What to try and why; its load is the one that the plates make.
    plates : PlateStop or None
        Plates, and what to change since the last attempt; None: stop.
    """

    advice: NextAttempt
    plates: PlateStop | None


def load_attempt(advice: NextAttempt, last_kg: float, hung_kg: float, gear: Gear) -> LoadedAttempt:
    """Choose plates for the next attempt: never more than was advised, if plates allow.

    Parameters
    ----------
    advice : NextAttempt
        From `next_attempt`, of the load at the limiting height.
    last_kg : float
        Straight weight of the last attempt [kg].
    hung_kg : float
        What hangs at the limiting height [kg].
    gear : Gear
        Bar and plates.

    Returns
    -------
    LoadedAttempt
        Up: the heaviest weight not above the advice; where the plates have no step so small, their
        smallest, if it is no more than `MOST_STEP`; else stop. Down: the heaviest not above it.

    Raises
    ------
    NotInStockError
        The plates can't make the last attempt's straight weight.
    """
    if advice.load_kg is None:
        return LoadedAttempt(advice=advice, plates=None)
    choices = loadings(gear.plates, gear.room_m)
    nearest_loadings(choices, gear.bar_kg, last_kg)
    totals_kg = [gear.bar_kg + choice.total_kg for choice in choices]
    found_kg, note = _loadable(advice, last_kg, hung_kg, totals_kg)
    if found_kg is None:
        return LoadedAttempt(advice=_no_more(advice, note), plates=None)
    windows = [Window(low_kg=kg, wanted_kg=kg, high_kg=kg) for kg in (last_kg, found_kg)]
    stop = plate_path(gear.plates, gear.room_m, gear.bar_kg, windows).stops[1]
    load_kg = found_kg + hung_kg
    told = replace(
        advice,
        load_kg=load_kg,
        change=load_kg / (last_kg + hung_kg) - 1,
        reason=Phrase(advice.reason.text + note, advice.reason.amounts),
    )
    return LoadedAttempt(advice=told, plates=stop)


def _loadable(
    advice: NextAttempt, last_kg: float, hung_kg: float, totals_kg: list[float]
) -> tuple[float | None, str]:
    """Straight weight [kg] that the plates make, or None, and a note."""
    wanted_kg = (advice.load_kg or 0.0) - hung_kg
    below = [kg for kg in totals_kg if kg <= wanted_kg + _HAIR_KG]
    if advice.change < 0:
        return (max(below), "") if below else (None, "; no plates make less")
    up = [kg for kg in below if kg > last_kg + _HAIR_KG]
    if up:
        return max(up), ""
    least_kg = min((kg for kg in totals_kg if kg > last_kg + _HAIR_KG), default=None)
    most_kg = last_kg + MOST_STEP * (last_kg + hung_kg)
    if least_kg is not None and least_kg <= most_kg:
        return least_kg, "; the smallest step that the plates make is larger"
    return None, "; but the plates have no step that is small enough"


def _no_more(advice: NextAttempt, note: str) -> NextAttempt:
    reason = Phrase(advice.reason.text + note, advice.reason.amounts)
    return replace(advice, load_kg=None, change=0.0, rest_s=0.0, reason=reason)
