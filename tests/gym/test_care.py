"""Inspections and weighings of a piece: what counts, and what never heals."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from topheavy.errors import BadInputError
from topheavy.gym.care import ON_SIGHT, Inspection, Weighing, by_day, retired_by

DAYS = st.dates().map(lambda day: day.isoformat())
SHARES = st.none() | st.floats(0, 0.2)
INSPECTIONS = st.builds(
    Inspection, day=DAYS, pitch_growth=SHARES, lost_section=SHARES, found=st.just(())
)


@pytest.mark.parametrize("word", ON_SIGHT)
def test_anything_on_sight_retires_for_good(word: str) -> None:
    seen = Inspection(day="2025-09-01", found=(word,))
    clean = Inspection(day="2026-09-01", pitch_growth=0.0, lost_section=0.0)
    assert retired_by([seen]) == f"{ON_SIGHT[word]}, seen 2025-09-01"
    assert retired_by([clean, seen]) == retired_by([seen])


def test_of_readings_the_newest_counts_each_by_itself() -> None:
    long = Inspection(day="2025-01-01", pitch_growth=0.035)
    thin = Inspection(day="2025-06-01", lost_section=0.02)
    assert retired_by([long, thin]) == "pitch 3.5 % over, the limit is 3 %"
    finer = Inspection(day="2025-06-02", pitch_growth=0.021)
    assert retired_by([finer, long, thin]) == ""


@given(st.lists(INSPECTIONS, max_size=6), st.randoms(use_true_random=False))
def test_the_order_of_writing_does_not_matter_unless_on_one_day(
    some: list[Inspection], chance: object
) -> None:
    single = list({one.day: one for one in some}.values())
    mixed = sorted(single, key=lambda one: hash((one.day, str(chance))))
    assert retired_by(mixed) == retired_by(single)


@given(st.lists(INSPECTIONS, max_size=6), st.floats(0.03, 0.2))
def test_a_newest_reading_at_the_limit_always_retires(
    some: list[Inspection], growth: float
) -> None:
    assert retired_by([*some, Inspection(day="9999-12-31", pitch_growth=growth)]) != ""


def test_entries_without_a_day_are_the_oldest() -> None:
    undated = Weighing(mass_kg=9.6, scale_u_kg=0.05)
    dated = Weighing(day="2020-01-01", mass_kg=9.5, scale_u_kg=0.05)
    assert by_day([dated, undated]) == (undated, dated)


@pytest.mark.parametrize(
    "wrong",
    [
        {"day": "2026-02-30"},
        {"pitch_growth": -0.01},
        {"lost_section": float("nan")},
        {"found": ("rust",)},
    ],
)
def test_what_is_no_inspection_is_refused(wrong: dict[str, object]) -> None:
    with pytest.raises(BadInputError):
        Inspection(**wrong)  # type: ignore[arg-type]


def test_what_is_no_weighing_is_refused() -> None:
    for mass_kg, scale_u_kg in ((0.0, 0.05), (9.6, 0.0)):
        with pytest.raises(BadInputError):
            Weighing(mass_kg=mass_kg, scale_u_kg=scale_u_kg)
