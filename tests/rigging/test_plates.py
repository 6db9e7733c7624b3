"""Plate totals against every pile there is."""

from __future__ import annotations

import itertools
from typing import TYPE_CHECKING

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.rigging.builders import plate
from topheavy.errors import NotInStockError
from topheavy.rigging.plates import loadings, nearest_loadings

if TYPE_CHECKING:
    from topheavy.gym.stock import Plate

MASSES_KG = (25.0, 20.0, 10.0, 5.0, 2.5, 1.25, 0.5)


def every_pile(plates: list[Plate], room_m: float) -> dict[int, int]:
    """Fewest plates a side for each total [grams] that fits."""
    fewest: dict[int, int] = {}
    for counts in itertools.product(*(range(p.count // 2 + 1) for p in plates)):
        width_m = sum(p.width_m * n for p, n in zip(plates, counts, strict=True))
        if width_m <= room_m + 1e-9:
            grams = round(2e3 * sum(p.mass_kg * n for p, n in zip(plates, counts, strict=True)))
            fewest[grams] = min(sum(counts), fewest.get(grams, 99))
    return fewest


@settings(max_examples=60, deadline=None)
@given(
    plates=st.lists(
        st.builds(
            plate,
            st.sampled_from(MASSES_KG),
            st.integers(0, 7),
            st.sampled_from([0.01, 0.02, 0.035, 0.06]),
        ),
        max_size=5,
    ),
    room_m=st.floats(0.0, 0.3),
)
def test_totals_and_fewest_plates_match_every_pile(plates: list[Plate], room_m: float) -> None:
    found = loadings(plates, room_m)
    totals_kg = [loading.total_kg for loading in found]
    assert totals_kg == sorted(totals_kg)
    assert {round(1e3 * x.total_kg): x.plates_a_side for x in found} == every_pile(plates, room_m)
    assert len(totals_kg) == len({round(1e3 * total) for total in totals_kg})
    assert all(loading.width_m <= room_m + 1e-9 for loading in found)


@pytest.mark.parametrize("count", [0, 1])
def test_a_plate_without_a_twin_stays_on_the_rack(count: int) -> None:
    assert [x.total_kg for x in loadings([plate(20, count)], 1.0)] == [0.0]


def test_an_odd_plate_stays_on_the_rack() -> None:
    assert [x.total_kg for x in loadings([plate(20, 5)], 1.0)] == [0.0, 40.0, 80.0]


def test_two_entries_of_one_mass_add_up() -> None:
    found = loadings([plate(20, 2, 0.02), plate(20, 2, 0.06)], 0.07)
    assert [x.total_kg for x in found] == [0.0, 40.0]
    assert found[1].width_m == 0.02


def test_fewest_plates_yield_where_only_thin_ones_fit() -> None:
    """A 20 of 9 cm does not fit in 7 cm, two 10s of 3 cm do."""
    found = loadings([plate(20, 2, 0.09), plate(10, 4, 0.03)], 0.07)
    assert [(x.total_kg, x.plates_a_side) for x in found] == [(0.0, 0), (20.0, 1), (40.0, 2)]


def test_thin_plates_leave_room_for_one_more() -> None:
    """In 11 cm a 5 of 4 cm fits beside two 10s of 3 cm, not beside a 20 of 9 cm."""
    found = loadings([plate(20, 2, 0.09), plate(10, 4, 0.03), plate(5, 2, 0.04)], 0.11)
    assert [(x.total_kg, x.plates_a_side) for x in found] == [
        (0.0, 0),
        (10.0, 1),
        (20.0, 1),
        (30.0, 2),
        (40.0, 1),
        (50.0, 3),
    ]


def test_a_full_rack_in_pounds_has_no_total_twice() -> None:
    """45, 35, 25, 10, 5 and 2.5 lb: totals are whole multiples of 5 lb, each there once."""
    lb = 0.45359237
    sizes = ((45, 8), (35, 2), (25, 2), (10, 4), (5, 2), (2.5, 2))
    found = loadings([plate(m * lb, n) for m, n in sizes], 1.0)
    pounds = [x.total_kg / lb for x in found]
    assert pounds == pytest.approx([5.0 * i for i in range(len(pounds))], abs=1e-9)
    assert pounds[-1] == pytest.approx(sum(m * n for m, n in sizes))


def test_a_fixed_straight_weight_is_kept_exactly() -> None:
    choices = loadings([plate(20, 2), plate(5, 2), plate(2.5, 2)], 1.0)
    assert [x.total_kg for x in nearest_loadings(choices, 20.0, 75.0)] == [55.0]


@pytest.mark.parametrize(
    ("asked_kg", "wanted"),
    [(71.0, "70 kg or 75 kg"), (66.0, "65 kg or 70 kg"), (300.0, "70 kg or 75 kg")],
)
def test_a_straight_weight_off_the_plates_names_the_nearest(asked_kg: float, wanted: str) -> None:
    choices = loadings([plate(20, 2), plate(5, 2), plate(2.5, 2)], 1.0)
    with pytest.raises(NotInStockError) as caught:
        nearest_loadings(choices, 20.0, asked_kg)
    assert caught.value.field == "straight weight"
    assert str(caught.value.wanted).startswith(wanted)


def test_with_no_plates_the_bar_alone_is_named() -> None:
    with pytest.raises(NotInStockError) as caught:
        nearest_loadings(loadings([], 1.0), 20.0, 60.0)
    assert str(caught.value.wanted).startswith("20 kg,")
