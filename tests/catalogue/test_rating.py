"""Working load limits."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from topheavy.catalogue.rating import chain_rating, overhead_caution
from topheavy.errors import BadInputError


def test_an_unmarked_chain_counts_as_grade_30() -> None:
    assert chain_rating(0.016).wll_kg == chain_rating(0.016, "30").wll_kg
    assert chain_rating(0.016).counted_as == "30"
    assert "unmarked" in chain_rating(0.016).reason


@given(thin=st.floats(0.006, 0.03), more=st.floats(0.0, 0.01))
def test_thicker_chain_is_never_rated_lower(thin: float, more: float) -> None:
    low, high = chain_rating(thin).wll_kg, chain_rating(thin + more).wll_kg
    assert low is not None
    assert high is not None
    assert low <= high


def test_odd_sizes_are_rated_as_the_next_thinner() -> None:
    assert chain_rating(0.015).wll_kg == chain_rating(0.013).wll_kg


def test_worn_wire_within_three_percent_keeps_its_size() -> None:
    assert chain_rating(0.0156).wll_kg == chain_rating(0.016).wll_kg


@pytest.mark.parametrize("grade", ["40", "50", "100"])
def test_a_stronger_grade_without_a_table_counts_as_grade_30(grade: str) -> None:
    rating = chain_rating(0.013, grade)
    assert rating.wll_kg == chain_rating(0.013).wll_kg
    assert rating.counted_as == "30"


def test_an_unknown_grade_and_thin_wire_get_no_rating() -> None:
    assert chain_rating(0.013, "stainless").wll_kg is None
    assert chain_rating(0.003).wll_kg is None
    assert "thinner" in chain_rating(0.003).reason


def test_wire_of_no_thickness_is_refused() -> None:
    with pytest.raises(BadInputError):
        chain_rating(0.0)


def test_lifting_grades_carry_no_overhead_caution() -> None:
    assert overhead_caution("80") == overhead_caution("100") == ""
    assert "unmarked" in overhead_caution("")
