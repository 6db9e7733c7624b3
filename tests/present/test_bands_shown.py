"""A found rig with bands, as every screen and the card show it."""

from __future__ import annotations

from functools import cache

import pytest

from topheavy.gym.lifts import lift_named
from topheavy.gymfile import demo_gym
from topheavy.present.card.card import card_data
from topheavy.present.rig.described_words import as_options
from topheavy.present.rig.facts import hang_facts, share_facts
from topheavy.present.rig.picture import rig_scene
from topheavy.present.rig.view import RigView, view_rig
from topheavy.rigging.limits import Limits
from topheavy.rigging.target import Ask
from topheavy.services.rig import Place, RigAnswer, RigQuestion, answer_rig
from topheavy.units import METRIC, POUNDS


@cache
def answer(most_pieces: int, today: str = "2026-11-25") -> RigAnswer:
    gym, lift = demo_gym(), lift_named("bench press")
    place = Place(gym=gym, lifter=gym.lifter("Osric"), lift=lift, station=gym.station("bench 1"))
    question = RigQuestion(
        place=place,
        ask=Ask(bottom_kg=85.0, top_kg=115.0),
        limits=Limits(most_bands=1, least_bands=1, most_pieces=most_pieces),
        today=today,
    )
    return answer_rig(question)


@cache
def view(most_pieces: int, today: str = "2026-11-25") -> RigView:
    return view_rig(answer(most_pieces, today), METRIC)


def tags() -> tuple[str, str]:
    best = answer(8).best
    return best.left_bands[0].band.tag, best.right_bands[0].band.tag


def test_bands_stand_with_the_chain_of_their_end() -> None:
    named = dict(hang_facts(view(8)))
    for end, tag in zip(("left end", "right end"), tags(), strict=True):
        assert named[end].endswith(f"; band {tag} on peg low")


def test_bands_alone_name_no_chain_and_no_feeder() -> None:
    alone = view(0)
    assert (alone.style, alone.links, alone.feeder, alone.connector) == ("bands", (), "", "")
    assert alone.hang_left.startswith("band ")
    assert not any("chain" in line or "fold" in line.lower() for line in alone.steps)
    assert alone.signs[-1] == "Both ends alike: bar level."
    assert alone.deload is None
    assert "The bands change the bar by" in alone.compared


def test_loops_go_inside_the_collars_and_bands_are_stretched_last() -> None:
    for most_pieces in (8, 0):
        lines = view(most_pieces).steps
        over = next(n for n, line in enumerate(lines) if "still loose" in line)
        collars = next(n for n, line in enumerate(lines) if line.startswith("Collars on"))
        assert over < collars < len(lines) - 1
        assert lines[-1].startswith("Last, with the bar on its hooks")


def test_a_tape_can_check_the_bands() -> None:
    one = answer(8).bands.each[0]
    said = next(line for line in view(8).signs if line.startswith("Bands "))
    assert f"{METRIC.length(one.bottom.length_m)} from peg to middle of the bar" in said
    assert f"{METRIC.length(one.top.length_m)} locked out" in said


def test_chain_and_bands_are_kept_apart() -> None:
    named = dict(share_facts(view(8)))
    reading = answer(8).reading
    pulls = f"{METRIC.mass(reading.bands_bottom_kg)}, {METRIC.mass(reading.bands_top_kg)}"
    assert named["all bands pull, at bottom and top"] == pulls
    assert "deload of the chain alone at the bottom" in named
    chain_kg = reading.hung_top_kg - reading.hung_bottom_kg
    assert f"the chain by {METRIC.mass(chain_kg)}" in view(8).compared


def test_pounds_are_said_where_pounds_are_wanted() -> None:
    shown = view_rig(answer(8), POUNDS)
    assert all(row.top.text.endswith(" lb") for row in shown.bands)
    assert all(" kg" not in note and " cm" not in note for note in shown.band_notes)
    assert not any(" kg" in line for line in (*shown.signs, shown.compared))


def test_the_rig_can_be_described_again() -> None:
    left, right = tags()
    options = as_options(view(8).described)
    assert f"--left-band '{left} on low'" in options
    assert f"--right-band '{right} on low'" in options
    assert "--hang straight" not in as_options(view(0).described)


def test_the_card_shows_bands_on_both_ends() -> None:
    data = card_data(view(8), paper="a4")
    shown = [end["kinds"][-1] for end in data["ends"]]
    assert [kind["tags"] for kind in shown] == list(tags())
    assert {kind["chain"] for kind in shown} == {"band on peg low"}
    assert card_data(view(0), paper="a4")["middle"]["big"] == "bands"


def test_the_picture_knows_the_pegs() -> None:
    scene = rig_scene(answer(8), METRIC)
    assert scene.pegs == ("low",)
    assert len(scene.drawn_end.bands) == 1


@pytest.mark.parametrize(("today", "told"), [("2026-11-25", False), ("2027-11-25", True)])
def test_bands_to_read_again_are_told_first(today: str, *, told: bool) -> None:
    assert any("read it again" in line for line in view(0, today).cautions) == told
