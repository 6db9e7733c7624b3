"""Inspections and weighings in a gym file."""

from __future__ import annotations

import math

import pytest

from tests.gymfile.samples import problems, read
from topheavy.gymfile import gym_text, parse_gym
from topheavy.gymfile.read import toml_of
from topheavy.rigging.kinds import kinds_of

CHAIN = """
[[chain]]
tags = ["A1", "A2", "A3", "A4"]
size = "5/8 in"
links = 32
weighed = ["9.52 kg", "9.46 kg", "9.58 kg", "9.50 kg"]
inspected = "2024-09-01"
"""


def entry(kind: str, *lines: str) -> str:
    return f"[[{kind}]]\n" + "\n".join(lines) + "\n"


GOUGE = entry("inspection", 'day = "2025-09-01"', 'tags = ["a2"]', 'found = ["gouge"]', 'by = "W"')


def test_every_inspection_is_kept_and_one_retires() -> None:
    later = entry("inspection", 'day = "2026-09-01"', 'tags = ["A1", "A2"]', 'lost_section = "4 %"')
    stock = read(CHAIN + later + GOUGE).stock
    assert [one.day for one in stock.piece("A2").inspections] == [
        "2024-09-01",
        "2025-09-01",
        "2026-09-01",
    ]
    assert stock.piece("A2").retired == "a gouge, seen 2025-09-01"
    assert stock.piece("A2").inspected_on == "2026-09-01"
    assert (stock.piece("A1").retired, stock.piece("A1").inspected_on) == ("", "2026-09-01")
    assert (stock.piece("A3").retired, stock.piece("A3").inspected_on) == ("", "2024-09-01")
    assert [one.tag for one in stock.fit_chains] == ["A1", "A3", "A4"]


def test_a_piece_that_was_found_bad_is_in_no_kind_that_a_rig_takes() -> None:
    stock = read(CHAIN + GOUGE).stock
    tags = {piece.tag for kind in kinds_of(stock.fit_chains, 4) for piece in kind.pieces}
    assert "A2" not in tags


def test_a_reason_of_ones_own_stays() -> None:
    gym = read(CHAIN + 'retired = "dropped on concrete"\n' + GOUGE)
    assert {one.retired for one in gym.stock.chains} == {"dropped on concrete"}


def test_the_newest_weighing_counts() -> None:
    old = entry("weighing", 'day = "2025-09-01"', 'tags = ["A1"]', 'masses = "9.40 kg"')
    new = entry(
        "weighing",
        'day = "2026-09-01"',
        'tags = ["A1", "A3"]',
        'masses = ["9.36 kg", "9.44 kg"]',
        'scale_reading = "10 g"',
    )
    stock = read(CHAIN + new + old).stock
    one = stock.piece("A1")
    assert [weighing.mass_kg for weighing in one.weighings] == [9.52, 9.40, 9.36]
    assert one.chain.mass_kg == pytest.approx(9.36)
    assert one.mass_u_kg == pytest.approx(0.01)
    assert stock.piece("A2").chain.mass_kg == pytest.approx(9.46)


def test_a_piece_nobody_weighed_before_is_weighed_now() -> None:
    text = CHAIN.replace('weighed = ["9.52 kg", "9.46 kg", "9.58 kg", "9.50 kg"]\n', "")
    assert not read(text).stock.piece("A1").weighed
    now = entry("weighing", 'day = "2026-09-01"', 'tags = ["A1"]', 'masses = "21 lb"')
    piece = read(text + now).stock.piece("A1")
    assert piece.weighed
    assert math.isclose(piece.chain.mass_kg, 21 * 0.45359237)
    assert "scale" in piece.chain.known_by


@pytest.mark.parametrize(
    ("entry_text", "said"),
    [
        (GOUGE.replace("a2", "Z9"), "no chain piece of that tag"),
        (GOUGE.replace("2025-09-01", "2025-09-31"), "Not a day"),
        (GOUGE.replace('["a2"]', '["A2", "a2"]'), "named twice"),
        (GOUGE.replace('["gouge"]', '["rust"]'), "Not one of the words"),
        (GOUGE.replace('tags = ["a2"]\n', ""), '"tags" is missing'),
        (
            entry("weighing", 'day = "2026-09-01"', 'tags = ["A1", "A2"]', 'masses = "9.4 kg"'),
            "Not one mass for each piece",
        ),
        (
            entry("weighing", 'day = "2026-09-01"', 'tags = ["A1"]', 'masses = "21 kg"'),
            "No steel chain of that size weighs so much",
        ),
    ],
)
def test_mistakes_are_told_where_they_are(entry_text: str, said: str) -> None:
    ((message, where, _, _),) = problems(CHAIN + entry_text)
    assert said in message
    assert where.startswith(("inspection[1]", "weighing[1]"))


def test_written_down_and_read_again_they_say_the_same() -> None:
    weighed = entry("weighing", 'day = "2026-09-01"', 'tags = ["A1"]', 'masses = "9.4 kg"')
    gym = read(CHAIN + GOUGE + weighed + "")
    head = '[gym]\nname = "Barn"\ninspect_days = 90\n'
    tables = toml_of(head + CHAIN + GOUGE + weighed, "test")
    again = parse_gym(gym_text(tables))
    assert again.stock == gym.stock
    assert again.inspect_days == 90


def test_the_days_between_inspections_are_the_gyms_choice() -> None:
    ((message, *_),) = problems(CHAIN, head='[gym]\nname = "Barn"\ninspect_days = 0\n')
    assert "Too small" in message
