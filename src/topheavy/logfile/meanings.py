"""What the columns of a log file can mean."""

from __future__ import annotations

import difflib
import re
from dataclasses import dataclass
from typing import Final, Literal

from topheavy.errors import BadInputError

Kind = Literal["text", "day", "time", "mass", "speed", "count", "number", "yes", "third", "curve"]


@dataclass(frozen=True, slots=True)
class Meaning:
    """What a column can mean.

    Parameters
    ----------
    word : str
        What it is called here.
    kind : str
        What its cells are.
    says : str
        In a few words.
    also : tuple of str
        Other headers that are taken for it.
    unit : str
        Unit in exported files; empty for none.
    """

    word: str
    kind: Kind
    says: str
    also: tuple[str, ...] = ()
    unit: str = ""


MEANINGS: Final = {
    meaning.word: meaning
    for meaning in (
        Meaning("day", "day", "the day", ("date",)),
        Meaning("time", "time", "hour:minute in the gym", ("hour", "clock")),
        Meaning("lifter", "text", "who lifted", ("name", "athlete", "who")),
        Meaning("lift", "text", "the lift", ("exercise", "movement")),
        Meaning("station", "text", "bench, rack or platform", ("where", "place")),
        Meaning("session", "text", "what sets of one session share", ("workout", "training")),
        Meaning("set", "count", "which set of the session", ("set number", "set no", "no")),
        Meaning(
            "straight",
            "mass",
            "bar, collars and plates",
            ("straight weight", "weight", "load", "mass", "bar and plates"),
            "kg",
        ),
        Meaning("bottom", "mass", "all on the bar at the bottom", ("load at bottom",), "kg"),
        Meaning("mean", "mass", "its mean over the way up", ("mean load",), "kg"),
        Meaning("top", "mass", "all on the bar at the top", ("load at top", "lockout"), "kg"),
        Meaning("rig", "text", "what hung, in words", ("chain", "bands", "hung")),
        Meaning("reps", "count", "repetitions done", ("repetitions", "rep")),
        Meaning(
            "reps left", "number", "repetitions that were left", ("left", "in reserve", "reserve")
        ),
        Meaning(
            "bar speed", "speed", "mean on the way up", ("speed", "mean speed", "velocity"), "m/s"
        ),
        Meaning("missed", "yes", "ended with a miss", ("miss", "failed", "fail")),
        Meaning(
            "third", "third", "where it stopped: lower, middle, top", ("stopped", "stopped at")
        ),
        Meaning("note", "text", "whatever else", ("notes", "comment", "comments", "remark")),
        Meaning("by", "text", "who logged it", ("logged by",)),
        Meaning("id", "text", "the set's own id", ("uuid",)),
        Meaning("corrects", "text", "id of the set it stands for"),
        Meaning("struck", "yes", "the set it corrects never happened"),
        Meaning("curve", "curve", "height=load of what hung, in m and kg"),
    )
}
"""Meanings by word, in the order of exported files."""

NEEDED: Final = ("day", "lifter", "lift", "straight", "reps")
"""What every set has."""

IGNORE: Final = "-"
"""What a column is mapped to that means nothing here."""

_UNIT: Final = re.compile(
    r"[(\[]\s*([^()\[\]]*?)\s*[)\]]|,\s*(kg|lbs?|m/s|cm/s)\s*$", re.IGNORECASE
)


def split_header(header: str) -> tuple[str, str]:
    """Split a header into its words and its unit.

    >>> split_header("Weight (LB)"), split_header("bar_speed")
    (('weight', 'lb'), ('bar speed', ''))
    """
    found = _UNIT.search(header)
    unit = (found[1] or found[2] or "").lower() if found else ""
    words = _UNIT.sub(" ", header).replace("_", " ").replace(".", " ").lower()
    return " ".join(words.split()), "lb" if unit in {"lbs", "pounds", "pound"} else unit


def meaning_of(header: str) -> Meaning | None:
    """Guess what a header means; None when it is none that is known.

    >>> found = meaning_of("Straight weight [kg]")
    >>> found.word if found else None
    'straight'
    """
    words, _ = split_header(header)
    for meaning in MEANINGS.values():
        if words == meaning.word or words in meaning.also:
            return meaning
    return None


def meaning_named(word: str, field: str) -> Meaning | None:
    """Find a meaning by its word, None for `IGNORE`, or say which there are."""
    known = word.strip().lower().replace("_", " ").replace("-", " ").strip()
    if word.strip() == IGNORE:
        return None
    if known in MEANINGS:
        return MEANINGS[known]
    near = difflib.get_close_matches(known, MEANINGS, n=1)
    raise BadInputError(
        "No column can mean that",
        field=field,
        got=repr(word),
        wanted=(f"{near[0]}? Known: " if near else "one of ")
        + ", ".join(MEANINGS)
        + f"; {IGNORE} for nothing",
    )
