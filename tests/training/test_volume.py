"""The repetition table as a check."""

from __future__ import annotations

import itertools

import pytest

from topheavy.errors import BadInputError
from topheavy.training.volume import ZONES, check_volume, zone_of


def test_the_rows_meet_without_gap() -> None:
    assert all(a.high == b.low for a, b in itertools.pairwise(ZONES))


@pytest.mark.parametrize("edge", [0.7, 0.8, 0.9])
def test_an_edge_belongs_to_the_heavier_row(edge: float) -> None:
    assert zone_of(edge).low == edge
    assert zone_of(edge - 1e-6).high == edge


def test_the_heavier_the_fewer() -> None:
    totals = [zone.best_total for zone in ZONES]
    assert totals == sorted(totals, reverse=True)


@pytest.mark.parametrize(
    ("sets", "reps", "verdicts"),
    [
        (5, 3, ("within", "within")),
        (1, 5, ("many", "few")),
        (12, 1, ("few", "within")),
        (8, 3, ("within", "many")),
    ],
)
def test_verdicts_at_85_percent(sets: int, reps: int, verdicts: tuple[str, str]) -> None:
    check = check_volume(0.85, sets, reps)
    assert (check.set_verdict, check.total_verdict) == verdicts
    assert check.within == (verdicts == ("within", "within"))


@pytest.mark.parametrize(("share", "sets", "reps"), [(0.0, 5, 3), (0.8, 0, 3), (0.8, 5, -1)])
def test_nothing_to_check(share: float, sets: int, reps: int) -> None:
    with pytest.raises(BadInputError):
        check_volume(share, sets, reps)
