"""Form to tables to gym to form: whatever is typed, the reader of gym files reads it back alike."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.web.gym.keeping import DEMO
from topheavy.gymfile import GymFileError, gym_of_tables, gym_text, parse_gym
from topheavy.units import METRIC, POUNDS, SYSTEMS
from topheavy.web.gym.fields import Field, value_of, words_of
from topheavy.web.gym.filled import table_from, words_from
from topheavy.web.gym.sheets import FEEDERS, SHEETS, STOCK, Sheet, sheet_for
from topheavy.web.gym.things import keys_in, thing, with_thing

NAMES = st.text("abcdefgh XYZ.-7", min_size=1, max_size=12).map(str.strip).filter(bool)
TAGS = st.text("ABCxyz0123456789-_", min_size=1, max_size=6)
NUMBERS = st.one_of(
    st.integers(1, 60).map(str),
    st.floats(0.5, 60).map(lambda value: f"{value:.2f}"),
    st.floats(0.5, 60).map(lambda value: f"{value:.1f}".replace(".", ",")),
    st.sampled_from(["1 1/4", "5/8", "3/4"]),
)
MASSES = st.tuples(NUMBERS, st.sampled_from(["", " kg", "kg", " lb", " KG"])).map("".join)
LENGTHS = st.tuples(NUMBERS, st.sampled_from(["", " cm", "cm", " mm", " in"])).map("".join)
QUANTITIES = {
    "mass": MASSES,
    "length": LENGTHS,
    "fine": LENGTHS,
    "density": st.sampled_from(["0.4", "0.3 kg/m", "0.9 lb/ft"]),
    "share": st.sampled_from(["1", "2.5 %", "0,5"]),
    "speed": st.sampled_from(["0.4", "0.45 m/s"]),
}
COUNTS = st.integers(1, 40).map(str)
UNITS = st.sampled_from([METRIC, POUNDS])


def words_for(field: Field) -> st.SearchStrategy[dict[str, str]]:
    """What somebody might type into a field, right or nearly."""
    texts = {
        "count": COUNTS,
        "number": st.sampled_from(["0", "1", "1.5", "2,5"]),
        "switch": st.sampled_from(["", "yes"]),
        "day": st.sampled_from(["", "2026-09-12"]),
        "choice": st.sampled_from(["", *(value for value, _ in field.choices)]),
        "text": NAMES if field.must else st.one_of(st.just(""), NAMES),
        "quantity": QUANTITIES.get(field.of, NAMES),
    }
    if field.kind == "tags":
        listed = st.lists(TAGS, min_size=1, max_size=4, unique_by=str.casefold)
        return listed.map(lambda tags: {field.key: " ".join(tags)})
    if field.kind == "lines":
        one = QUANTITIES.get(field.of, NAMES)
        return st.lists(one, max_size=4).map(lambda lines: {field.key: "\n".join(lines)})
    if field.kind == "rows":
        columns = st.fixed_dictionaries(
            {column.key: QUANTITIES[column.of] for column in field.columns}
        )
        return st.lists(columns, max_size=5).map(
            lambda rows: {
                f"{field.key}.{number}.{key}": text
                for number, row in enumerate(rows)
                for key, text in row.items()
            }
        )
    return texts[field.kind].map(lambda text: {field.key: text})


@st.composite
def filled(draw: st.DrawFn) -> tuple[Sheet, dict[str, str]]:
    """A form of the stock with something in most of its fields."""
    sheet = SHEETS[draw(st.sampled_from([*(name for name in STOCK if name != "feeder"), *FEEDERS]))]
    words: dict[str, str] = {}
    for field in sheet.fields:
        if field.must or draw(st.booleans()):
            words |= draw(words_for(field))
    return sheet, words


@st.composite
def sound_chain(draw: st.DrawFn) -> tuple[Sheet, dict[str, str]]:
    """Chain as a coach has it: so many pieces, known by size, calipers, scale or the seller."""
    tags = draw(st.lists(TAGS, min_size=1, max_size=5, unique_by=str.casefold))
    words = {"tags": " ".join(tags), "links": draw(st.integers(8, 60).map(str)), "size": "5/8 in"}
    pieces_kg = [0.3 * int(words["links"]) + 0.01 * number for number in range(len(tags))]
    known: dict[str, dict[str, str]] = {
        "size": {"grade": "30"},
        "calipers": {"calipers.wire": "15.9 mm", "calipers.ten_links": "593 mm"},
        "scale": {"weighed": "\n".join(f"{kg:.2f} kg" for kg in pieces_kg)},
        "seller": {"density": "5.2 kg/m", "ten_links": "59.3 cm"},
    }
    words |= known[draw(st.sampled_from(sorted(known)))]
    if len(tags) % 2 == 0:
        words["matched"] = draw(st.sampled_from(["", "yes"]))
    words["retired"] = draw(st.sampled_from(["", "one link bent"]))
    return SHEETS["chain"], words


@st.composite
def sound_band(draw: st.DrawFn) -> tuple[Sheet, dict[str, str]]:
    """A band whose readings rise."""
    rest = draw(st.integers(30, 80))
    words = {"tag": draw(TAGS), "rest": f"{rest} cm", "measured": "2026-09-12"}
    for number in range(draw(st.integers(3, 8))):
        words[f"readings.{number}.length"] = f"{rest + 10 * (number + 1)} cm"
        words[f"readings.{number}.pull"] = f"{3 * (number + 1) - 0.1 * number**2:.2f} kg"
    return SHEETS["band"], words


@settings(max_examples=40)
@given(filled(), UNITS)
def test_a_form_gives_back_what_it_was_filled_from(
    form: tuple[Sheet, dict[str, str]], units: Any
) -> None:
    """Filled once, a form is filled alike from what it said; whatever the units shown."""
    sheet, words = form
    table = table_from(sheet, words, units, {})
    again = words_from(sheet, table)
    for other in SYSTEMS.values():
        assert table_from(sheet, again, other, table) == table


@settings(max_examples=40)
@given(filled() | sound_chain() | sound_band(), UNITS)
def test_what_a_form_saves_the_reader_reads_back_with_the_same_meaning(
    form: tuple[Sheet, dict[str, str]], units: Any
) -> None:
    """Where the reader takes it at all: by tables, by the text of a file, by the form once more."""
    sheet, words = form
    head = {"gym": {"name": "The Shed", "units": units.name}}
    tables, _ = with_thing(head, sheet.section, "", table_from(sheet, words, units, {}))
    try:
        gym = gym_of_tables(tables, "form")
    except GymFileError:
        return
    assert parse_gym(gym_text(tables)) == gym
    key = keys_in(tables, sheet.section)[0]
    old = thing(tables, sheet.section, key) or {}
    again = table_from(sheet, words_from(sheet, old), units, old)
    assert gym_of_tables(with_thing(tables, sheet.section, key, again)[0], "form") == gym


@settings(max_examples=20)
@given(sound_chain() | sound_band())
def test_sound_chain_and_bands_are_taken(form: tuple[Sheet, dict[str, str]]) -> None:
    """So that the law above is about gyms, and not only about mistakes."""
    sheet, words = form
    head = {"gym": {"name": "The Shed"}}
    tables, _ = with_thing(head, sheet.section, "", table_from(sheet, words, METRIC, {}))
    stock = gym_of_tables(tables, "form").stock
    assert len(stock.chains) + len(stock.bands) >= 1


@pytest.mark.parametrize("units", SYSTEMS.values(), ids=list(SYSTEMS))
def test_everything_in_the_demonstration_survives_its_form(units: Any) -> None:
    gym = gym_of_tables(DEMO, "demo")
    count = 0
    for section in (*STOCK, "station"):
        for key in keys_in(DEMO, section):
            old = thing(DEMO, section, key) or {}
            sheet = sheet_for(section, str(old.get("form", "")))
            assert sheet
            assert table_from(sheet, words_from(sheet, old), units, old) == old
            tables, place = with_thing(DEMO, section, key, old)
            assert tables[section][place] == old
            assert gym_of_tables(tables, "demo") == gym
            count += 1
    assert count > 30


def test_every_key_of_the_format_is_in_a_form_or_kept() -> None:
    """A key that no form speaks of stays as it was when the form is saved."""
    old = {"name": "Ansa", "lifts": {"squat": {"bottom": "80 cm", "top": "137 cm"}}}
    assert table_from(SHEETS["lifter"], {"name": "Ada"}, METRIC, old) == {**old, "name": "Ada"}
    lift = {"bottom": "80 cm", "top": "137 cm", "sets": [{"load": "100 kg"}], "within": "4 mm"}
    emptied = table_from(SHEETS["lift"], {"bottom": "81", "top": "54 in"}, METRIC, lift)
    assert emptied == {"bottom": "81 cm", "top": "54 in", "sets": [{"load": "100 kg"}]}


def test_rows_end_with_the_last_that_is_filled() -> None:
    field = SHEETS["band"].field("readings")
    assert field
    words = {"readings.0.length": "60", "readings.0.pull": "4.7", "readings.1.length": " ",
             "readings.1.pull": "", "readings.2.length": "80", "readings.2.pull": "10"}  # fmt: skip
    rows = value_of(field, words, POUNDS)
    assert rows == [
        {"length": "60 in", "pull": "4.7 lb"},
        {"length": "80 in", "pull": "10 lb"},
    ]
    assert dict(words_of(field, rows))["readings.1.length"] == "80 in"
