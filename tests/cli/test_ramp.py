"""`topheavy ramp` and `topheavy session`: what is printed, and what is refused."""

from __future__ import annotations

import pytest

from tests.cli.calling import TINY, call, refused

ASK = ("--gym", TINY, "--bottom", "65kg", "--top", "84kg")


def test_json_and_terminal_say_the_same_ramp() -> None:
    shown, view = call("ramp", *ASK).out, call("ramp", *ASK, "--json").json
    text = " ".join(shown.split())
    assert view["rows"][-1]["kind"] == "top set"
    for row in view["rows"]:
        assert row["change"] in text
    assert max(len(line) for line in shown.splitlines()) <= 80


def test_reps_and_chain_from_change_the_ramp() -> None:
    three = call("ramp", *ASK, "--json").json
    five = call("ramp", *ASK, "--reps", "5", "--json").json
    late = call("ramp", *ASK, "--chain-from", "3", "--json").json
    assert (three["rows"][-1]["reps"], five["rows"][-1]["reps"]) == (3, 5)
    assert not any("is the first with chain on" in line for line in three["remarks"])
    assert any("Set 3 is the first with chain on" in line for line in late["remarks"])


def test_pounds_are_shown_and_plates_stay_as_marked() -> None:
    view = call("ramp", *ASK, "--units", "lb", "--json").json
    assert view["rows"][0]["bottom"]["shown"].endswith(" lb")
    assert view["plate_unit"] == "kg"


def test_bands_are_called_bands() -> None:
    words = ("--lifter", "Osric", "--bottom", "85kg", "--top", "105kg", "--bands", "1")
    alone = (*words, "--most-pieces", "0", "--chain-from", "3")
    view = call("ramp", *alone, "--json").json
    assert view["rows"][0]["chain"] == "no bands yet"
    assert view["rows"][2]["chain"] == "bands on"
    assert any("the first with bands on" in line for line in view["remarks"])
    assert "bands off, held until slack" in view["between"]
    assert not any("hain" in line for line in (view["between"], *view["remarks"]))


def test_a_deadlift_has_no_rack() -> None:
    words = ("--lifter", "Osric", "--lift", "deadlift", "--bottom", "150kg", "--chain", "20%")
    view = call("ramp", *words, "--hang", "draped", "--part-deload", "--json").json
    assert view["between"].startswith("Bar down.")
    assert any("put the bar on blocks" in line for line in view["remarks"])


def test_the_next_attempt_stands_first() -> None:
    words = ("--singles", "--after", "65kg", "--missed", "--attempt", "2")
    shown = call("ramp", *ASK, *words)
    assert shown.code == 0
    assert shown.out.index("Next attempt") < shown.out.index("Sets")
    assert "Missed: 2.5 % off, once." in shown.out


def test_a_percentage_of_the_best_may_be_told() -> None:
    """65 % of Ansa's 100 kg is 65 kg."""
    words = ("--singles", "--after", "65%", "--missed", "--json")
    found = call("ramp", *ASK, *words).json["next_attempt"]
    assert found["straight_weight"]["kg"] == 55.0


def test_a_lift_without_a_best() -> None:
    view = call("ramp", "--lifter", "Wren", "--bottom", "30kg", "--top", "45kg", "--json").json
    assert view["best"] is None
    assert view["percents"] == []
    assert view["limited_by"] == "bottom"


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("--reps", "0"), ("--reps", "whole number")),
        (("--reps", "three"), ("--reps",)),
        (("--chain-from", "0"), ("--chain-from", "1 or more")),
        (("--chain-from", "30"), ("--chain-from", "30", "1 or 2")),
        (("--singles", "--reps", "3"), ("--reps", "1 with singles")),
        (("--after", "65kg"), ("--after", "--singles")),
        (("--singles", "--missed"), ("--missed", "--after")),
        (("--singles", "--attempt", "2"), ("--attempt", "--after")),
        (("--singles", "--after", "10kg"), ("--after", "10 kg", "25 kg or more")),
        (("--singles", "--after", "66kg"), ("--after", "66 kg", "65 kg")),
        (("--singles", "--after", "65kg", "--reps-left", "-1"), ("--reps-left", "0 to 10")),
        (("--singles", "--after", "65kg", "--reps-left", "nan"), ("--reps-left",)),
        (("--singles", "--after", "65kg", "--bar-speed", "-1"), ("--bar-speed",)),
        (("--singles", "--after", "65kg", "--missed", "--bar-speed", "0.2"), ("--missed",)),
        (("--singles", "--after", "65kg", "--attempt", "0"), ("--attempt", "1 or more")),
        (("--singles", "--after", "6x"), ("--after",)),
        (("--lift", "squat", "--singles", "--after", "10%"), ("--after", "10%")),
        (("--top", "60kg"), ("top",)),
        (("--units", "stone"), ("--units", "kg or lb")),
    ],
)
def test_ramps_that_make_no_sense(words: tuple[str, ...], said: tuple[str, ...]) -> None:
    refused(call("ramp", *ASK, *words), *said)


def test_json_and_terminal_say_the_same_session() -> None:
    shown, view = call("session", *ASK).out, call("session", *ASK, "--json").json
    text = " ".join(shown.split())
    assert view["work"] in text
    for row in view["volume"]:
        assert row["of_best"]["shown"] in text
    assert max(len(line) for line in shown.splitlines()) <= 80


@pytest.mark.parametrize("day", ["heavy", "speed", "repetition", "technique"])
def test_each_kind_of_day(day: str) -> None:
    view = call("session", *ASK, "--day", day, "--do", "4x2", "--json").json
    assert (view["day"], view["sets"], view["reps"]) == (day, 4, 2)
    assert (view["loss"] is None) == (day == "technique")


def test_a_set_ends_where_one_says() -> None:
    view = call("session", *ASK, "--day", "speed", "--stop-at", "15%", "--json").json
    assert view["loss"]["fraction"] == 0.15
    stop, first = view["stop_speed"]["m/s"], view["speed_middle"]["m/s"]
    assert stop == pytest.approx(0.85 * first)


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("--day", "leg"), ("--day", "heavy, speed, repetition, technique")),
        (("--do", "0x3"), ("--do", "'0x3'", "1 to 20 sets")),
        (("--do", "99x3"), ("--do", "1 to 20 sets")),
        (("--do", "5x31"), ("--do", "1 to 30 reps")),
        (("--do", "five"), ("--do", "such as 5x3")),
        (("--do", ""), ("--do", "such as 5x3")),
        (("--stop-at", "0%"), ("--stop-at", "45%")),
        (("--stop-at", "60%"), ("--stop-at", "45%")),
        (("--stop-at", "15"), ("--stop-at",)),
        (("--stop-at", "15kg"), ("--stop-at",)),
    ],
)
def test_sessions_that_make_no_sense(words: tuple[str, ...], said: tuple[str, ...]) -> None:
    refused(call("session", *ASK, *words), *said)
