"""What a coach asks of the catalogue."""

from __future__ import annotations

import pytest

from topheavy.catalogue.calipers import CaliperReadings
from topheavy.catalogue.table import all_rows
from topheavy.catalogue.verdict import Job
from topheavy.errors import BadInputError, NotInStockError
from topheavy.services.catalogue import from_calipers, look_up

GOOD = CaliperReadings(wire_diameter_m=0.016, outside_m=0.592)


def test_asking_for_nothing_shows_the_whole_table() -> None:
    assert [answer.row for answer in look_up().rows] == list(all_rows())


def test_a_row_comes_with_mass_rating_and_verdict() -> None:
    (answer,) = look_up(standard="DIN 764", size="16 mm").rows
    assert answer.density is not None
    assert answer.link_mass_kg == pytest.approx(0.297, abs=5e-4)
    assert answer.rating.wll_kg == 3130
    assert answer.verdict is not None
    assert answer.verdict.judgement == "heavy enough"


def test_a_row_without_a_pitch_says_so_instead_of_guessing() -> None:
    answer = look_up(grade="70", size="5/8 in")
    (row,) = answer.rows
    assert (row.density, row.link_mass_kg, row.verdict) == (None, None, None)
    assert row.rating.wll_kg == 7170
    assert any("calipers" in caution for caution in answer.cautions)


def test_cautions_name_the_grades_not_for_overhead_lifting() -> None:
    soft = " ".join(look_up(grade="43").cautions)
    hard = " ".join(look_up(grade="80").cautions)
    assert "Grade 43" in soft
    assert "overhead" in soft
    assert "overhead" not in hard
    assert "weakest part" in soft
    assert "weakest part" in hard


def test_sizes_from_memory_are_marked() -> None:
    assert any("memory" in caution for caution in look_up(standard="A413").cautions)
    assert not any("memory" in caution for caution in look_up(standard="DIN 764").cautions)


def test_the_job_reaches_the_verdict() -> None:
    job = Job(travel_m=0.6, best_kg=250.0, share=0.2)
    (answer,) = look_up(standard="DIN 764", size="16 mm", job=job).rows
    assert answer.verdict is not None
    assert answer.verdict.wanted_kg == 50.0
    assert from_calipers(GOOD, job=job).verdict.pieces_a_side == answer.verdict.pieces_a_side


def test_what_is_not_there_lists_what_is() -> None:
    with pytest.raises(NotInStockError, match="16 mm"):
        look_up(standard="DIN 764", size="17 mm")
    with pytest.raises(NotInStockError):
        look_up(standard="DIN 764", grade="80")
    with pytest.raises(BadInputError):
        look_up(size="thick")


def test_calipers_tell_good_working_chain() -> None:
    answer = from_calipers(GOOD)
    assert answer.identified
    assert answer.likely[0].row.name == "DIN 764, 16 mm"
    assert answer.chain.density_kg_per_m == pytest.approx(5.3, rel=0.02)
    assert answer.verdict.judgement == "heavy enough"
    assert answer.wear is not None
    assert answer.wear.judgement == "within limits"
    assert any("as if it was DIN 764" in remark for remark in answer.remarks)
    assert any("Grade 70" in remark for remark in answer.remarks)


def test_thin_shop_chain_is_called_too_thin() -> None:
    answer = from_calipers(CaliperReadings(wire_diameter_m=0.006, outside_m=0.432))
    assert answer.likely[0].row.wire_diameter_m == 0.006
    assert answer.verdict.judgement == "too thin"


def test_a_chain_like_no_other_is_not_given_a_name_or_a_wear() -> None:
    answer = from_calipers(CaliperReadings(wire_diameter_m=0.012, pitch_m=0.08))
    assert not answer.identified
    assert (answer.nominal, answer.wear) == (None, None)
    assert answer.chain.density_kg_per_m > 0
    assert any("nothing in the tables is near" in remark for remark in answer.remarks)
    assert any("wear can't be told" in remark for remark in answer.remarks)


def test_worn_chain_is_retired_against_its_named_size_and_loses_its_rating() -> None:
    worn = CaliperReadings(wire_diameter_m=0.0155, pitch_m=0.0595)
    answer = from_calipers(worn, nominal_size="16 mm")
    assert answer.nominal_named
    assert answer.nominal is not None
    assert answer.nominal.pitch_m == 0.056
    assert answer.wear is not None
    assert answer.wear.judgement == "retire"
    assert answer.rating.wll_kg is None
    assert answer.cautions[0].startswith("retire this chain")


def test_a_standard_without_a_size_is_not_enough() -> None:
    with pytest.raises(BadInputError) as error:
        from_calipers(GOOD, nominal_standard="DIN 764")
    assert error.value.field == "nominal_size"


def test_readings_that_fit_two_standards_name_both() -> None:
    remarks = " ".join(from_calipers(GOOD).remarks)
    assert "could also be ASTM A413 Grade 30, 5/8 in" in remarks


def test_an_unmarked_chain_is_cautioned_against_overhead_use() -> None:
    assert any("overhead" in caution for caution in from_calipers(GOOD).cautions)
    assert not any("overhead" in caution for caution in from_calipers(GOOD, grade="80").cautions)
