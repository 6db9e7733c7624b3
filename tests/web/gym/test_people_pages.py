"""Lifters in the browser: measured by readings, records undone, and only one's own seen."""

from __future__ import annotations

import html
import re
from contextlib import closing
from typing import TYPE_CHECKING, Any

import pytest

from tests.web.gym.keeping import Coach, keeping, wrong_at
from tests.web.people import PIP_WORDS, barn, hash_quickly, post, signed_in, with_coach, with_pip
from tests.web.serving import text_of
from topheavy.gymfile import demo_gym
from topheavy.store.gyms import load_gym
from topheavy.web.gym.people import record_words

if TYPE_CHECKING:
    from pathlib import Path

READINGS = {"bottom.0": "22.5", "bottom.1": "22.5", "top.0": "70.0", "top.1": "70.4"}
WREN = {"name": "Wren", "lift": "deadlift", "do": "save", **READINGS}


def _lift(coach: Coach, name: str, lift: str) -> Any:
    return coach.gym.lifter(name).lifts[lift]


def test_readings_become_heights_and_how_sure_they_are(coach: Coach) -> None:
    page = coach.post("/lifters/measure", WREN)
    assert "Wren, deadlift measured: 2 and 2 readings." in text_of(page.text)
    travel = _lift(coach, "Wren", "deadlift").travel
    assert (travel.bottom_m, travel.top_m) == pytest.approx((0.225, 0.702))
    # s of both heights together: 0.2 cm over two degrees of freedom; the tape's 3 mm by squares.
    assert travel.height_u_m == pytest.approx(0.004)


def test_checking_saves_nothing_and_says_what_goes_together(visitor: Coach) -> None:
    page = visitor.post("/lifters/measure", {**WREN, "do": "check"})
    said = text_of(page.text)
    assert "These go together" in said
    assert "Bottom 22.5 ± 0.3 cm (2 readings)" in said
    assert visitor.version == 1


def test_odd_readings_are_saved_only_by_one_who_has_seen_what_is_odd(coach: Coach) -> None:
    odd = {**WREN, "top.1": "73"}
    page = coach.post("/lifters/measure", odd)
    assert "Readings of the top lie 3.0 cm apart" in text_of(page.text)
    assert coach.version == 1
    # To be sure of that is not to be sure of something else.
    sure = html.unescape(re.findall(r'name="sure" value="([^"]*)"', page.text)[0])
    other = coach.post("/lifters/measure", {**odd, "bottom.1": "25.5", "sure": sure})
    assert "Readings of the bottom lie 3.0 cm apart" in text_of(other.text)
    assert coach.version == 1
    assert coach.post("/lifters/measure", {**odd, "sure": sure}).status_code == 200
    assert _lift(coach, "Wren", "deadlift").travel.top_m == pytest.approx(0.715)


@pytest.mark.parametrize(
    ("words", "field", "message"),
    [
        ({"top.0": "70 q"}, "m-top", "Unknown unit 'q' for a length."),
        ({"top.0": "", "top.1": ""}, "m-top", "No reading."),
        ({"top.0": "250", "top.1": "250"}, "m-top", "No human deadlift has its top there."),
        ({"top.0": "20", "top.1": "20"}, "m", "top"),
    ],
)
def test_a_reading_that_can_not_be_stands_beside_its_height(
    visitor: Coach, words: dict[str, str], field: str, message: str
) -> None:
    page = visitor.post("/lifters/measure", {**WREN, **words})
    assert page.status_code == 422
    assert message in wrong_at(page.text)[field]
    assert visitor.version == 1


def test_inches_are_read_and_written_where_the_gym_sees_inches() -> None:
    tables = {"gym": {"name": "The Shed", "units": "lb"}, "lifter": [{"name": "Ansa"}],
              "station": [{"name": "rack", "kind": "rack"}]}  # fmt: skip
    with keeping(tables=tables) as coach:
        words = {"name": "Ansa", "lift": "squat", "station": "rack", "do": "save",
                 "bottom.0": "31 1/2", "bottom.1": "31 1/2", "top.0": "54",
                 "top.1": "137.16 cm"}  # fmt: skip
        coach.post("/lifters/measure", words)
        lift = coach.tables["lifter"][0]["lifts"]["squat"]
        assert lift == {"bottom": "31.50 in", "top": "54.00 in", "within": "0.12 in",
                        "station": "rack"}  # fmt: skip


def test_measuring_again_keeps_best_and_records(coach: Coach) -> None:
    words = {"name": "Osric", "lift": "bench press", "station": "bench 1", "do": "save",
             "bottom.0": "66", "bottom.1": "66", "top.0": "107", "top.1": "107.2"}  # fmt: skip
    coach.post("/lifters/measure", words)
    osric = _lift(coach, "Osric", "bench press")
    assert osric.best_kg == 142.5
    assert osric.records == demo_gym().lifter("Osric").lifts["bench press"].records


def test_a_best_and_its_day_are_written_down(coach: Coach) -> None:
    words = {"name": "Wren", "lift": "squat", "bottom": "80", "top": "137", "best": "70",
             "best_day": "2026-11-20"}  # fmt: skip
    page = coach.post("/lifters/lift", words)
    assert "Best single 70.0 kg, 2026-11-20" in text_of(page.text)
    page = coach.post("/lifters/lift", {**words, "best": ""})
    assert wrong_at(page.text)["best_day"].startswith("A day, and no best.")


def test_a_record_is_written_down_struck_out_and_back(coach: Coach) -> None:
    words = {"name": "Pip", "lift": "squat", "record": "misses", "straight": "100",
             "third": "middle", "day": "2026-11-01"}  # fmt: skip
    page = coach.post("/lifters/record", words)
    assert "Misses: 100 kg stopped at the middle third, 2026-11-01" in text_of(page.text)
    page = coach.post("/lifters/record/out", {**words, "words": "100 kg stopped at the middle "
                                              "third, 2026-11-01"})  # fmt: skip
    assert _lift(coach, "Pip", "squat").records == ()
    coach.undo(page)
    assert len(_lift(coach, "Pip", "squat").records) == 1
    gone = coach.post("/lifters/record/out", {**words, "words": "something else"})
    assert gone.status_code == 422


def test_a_record_that_contradicts_itself_is_told_beside_its_field(visitor: Coach) -> None:
    words = {"name": "Pip", "lift": "squat", "record": "sets", "load": "80", "reps": "90",
             "tried": "yes"}  # fmt: skip
    page = visitor.post("/lifters/record", words)
    assert page.status_code == 422
    assert wrong_at(page.text)["reps"].startswith("Too large.")
    both = {"name": "Pip", "lift": "squat", "record": "misses", "straight": "100",
            "third": "middle", "height": "90"}  # fmt: skip
    assert "said twice" in text_of(visitor.post("/lifters/record", both).text)


def test_a_lift_and_a_lifter_are_taken_out_and_undone(coach: Coach) -> None:
    page = coach.post("/lifters/lift/out", {"name": "Wren", "lift": "squat"})
    assert "squat" not in coach.gym.lifter("Wren").lifts
    coach.undo(page)
    assert "squat" in coach.gym.lifter("Wren").lifts
    page = coach.post("/gym/out", {"section": "lifter", "key": "Wren"})
    assert "Wren" not in text_of(coach.get("/lifters").text)
    coach.undo(page)
    assert coach.gym == demo_gym()


def test_two_at_one_lift_see_both(coach: Coach) -> None:
    words = {"name": "Wren", "lift": "squat", "bottom": "80", "top": "137", "best": "70"}
    coach.post("/lifters/lift", words, over=1)
    page = coach.post("/lifters/lift", {**words, "best": "75"}, over=1)
    assert page.status_code == 409
    assert "Best single 70 kg" in text_of(page.text)
    assert _lift(coach, "Wren", "squat").best_kg == 70.0


def test_strength_by_height_is_drawn_and_told(visitor: Coach) -> None:
    page = visitor.get("/lifters/strength?name=Osric&lift=bench press")
    said = text_of(page.text)
    assert "Osric's strength" in said
    assert "Best 142.5 kg" in said
    assert page.text.count("<svg") == 1
    nothing = visitor.get("/lifters/strength?name=Wren&lift=squat")
    assert "Nothing says how strong Wren is in the squat" in text_of(nothing.text)


@pytest.mark.parametrize(
    ("kind", "record", "wanted"),
    [
        ("sets", {"load": "120 kg", "reps": 5, "tried": False}, "120 kg for 5, not all out"),
        ("sets", {"load": "90 kg", "start": "82 cm"}, "90 kg for 1, from 82 cm"),
        ("misses", {"straight": "147.5 kg", "height": "80 cm"}, "147.5 kg stopped at 80 cm"),
        ("isometrics", {"height": "80 cm", "effort": "290 kg", "rest": "115 kg"},
         "pins at 80 cm: 290 kg, at rest 115 kg"),
        ("speeds", {"load": "100 kg", "speed": "0.45 m/s"}, "100 kg at 0.45 m/s (mean)"),
        ("hung", {"straight": "100 kg", "left": ["A1"], "right": ["A2"]},
         "100 kg with A1 left, A2 right"),
    ],
)  # fmt: skip
def test_what_was_written_down_is_said(kind: str, record: dict[str, Any], wanted: str) -> None:
    assert record_words(kind, record) == wanted


def test_a_lifter_sees_only_their_own_and_changes_nothing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    hash_quickly(monkeypatch)
    with closing(barn(tmp_path)) as store:
        with_coach(store)
        with_pip(store)
        pip = signed_in(store, "pip", PIP_WORDS)
        assert "Osric" not in text_of(pip.get("/lifters").text)
        own = pip.get("/lifters/one?name=Pip")
        assert own.status_code == 200
        assert "<form" not in own.text.partition("<main")[2]
        assert pip.get("/lifters/strength?name=Pip&lift=squat").status_code == 200
        for path in ("/lifters/one?name=Osric", "/lifters/strength?name=Osric&lift=squat",
                     "/lifters/measure", "/lifters/lift?name=Pip&lift=squat", "/gym", "/gym/stock",
                     "/gym/thing?section=bar", "/gym/history", "/gym/file.toml", "/gym/care",
                     "/gym/weigh", "/gym/version?number=1", "/gym/piece?tag=A1"):  # fmt: skip
            assert pip.get(path).status_code == 403, path
        for path in ("/gym/thing", "/gym/out", "/gym/undo", "/gym/put-back", "/gym/piece",
                     "/gym/care/inspection", "/gym/weigh", "/gym/weigh/take", "/lifters/lift",
                     "/lifters/lift/out", "/lifters/record", "/lifters/record/out",
                     "/lifters/measure"):  # fmt: skip
            sent = post(pip, path, name="Pip", lift="squat", over="1", section="bar")
            assert sent.status_code == 403, path
        assert load_gym(store).version.number == 1
