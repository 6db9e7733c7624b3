"""The coach's words become loads at bottom and top; nonsense is refused with its field."""

from __future__ import annotations

import math
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from topheavy.errors import BadInputError
from topheavy.rigging.target import Ask, Base, Target, share_of


@pytest.mark.parametrize(
    ("words", "bottom_kg", "top_kg"),
    [
        ({"bottom_kg": 80, "top_kg": 110}, 80, 110),
        ({"straight_kg": 80, "top_kg": 110}, 80, 110),
        ({"bottom_kg": 85, "straight_kg": 80, "top_kg": 110}, 85, 110),
        ({"bottom_kg": 80, "mean_kg": 95}, 80, 110),
        ({"straight_kg": 80, "mean_kg": 95}, 80, 110),
        ({"top_kg": 110, "mean_kg": 95}, 80, 110),
        ({"bottom_kg": 75, "chain_share": 0.25}, 75, 100),
        ({"straight_kg": 75, "chain_share": 0.25}, 75, 100),
        ({"top_kg": 100, "chain_share": 0.25}, 75, 100),
        ({"mean_kg": 87.5, "chain_share": 0.25}, 75, 100),
        ({"bottom_kg": 80, "chain_share": 0.25, "base": "bottom"}, 80, 100),
        ({"top_kg": 100, "chain_share": 0.25, "base": "bottom"}, 80, 100),
        ({"mean_kg": 90, "chain_share": 0.25, "base": "bottom"}, 80, 100),
        ({"bottom_kg": 80, "chain_share": 0.2, "base": "best", "best_kg": 150}, 80, 110),
        ({"top_kg": 110, "chain_share": 0.2, "base": "best", "best_kg": 150}, 80, 110),
        ({"mean_kg": 95, "chain_share": 0.2, "base": "best", "best_kg": 150}, 80, 110),
    ],
)
def test_any_two_of_bottom_top_mean_and_share(
    words: dict[str, Any], bottom_kg: float, top_kg: float
) -> None:
    assert Ask(**words).ends_kg() == pytest.approx((bottom_kg, top_kg))


@pytest.mark.parametrize(
    ("words", "field"),
    [
        ({}, "target"),
        ({"top_kg": 100}, "target"),
        ({"bottom_kg": 80, "top_kg": 110, "mean_kg": 95}, "target"),
        ({"bottom_kg": 80, "top_kg": 110, "chain_share": 0.2}, "target"),
        ({"bottom_kg": 110, "top_kg": 80}, "target"),
        ({"bottom_kg": 80, "top_kg": 80}, "target"),
        ({"bottom_kg": 80, "mean_kg": 70}, "target"),
        ({"top_kg": 100, "mean_kg": 40}, "target"),
        ({"top_kg": 20, "chain_share": 0.5, "base": "best", "best_kg": 100}, "target"),
        ({"top_kg": 100, "chain_share": 0.0}, "chain"),
        ({"top_kg": 100, "chain_share": 1.0}, "chain"),
        ({"top_kg": 100, "chain_share": -0.2}, "chain"),
        ({"top_kg": 100, "chain_share": math.nan}, "chain"),
        ({"top_kg": 100, "chain_share": 0.2, "base": "best"}, "best"),
    ],
)
def test_too_little_too_much_or_nonsense_is_refused(words: dict[str, Any], field: str) -> None:
    with pytest.raises(BadInputError) as caught:
        Ask(**words).ends_kg()
    assert caught.value.field == field


@given(
    share=st.floats(0.01, 0.95),
    base=st.sampled_from(["top", "bottom", "best"]),
    top_kg=st.floats(20, 400),
    given_as=st.sampled_from(["bottom_kg", "top_kg", "mean_kg"]),
)
def test_the_share_asked_for_is_the_share_read(
    share: float, base: Base, top_kg: float, given_as: str
) -> None:
    """`share_of` undoes `ends_kg`, whichever load was said and whatever the base."""
    words: dict[str, Any] = {given_as: top_kg}
    ask = Ask(chain_share=share, base=base, best_kg=0.5 * top_kg, **words)
    bottom_kg, above_kg = ask.ends_kg()
    assert share_of(bottom_kg, above_kg, base, 0.5 * top_kg) == pytest.approx(share, abs=1e-9)


@pytest.mark.parametrize("base", ["top", "bottom", "best"])
def test_no_share_of_nothing(base: Base) -> None:
    with pytest.raises(BadInputError) as caught:
        share_of(0.0, 0.0, base)
    assert caught.value.field == base


@pytest.mark.parametrize(
    ("wrong", "field"),
    [
        ({"loads_kg": (60.0,)}, "target"),
        ({"heights_m": (), "loads_kg": ()}, "target"),
        ({"heights_m": (1.2, 0.75)}, "target"),
        ({"heights_m": (0.75, 0.75)}, "target"),
        ({"heights_m": (0.75, math.nan)}, "target"),
        ({"heights_m": (0.75, math.inf)}, "target"),
        ({"loads_kg": (-1.0, 80.0)}, "load"),
        ({"loads_kg": (math.nan, 80.0)}, "load"),
        ({"mean_kg": -1.0}, "load"),
        ({"straight_weight_kg": -1.0}, "load"),
        ({"links_down": -1}, "links down"),
        ({"links_down": 1, "all_clear": True}, "links down"),
    ],
)
def test_a_target_without_sense_is_refused(wrong: dict[str, Any], field: str) -> None:
    with pytest.raises(BadInputError) as caught:
        Target(**({"heights_m": (0.75, 1.2), "loads_kg": (60.0, 80.0)} | wrong))
    assert caught.value.field == field


def test_a_mean_alone_is_an_aim() -> None:
    assert Target(heights_m=(), loads_kg=(), mean_kg=80.0).mean_kg == 80.0


def limits(**other: object) -> Target:
    words: dict[str, object] = {"heights_m": (0.7, 1.1), "loads_kg": (80.0, 100.0), **other}
    return Target(**words)  # type: ignore[arg-type]


def test_loads_are_limits_when_it_says_what_counts_as_a_kilogram_of_miss() -> None:
    assert limits(under_per_kg=(1.0, 1.3)).never_over
    assert not limits().never_over


@pytest.mark.parametrize(
    "words",
    [
        {"under_per_kg": (1.0,)},
        {"under_per_kg": (1.0, 0.0)},
        {"under_per_kg": (1.0, float("nan"))},
        {"under_per_kg": (1.0, 1.0), "mean_kg": 90.0},
        {"heights_m": (0.7,), "loads_kg": (80.0,), "under_per_kg": (1.0,)},
    ],
)
def test_limits_that_cannot_be_kept_apart_are_refused(words: dict[str, object]) -> None:
    with pytest.raises(BadInputError):
        limits(**words)
