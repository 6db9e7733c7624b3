"""`topheavy work`: given, listed, shown and taken away without a browser."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.cli.calling import TINY, call, refused

if TYPE_CHECKING:
    from pathlib import Path

GIVE = ("work", "give", "--lifter", "Ansa", "--bottom", "65kg", "--top", "84kg", "--for")
DAY = "2026-11-25"


@pytest.fixture
def _stored() -> None:
    assert call("gym", "load", TINY).code == 0


@pytest.mark.usefixtures("_stored")
def test_given_listed_shown_replaced_and_taken_away() -> None:
    done = call(*GIVE, DAY, "--do", "4x3", "--at", "18:00")
    assert done.code == 0, done.err
    assert "Given to Ansa for 2026-11-25." in done.out
    assert max(len(line) for line in done.out.splitlines()) <= 80
    listed = call("work", "list", "--for", DAY, "--json").json
    assert [one["work"]["kind"] for one in listed["work"]] == ["heavy day, 4 x 3"]
    assert listed["work"][0]["work"]["at"] == "18:00"
    assert listed["work"][0]["next_number"] == 1
    refused(call(*GIVE, DAY), "already", "--replace")
    assert call(*GIVE, DAY, "--singles", "--replace").code == 0
    shown = call("work", "show", "ansa", "--for", DAY, "--units", "lb")
    assert "singles up to a max" in shown.out
    assert " lb" in shown.out
    assert "Collars on." in shown.out
    assert call("work", "take", "Ansa", "--for", DAY).code == 0
    assert "Nobody has work" in call("work", "list", "--for", DAY).out
    refused(call("work", "take", "Ansa", "--for", DAY), "no such work")


@pytest.mark.usefixtures("_stored")
def test_what_was_logged_is_shown_beside_it() -> None:
    made = call(*GIVE, DAY, "--json").json
    first = made["work"]["steps"][0]
    added = call(
        "log", "add", "--lifter", "Ansa", "--lift", "bench", "--day", DAY,
        "--straight", f"{first['straight']['kg']}kg", "--reps", "5", "--reps-left", "4",
        "--session", made["work"]["session"], "--set", "1",
    )  # fmt: skip
    assert added.code == 0, added.err
    shown = call("work", "show", "Ansa", "--for", DAY, "--json").json
    assert shown[0]["next_number"] == 2
    assert [one["words"] for one in shown[0]["done"]] == ["5 reps, 4 left"]


@pytest.mark.usefixtures("_stored")
@pytest.mark.parametrize(
    ("words", "said"),
    [
        ((*GIVE, "tomorrow"), "--for"),
        ((*GIVE, DAY, "--kind", "easy"), "heavy, speed"),
        ((*GIVE, DAY, "--singles", "--do", "3x3"), "--do"),
        ((*GIVE, DAY, "--gym", TINY), "store:NAME"),
        (("work", "show", "Nobody"), "No lifter called"),
        (("work", "take", "Ansa", "--lift", "squat"), "no such work"),
    ],
)
def test_mistakes(words: tuple[str, ...], said: str) -> None:
    refused(call(*words), said)


def test_a_day_of_a_plan_is_given_whole(tmp_path: Path) -> None:
    gym, plan = tmp_path / "gym.toml", tmp_path / "plan.toml"
    gym.write_text(call("gym", "example").out, encoding="utf-8")
    day = """
[plan]
name = "Short"
start = "2026-11-23"

[[day]]
weekday = "wednesday"
lift = "bench press"
kind = "heavy"
lifters = ["Osric", "Pip"]
"""
    plan.write_text(day, encoding="utf-8")
    assert call("gym", "load", str(gym)).code == 0
    given = call("work", "plan", str(plan), "--for", DAY)
    assert "Given: 2. As before: 0. Taken away: 0." in given.out, given.err
    again = call("work", "plan", str(plan), "--for", DAY, "--json").json
    assert [one["work"]["lifter"] for one in again["work"]] == ["Osric", "Pip"]
    assert {one["work"]["source"] for one in again["work"]} == {"weeks"}
    loads = call("weeks", "show", str(plan), "--week", "1", "--gym", str(gym), "--json").json
    planned = {one["lifter"]: one["straight"]["kg"] for one in loads["sessions"]}
    assert {
        one["work"]["lifter"]: one["work"]["steps"][-1]["straight"]["kg"] for one in again["work"]
    } == pytest.approx(planned)
    refused(call("work", "plan", str(plan), "--for", "2026-11-26"), "Nobody trains", "2026-12-02")
