"""`topheavy rep` and `topheavy speed`: what they print, and what they refuse."""

from __future__ import annotations

import pytest

from tests.cli.calling import Called, call, refused

ASK = ("--lifter", "Osric", "--bottom", "85kg", "--top", "115kg")
NO_BEST = ("--lifter", "Wren", "--bottom", "40kg", "--top", "50kg")


@pytest.fixture(scope="module")
def shown() -> Called:
    return call("rep", *ASK)


def test_a_rep_is_shown_whole(shown: Called) -> None:
    assert shown.code == 0, shown.err
    assert shown.err == ""
    for words in (
        "Osric, bench press, bench 1",
        "The way up",
        "Speed by height",
        "The way down",
        "Side by side at equal effort",
        "When it fails",
        "Mind",
        "How sure this is",
        "No study found has tested",
    ):
        assert words in shown.out
    assert max(len(line) for line in shown.out.splitlines()) <= 80


def test_what_was_asked_is_kept() -> None:
    told = call("rep", *ASK, "--effort", "90%", "--lower", "1.5", "--units", "lb", "--json").json
    assert told["effort"] == {"fraction": 0.9, "shown": "90 %"}
    assert any("Lowered in 1.5 s" in line for line in told["way_down"])
    assert told["sides"][0]["straight"]["likely"]["shown"].endswith(" lb")
    assert told["sides"][0]["straight"]["likely"]["kg"] == pytest.approx(0.9 * 142.5, rel=3e-3)


def test_a_best_that_was_typed_counts_instead_of_the_files() -> None:
    told = call("rep", *NO_BEST, "--best", "80kg", "--json").json
    assert told["verdict_code"] == "made"
    plain = told["sides"][0]["straight"]["likely"]["kg"]
    assert plain == pytest.approx(80.0 * told["effort"]["fraction"], rel=0.02)


def test_speed_work_is_shown_whole() -> None:
    done = call("speed", *ASK)
    assert done.code == 0, done.err
    assert done.err == ""
    for words in ("Equal load at the top", "Equal mean load", "Plates a side", "How sure this is"):
        assert words in done.out
    assert max(len(line) for line in done.out.splitlines()) <= 80


def test_shares_that_were_asked_are_kept() -> None:
    told = call("speed", *ASK, "--share", "70%", "--share", "50%", "--units", "lb", "--json").json
    for table in told["tables"]:
        assert [line["of_best"]["fraction"] for line in table["lines"]] == [0.5, 0.7]
        assert table["lines"][0]["plain"]["shown"].endswith(" lb")


@pytest.mark.parametrize("command", ["rep", "speed"])
def test_a_lifter_of_whom_nothing_is_known_is_refused(command: str) -> None:
    refused(call(command, *NO_BEST), "Nothing says how strong Wren is", "a best single")


@pytest.mark.parametrize("command", ["rep", "speed"])
def test_a_lift_without_a_model_is_refused(command: str) -> None:
    press = ("--lifter", "Runa", "--lift", "press", "--bottom", "50kg", "--top", "60kg")
    refused(call(command, *press), "overhead press", "bench press, squat, deadlift", "--lift")


@pytest.mark.parametrize("command", ["rep", "speed"])
def test_a_rig_that_cannot_be_built_is_refused(command: str) -> None:
    done = call(command, *ASK, "--most-pieces", "2", "--size", "1/4 in", "--design-factor", "5000")
    refused(done)


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        (("--effort", "0%"), "--effort"),
        (("--effort", "101%"), "--effort"),
        (("--effort", "heavy"), "--effort"),
        (("--effort", "100kg"), "--effort"),
        (("--effort", "nan%"), "--effort"),
        (("--lower", "0"), "--lower"),
        (("--lower", "-2"), "--lower"),
        (("--lower", "1e9"), "--lower"),
        (("--lower", "nan"), "--lower"),
    ],
)
def test_what_makes_no_sense_is_refused_by_its_option(typed: tuple[str, str], said: str) -> None:
    refused(call("rep", *ASK, *typed), said)


@pytest.mark.parametrize("share", ["0%", "-10%", "150%", "60", "60kg", "", "nan%"])
def test_a_share_that_makes_no_sense_is_refused(share: str) -> None:
    refused(call("speed", *ASK, "--share", share), "--share")


def test_shares_lighter_than_bar_and_chain_are_refused() -> None:
    done = call("speed", *ASK, "--share", "5%")
    refused(done, "more than every one of these loads", "--share")


def test_at_an_effort_below_the_bar_nothing_stands_beside_and_each_is_told_once() -> None:
    done = call("rep", *ASK, "--effort", "1%")
    assert done.code == 0
    said = " ".join(done.out.split())
    assert said.count("Band can't be in it") == 1
    assert "No band beside it" not in said
    assert "* as this rig hangs" not in said
