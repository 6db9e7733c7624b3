"""One set as it was logged: who, what, when, what hung then, and how it went.

What hung is frozen: the loads it put on the bar, and its description in words. A later change of
the stock changes no logged set. Nothing is ever changed in a log: a correction is a new set that
points to the old one.
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass, fields
from functools import lru_cache
from itertools import pairwise
from operator import attrgetter
from typing import TYPE_CHECKING, Final

import numpy as np

from topheavy.errors import BadInputError
from topheavy.gym.day import day_number
from topheavy.gym.records import MOST_LEFT, THIRDS
from topheavy.mechanics.curve import LoadCurve

if TYPE_CHECKING:
    from topheavy.gym.people import Travel
    from topheavy.gym.records import Third

MOST_LOGGED_REPS: Final = 200
"""Most repetitions of one set; a guard against slips of the pen."""

MOST_LOAD_KG: Final = 2000.0
MOST_SPEED_M_PER_S: Final = 5.0
MOST_SETS: Final = 500
"""Greatest load [kg], bar speed [m/s] and set number that are believed: guards, no source."""

MOST_NOTE: Final = 2000
MOST_NAME: Final = 60
MOST_RIG_WORDS: Final = 500
MOST_KNOTS: Final = 200
"""Longest note, name and description [characters], and most heights of a frozen curve."""

_ID: Final = re.compile(r"[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}")
_TIME: Final = re.compile(r"([01][0-9]|2[0-3]):[0-5][0-9]")
_CONTROL: Final = re.compile(r"[\x00-\x08\x0b-\x1f\x7f\ud800-\udfff]")
_ROUNDING_KG: Final = 0.051
_FIRST_DAY: Final = "1900-01-01"


@dataclass(frozen=True, slots=True, kw_only=True)
class RigThen:
    """What hung on the bar in a logged set, frozen.

    Parameters
    ----------
    bottom_kg, mean_kg, top_kg : float
        All that was on the bar [kg], bar and plates counted, at the bottom, as the mean over the
        way up, and at the top; > 0.
    words : str
        The rig as it was described: tags, feeder and setting, connector, bands.
    curve : tuple of (float, float)
        Height [m] and load of chain and bands alone [kg], lowest first; empty when only the
        three loads are known.

    Raises
    ------
    BadInputError
        A load that is none, a mean outside the other two, or heights that do not rise.
    """

    bottom_kg: float
    mean_kg: float
    top_kg: float
    words: str = ""
    curve: tuple[tuple[float, float], ...] = ()

    def __post_init__(self) -> None:
        for name in ("bottom_kg", "mean_kg", "top_kg"):
            _check_number(name, getattr(self, name), MOST_LOAD_KG, "kg")
        low, high = sorted((self.bottom_kg, self.top_kg))
        if not low - _ROUNDING_KG <= self.mean_kg <= high + _ROUNDING_KG:
            raise BadInputError(
                "The mean load lies outside bottom and top",
                field="mean_kg",
                got=f"{self.mean_kg:g} kg",
                wanted=f"{low:g} to {high:g} kg",
            )
        _check_text("words", self.words, MOST_RIG_WORDS)
        if self.curve:
            _check_curve(self.curve)

    @classmethod
    def told(
        cls,
        bottom_kg: float,
        top_kg: float,
        mean_kg: float | None = None,
        *,
        words: str = "",
        curve: tuple[tuple[float, float], ...] = (),
    ) -> RigThen:
        """Make it of what somebody wrote down: without a mean load, halfway between the two.

        Parameters
        ----------
        bottom_kg, top_kg : float
            All that was on the bar at the bottom and at the top [kg]; > 0.
        mean_kg : float, optional
            Its mean over the way up [kg]. Halfway is exact where the load rises evenly.
        words : str
            The rig as it was described.
        curve : tuple of (float, float)
            Height [m] and load of chain and bands alone [kg].

        Examples
        --------
        >>> RigThen.told(85.0, 115.0).mean_kg
        100.0
        """
        mean = (bottom_kg + top_kg) / 2 if mean_kg is None else mean_kg
        return cls(bottom_kg=bottom_kg, mean_kg=mean, top_kg=top_kg, words=words, curve=curve)

    def hung_curve(self, straight_kg: float, travel: Travel) -> LoadCurve:
        """Load of chain and bands alone by height [kg over m].

        Parameters
        ----------
        straight_kg : float
            Bar, collars and plates [kg].
        travel : Travel
            Bottom and top of the lift where the three loads are all that is known [m]. A knot
            half-way up then gives the mean its due.

        Examples
        --------
        >>> from topheavy.gym.people import Travel
        >>> rig = RigThen(bottom_kg=85, mean_kg=98, top_kg=115)
        >>> hung = rig.hung_curve(85, Travel(bottom_m=0.66, top_m=1.06))
        >>> hung.at([0.66, 0.86, 1.06]).round(6).tolist()
        [0.0, 11.0, 30.0]
        """
        if self.curve:
            heights_m, loads_kg = zip(*self.curve, strict=True)
            return LoadCurve.through(np.array(heights_m), np.array(loads_kg))
        middle_kg = (4 * self.mean_kg - self.bottom_kg - self.top_kg) / 2
        low, high = sorted((self.bottom_kg, self.top_kg))
        loads = np.array([self.bottom_kg, min(max(middle_kg, low), high), self.top_kg])
        heights = np.linspace(travel.bottom_m, travel.top_m, 3)
        return LoadCurve.through(heights, loads - straight_kg)


@dataclass(frozen=True, slots=True, kw_only=True)
class LoggedSet:
    """A set as it was logged.

    Parameters
    ----------
    id : str
        A UUID that whoever logs it makes, so that sending it again never doubles it.
    lifter, lift : str
        By their names.
    station : str
        By its name; empty when nobody noted it.
    day : str
        Such as ``"2026-11-25"``.
    time : str
        By the clock in the gym, ``"18:05"``; empty when nobody noted it.
    session : str
        What sets of one session have in common; empty when nobody noted it.
    number : int or None
        Which set of the session, from 1.
    straight_kg : float
        Bar, collars and plates [kg], > 0.
    rig : RigThen or None
        What hung; None for straight weight alone.
    reps : int
        Repetitions that were done, 0 when the first was missed.
    reps_left : float or None
        Repetitions that were left [-], 0 to 10; None when nobody said.
    speed_m_per_s : float or None
        Mean speed of the bar on the way up [m/s].
    missed : bool
        Whether the set ended with a missed repetition.
    third : {'lower', 'middle', 'top'} or None
        In which third of the way up it stopped.
    note : str
        Whatever else was worth writing down.
    by : str
        Who logged it.
    corrects : str
        Id of the set that this one stands for from now on; empty for a new one.
    struck : bool
        True: the set that it corrects never happened.

    Raises
    ------
    BadInputError
        Values that can't be, or that contradict each other.

    Examples
    --------
    >>> LoggedSet(
    ...     id="5d5a2c8e-0000-4000-8000-000000000001", lifter="Osric", lift="squat",
    ...     day="2026-02-30", straight_kg=100.0, reps=3,
    ... )
    Traceback (most recent call last):
    topheavy.errors.BadInputError: Not a day; ...
    """

    id: str
    lifter: str
    lift: str
    day: str
    straight_kg: float
    reps: int
    station: str = ""
    time: str = ""
    session: str = ""
    number: int | None = None
    rig: RigThen | None = None
    reps_left: float | None = None
    speed_m_per_s: float | None = None
    missed: bool = False
    third: Third | None = None
    note: str = ""
    by: str = ""
    corrects: str = ""
    struck: bool = False

    def __post_init__(self) -> None:
        # A log has very many sets and few different days, names and counts: what can be alike is
        # looked at once and remembered.
        check_id("id", self.id)
        _check_when(self.day, self.time)
        _check_names(self.lifter, self.lift, self.station, self.session, self.by)
        if self.note:
            _check_text("note", self.note, MOST_NOTE)
        check_straight(self.straight_kg)
        if self.speed_m_per_s is not None:
            _check_number("speed_m_per_s", self.speed_m_per_s, MOST_SPEED_M_PER_S, "m/s")
        _check_counts(self.reps, self.number)
        _check_how(self.reps, self.reps_left, self.missed, self.third)
        if self.rig is not None:
            _check_rig(self.straight_kg, self.rig)
        if self.corrects:
            check_id("corrects", self.corrects)
        if self.struck and not self.corrects:
            raise BadInputError(
                "Only a set that was logged can be struck out", field="struck", wanted="its id"
            )


def same_set(one: LoggedSet, other: LoggedSet) -> bool:
    """Whether two sets say the same, apart from who logged them."""
    return one is other or bool(_SAID(one) == _SAID(other))


_SAID: Final = attrgetter(
    *(field.name for field in fields(LoggedSet) if field.name not in {"id", "by"})
)


@lru_cache(maxsize=8192)
def check_straight(straight_kg: float) -> None:
    """Refuse a straight weight [kg] that can't be: above 0, up to `MOST_LOAD_KG`.

    >>> check_straight(100.0)
    """
    _check_number("straight_kg", straight_kg, MOST_LOAD_KG, "kg")


def _check_when(day: str, time: str) -> None:
    day_number(day, "day")
    if day < _FIRST_DAY:
        raise BadInputError(
            "Too long ago to be true", field="day", got=day, wanted=f"{_FIRST_DAY} or later"
        )
    if time and not _TIME.fullmatch(time):
        raise BadInputError(
            "Not a time of day", field="time", got=repr(time), wanted="such as 18:05"
        )


@lru_cache(maxsize=4096)
def _check_names(*names: str) -> None:
    for field, name in zip(("lifter", "lift", "station", "session", "by"), names, strict=True):
        _check_text(field, name, MOST_NAME)


@lru_cache(maxsize=4096, typed=True)
def _check_counts(reps: int, number: int | None) -> None:
    _check_count("reps", reps, 0, MOST_LOGGED_REPS)
    if number is not None:
        _check_count("number", number, 1, MOST_SETS)


@lru_cache(maxsize=4096, typed=True)
def _check_how(reps: int, left: float | None, missed: bool, third: str | None) -> None:  # noqa: FBT001 - the cache wants them bare
    if left is not None and not 0 <= left <= MOST_LEFT:
        raise BadInputError(
            "So many repetitions left, nobody can count",
            field="reps_left",
            got=left,
            wanted=f"0 to {MOST_LEFT}",
        )
    if missed and left:
        raise BadInputError(
            "After a missed repetition none was left", field="reps_left", got=left, wanted="0"
        )
    if third is not None and third not in THIRDS:
        raise BadInputError(
            "Not a third of the way up", field="third", got=repr(third), wanted=", ".join(THIRDS)
        )
    if third is not None and not missed:
        raise BadInputError(
            "A set without a miss stopped nowhere",
            field="third",
            got=third,
            wanted="a missed set, or no third",
        )
    if reps == 0 and not missed:
        raise BadInputError(
            "No repetition was done and none missed",
            field="reps",
            got=0,
            wanted="1 or more, or a missed set",
        )


def _check_rig(straight_kg: float, rig: RigThen) -> None:
    least = min(rig.bottom_kg, rig.top_kg)
    if least < straight_kg - _ROUNDING_KG:
        raise BadInputError(
            "The load is below the straight weight it counts",
            field="rig",
            got=f"{least:g} kg, straight weight {straight_kg:g} kg",
            wanted="loads of all that was on the bar",
        )


def check_id(field: str, text: str) -> None:
    """Refuse what is no UUID in its usual form.

    >>> check_id("id", "5d5a2c8e-0000-4000-8000-000000000001")
    """
    if not _ID.fullmatch(text):
        raise BadInputError(
            "Not a UUID", field=field, got=repr(text[:60]), wanted="32 lower-case hex digits in "
            "five groups, such as 5d5a2c8e-3c1f-4b7e-9a55-0f6a2f1f4b0d",
        )  # fmt: skip


@lru_cache(maxsize=4096)
def _check_text(field: str, text: str, most: int) -> None:
    needed = field in {"lifter", "lift"}
    if (needed and not text) or len(text) > most or text != text.strip() or _CONTROL.search(text):
        raise BadInputError(
            "Not a usable text",
            field=field,
            got=ascii(text[:60]),
            wanted=f"{'1' if needed else '0'} to {most} characters, without a space at an end",
        )


def _check_number(field: str, value: float, most: float, unit: str) -> None:
    if not 0 < value <= most:  # neither nan nor inf are
        raise BadInputError(
            "That can't be so", field=field, got=value, wanted=f"above 0, up to {most:g} {unit}"
        )


def _check_count(field: str, value: int, least: int, most: int) -> None:
    if isinstance(value, bool) or value != int(value) or not least <= value <= most:
        raise BadInputError(
            "That can't be so",
            field=field,
            got=value,
            wanted=f"a whole number, {least} to {most}",
        )


def _check_curve(curve: tuple[tuple[float, float], ...]) -> None:
    heights_m = [height_m for height_m, _ in curve]
    rises = all(low < high for low, high in pairwise(heights_m))
    finite = all(math.isfinite(number) for pair in curve for number in pair)
    if not (rises and finite and len(curve) <= MOST_KNOTS):
        raise BadInputError(
            "The heights of a frozen curve must rise",
            field="curve",
            got=f"{len(curve)} heights",
            wanted=f"at most {MOST_KNOTS}, each above the one before",
        )
