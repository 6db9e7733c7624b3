"""Inspections of chain: due after a year, and limits that retire a piece by themselves."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from tests.cli.calling import TINY
from tests.rigging.builders import piece
from topheavy.errors import BadInputError
from topheavy.gym.care import INSPECT_DAYS
from topheavy.gym.lifts import lift_named
from topheavy.gymfile import GymFileError, parse_gym
from topheavy.rigging.target import Ask
from topheavy.services.chain_care import inspections_due
from topheavy.services.rig import Place, RigQuestion, answer_rig

CHAIN = """
[gym]
name = "Barn"
[[chain]]
tags = ["A1", "A2"]
size = "5/8 in"
links = 32
"""


def test_chain_is_due_after_a_year_and_not_before() -> None:
    looked = replace(piece("A1"), inspected_on="2025-11-25")
    assert INSPECT_DAYS == 365
    assert inspections_due([looked], "2026-11-25") == ()
    (due,) = inspections_due([looked], "2026-11-26")
    assert due.say().startswith("A1: last inspected 366 days ago.")


def test_retired_chain_and_chain_without_a_day_are_passed_over() -> None:
    retired = replace(piece("A1"), inspected_on="2020-01-01", retired="bent")
    assert inspections_due([retired, piece("A2")], "2026-11-25") == ()


def test_pieces_of_one_day_are_told_together_and_a_day_to_come_is_told() -> None:
    old = [replace(piece(tag), inspected_on="2024-01-01") for tag in ("A1", "A2")]
    new = replace(piece("A3"), inspected_on="2027-01-01")
    said = [due.say() for due in inspections_due([new, *old], "2026-11-25")]
    assert said[0].startswith("A1, A2: last inspected")
    assert said[1] == "A3: inspected on 2027-01-01, which is still to come."


@pytest.mark.parametrize(
    ("readings", "retired"),
    [
        ('pitch_growth = "2.9 %"', ""),
        ('pitch_growth = "3 %"', "pitch 3.0 % over, the limit is 3 %"),
        ('lost_section = "9.9 %"', ""),
        ('lost_section = "10 %"', "section worn by 10.0 %, the limit is 10 %"),
    ],
)
def test_the_limits_retire_a_piece(readings: str, retired: str) -> None:
    gym = parse_gym(CHAIN + readings)
    assert {one.retired for one in gym.stock.chains} == {retired}
    assert bool(gym.stock.fit_chains) == (retired == "")


def test_the_day_is_read_and_a_wrong_one_refused() -> None:
    gym = parse_gym(CHAIN + 'inspected = "2026-09-01"')
    assert gym.stock.piece("A1").inspected_on == "2026-09-01"
    with pytest.raises(GymFileError, match="Not a day"):
        parse_gym(CHAIN + 'inspected = "2026-13-01"')
    with pytest.raises(BadInputError):
        inspections_due([], "today")


def test_a_rig_of_chain_that_is_due_says_so_and_the_gym_chooses_how_often() -> None:
    text = Path(TINY).read_text(encoding="utf-8")
    text = text.replace("links = 32\nten_links", 'links = 32\ninspected = "2026-08-01"\nten_links')
    yearly, monthly = (
        parse_gym(text.replace('name = "The Shed"', f'name = "The Shed"\ninspect_days = {days}'))
        for days in (365, 30)
    )
    for gym, told in ((yearly, False), (monthly, True)):
        lift = lift_named("bench press")
        place = Place(gym=gym, lifter=gym.lifters[0], lift=lift, station=gym.stations[0])
        ask = Ask(bottom_kg=65, top_kg=85)
        answer = answer_rig(RigQuestion(place=place, ask=ask, today="2026-11-25"))
        assert answer.best.left
        assert any("last inspected 116 days ago" in one for one in answer.remeasure) == told
