"""`topheavy strength`, as a coach calls it."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.cli.calling import TINY, call, refused
from topheavy.gymfile import demo_text

if TYPE_CHECKING:
    from pathlib import Path

ANSA = ("strength", "--gym", TINY, "--lifter", "Ansa")


def test_one_number_gives_a_typical_curve_and_says_so() -> None:
    done = call(*ANSA)
    assert done.code == 0
    assert done.err == ""
    for words in ("Ansa, bench press, the bench", "100.0 kg", "One number does not say",
                  "best in the gym file", "A single from pins", "Collars on"):  # fmt: skip
        assert words in done.out


def test_what_is_typed_narrows_the_curve() -> None:
    plain = call(*ANSA, "--json").json
    more = call(*ANSA, "--partial", "95cm=130kg", "--miss", "80cm=104kg", "--json").json
    before, after = (
        sum(row["high"]["kg"] - row["low"]["kg"] for row in view["rows"]) for view in (plain, more)
    )
    assert after < 0.7 * before
    assert len(more["made_from"]) == 3


def test_json_has_the_same_facts_as_the_screen() -> None:
    done = call(*ANSA, "--set", "5x85kg@1", "--json")
    view = done.json
    screen = " ".join(call(*ANSA, "--set", "5x85kg@1").out.split())
    assert set(view) >= {"best", "best_low", "best_high", "weakest", "rows", "sets", "advice"}
    assert view["best"]["shown"] in screen
    assert view["weakest"]["shown"] in screen
    for words in (*view["remarks"], *view["made_from"], *view["cautions"], view["advice"]["words"]):
        assert " ".join(words.split()) in screen
    assert set(view["sets"][0]["formulas"]) == {
        "Epley", "Brzycki", "Lombardi", "O'Conner", "Wathen", "Mayhew", "Lander",
    }  # fmt: skip


def test_pounds_when_asked() -> None:
    out = call(*ANSA, "--units", "lb").out
    assert "220.5 lb" in out
    assert " kg" not in out


def test_the_demo_lifter_counts_his_pin_press_and_his_miss() -> None:
    out = call("strength", "--lifter", "Osric").out
    assert "from 82.0 cm up (pin press, gym file)" in out
    assert "a miss of 147.5 kg at 80.0 cm (2026-11-07)" in out


def test_speed_beside_a_single_is_left_out_with_its_reason() -> None:
    out = " ".join(call(*ANSA, "--speed", "80kg=0.45").out.split())
    assert "Left out" in out
    assert "a single that was made says more" in out


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("--partial", "95cm=80kg"), ("A partial starts higher", "as given", "gym file")),
        (("--partial", "2m=80kg"), ("outside the lift", "--partial", "2m=80kg")),
        (("--set", "many"), ("Not a set", "--set", "5x100kg@2")),
        (("--lift", "deadlift"), ("has no heights for the deadlift", "measure")),
        (("--lifter", "Nobody"), ("No lifter called", "Ansa")),
        (("--station", "the rack"), ("not done on a rack",)),
        (("--units", "stone"), ("Unknown units",)),
    ],
)
def test_slips_are_told_plainly(words: tuple[str, ...], said: tuple[str, ...]) -> None:
    refused(call(*ANSA, *words), *said)


def test_a_lifter_with_no_data_is_told_what_to_bring() -> None:
    done = call("strength", "--lifter", "Wren")
    refused(done, "Nothing says how strong Wren is", "a best single in the bench press", "a set")
    assert call("strength", "--lifter", "Wren", "--set", "5x50kg").code == 0


def test_records_of_a_file_of_ones_own(tmp_path: Path) -> None:
    mine = tmp_path / "mine.toml"
    mine.write_text(demo_text().replace('height = "80 cm", day', 'third = "middle", day'))
    out = call("strength", "--gym", str(mine), "--lifter", "Osric").out
    assert "a miss of 147.5 kg at 86.5 cm" in out
    mine.write_text(demo_text().replace('height = "80 cm", day', 'height = "1.8 m", day'))
    refused(call("strength", "--gym", str(mine)), "outside the lift", "misses[1].height", "line")
