"""The printed sheets, read back."""

from __future__ import annotations

from dataclasses import replace

import pytest

from tests.present.pdf import open_pdf, read_page
from tests.present.weeks.views import view
from topheavy.present.weeks.sheet import sheet_data, sheet_pdf
from topheavy.units import METRIC, POUNDS


def test_a_week_of_the_group_is_one_page_with_everything_on_it() -> None:
    part = view(week=3)
    page = read_page(sheet_pdf(part, METRIC))
    assert page.pages == 1
    assert page.width > page.height
    text = page.text.replace(" ", "")
    for row in part.sessions:
        for words in (row.lifter, row.work, row.plates_a_side, row.rig, row.note):
            assert words.replace(" ", "") in text
        assert row.top is not None
        assert row.top.text.replace(" ", "") in text
    for caution in part.cautions:
        assert caution.replace(" ", "") in text


def test_each_week_of_the_group_has_a_page() -> None:
    assert read_page(sheet_pdf(view(), METRIC)).pages >= len(view().weeks)


def test_a_block_of_one_lifter_holds_all_weeks() -> None:
    pdf = sheet_pdf(view("Bo", units=POUNDS), POUNDS)
    pages = len(open_pdf(pdf).pages)
    text = " ".join(read_page(pdf, number).text for number in range(pages))
    assert all(f"Week {number}" in text for number in range(1, 7))
    assert "Ansa" not in text


@pytest.mark.parametrize(("units", "size"), [(METRIC, (842, 595)), (POUNDS, (792, 612))])
def test_paper_follows_the_units(units: object, size: tuple[int, int]) -> None:
    page = read_page(sheet_pdf(view(week=1, units=units), units))  # type: ignore[arg-type]
    assert (round(page.width), round(page.height)) == size


def test_the_same_weeks_give_the_same_bytes() -> None:
    assert sheet_pdf(view(week=1), METRIC) == sheet_pdf(view(week=1), METRIC)


def test_a_week_of_many_sessions_run_over_more_pages() -> None:
    part = view(week=3)
    many = replace(
        part,
        sessions=tuple(
            replace(row, lifter=f"Lifter {n}") for n in range(20) for row in part.sessions
        ),
    )
    pdf = sheet_pdf(many, METRIC)
    pages = len(open_pdf(pdf).pages)
    assert pages > 1
    assert "Lifter 19" in " ".join(read_page(pdf, number).text for number in range(pages))


def test_no_box_is_missing() -> None:
    data = sheet_data(view(week=3), "a4")
    rows = [row for table in data["weeks"][0]["tables"] for row in table["rows"]]
    assert [row["sets"] for row in rows] == [row.sets for row in view(week=3).sessions]
