"""The repetition table known by the name of A. S. Prilepin.

Hristov H., How to design strength training programs using Prilepin's table, 2005 (an article on
the web). Seen: read in part, in four copies. The Soviet original was not seen. The copies agree on
every number and differ at the edges: one prints "70% and below, 70-80%, 80-89%, 90% and above", the
others "<70%, 70-79%, 80-89%, >89%".
"""

from __future__ import annotations

import pytest

from topheavy.training.volume import ZONES, check_volume, zone_of

PRINTED = (
    (0.65, (3, 6), 24, (18, 30)),
    (0.75, (3, 6), 18, (12, 24)),
    (0.85, (2, 4), 15, (10, 20)),
    (0.95, (1, 2), 7, (4, 10)),
)


@pytest.mark.parametrize(("share", "set_reps", "optimal", "total"), PRINTED)
def test_rows(
    share: float, set_reps: tuple[int, int], optimal: int, total: tuple[int, int]
) -> None:
    """Load, reps a set, optimal, total range; exact."""
    zone = zone_of(share)
    assert (zone.set_reps, zone.best_total, zone.total) == (set_reps, optimal, total)
    assert len(ZONES) == len(PRINTED)


def test_the_worked_case_of_the_article() -> None:
    """At 75 %: sets of 3 to 6, 12 to 24 in all, 18 optimal; fewer is too little, more too much."""
    assert check_volume(0.75, sets=3, reps=6).within
    assert check_volume(0.75, sets=2, reps=5).total_verdict == "few"
    assert check_volume(0.75, sets=5, reps=5).total_verdict == "many"


def test_edges_as_most_copies_print_them() -> None:
    """Where 70-79, 80-89 and >89 % are printed, 70, 80 and 90 % belong to the heavier row."""
    names = [zone_of(share).best_total for share in (0.699, 0.70, 0.79, 0.80, 0.89, 0.90)]
    assert names == [24, 18, 18, 15, 15, 7]
