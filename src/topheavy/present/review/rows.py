"""Rows of a review: what a log says of one lifter in one lift, as frozen values."""

from __future__ import annotations

from dataclasses import dataclass

from topheavy.present.figure import Figure  # noqa: TC001 - the API's description reads the fields


@dataclass(frozen=True, slots=True, kw_only=True)
class WorkRow:
    """Work done on one day; `raising` and `lowering` are None where no heights are known.

    `basis` says what the work was reckoned from; `unknown` counts sets that are not in it.
    """

    day: str
    sets: int
    reps: int
    raising: Figure | None
    lowering: Figure | None
    basis: str
    unknown: int


@dataclass(frozen=True, slots=True, kw_only=True)
class BestRow:
    """The best set with one rig, and the straight single that it stands for.

    95 of 100 readings of it lie between `low` and `high`. `told` is False where nobody noted how
    many repetitions were left: then it stands for that much at least.
    """

    rig: str
    hung: bool
    day: str
    lifted: str
    equals: Figure
    low: Figure
    high: Figure
    told: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class PointRow:
    """A day of the trend: its best set as a straight single, with its range as in `BestRow`."""

    day: str
    equals: Figure
    low: Figure
    high: Figure
    lifted: str
    hung: bool
    rig: str


@dataclass(frozen=True, slots=True, kw_only=True)
class TrendRow:
    """The line through the days, and what it may be called.

    `verdict` is up, down, level, unsure or few. `first` and `last` are the line's ends; what stays
    between `band_low` and `band_high` is within the noise of a single. None where days are few.
    """

    verdict: str
    words: str
    first_day: str
    last_day: str
    noise: Figure
    first: Figure | None = None
    last: Figure | None = None
    band_low: Figure | None = None
    band_high: Figure | None = None
    per_week: Figure | None = None
    per_week_low: Figure | None = None
    per_week_high: Figure | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class StopRow:
    """Misses in one third of the way up: counts, and the middle load there.

    `straight` and `hung` count first repetitions without and with chain or bands, `tired` those
    missed after others. `hung_there` is what chain or bands put on the bar at `height`, of
    `hung_top` at the top.
    """

    third: str
    straight: int
    hung: int
    tired: int
    height: Figure | None
    load: Figure | None
    hung_there: Figure | None
    hung_top: Figure | None
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ShareRow:
    """What the trend was while about one share of the top load came on over the lift."""

    share: str
    first_day: str
    last_day: str
    days: int
    per_week: Figure
    low: Figure
    high: Figure


@dataclass(frozen=True, slots=True, kw_only=True)
class NextRow:
    """What to do next week, and why; loads are None where the plates can't be told."""

    kind: str
    work: str
    rig: str
    straight: Figure
    bottom: Figure | None
    mean: Figure | None
    top: Figure | None
    change: Figure
    of_best: str
    plates_a_side: str
    reasons: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class LiftReview:
    """What the log says of one lifter in one lift; `next` is None where it says too little."""

    title: str
    lifter: str
    lift: str
    sets: int
    first_day: str
    last_day: str
    work: tuple[WorkRow, ...]
    work_words: str
    bests: tuple[BestRow, ...]
    points: tuple[PointRow, ...]
    trend: TrendRow
    stops: tuple[StopRow, ...]
    stops_words: str
    shares: tuple[ShareRow, ...]
    shares_words: str
    next: NextRow | None
    remarks: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ReviewView:
    """Everything a coach sees of a review, of one lifter or of all."""

    title: str
    gym: str
    since: str
    until: str
    mass_unit: str
    lifts: tuple[LiftReview, ...]
    quiet: tuple[str, ...]
    sources: tuple[str, ...]
    cautions: tuple[str, ...]
    promise: str
