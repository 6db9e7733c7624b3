"""What to look at in a block of weeks. It warns and never blocks: the plan is the coach's."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from topheavy.phrase import Amount, Phrase, literal
from topheavy.training.weeks import WEEKDAYS
from topheavy.training.weeks_planned import Flag
from topheavy.training.weeks_slots import TEST

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from topheavy.training.weeks_planned import Planned

MOST_RISE: Final = 0.10
"""Largest rise of a load from one week to the next that is not flagged [-]: the ACSM's position
stand of 2009 raises loads by 2 to 10 % (summary read)."""

USED: Final = (0.05, 0.48)
"""Least and largest accommodating share, of the best, in the studies that were read [-]: the table
of protocols in Shi et al. 2022 (read in part)."""

MOSTLY_USED: Final = (0.10, 0.35)
"""What most of them used, of the best [-]."""

MOST_WEEKS_HARD: Final = 7
"""Weeks in a row without a deload that are not flagged. 246 lifters deloaded every 5.6 weeks with a
standard deviation of 2.3 (Rogerson et al. 2024, abstract read): about eight is one above."""

HARD: Final = ("heavy", TEST)
"""Kinds of day that should not follow each other overnight: common practice, no source."""

SOURCES: Final = (
    "Rises of 2 to 10 %: American College of Sports Medicine, position stand 2009 (summary read).",
    "Shares in studies, of the best: 5 to 48 % (Shi et al. 2022, their table, read in part).",
    "A deload every 5.6 weeks, SD 2.3: a survey of 246 lifters (Rogerson et al. 2024, abstract).",
    "Two hard days in a row, loads and sets of waves and deloads: common practice, no source.",
)
"""Where the limits come from."""

_HAIR: Final = 5e-3
"""What rounding to a whole percent hides [-]."""


def check_weeks(planned: Iterable[Planned]) -> tuple[Flag, ...]:
    """Look a block over.

    Parameters
    ----------
    planned : iterable of Planned
        In the order of the calendar.

    Returns
    -------
    tuple of Flag
        By first week; one that says the same of several weeks of a lifter's lift stands once.
    """
    sessions = list(planned)
    found = [
        *_remarks(sessions),
        *_rises(sessions),
        *_shares(sessions),
        *_hard_days(sessions),
        *_no_deload(sessions),
    ]
    return merged(found)


def merged(flags: Iterable[Flag]) -> tuple[Flag, ...]:
    """Put flags of one kind, lifter and lift together, with all their weeks."""
    together: dict[tuple[object, ...], Flag] = {}
    for flag in flags:
        words = flag.phrase if flag.code in _BY_WORDS else None
        kind = "" if flag.code in _OF_ALL_KINDS else flag.kind
        key = (flag.code, flag.lifter, flag.lift, kind, words)
        had = together.get(key)
        weeks = flag.weeks if had is None else tuple(sorted({*had.weeks, *flag.weeks}))
        together[key] = replace(had or flag, weeks=weeks)
    return tuple(sorted(together.values(), key=lambda flag: flag.weeks))


_BY_WORDS: Final = {"stock", "nearest", "rise", "hard days", "idle"}
_OF_ALL_KINDS: Final = {"no best", "strength", "not measured", "stock", "nearest"}


def _remarks(sessions: list[Planned]) -> Iterator[Flag]:
    """What session, stock and plates say of themselves."""
    for one in sessions:
        own = [] if one.session is None else list(one.session.remarks)
        # A deload is meant to be lighter, and a matched rig's loads are shares of strength.
        meant = one.slot.deload or one.slot.match
        kept = [remark for remark in own if not (meant and remark.code == "outside")]
        for remark in (*one.remarks, *kept):
            yield _flag(one, remark.code, remark.phrase)


def _rises(sessions: list[Planned]) -> Iterator[Flag]:
    last: dict[tuple[str, str, str], tuple[int, float]] = {}
    for one in sessions:
        slot = one.slot
        if one.loads is None or slot.deload or slot.kind == TEST:
            continue
        key = (slot.lifter, slot.lift, slot.kind)
        load_kg = one.loads.mean_kg
        week, before_kg = last.get(key, (slot.week, load_kg))
        last[key] = (slot.week, load_kg)
        rise = load_kg / before_kg - 1
        if rise > MOST_RISE + _HAIR:
            yield _flag(
                one,
                "rise",
                Phrase(
                    f"The mean load goes from {{}} to {{}}, up "
                    f"{100 * rise:.0f} % since week {week}. Small steps are 2 to 10 %.",
                    (Amount(before_kg, "mass"), Amount(load_kg, "mass")),
                ),
            )


def _shares(sessions: list[Planned]) -> Iterator[Flag]:
    for one in sessions:
        share = one.share_of_best
        if share is None or not one.rig or one.slot.deload:
            continue
        least, most = MOSTLY_USED
        if least - _HAIR <= share <= most + _HAIR:
            continue
        beyond = not USED[0] - _HAIR <= share <= USED[1] + _HAIR
        said = "no study read used" if beyond else "few studies used"
        yield _flag(
            one,
            "share",
            Phrase(
                f"{100 * share:.0f} % of the best comes on by the "
                f"top, which {said}: mostly {100 * least:.0f} to {100 * most:.0f} %, "
                f"{100 * USED[0]:.0f} and {100 * USED[1]:.0f} % at the ends (Shi et al. 2022)."
            ),
        )


def _hard_days(sessions: list[Planned]) -> Iterator[Flag]:
    last: dict[str, Planned] = {}
    for one in sessions:
        slot = one.slot
        if slot.kind not in HARD or slot.deload:
            continue
        before = last.get(slot.lifter)
        last[slot.lifter] = one
        if before is None or _day(one) - _day(before) != 1:
            continue
        pair = f"{WEEKDAYS[before.slot.weekday].capitalize()} ({before.slot.lift})"
        pair += f" and {WEEKDAYS[slot.weekday].capitalize()} ({slot.lift})"
        words = Phrase(f"{literal(pair)} are two hard days in a row. Put a day between them.")
        yield Flag(code="hard days", lifter=slot.lifter, lift="", weeks=(slot.week,), phrase=words)


def _day(one: Planned) -> int:
    return 7 * one.slot.week + one.slot.weekday


def _no_deload(sessions: list[Planned]) -> Iterator[Flag]:
    by_lifter: dict[str, dict[int, bool]] = {}
    for one in sessions:
        weeks = by_lifter.setdefault(one.slot.lifter, {})
        easy = one.slot.deload or one.slot.kind == TEST
        weeks[one.slot.week] = weeks.get(one.slot.week, True) and easy
    for lifter, weeks in by_lifter.items():
        row: list[int] = []
        for week in range(1, max(weeks) + 2):
            if week in weeks and not weeks[week]:
                row.append(week)
                continue
            if len(row) > MOST_WEEKS_HARD:
                words = Phrase(
                    f"{len(row)} weeks in a row without a deload, week {row[0]} to {row[-1]}. "
                    "Lifters in a survey had one every 5.6 weeks, give or take 2.3 (Rogerson et "
                    "al. 2024)."
                )
                yield Flag(code="no deload", lifter=lifter, lift="", weeks=tuple(row), phrase=words)
            row = []


def _flag(one: Planned, code: str, phrase: Phrase) -> Flag:
    slot = one.slot
    return Flag(
        code=code,
        lifter=slot.lifter,
        lift=slot.lift,
        kind=slot.kind,
        weeks=(slot.week,),
        phrase=phrase,
    )
