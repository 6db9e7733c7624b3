"""`topheavy catalogue`: chain out of the tables, or under the calipers."""

from __future__ import annotations

import pytest

from tests.cli.calling import call, refused
from topheavy.catalogue.table import all_rows
from topheavy.units import KG_PER_LB, M_PER_IN

CALIPERS = ("--wire", "15.8mm", "--width", "21mm", "--outside", "592mm")


def test_a_size_is_found_in_every_standard_that_has_it() -> None:
    view = call("catalogue", "--size", "5/8 in", "--json").json
    assert [row["name"] for row in view["rows"]] == [
        "ASTM A413 Grade 30, 5/8 in",
        "ASTM A413 Grade 43, 5/8 in",
        "ASTM A413 Grade 70, 5/8 in",
        "EN 818-2, 5/8 in",
    ]


def test_a_row_tells_mass_limit_and_verdict_as_printed() -> None:
    """DIN 764, 16 x 56 mm: 5.3 kg/m as printed."""
    (row,) = call("catalogue", "--standard", "DIN 764", "--size", "16 mm", "--json").json["rows"]
    assert row["density"]["kg/m"] == 5.3
    assert row["link_mass"]["kg"] == pytest.approx(5.3 * 0.056, abs=1e-9)
    assert row["verdict"]["judgement"] == "heavy enough"
    assert row["verdict"]["pieces_a_side"] == 2


def test_few_sizes_are_told_in_full_and_many_in_a_table() -> None:
    few = call("catalogue", "--standard", "DIN 764", "--size", "16 mm")
    many = call("catalogue")
    assert "mass printed for DIN 764, 16 mm" in few.out
    assert f"{len(all_rows())} published sizes" in many.out
    assert "mass known by" not in many.out
    for done in (few, many):
        assert max(len(line) for line in done.out.splitlines()) <= 80


def test_no_name_is_broken_and_no_cell_is_empty() -> None:
    text = call("catalogue").out
    assert "  1 in  " in text
    assert "ASTM A413 Grade 30\n" in text
    row = next(line for line in text.splitlines() if line.startswith("  1/4 in          7.2 mm"))
    assert row.split()[-1] == "unknown"
    for unit in ("kg", "lb"):
        lines = call("catalogue", "--units", unit).out.splitlines()
        assert max(map(len, lines)) <= 80
        assert not any("\N{HORIZONTAL ELLIPSIS}" in line for line in lines)


def test_chain_without_a_limit_is_not_called_unlimited() -> None:
    text = " ".join(call("catalogue", "--wire", "4mm").out.split())
    assert "Not rated: do not load it. Thinner than any rated Grade 30 chain." in text
    assert "No limit" not in text


def test_sizes_that_two_makers_print_say_so() -> None:
    done = call("catalogue", "--standard", "DIN 766")
    assert done.out.count("DIN 766, as another maker prints it") == 1
    assert "two makers print different tables" in " ".join(done.out.split())
    single = call("catalogue", "--standard", "DIN 764")
    assert "makers print" not in " ".join(single.out.split())


def test_grades_and_wire_narrow_the_table() -> None:
    strong = call("catalogue", "--grade", "80", "--json").json["rows"]
    assert {row["grade"] for row in strong} == {"80"}
    thick = call("catalogue", "--wire", "26mm", "--json").json["rows"]
    assert {row["wire"]["m"] for row in thick} <= {0.0254, 0.026, 0.027}


def test_the_job_moves_the_verdict() -> None:
    def judgement(*job: str) -> str:
        words = ("catalogue", "--standard", "DIN 764", "--size", "16 mm", *job, "--json")
        found: str = call(*words).json["rows"][0]["verdict"]["judgement"]
        return found

    assert judgement("--travel", "40cm", "--best", "100kg") == "heavy enough"
    assert judgement("--travel", "20cm", "--best", "250kg", "--share", "30%") == "light"
    thin = call("catalogue", "--standard", "DIN 766", "--size", "6 mm", "--json").json
    assert thin["rows"][0]["verdict"]["judgement"] == "too thin"


def test_calipers_tell_mass_likely_standard_wear_and_verdict() -> None:
    view = call("catalogue", *CALIPERS, "--json").json
    density = view["density"]
    assert density["kg/m"] == pytest.approx(5.1, abs=0.05)
    assert density["standard_uncertainty"] == pytest.approx(0.05 * density["kg/m"], rel=0.1)
    assert view["link_mass"]["kg"] == pytest.approx(density["kg/m"] * view["pitch"]["m"], rel=1e-6)
    assert view["likely"][0]["name"] == "DIN 764, 16 mm"
    assert view["likely"][0]["near"]
    assert view["wear"]["judgement"] == "within limits"
    assert not view["wear"]["named"]
    assert view["verdict"]["judgement"] == "heavy enough"


def test_length_over_other_counts_of_links_and_pitch_say_the_same() -> None:
    """(592 - 2 x 15.8) / 10 = 56.04 mm; five such links measure 311.8 mm."""
    ten = call("catalogue", *CALIPERS, "--json").json
    five = call(
        "catalogue", "--wire", "15.8mm", "--width", "21mm", "--outside", "311.8mm",
        "--links-over", "5", "--json",
    ).json  # fmt: skip
    one = call("catalogue", "--wire", "15.8mm", "--width", "21mm", "--pitch", "56.04mm", "--json")
    for view in (five, one.json):
        assert view["density"]["kg/m"] == pytest.approx(ten["density"]["kg/m"], rel=1e-6)


def test_surer_readings_make_a_surer_mass() -> None:
    crude = call("catalogue", *CALIPERS, "--json").json["density"]
    fine = call("catalogue", *CALIPERS, "--wire-within", "0.05mm", "--json").json["density"]
    assert fine["standard_uncertainty"] < 0.7 * crude["standard_uncertainty"]


def test_worn_chain_is_retired_loudly_and_carries_no_rating() -> None:
    """5 % longer than DIN 764, 16 x 56 mm was when new; 3 % is the limit."""
    words = ("catalogue", "--wire", "15.5mm", "--pitch", "58.8mm")
    done = call(*words, "--size", "16 mm", "--standard", "DIN 764")
    assert done.out.index("STOP: retire this chain") < done.out.index("It weighs")
    assert "do not load it. Retired chain carries no rating" in " ".join(done.out.split())


def test_pounds_and_inches() -> None:
    metric = call("catalogue", *CALIPERS, "--json").json
    pounds = call("catalogue", *CALIPERS, "--units", "lb", "--json").json
    assert pounds["density"]["kg/m"] == metric["density"]["kg/m"]
    per_foot = float(pounds["density"]["shown"].split()[0])
    assert per_foot == pytest.approx(
        metric["density"]["kg/m"] * 12 * M_PER_IN / KG_PER_LB, abs=0.005
    )
    assert pounds["wire"]["shown"] == "0.622 \N{PLUS-MINUS SIGN} 0.012 in"
    shown = call("catalogue", *CALIPERS, "--units", "lb").out
    assert "lb/ft" in shown
    assert " kg" not in shown.partition("Rated")[0]


def test_cautions_are_always_there() -> None:
    for words in (("--grade", "43"), CALIPERS):
        assert "overhead" in " ".join(call("catalogue", *words, "--json").json["cautions"])


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("--size", "5/8 kg"), "Not a chain size"),
        (("--size", "99 mm"), "No chain of that size"),
        (("--standard", "XYZ 1"), "no chain of that standard"),
        (("--grade", "999"), "no chain of that grade"),
        (("--wire", "16"), "Not a length"),
        (("--wire", "90mm", "--outside", "592mm"), "No chain for a bar has such wire"),
        (("--wire", "16mm", "--outside", "0mm"), "above zero"),
        (("--wire", "16mm", "--outside", "-592mm"), "above zero"),
        (("--wire", "16mm", "--outside", "592mm", "--links-over", "0"), "link"),
        (("--wire", "16mm", "--outside", "592mm", "--pitch", "56mm"), "either the pitch or"),
        (("--outside", "592mm"), "--wire"),
        (("--width", "20mm"), "how long the links are"),
        (("--wire", "16mm", "--pitch", "20mm"), "holds the wire of both neighbours"),
        (("--wire", "16mm", "--pitch", "56mm", "--width", "5mm"), "wider inside"),
        (("--wire", "16mm", "--pitch", "56mm", "--standard", "DIN 764"), "how thick"),
        (("--travel", "0cm"), "above zero"),
        (("--best", "-1kg"), "above zero"),
        (("--share", "0%"), "between nothing and all"),
        (("--units", "stone"), "Unknown units"),
    ],
)
def test_readings_and_words_that_can_not_be(words: tuple[str, ...], said: str) -> None:
    refused(call("catalogue", *words), said)
