"""A block as planned: its waves, days and limits."""

from __future__ import annotations

from typing import Any

import pytest

from tests.training.blocks import block
from topheavy.errors import BadInputError
from topheavy.training.weeks import Wave


@pytest.mark.parametrize(
    ("given", "field"),
    [
        ({"weeks": 0}, "weeks"),
        ({"weeks": 5}, "weeks"),
        ({"weeks": 1, "deload": True}, "deload"),
        ({"weeks": 3, "share": (0.1, 0.2)}, "share"),
        ({"weeks": 3, "loads": {"heavy": (0.8, 0.9)}}, "heavy"),
        ({"weeks": 3, "loads": {"speed": ()}}, "speed"),
    ],
)
def test_what_makes_no_wave(given: dict[str, Any], field: str) -> None:
    with pytest.raises(BadInputError) as told:
        Wave(hang="chain", **given)
    assert told.value.field == field


def test_a_deload_may_be_left_out_of_the_loads() -> None:
    Wave(hang="chain", weeks=3, loads={"heavy": (0.8, 0.9)}, deload=True)


def test_a_share_for_each_week_or_one_for_all() -> None:
    assert [Wave(hang="chain", weeks=2, share=(0.1, 0.2)).share_in(w) for w in (0, 1)] == [0.1, 0.2]
    assert Wave(hang="chain", weeks=2, share=(0.1,)).share_in(1) == 0.1


def test_weeks_are_counted_with_the_test() -> None:
    assert block(waves=(Wave(hang="chain", weeks=3),)).weeks == 4
    assert block(waves=(Wave(hang="chain", weeks=3),), test_week=False).weeks == 3


def test_no_block_without_weeks_or_longer_than_a_year() -> None:
    with pytest.raises(BadInputError):
        block(waves=(), test_week=False)
    with pytest.raises(BadInputError):
        block(waves=(Wave(hang="chain", weeks=4),) * 13)
