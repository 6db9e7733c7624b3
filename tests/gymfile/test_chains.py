"""Chain tables: names, links, and mass from the best source given."""

from __future__ import annotations

import math

import pytest

from tests.gymfile.samples import problems, read
from topheavy.gymfile.chains import LISTED_PITCH_U
from topheavy.units import KG_PER_LB

PIECE = '[[chain]]\ntag = "A1"\nsize = "5/8 in"\nlinks = 32\n'


def test_a_single_piece_takes_its_mass_from_the_size() -> None:
    piece = read(PIECE).stock.piece("A1")
    assert (piece.size, piece.chain.links, piece.weighed, piece.grade) == ("5/8 in", 32, False, "")
    assert piece.chain.pitch_m == pytest.approx(0.056)
    assert piece.chain.density_kg_per_m == pytest.approx(5.3)
    assert piece.chain.density_u_kg_per_m == pytest.approx(0.53)
    assert "5/8 in" in piece.chain.known_by


def test_a_named_standard_that_prints_the_mass_is_surer() -> None:
    chain = read(PIECE.replace("5/8 in", "16 mm") + 'standard = "DIN 764"').stock.piece("A1").chain
    assert chain.density_u_kg_per_m == pytest.approx(0.05 * 5.3)


@pytest.mark.parametrize(
    ("names", "tags"),
    [
        ('tags = ["L1", "R1"]', ["L1", "R1"]),
        ('prefix = "C"\ncount = 3', ["C1", "C2", "C3"]),
        ('tag = "one"', ["one"]),
    ],
)
def test_batches_are_named_or_counted(names: str, tags: list[str]) -> None:
    stock = read(f'[[chain]]\n{names}\nsize = "1/2 in"\nlinks = 40').stock
    assert [piece.tag for piece in stock.chains] == tags
    assert len({piece.kind for piece in stock.chains}) == 1


def test_a_weighed_piece_carries_exactly_its_mass() -> None:
    tables = PIECE.replace('"A1"', '"A1"\nweighed = "21 lb"')
    piece = read(tables).stock.piece("A1")
    assert piece.weighed
    assert piece.chain.mass_kg == pytest.approx(21 * KG_PER_LB)


def test_a_weighed_piece_is_as_sure_as_scale_and_tape() -> None:
    tables = PIECE + 'weighed = "9.5 kg"\nten_links = "592 mm"\nscale_reading = "100 g"\n'
    chain = read(tables).stock.piece("A1").chain
    assert chain.pitch_m == pytest.approx(0.056)
    assert chain.density_kg_per_m == pytest.approx(9.5 / (32 * 0.056))
    share = chain.density_u_kg_per_m / chain.density_kg_per_m
    assert share == pytest.approx(math.hypot(0.1 / 9.5, 0.0002 / 0.056))
    assert chain.known_by == "scale, A1"


def test_a_pitch_nobody_measured_counts_in_a_weighed_piece() -> None:
    tables = PIECE.replace('tag = "A1"', 'tags = ["A1", "A2"]') + 'weighed = ["9.5 kg", "9.6 kg"]'
    one, two = (piece.chain for piece in read(tables).stock.chains)
    share = one.density_u_kg_per_m / one.density_kg_per_m
    assert share == pytest.approx(math.hypot(0.05 / 9.5, LISTED_PITCH_U))
    assert one.known_by == two.known_by, "both err together in their pitch"
    assert one.mass_kg == pytest.approx(9.5)
    assert two.mass_kg == pytest.approx(9.6)


def test_the_gyms_scale_reading_is_used() -> None:
    tables = PIECE + 'weighed = "9.5 kg"\nten_links = "592 mm"\n'
    coarse, fine = read(tables), read('scale_reading = "10 g"\n' + tables)
    assert fine.stock.chains[0].chain.density_u_kg_per_m < (
        coarse.stock.chains[0].chain.density_u_kg_per_m
    )


def test_calipers_give_pitch_and_mass() -> None:
    tables = (
        '[[chain]]\ntag = "K1"\nlinks = 30\n'
        'calipers = { wire = "16 mm", width = "22 mm", ten_links = "592 mm" }'
    )
    piece = read(tables).stock.piece("K1")
    assert piece.size == "16 mm"
    assert piece.wire_diameter_m == 0.016
    assert piece.chain.pitch_m == pytest.approx(0.056)
    assert piece.chain.density_kg_per_m == pytest.approx(5.3, rel=0.02), "DIN 764 prints 5.3 kg/m"
    assert piece.chain.density_u_kg_per_m / piece.chain.density_kg_per_m == pytest.approx(
        0.05, abs=0.01
    )
    assert piece.chain.known_by == "calipers, 16 mm"


def test_the_sellers_figure_is_taken_as_written() -> None:
    chain = read(PIECE + 'density = "3.6 lb/ft"').stock.piece("A1").chain
    assert chain.density_kg_per_m == pytest.approx(3.6 * KG_PER_LB / 0.3048)
    assert chain.density_u_kg_per_m == pytest.approx(0.05 * chain.density_kg_per_m)


@pytest.mark.parametrize("size", ["5/8 in", "5/8in", "5/8", "5/8   in"])
def test_one_size_written_in_several_ways_is_one_kind(size: str) -> None:
    assert read(PIECE.replace("5/8 in", size)).stock.piece("A1").size == "5/8 in"


def test_grade_may_be_a_number() -> None:
    assert read(PIECE + "grade = 80").stock.piece("A1").grade == "80"


def test_retired_pieces_stay_on_the_list_but_are_not_fit() -> None:
    stock = read(PIECE + 'retired = "bent"').stock
    assert stock.piece("A1").retired == "bent"
    assert stock.fit_chains == ()


def test_an_odd_batch_is_legal_unless_it_must_match() -> None:
    odd = '[[chain]]\nprefix = "A"\ncount = 3\nsize = "5/8 in"\nlinks = 32\n'
    assert len(read(odd).stock.chains) == 3
    assert problems(odd + "matched = true") == [
        (
            "An odd batch can't be split equally over both ends",
            "chain[1].matched (A, line 3)",
            "3 pieces",
            "an even number of pieces, or matched = false",
        )
    ]


@pytest.mark.parametrize(
    ("lines", "message", "field", "got", "wanted"),
    [
        ("", "Chain pieces are named in one way", "chain[1]", "no name", 'tag = "A1"'),
        ('tag = "A"\ntags = ["B"]', "named in one way", "chain[1]", "tag and tags", "one of"),
        ('prefix = "A"', "named in one way", "chain[1]", "prefix", "count = 2"),
        ("count = 2", "named in one way", "chain[1]", "count", 'prefix = "A"'),
        ('tag = "A"\nweighed = ["9.5 kg", "9.5 kg"]', "Not one mass for each piece", "weighed",
         "2 for 1 pieces", "one mass"),
        ('prefix = "A"\ncount = 2\nweighed = "9.5 kg"', "Not one mass for each piece", "weighed",
         "1 for 2 pieces", "a list of 2"),
        ('tag = "A"\nweighed = "9.5 kg"\ndensity = "5 kg/m"', "The mass is given twice",
         "density", "both", "a scale beats"),
        ('tag = "A"\nweighed = "21 kg"', "weighs so much", "weighed", "21 kg for A",
         "about 9.5 kg"),
        ('tag = "A"\nweighed = "0.95 kg"', "weighs so little", "weighed", "0.95 kg", "the unit"),
        ('tag = "A"\ndensity = "53 kg/m"', "weighs so much", "density", "53 kg/m",
         "about 5.3 kg/m"),
        ('tag = "A"\ngrade = "31"', "no chain of that grade", "chain[1].grade", "'31'", "30"),
        ('tag = "A"\nstandard = "DIN 9"', "no chain of that standard", "standard", "DIN 9", "764"),
        ('tag = "A"\ngrade = 70', "prints the pitch", "chain[1]", "", "calipers"),
        ('tag = "A"\nten_links = "30 mm"', "holds the wire of both neighbours",
         "chain[1].ten_links", "16 mm",
         "measure inside"),
        ('tag = "A"\ncalipers = { wire = "16 mm", ten_links = "160 mm" }',
         "holds the wire of both neighbours", "chain[1].calipers", "16 mm wire", "inside"),
        ('tag = "A"\nten_links = "592 mm"\ncalipers = { wire = "16 mm", ten_links = "592 mm" }',
         "measured twice", "ten_links", "", "inside calipers"),
    ],
)  # fmt: skip
def test_contradictions_are_told(
    lines: str, message: str, field: str, got: str, wanted: str
) -> None:
    (found,) = problems(f'[[chain]]\nsize = "5/8 in"\nlinks = 32\n{lines}')
    for part, text in zip((message, field, got, wanted), found, strict=True):
        assert part in text


def test_a_piece_needs_a_size_or_calipers() -> None:
    (found,) = problems('[[chain]]\ntag = "A1"\nlinks = 32\nweighed = "9.5 kg"')
    assert found[0] == "Nothing says what chain it is"
    assert found[1] == "chain[1].size (A1, line 3)"


def test_an_unknown_size_lists_those_known() -> None:
    (found,) = problems(PIECE.replace("5/8 in", "5/9 in"))
    assert found[1] == "chain[1].size (A1, line 3)"
    assert "5/8 in" in found[3]
    assert "calipers" in found[3]


@pytest.mark.parametrize(
    ("first", "second", "one", "other"),
    [
        ('tag = "A1"', 'tag = "A1"', "chain[1].tag", "chain[2].tag"),
        ('tag = "A1"', 'tag = "a1"', "chain[1].tag", "chain[2].tag"),
        ('tags = ["B1", "A2"]', 'prefix = "A"\ncount = 2', "chain[1].tags[2]", "chain[2].prefix"),
        ('tags = ["A1", "A1"]', 'tag = "B"', "chain[1].tags[1]", "chain[1].tags[2]"),
    ],
)
def test_a_tag_that_stands_twice_names_both_places(
    first: str, second: str, one: str, other: str
) -> None:
    rest = '\nsize = "5/8 in"\nlinks = 32\n'
    ((message, field, got, wanted),) = problems(
        f"[[chain]]\n{first}{rest}[[chain]]\n{second}{rest}"
    )
    assert "is listed twice" in message
    assert one in field.split(" and ")[0]
    assert other in field.split(" and ")[1]
    assert got
    assert "once" in wanted
