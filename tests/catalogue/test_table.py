"""The published tables as data."""

from __future__ import annotations

import pytest

from topheavy.catalogue.table import all_rows, find_rows, plain_grade, size_names
from topheavy.errors import BadInputError, NotInStockError


def test_every_row_names_its_source_and_is_a_possible_link() -> None:
    for row in all_rows():
        assert row.how_seen, row.name
        assert row.wire_diameter_m > 0, row.name
        if row.pitch_m is not None:
            assert 2.5 < row.pitch_m / row.wire_diameter_m < 12, row.name
        if row.inside_width_m is not None:
            assert 1.1 < row.inside_width_m / row.wire_diameter_m <= 2.0, row.name


def test_the_table_is_read_once() -> None:
    assert all_rows() is all_rows()


def test_trade_sizes_agree_with_the_wire_to_the_next_size() -> None:
    for row in all_rows():
        assert abs(row.wire_diameter_m - row.trade_size_m) < 1.1e-3, row.name


@pytest.mark.parametrize("word", ["DIN 764", "din764", " Din-764 "])
def test_a_standard_is_found_however_it_is_written(word: str) -> None:
    assert {row.short_standard for row in find_rows(standard=word)} == {"DIN 764"}


def test_a_wire_finds_its_neighbours_in_size() -> None:
    found = find_rows(grade="30", wire_diameter_m=0.0159)
    assert {row.wire_diameter_m for row in found} == {0.016}
    assert len({row.short_standard for row in found}) >= 4


def test_a_double_grade_is_found_by_either() -> None:
    for grade in ("30", "50"):
        assert find_rows(standard="DIN 764", grade=grade)


@pytest.mark.parametrize(
    ("mark", "grade"),
    [("Grade 43", "43"), ("g70", "70"), ("300", "30"), ("8", "80"), ("4", "4"), ("", "")],
)
def test_marks_on_links_read_as_grades(mark: str, grade: str) -> None:
    assert plain_grade(mark) == grade


@pytest.mark.parametrize(
    ("asked", "field", "listed"),
    [
        ({"standard": "no such"}, "standard", "DIN 766"),
        ({"grade": "99"}, "grade", "43"),
        ({"standard": "DIN 764", "grade": "80"}, "grade", "30, 50"),
    ],
)
def test_what_is_unknown_is_answered_with_what_is_known(
    asked: dict[str, str], field: str, listed: str
) -> None:
    with pytest.raises(NotInStockError) as error:
        find_rows(standard=asked.get("standard", ""), grade=asked.get("grade", ""))
    assert error.value.field == field
    assert listed in str(error.value.wanted)


def test_unknown_sizes_and_wires_list_the_sizes() -> None:
    with pytest.raises(NotInStockError, match="26 mm"):
        find_rows(standard="DIN 764", trade_size_m=0.017)
    with pytest.raises(NotInStockError, match="26 mm"):
        find_rows(standard="DIN 764", wire_diameter_m=0.5)
    with pytest.raises(BadInputError):
        find_rows(wire_diameter_m=-0.01)


def test_sizes_are_listed_once_inches_first_and_in_order() -> None:
    names = size_names(all_rows())
    assert len(names) == len(set(names))
    assert names[0] == "3/16 in"
    assert names.index("1 in") < names.index("2 mm") < names.index("26 mm")
