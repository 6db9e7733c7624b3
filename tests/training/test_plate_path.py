"""Plates from set to set: cases seen through by hand, limits, and bad input."""

from __future__ import annotations

import pytest

from tests.training.stacks import plate
from topheavy.errors import BadInputError, NotInStockError
from topheavy.training import plate_tree
from topheavy.training.plate_path import Window, plate_path
from topheavy.training.plate_tree import grow_tree


def just(*weights_kg: float) -> list[Window]:
    """Windows for these weights and no other."""
    return [Window(low_kg=kg, wanted_kg=kg, high_kg=kg) for kg in weights_kg]


def around(*weights_kg: float, by_kg: float = 3.0) -> list[Window]:
    """Windows around these weights."""
    return [Window(low_kg=kg - by_kg, wanted_kg=kg, high_kg=kg + by_kg) for kg in weights_kg]


def test_a_stack_that_stays_is_kept_under_what_comes_and_goes() -> None:
    """60, 65, 70: the twenty stays, the 2.5 goes for a 5."""
    owned = (plate(20, 2), plate(5, 2), plate(2.5, 2))
    path = plate_path(owned, 0.4, 20.0, just(60.0, 65.0, 70.0))
    assert [[p.mass_kg for p in stop.stack] for stop in path.stops] == [[20], [20, 2.5], [20, 5]]
    assert [p.mass_kg for p in path.stops[2].off] == [2.5]
    assert [p.mass_kg for p in path.stops[2].on] == [5]
    assert path.handled == 2 * (1 + 1 + 2)


def test_what_lies_outside_comes_off_first_and_goes_on_last() -> None:
    """70 is 20 + 5, and 90 needs the ten under the five."""
    owned = (plate(20, 2), plate(10, 2), plate(5, 2))
    path = plate_path(owned, 0.4, 20.0, just(70.0, 90.0))
    last = path.stops[1]
    assert [p.mass_kg for p in last.off] == [5]
    assert [p.mass_kg for p in last.on] == [10, 5]


def test_two_tens_may_serve_where_a_twenty_would_cost_more() -> None:
    """40 then 60: leaving the ten on and adding the other is one move, not three."""
    owned = (plate(20, 2), plate(10, 4))
    path = plate_path(owned, 0.4, 20.0, just(40.0, 60.0))
    assert [p.mass_kg for p in path.stops[1].stack] == [10, 10]


def test_the_same_weight_again_moves_nothing() -> None:
    path = plate_path((plate(10, 2),), 0.4, 20.0, just(40.0, 40.0))
    assert path.stops[1].handled == 0


def test_handling_is_weighed_against_the_miss() -> None:
    """Two and a half a side more is worth a pair of plates where a pair costs less than 5 kg."""
    owned = (plate(20, 2), plate(2.5, 2))
    cheap = plate_path(owned, 0.4, 20.0, around(65.0, by_kg=6.0), price_kg=0.5)
    dear = plate_path(owned, 0.4, 20.0, around(65.0, by_kg=6.0), price_kg=3.0)
    assert cheap.stops[0].straight_kg == 65.0
    assert dear.stops[0].straight_kg == 60.0
    assert dear.cost_kg == pytest.approx(5.0 + 2 * 3.0)


def test_micro_plates_are_used_where_owned() -> None:
    owned = (plate(20, 2), plate(0.25, 2, width_m=0.006))
    path = plate_path(owned, 0.4, 20.0, just(60.5))
    assert [p.mass_kg for p in path.stops[0].stack] == [20, 0.25]


def test_an_odd_plate_stays_on_the_rack() -> None:
    with pytest.raises(NotInStockError):
        plate_path((plate(20, 3),), 0.4, 20.0, just(100.0))


def test_the_sleeve_has_an_end() -> None:
    owned = (plate(20, 4, width_m=0.05),)
    assert plate_path(owned, 0.1, 20.0, just(100.0)).stops[0].straight_kg == 100.0
    with pytest.raises(NotInStockError) as caught:
        plate_path(owned, 0.09, 20.0, just(100.0))
    assert caught.value.wanted == "60 kg, the nearest they make"


def test_plates_of_one_mass_may_stand_in_either_order() -> None:
    """Thick and thin tens: the thick one needs to be inside only when it went on first."""
    owned = (plate(10, 2, width_m=0.02), plate(10, 2, width_m=0.06))
    assert grow_tree(owned, 0.1, 50.0).size == 5


MANY = tuple(plate(kg, 4, width_m=0.01) for kg in (20, 10, 5, 2.5, 1.25))


def test_too_many_stacks_are_cut_off_and_said_to_be(monkeypatch: pytest.MonkeyPatch) -> None:
    """With short stacks alone, a dear path may have a taller, cheaper rival."""
    monkeypatch.setattr(plate_tree, "MOST_STACKS", 12)
    tree = grow_tree(MANY, 0.4, 100.0)
    assert not tree.whole
    assert tree.full_depth == tree.depth == 1
    assert plate_path(MANY, 0.4, 20.0, around(60.0)).exact
    assert not plate_path(MANY, 0.4, 20.0, around(57.0, by_kg=6.0), price_kg=0.1).exact


def test_what_can_be_loaded_is_loaded_however_many_stacks_there_are(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """38.75 kg a side is 20 + 10 + 5 + 2.5 + 1.25, five floors up; 1 kg a side is nothing."""
    monkeypatch.setattr(plate_tree, "MOST_STACKS", 12)
    path = plate_path(MANY, 0.4, 20.0, just(60.0, 97.5))
    assert [p.mass_kg for p in path.stops[1].stack] == [20, 10, 5, 2.5, 1.25]
    assert not path.exact
    with pytest.raises(NotInStockError):
        plate_path(MANY, 0.4, 20.0, just(60.0, 22.0))


@pytest.mark.parametrize("most", [12, 40, 200])
def test_a_cut_tree_is_never_better_and_always_possible(
    monkeypatch: pytest.MonkeyPatch, most: int
) -> None:
    windows = around(45.0, 62.0, 80.0, by_kg=4.0) + just(97.5)
    whole = plate_path(MANY, 0.4, 20.0, windows)
    monkeypatch.setattr(plate_tree, "MOST_STACKS", most)
    cut = plate_path(MANY, 0.4, 20.0, windows)
    assert whole.exact
    assert cut.cost_kg >= whole.cost_kg - 1e-9
    told_kg = sum(0.5 * stop.handled + stop.miss_kg for stop in cut.stops)
    assert cut.cost_kg == pytest.approx(told_kg)


def test_no_set_is_no_question() -> None:
    with pytest.raises(BadInputError, match="No set"):
        plate_path((), 0.4, 20.0, [])


@pytest.mark.parametrize(
    ("room_m", "bar_kg", "price_kg"), [(-0.1, 20.0, 0.5), (0.4, -1.0, 0.5), (0.4, 20.0, -0.5)]
)
def test_numbers_below_nothing(room_m: float, bar_kg: float, price_kg: float) -> None:
    with pytest.raises(BadInputError):
        plate_path((), room_m, bar_kg, just(20.0), price_kg=price_kg)


def test_a_window_holds_what_is_wanted() -> None:
    with pytest.raises(BadInputError, match="window"):
        Window(low_kg=50.0, wanted_kg=60.0, high_kg=55.0)
    with pytest.raises(BadInputError):
        Window(low_kg=float("nan"), wanted_kg=60.0, high_kg=65.0)
