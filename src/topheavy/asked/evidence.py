"""How strong a lifter is, as it was typed.

What stands left of ``=`` is where or with what, right of it what was read; a set is ``REPSxLOAD``,
with ``@N`` when N repetitions were left.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Final, cast

from topheavy.asked.quantities import load_kg
from topheavy.errors import BadInputError, TopheavyError
from topheavy.gym.records import THIRDS, MissedRep
from topheavy.lifter.by_speed import best_by_speed
from topheavy.lifter.evidence import FullRange, Isometric, Miss, Partial
from topheavy.units import parse_quantity

if TYPE_CHECKING:
    from collections.abc import Sequence

    from topheavy.gym.people import Travel
    from topheavy.gym.records import SpeedKind
    from topheavy.lifter.evidence import Evidence
    from topheavy.services.rig import Place

_SET: Final = re.compile(r"\s*(\d{1,4})\s*[xX*]\s*([^@]+?)\s*(?:@\s*([^@]+?)\s*)?")
_SINGLE: Final = re.compile(r"\s*([^@]+?)\s*(?:@\s*([^@]+?)\s*)?")
_NUMBER: Final = re.compile(r"\d{1,3}(?:[.,]\d{1,4})?")
_KINDS: Final = {"": "mean", "mean": "mean", "propulsive": "propulsive"}


def evidence_from(  # noqa: PLR0913  (one for each option)
    place: Place,
    *,
    best: str | None = None,
    sets: Sequence[str] | None = None,
    partial: Sequence[str] | None = None,
    miss: Sequence[str] | None = None,
    isometric: Sequence[str] | None = None,
    speed: Sequence[str] | None = None,
) -> tuple[Evidence, ...]:
    """Read what was typed of a lifter's strength; heights above the floor at the place.

    Parameters
    ----------
    place : Place
        Who, what and where: heights must lie inside the lift, percentages are of the best.
    best, sets, partial, miss, isometric, speed : str or sequence of str
        As typed.

    Raises
    ------
    BadInputError
        Words not understood, or what they say is impossible; names the option.
    """
    reader = _Reader(place, best)
    return (
        *reader.best(),
        *(reader.a_set(text) for text in sets or ()),
        *(reader.partial(text) for text in partial or ()),
        *(reader.miss(text) for text in miss or ()),
        *(reader.isometric(text) for text in isometric or ()),
        *(reader.speed(text) for text in speed or ()),
    )


class _Reader:
    """Reads each option; whatever the core refuses is told with the option and what was typed."""

    def __init__(self, place: Place, best: str | None) -> None:
        self._lift = place.lift.name
        self._travel: Travel = place.travel
        self._typed_best = best
        typed_kg = _above_zero(best, "--best", None) if best is not None else None
        self._best_kg = typed_kg or place.measured.best_kg

    def best(self) -> list[Evidence]:

        if self._typed_best is None or self._best_kg is None:
            return []
        return [FullRange(load_kg=self._best_kg)]

    def a_set(self, text: str) -> Evidence:

        found = _SET.fullmatch(text)
        if found is None:
            raise _not("a set", text, "--set", "repetitions and load, such as 5x100kg or 5x100kg@2")
        load = self._load(found[2], "--set")
        left = _left(found[3], text, "--set")
        try:
            return FullRange(load_kg=load, reps=int(found[1]), reps_left=left)
        except TopheavyError as error:
            raise _of(error, "--set", text) from error

    def partial(self, text: str) -> Evidence:

        wanted = "a height and a load, such as 95cm=120kg or 95cm=3x110kg@1"
        height, lifted = _pair(text, "a partial", "--partial", wanted)
        height_m = self._height(height, text, "--partial")
        several = _SET.fullmatch(lifted)
        reps, load, left = several.groups() if several else ("1", *_single(lifted))
        try:
            return Partial(
                height_m=height_m,
                load_kg=self._load(load, "--partial"),
                reps=int(reps),
                reps_left=_left(left, text, "--partial"),
            )
        except TopheavyError as error:
            raise _of(error, "--partial", text) from error

    def miss(self, text: str) -> Evidence:

        wanted = f"where it stopped and the load there, such as 90cm=105kg; or {THIRDS[1]}=105kg"
        where, load = _pair(text, "a miss", "--miss", wanted)
        load_kg = self._load(load, "--miss")
        third = where.strip().lower()
        if third in THIRDS:
            missed = MissedRep(straight_kg=load_kg, third=third)
        else:
            if not any(letter.isdigit() for letter in where):
                raise _not("a place where a bar stops", text, "--miss", wanted)
            height_m = self._height(where, text, "--miss", f", or {', '.join(THIRDS)}")
            missed = MissedRep(straight_kg=load_kg, height_m=height_m)
        at_m, u_m = missed.stopped_at(self._travel)
        return Miss(height_m=at_m, load_kg=load_kg, height_u_m=u_m)

    def isometric(self, text: str) -> Evidence:

        wanted = "height and what the scale showed at effort and at rest, such as 60cm=280kg-90kg"
        height, scale = _pair(text, "an isometric effort", "--isometric", wanted)
        effort, minus, rest = scale.rpartition("-")
        if not minus:
            raise _not("an isometric effort", text, "--isometric", wanted)
        height_m = self._height(height, text, "--isometric")
        readings = (load_kg(part, "--isometric", self._best_kg) or 0.0 for part in (effort, rest))
        effort_kg, rest_kg = readings
        try:
            return Isometric.from_scale(height_m=height_m, effort_kg=effort_kg, rest_kg=rest_kg)
        except TopheavyError as error:
            raise _of(error, "--isometric", text) from error

    def speed(self, text: str) -> Evidence:

        wanted = "load and speed in m/s, such as 100kg=0.45 or 60kg=0.8:propulsive"
        load, rest = _pair(text, "a bar speed", "--speed", wanted)
        shown, _, kind = rest.partition(":")
        kind = _KINDS.get(kind.strip().lower(), "")
        if not kind:
            raise _not("a bar speed", text, "--speed", wanted)
        bare = _NUMBER.fullmatch(shown.strip()) is not None
        try:
            fast = parse_quantity(f"{shown} m/s" if bare else shown, "speed", field="--speed")
            if fast <= 0:
                raise _not("a bar speed", text, "--speed", wanted)
            return best_by_speed(
                self._lift, self._load(load, "--speed"), fast, cast("SpeedKind", kind)
            )
        except TopheavyError as error:
            raise _of(error, "--speed", text) from error

    def _load(self, text: str, option: str) -> float:
        return _above_zero(text, option, self._best_kg)

    def _height(self, text: str, typed: str, option: str, other: str = "") -> float:

        height_m = parse_quantity(text, "length", field=option)
        low_m, high_m = self._travel.bottom_m, self._travel.top_m
        if not low_m <= height_m < high_m:
            raise BadInputError(
                "The height lies outside the lift",
                field=option,
                got=f"{typed} = {height_m:g} m",
                wanted=f"from {low_m:g} m, the bottom, to below {high_m:g} m, the top, floor to "
                f"bar centre{other}",
            )
        return height_m


def _pair(text: str, what: str, option: str, wanted: str) -> tuple[str, str]:
    left, equals, right = text.partition("=")
    if not equals or not left.strip() or not right.strip():
        raise _not(what, text, option, wanted)
    return left, right


def _single(text: str) -> tuple[str, str | None]:
    found = _SINGLE.fullmatch(text)
    return (found[1], found[2]) if found else (text, None)


def _left(text: str | None, typed: str, option: str) -> float:
    if text is None:
        return 0.0
    if not _NUMBER.fullmatch(text):
        raise _not("a number of repetitions left", typed, option, "such as @2 or @1.5 at the end")
    return float(text.replace(",", "."))


def _above_zero(text: str, option: str, best_kg: float | None) -> float:
    found_kg = load_kg(text, option, best_kg) or 0.0
    if found_kg <= 0:
        raise BadInputError(
            "A load is above zero", field=option, got=repr(text), wanted="a load above zero"
        )
    return found_kg


def _not(what: str, typed: str, option: str, wanted: str) -> BadInputError:
    return BadInputError(f"Not {what}", field=option, got=repr(typed), wanted=wanted)


def _of(error: TopheavyError, option: str, typed: str) -> BadInputError:
    """The same mistake, with the option it is in and what was typed."""
    got = repr(typed)
    if error.field == "lift":
        got = f"{got} in the {error.got}"
    elif error.field != option and error.got is not None:
        got = f"{typed} = {error.got}"
    return BadInputError(error.message, field=option, got=got, wanted=error.wanted)
