"""Singles up to a max: the next attempt from how the last one went, and why."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from topheavy.errors import BadInputError
from topheavy.mechanics.chain import require_positive
from topheavy.phrase import Phrase

if TYPE_CHECKING:
    from topheavy.lifter.velocity import LoadVelocityLine

MOST_ATTEMPTS: Final = 5
"""A 1RM should be found within three to five attempts: the protocol of Baechle & Earle, as told in
`topheavy.training.scheme`."""

NOISE: Final = 0.014
"""An all-chain bench 1RM repeats with a coefficient of variation of 1.4 % in trained men (McCurdy
et al. 2008, abstract): a step smaller than that finds nothing out."""

_SMALL, _MIDDLE, _LARGE = 0.025, 0.05, 0.075
_REST_S: Final = 180.0


@dataclass(frozen=True, slots=True, kw_only=True)
class LastAttempt:
    """A single that was tried.

    Parameters
    ----------
    load_kg : float
        Load [kg], > 0.
    made : bool
        Whether it was locked out.
    number : int
        Which attempt it was, the first is 1.
    missed_before : bool
        Whether the attempt before it was missed.
    reps_left : float or None
        What the lifter could have done more [-], 0 to 10.
    speed_m_per_s : float or None
        Mean speed on the way up [m/s], > 0.
    """

    load_kg: float
    made: bool
    number: int = 1
    missed_before: bool = False
    reps_left: float | None = None
    speed_m_per_s: float | None = None

    def __post_init__(self) -> None:
        require_positive("load_kg", self.load_kg)
        if self.number < 1:
            raise BadInputError(
                "Attempts count from one", field="attempt", got=self.number, wanted="1 or more"
            )
        if self.reps_left is not None and not 0 <= self.reps_left <= 10:
            raise BadInputError(
                "Repetitions in reserve are not negative, and nobody can count more than ten",
                field="reps_left",
                got=self.reps_left,
                wanted="0 to 10",
            )
        if self.speed_m_per_s is not None:
            require_positive("speed_m_per_s", self.speed_m_per_s)
        if not self.made and (self.reps_left is not None or self.speed_m_per_s is not None):
            raise BadInputError(
                "A missed attempt has no reps left and no speed to lockout",
                field="missed",
                got="missed, and how easily it went",
                wanted="one of the two",
            )


@dataclass(frozen=True, slots=True, kw_only=True)
class NextAttempt:
    """What to try next.

    Parameters
    ----------
    load_kg : float or None
        Load [kg]; None: stop.
    change : float
        Over the last load, less one [-]; 0 when it is time to stop.
    reason : Phrase
        Why.
    rest_s : float
        Rest before it [s]; 0 when it is time to stop.
    """

    load_kg: float | None
    change: float
    reason: Phrase
    rest_s: float

    @property
    def stops(self) -> bool:
        """Whether the day's max is found, or enough was tried."""
        return self.load_kg is None


def next_attempt(last: LastAttempt, line: LoadVelocityLine | None = None) -> NextAttempt:
    """Choose the next single from how the last one went.

    Parameters
    ----------
    last : LastAttempt
        The single that was tried.
    line : LoadVelocityLine, optional
        Published load-velocity line of the lift, to read a speed by. Measured with plain weight:
        with chain it need not hold, so only half of what it leaves is taken.

    Returns
    -------
    NextAttempt
        Made with more left: 2.5, 5 or 7.5 % more. Missed: 2.5 % less, once. Nothing left, a second
        miss in a row, or five attempts: stop. A miss of the first attempt takes 5 % off.

    Raises
    ------
    BadInputError
        A speed without a line to read it by.

    Notes
    -----
    Protocols raise by 2.5 to 5 % after a single that was made and take 2.5 to 5 % off after a miss
    (seen in pages that tell the protocol; the books from memory). How reps left and speed choose
    among these is own judgement; a larger step than 7.5 % is never taken.

    Examples
    --------
    >>> after = next_attempt(LastAttempt(load_kg=120.0, made=True, reps_left=1))
    >>> round(after.load_kg, 6), after.reason.say()
    (123.0, 'about one rep was left: 2.5 % more')
    >>> next_attempt(LastAttempt(load_kg=120.0, made=False, missed_before=True)).stops
    True
    """
    if not last.made:
        return _after_a_miss(last)
    if last.number >= MOST_ATTEMPTS:
        return _stop(
            f"{MOST_ATTEMPTS} attempts are enough: more would measure how tired the lifter is"
        )
    if last.reps_left is not None:
        return _by_reps_left(last, last.reps_left)
    if last.speed_m_per_s is not None:
        return _by_speed(last, last.speed_m_per_s, line)
    return _go(last, _SMALL, "made, and nothing was said of how: 2.5 % more, the smallest step")


def _after_a_miss(last: LastAttempt) -> NextAttempt:
    if last.missed_before:
        return _stop("two misses in a row: the max is the heaviest single that was made")
    if last.number >= MOST_ATTEMPTS:
        return _stop(f"missed, and {MOST_ATTEMPTS} attempts are enough")
    if last.number == 1:
        return _go(last, -_MIDDLE, "the first attempt was missed, so the goal is too high: 5 % off")
    return _go(last, -_SMALL, "missed: 2.5 % off, once")


def _by_reps_left(last: LastAttempt, reps_left: float) -> NextAttempt:
    if reps_left < 0.5:
        return _stop("nothing was left: this is the max of the day")
    if reps_left < 1.5:
        return _go(last, _SMALL, "about one rep was left: 2.5 % more")
    if reps_left < 2.5:
        return _go(last, _MIDDLE, "about two reps were left: 5 % more")
    return _go(last, _LARGE, "three reps or more were left: 7.5 % more, and no larger step")


def _by_speed(
    last: LastAttempt, speed_m_per_s: float, line: LoadVelocityLine | None
) -> NextAttempt:
    if line is None:
        raise BadInputError(
            "No load-velocity line was read for this lift, so a speed says nothing here",
            field="speed_m_per_s",
            got=f"{speed_m_per_s:g} m/s",
            wanted="reps left",
        )
    slowest, fastest = (float(line.speed_at(share)) for share in (line.high, line.low))
    speed = min(max(speed_m_per_s, slowest), fastest)
    left = 1 / float(line.share_at(speed)) - 1
    half = min(left / 2, _LARGE)
    said = f"{speed_m_per_s:.2f} m/s; a 1RM goes up at about {slowest:.2f} m/s"
    if half < NOISE:
        return _stop(f"{said}: what is left is within the noise of a test")
    return _go(last, half, f"{said}: half of what the line leaves, {100 * half:.1f} % more")


def _go(last: LastAttempt, change: float, why: str) -> NextAttempt:
    return NextAttempt(
        load_kg=last.load_kg * (1 + change), change=change, reason=Phrase(why), rest_s=_REST_S
    )


def _stop(why: str) -> NextAttempt:
    return NextAttempt(load_kg=None, change=0.0, reason=Phrase(why), rest_s=0.0)
