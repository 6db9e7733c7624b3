"""From a size name to a chain."""

from __future__ import annotations

import pytest

from topheavy.catalogue.sizes import (
    NAMED_STANDARD_U,
    SIZE_NAME_U,
    chain_of_size,
    density_of_row,
    rows_of_size,
    twin_of,
)
from topheavy.catalogue.table import all_rows, find_rows, size_names
from topheavy.errors import BadInputError, NotInStockError


def test_working_chain_has_its_twin_in_din_764() -> None:
    chain = chain_of_size("5/8 in")
    assert (chain.wire_diameter_m, chain.pitch_m) == (0.016, 0.056)
    assert chain.density_kg_per_m == 5.3
    assert chain.density_u_kg_per_m == pytest.approx(SIZE_NAME_U * 5.3)
    assert chain.row.grade == "30"


@pytest.mark.parametrize("word", ["5/8", "5/8 in", '5/8"', "0.625 in", " 5/8  IN "])
def test_one_size_however_it_is_written(word: str) -> None:
    assert chain_of_size(word).row == chain_of_size("5/8 in").row


@pytest.mark.parametrize(
    ("size", "name", "density"),
    [
        ("16 mm", "DIN 764, 16 mm", 5.3),
        ("8 mm", "DIN 766, 8 mm", 1.4),
        ("16 x 100 mm", "DIN 763, 16 mm", 4.45),
        ("16x45", "DIN 766, 16 mm", 5.8),
        ("9/32 in", "EN 818-2, 9/32 in", 1.0417),
    ],
)
def test_the_usual_chain_of_a_size_comes_first(size: str, name: str, density: float) -> None:
    chain = chain_of_size(size)
    assert chain.row.name == name
    assert chain.density_kg_per_m == density


def test_grade_and_standard_pick_the_form() -> None:
    assert chain_of_size("5/8 in", grade="80").pitch_m == 0.048
    assert chain_of_size("16 mm", grade="G80").row.trade_size == "5/8"
    named = chain_of_size("16 mm", standard="DIN 766")
    assert named.density_kg_per_m == 5.8
    assert named.density_u_kg_per_m == pytest.approx(NAMED_STANDARD_U * 5.8)
    assert chain_of_size("5/8 in", standard="DIN 764").row.name == "DIN 764, 16 mm"


def test_a_measured_pitch_picks_the_form_and_is_kept() -> None:
    chain = chain_of_size("16 mm", pitch_m=0.0995)
    assert chain.row.short_standard == "DIN 763"
    assert chain.pitch_m == 0.0995
    assert chain.density_kg_per_m == 4.45


def test_a_pitch_nobody_prints_goes_through_the_geometry() -> None:
    chain = chain_of_size("16 mm", pitch_m=0.075)
    assert "geometry" in chain.known_by
    assert "pitch given" in chain.known_by
    assert 4.4 < chain.density_kg_per_m < 5.3
    transport = chain_of_size("3/8 in", grade="70", pitch_m=0.031)
    assert transport.row.grade == "70"
    assert transport.density_u_kg_per_m == pytest.approx(SIZE_NAME_U * transport.density_kg_per_m)


def test_a_pitch_nobody_prints_or_gives_is_asked_for() -> None:
    with pytest.raises(BadInputError, match="ten links") as error:
        chain_of_size("3/8 in", grade="70")
    assert error.value.field == "pitch"


def test_an_unknown_size_lists_the_known_ones() -> None:
    with pytest.raises(NotInStockError) as error:
        chain_of_size("5/9 in")
    for name in ("5/8 in", "16 mm"):
        assert name in str(error.value.wanted)
    with pytest.raises(NotInStockError):
        chain_of_size("16 x 90 mm")


@pytest.mark.parametrize("size", ["", "16", "thick", "5/0 in", "5/8 kg", "16 mm" * 20])
def test_a_size_without_a_length_says_how_to_write_one(size: str) -> None:
    with pytest.raises(BadInputError) as error:
        chain_of_size(size)
    assert error.value.field == "size"


def test_a_pitch_of_no_length_is_refused() -> None:
    for pitch_m in (0.0, -0.05, float("nan"), 5.6):
        with pytest.raises(BadInputError):
            chain_of_size("16 mm", pitch_m=pitch_m)


def test_every_listed_size_can_be_asked_for() -> None:
    for name in size_names(all_rows()):
        assert chain_of_size(name.split(" (")[0]).density_kg_per_m > 0


def test_every_row_with_a_pitch_has_a_density_and_says_from_where() -> None:
    for row in all_rows():
        density = density_of_row(row)
        if row.pitch_m is None:
            assert density is None, row.name
            continue
        assert density is not None, row.name
        share = density.density_u_kg_per_m / density.density_kg_per_m
        printed = row.mass_kg_per_m is not None
        assert share == pytest.approx(NAMED_STANDARD_U if printed else SIZE_NAME_U), row.name
        assert density.known_by, row.name


def test_twins_are_near_in_wire_and_pitch() -> None:
    for row in all_rows():
        twin = twin_of(row)
        if twin is None or row.pitch_m is None or twin.pitch_m is None:
            continue
        assert twin.wire_diameter_m == pytest.approx(row.wire_diameter_m, rel=0.02)
        assert twin.pitch_m == pytest.approx(row.pitch_m, rel=0.02)
    (thin,) = find_rows(grade="30", trade_size_m=0.25 * 0.0254)
    assert twin_of(thin) is None


def test_rows_of_a_size_keep_to_the_rows_given() -> None:
    rows = rows_of_size(find_rows(standard="DIN 766"), "16 mm")
    assert {row.short_standard for row in rows} == {"DIN 766"}
