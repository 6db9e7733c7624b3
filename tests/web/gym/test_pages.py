"""The gym's pages: look, add, change, take out, undo; mistakes beside their fields."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

import pytest

from tests.cli.calling import TINY
from tests.web.gym.keeping import DEMO, Coach, inputs_of, keeping, wrong_at
from tests.web.serving import client_of, text_of
from topheavy.gymfile import GymFileError, gym_of_tables, gym_text, parse_gym
from topheavy.store.gyms import history, load_gym

BAR = {"section": "bar", "name": "deadlift bar", "mass": "20", "sleeve": "43.5"}


def test_a_thing_is_added_as_a_version_with_author_and_note(coach: Coach) -> None:
    page = coach.post("/gym/thing", BAR)
    assert "Bar deadlift bar added." in text_of(page.text)
    assert coach.gym.stock.bar("deadlift bar").sleeve_m == pytest.approx(0.435)
    last = history(coach.store)[-1]
    assert (last.number, last.author, last.note) == (2, "coach", "bar deadlift bar added")
    assert "deadlift bar" in coach.get("/gym/stock").text


def test_numbers_are_in_what_the_coach_sees_and_kept_as_they_were_typed() -> None:
    with keeping(tables={"gym": {"name": "The Shed", "units": "lb"}}) as coach:
        coach.post("/gym/thing", {**BAR, "mass": "45", "sleeve": "16 1/4"})
        assert coach.tables["bar"] == [
            {"name": "deadlift bar", "mass": "45 lb", "sleeve": "16 1/4 in"}
        ]
        assert "45.0 lb, sleeve 16.2 in" in text_of(coach.get("/gym/stock").text)


@pytest.mark.parametrize(
    ("words", "field", "message"),
    [
        ({"sleeve": "9 q"}, "sleeve", "Unknown unit 'q' for a length."),
        ({"mass": ""}, "mass", '"mass" is missing.'),
        ({"name": "power bar"}, "name", 'The bar "power bar" is listed twice.'),
        ({"name": "x" * 70}, "name", "Too long a text."),
        ({"mass": "-20"}, "mass", "A mass not above zero."),
    ],
)
def test_a_mistake_stands_beside_its_field_in_the_words_of_the_terminal(
    visitor: Coach, words: dict[str, str], field: str, message: str
) -> None:
    page = visitor.post("/gym/thing", {**BAR, **words})
    assert page.status_code == 422
    assert message in wrong_at(page.text)[field]
    assert visitor.version == 1
    assert inputs_of(page.text)["name"] == words.get("name", BAR["name"])
    typed = {key: value for key, value in {**BAR, **words}.items() if value and key != "section"}
    typed |= {key: f"{typed[key]} {unit}" for key, unit in (("mass", "kg"), ("sleeve", "cm"))
              if typed.get(key, "q").lstrip("-").replace(".", "").isdigit()}  # fmt: skip
    with pytest.raises(GymFileError) as told:
        gym_of_tables({**DEMO, "bar": [*DEMO["bar"], typed]}, "terminal")
    assert message.rstrip(".") in [one.message for one in told.value.problems]


def test_a_form_opens_with_what_is_there_and_saves_it_unchanged(coach: Coach) -> None:
    for section, key in (("chain", "A1"), ("band", "red-1"), ("feeder", "feeder chain"),
                         ("station", "rack"), ("plate", "1.25 kg"), ("gym", "")):  # fmt: skip
        page = coach.client.get("/gym/thing", params={"section": section, "key": key})
        assert page.status_code == 200
        saved = coach.client.post("/gym/thing", data=inputs_of(page.text), follow_redirects=True)
        assert "Nothing was changed." in saved.text, section
    assert coach.version == 1


def test_taking_out_is_undone_and_undo_is_a_version_too(coach: Coach) -> None:
    page = coach.post("/gym/out", {"section": "plate", "key": "25 kg"})
    assert "Plate 25 kg taken out." in text_of(page.text)
    assert len(coach.gym.stock.plates) == len(DEMO["plate"]) - 1
    page = coach.undo(page)
    assert "Undone: plate 25 kg taken out." in text_of(page.text)
    assert coach.tables == load_gym(coach.store, version=1).tables
    assert coach.version == 3


def test_what_others_speak_of_is_not_taken_out(coach: Coach) -> None:
    page = coach.post("/gym/out", {"section": "station", "key": "bench 1"})
    assert page.status_code == 422
    assert "No station of that name in this file" in page.text
    assert coach.version == 1


def test_changes_to_the_same_thing_are_shown_and_never_overwrite(coach: Coach) -> None:
    first = coach.post("/gym/thing", {**BAR, "key": "power bar", "name": "power bar"}, over=1)
    assert first.status_code == 200
    other = {**BAR, "key": "power bar", "name": "power bar", "mass": "22"}
    page = coach.post("/gym/thing", other, over=1)
    assert page.status_code == 409
    said = text_of(page.text)
    assert "coach changed this meanwhile" in said
    assert "Sleeve 43.5 cm" in said
    assert inputs_of(page.text)["mass"] == "22"
    assert coach.gym.stock.bar("power bar").mass_kg == 20.0
    # Seen by both now: what is sent again goes over theirs, and theirs stays in the history.
    again = coach.client.post("/gym/thing", data=inputs_of(page.text), follow_redirects=True)
    assert again.status_code == 200
    assert coach.gym.stock.bar("power bar").mass_kg == 22.0
    assert load_gym(coach.store, version=2).gym.stock.bar("power bar").sleeve_m == 0.435


def test_changes_to_other_things_both_hold(coach: Coach) -> None:
    coach.post("/gym/thing", BAR, over=1)
    page = coach.post("/gym/out", {"section": "plate", "key": "25 kg"}, over=1)
    assert "both hold" in text_of(page.text)
    assert coach.gym.stock.bar("deadlift bar").mass_kg == 20.0
    assert len(coach.gym.stock.plates) == len(DEMO["plate"]) - 1


def test_more_rows_are_given_and_nothing_is_saved(coach: Coach) -> None:
    page = coach.get("/gym/thing?section=band&key=blue-1")
    words = inputs_of(page.text) | {"rows": "9"}
    more = coach.client.post("/gym/thing", data=words)
    assert more.text.count('name="readings.') == page.text.count('name="readings.') + 2 * 6
    assert coach.version == 1


def test_a_gym_goes_out_as_a_file_and_comes_back_the_same(coach: Coach) -> None:
    sent = coach.get("/gym/file.toml")
    assert "attachment" in sent.headers["content-disposition"]
    assert parse_gym(sent.text) == coach.gym
    page = _bring(coach, sent.content)
    assert "Nothing was changed." in page.text
    changed = sent.content.replace(b'mass = "15 kg"', b'mass = "16 kg"')
    assert "Gym file shed.toml brought in." in text_of(_bring(coach, changed).text)
    assert coach.gym.stock.bar("light bar").mass_kg == 16.0


@pytest.mark.parametrize(
    ("content", "said"),
    [
        (b"", "There is nothing in the file."),
        (b"\xff\xfe", "The file is not UTF-8 text."),
        (b"[gym\n", "Not valid TOML"),
        (b'[gym]\nname = "Other"', "That is another gym's file."),
        (b'[gym]\nname = "x"\n[[bar]]\nmass = "3 q"', "line 3"),
        (b"#" * 5_000_001, "The file is too large for a gym file."),
    ],
)
def test_a_poor_file_is_told_and_changes_nothing(visitor: Coach, content: bytes, said: str) -> None:
    page = _bring(visitor, content)
    assert page.status_code == 422
    assert said in text_of(page.text)
    assert visitor.version == 1


def _bring(coach: Coach, content: bytes) -> Any:
    return coach.client.post(
        "/gym/bring",
        data={"over": str(coach.version)},
        files={"file": ("shed.toml", content)},
        headers=coach.headers,
        follow_redirects=True,
    )


def test_the_history_shows_versions_and_puts_one_back(coach: Coach) -> None:
    coach.post("/gym/thing", BAR)
    coach.post("/gym/out", {"section": "plate", "key": "25 kg"})
    said = text_of(coach.get("/gym/history").text)
    assert said.index("3 : plate 25 kg taken out") < said.index(
        "1 : begun ada, 2026-11-01 00:00 UTC"
    )
    shown = text_of(coach.get("/gym/version?number=2").text)
    assert 'came name = "deadlift bar"' in shown
    coach.post("/gym/put-back", {"number": "1"})
    assert coach.tables == load_gym(coach.store, version=1).tables
    assert history(coach.store)[-1].note == "version 1 put back"
    assert coach.get("/gym/version?number=99").status_code == 422


def test_a_gym_from_a_file_is_shown_and_says_why_it_is_not_changed() -> None:
    client = client_of(Path(TINY))
    page = client.get("/gym")
    assert page.status_code == 200
    assert "topheavy gym load FILE" in page.text
    assert client.get("/gym/stock").status_code == 409
    assert "served from a file" in client.get("/lifters").text


def test_an_empty_gym_says_what_comes_next_until_there_is_a_rig() -> None:
    with keeping(tables={"gym": {"name": "The Shed"}}) as coach:
        steps = (
            ("A bar", {"section": "bar", "name": "bar", "mass": "20", "sleeve": "41.5"}),
            ("Collars", {"section": "collar", "name": "clip", "count": "2", "mass": "2.5",
                         "width": "5"}),
            ("Plates", {"section": "plate", "mass": "20", "width": "40", "diameter": "45",
                        "pairs": "3"}),
            ("Two pieces", {"section": "chain", "tags": "A1 A2", "links": "32", "size": "5/8 in",
                            "grade": "30"}),
            ("Two feeders", {"section": "feeder", "form": "strap", "name": "strap", "count": "2",
                             "mass": "0.5", "shortest": "35", "longest": "110",
                             "rating": "400"}),
            ("Two connectors", {"section": "connector", "name": "link", "count": "2",
                                "mass": "175 g", "length": "72", "rating": "850"}),
            ("A bench", {"section": "station", "name": "bench", "kind": "bench", "pad": "43"}),
        )  # fmt: skip
        for what, words in steps:
            said = text_of(coach.get("/gym").text)
            assert f"Next: {what}" in said
            assert coach.post("/gym/thing", words).status_code == 200, what
        assert "Next: A lifter" in text_of(coach.get("/gym").text)
        assert "Nobody yet" in coach.get("/lifters").text
        coach.post("/gym/thing", {"section": "lifter", "name": "Ansa"})
        heights = {"name": "Ansa", "lift": "bench press", "bottom.0": "66", "bottom.1": "66.2",
                   "top.0": "107", "top.1": "107.2", "do": "save"}  # fmt: skip
        assert "measured" in text_of(coach.post("/lifters/measure", heights).text)
        assert "Find a rig" in coach.get("/gym").text
        asked = {"lifter": "Ansa", "bottom": "60", "top": "75", "whole": "1"}
        rig = coach.client.get("/rig", params=asked)
        assert "A1" in text_of(rig.text)
        assert parse_gym(gym_text(coach.tables)) == coach.gym


@pytest.mark.parametrize("path", ["/gym", "/gym/stock", "/gym/stations", "/gym/care",
                                  "/gym/weighing", "/gym/weigh", "/gym/history", "/gym/bring",
                                  "/lifters", "/lifters/one?name=Osric", "/lifters/measure",
                                  "/lifters/lift?name=Osric&lift=squat",
                                  "/lifters/record?name=Osric&lift=squat&kind=misses",
                                  "/lifters/strength?name=Osric&lift=squat",
                                  "/gym/piece?tag=A9", "/gym/version?number=1",
                                  "/gym/thing?section=feeder"])  # fmt: skip
def test_every_page_opens_with_nothing_inline(visitor: Coach, path: str) -> None:
    page = visitor.get(path)
    assert page.status_code == 200
    assert not re.search(r"<script(?![^>]*\bsrc=)|\sstyle=|<style|\son[a-z]+=", page.text)
    assert page.text.count("<h1") == 1


@pytest.mark.parametrize(
    ("path", "status"),
    [
        ("/gym/thing?section=engine", 422),
        ("/gym/thing?section=bar&key=nothing", 422),
        ("/gym/piece?tag=Q9", 422),
        ("/gym/version?number=0", 422),
        ("/lifters/one?name=Nobody", 422),
        ("/lifters/lift?name=Osric&lift=board press", 422),
        ("/lifters/lift?name=Nobody&lift=squat", 422),
        ("/lifters/record?name=Osric&lift=squat&kind=dreams", 422),
        ("/lifters/measure?name=Osric&lift=dance", 422),
        ("/lifters/strength?name=Wren&lift=squat", 422),
    ],
)
def test_what_is_not_there_is_told_plainly(visitor: Coach, path: str, status: int) -> None:
    page = visitor.get(path)
    assert page.status_code == status
    assert "broke" not in page.text


def test_a_form_without_its_version_is_refused(coach: Coach) -> None:
    for over in ("", "x", "9" * 30, "0", "77"):
        sent = coach.client.post("/gym/thing", data={**BAR, "over": over}, headers=coach.headers)
        assert sent.status_code in {409, 422}, over
    assert coach.version == 1


def test_a_write_needs_the_token_of_our_own_page(coach: Coach) -> None:
    assert coach.client.post("/gym/thing", data={**BAR, "over": "1"}).status_code == 403
    assert coach.version == 1
