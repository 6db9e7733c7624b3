"""Inspections, weighings, and a rig held against the scale, from the browser."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.web.gym.keeping import DEMO, Coach, wrong_at
from tests.web.serving import text_of
from topheavy.asked.described import RigDescribed, read_rig
from topheavy.gymfile import demo_gym, gym_of_tables

if TYPE_CHECKING:
    from topheavy.gym.gym import Gym

HEIGHTS = (66, 82, 88, 94, 100, 107)
"""At the bottom, and well above where the links leave the floor one by one [cm]."""


def test_an_inspection_is_kept_and_a_limit_retires_the_piece(coach: Coach) -> None:
    words = {"tag.A4": "yes", "tag.A5": "yes", "day": "2026-11-20", "pitch_growth": "3.2",
             "by": "Wren"}  # fmt: skip
    before = len(coach.gym.stock.piece("A4").inspections)
    page = coach.post("/gym/care/inspection", words)
    assert (
        "Inspection of A4, A5 on 2026-11-20. A4 is retired: pitch 3.2 % over, the limit is 3 %. "
        "A5 is retired" in text_of(page.text)
    )
    piece = coach.gym.stock.piece("A4")
    assert len(piece.inspections) == before + 1
    assert piece.retired == "pitch 3.2 % over, the limit is 3 %"
    assert "Retired: pitch 3.2 %" in text_of(coach.get("/gym/piece?tag=A4").text)
    coach.undo(page)
    assert coach.gym.stock.piece("A4").retired == ""


def test_what_was_seen_retires_for_good(coach: Coach) -> None:
    words = {"tag.B1": "yes", "day": "2026-11-20", "found.gouge": "yes"}
    page = coach.post("/gym/care/inspection", words)
    assert "B1 is retired: a gouge, seen 2026-11-20." in text_of(page.text)
    again = coach.post("/gym/care/inspection", {**words, "day": "2026-11-21"})
    assert "is retired" not in text_of(again.text).split("Undo")[0]
    assert coach.gym.stock.piece("B1").retired == "a gouge, seen 2026-11-20"


@pytest.mark.parametrize(
    ("words", "field", "message"),
    [
        ({"day": "2999-01-01"}, "day", "That day is still to come."),
        ({"day": "last week"}, "day", "Not a day."),
        ({"day": ""}, "day", "Not a day."),
        ({"pitch_growth": "3 kg"}, "pitch_growth", "Unknown unit 'kg' for a share."),
        ({"tag.A4": ""}, "form", "No piece is ticked."),
    ],
)
def test_an_inspection_that_can_not_be_is_refused(
    visitor: Coach, words: dict[str, str], field: str, message: str
) -> None:
    sent = {"tag.A4": "yes", "day": "2026-11-20", **words}
    sent = {key: value for key, value in sent.items() if value or not key.startswith("tag.")}
    page = visitor.post("/gym/care/inspection", sent)
    assert page.status_code == 422
    assert message in wrong_at(page.text)[field]
    assert visitor.version == 1


def test_a_weighing_counts_from_its_day_on(coach: Coach) -> None:
    words = {"tag.A1": "yes", "tag.A2": "yes", "day": "2026-11-20", "masses": "9,50\n9.41 kg"}
    coach.post("/gym/care/weighing", words)
    assert coach.gym.stock.piece("A1").chain.mass_kg == pytest.approx(9.50)
    assert coach.gym.stock.piece("A2").chain.mass_kg == pytest.approx(9.41)
    assert "weighed 9.41 ± 0.02 kg" in text_of(coach.get("/gym/piece?tag=A2").text)


def test_a_piece_is_retired_by_hand_and_taken_back(coach: Coach) -> None:
    page = coach.post("/gym/piece", {"tag": "A3", "retired": "lost its tag"})
    assert "A3 retired: lost its tag." in text_of(page.text)
    assert coach.gym.stock.piece("A3").retired == "lost its tag"
    page = coach.post("/gym/piece", {"tag": "A3"})
    assert "A3 taken back into use." in text_of(page.text)
    assert coach.gym.stock.piece("A3").retired == ""


def _rig(left: str, right: str) -> dict[str, str]:
    return {"left": left, "right": right, "hang": "doubled", "feeder": "ring strap",
            "setting": "7", "connector": "10 mm screw link", "straight": "80",
            "lifter": "Osric", "lift": "bench press", "carries": "bar"}  # fmt: skip


def _predicted(left: str, right: str, gym: Gym | None = None) -> list[float]:
    """Loads that the mechanics give for the same rig [kg]."""
    said = RigDescribed(
        left=("+".join(left.split()),),
        right=("+".join(right.split()),),
        feeder="ring strap:7",
        connector="10 mm screw link",
        straight="80 kg",
        lifter="Osric",
    )
    told = read_rig(gym or demo_gym(), said)
    curve = told.described.rig.curve(told.ground, "raising")
    return [float(curve.at(height / 100)) for height in HEIGHTS]


def _readings(masses: list[float]) -> dict[str, str]:
    found = {}
    for number, (height, mass) in enumerate(zip(HEIGHTS, masses, strict=True)):
        found[f"readings.{number}.height"] = str(height)
        found[f"readings.{number}.mass"] = f"{mass:.2f}"
        found[f"readings.{number}.way"] = "up"
    return found


def test_readings_as_predicted_agree_and_are_drawn(visitor: Coach) -> None:
    words = {**_rig("A1 A2", "A3, A4"), **_readings(_predicted("A1 A2", "A3 A4"))}
    page = visitor.post("/gym/weigh", words)
    said = text_of(page.text)
    assert page.status_code == 200
    assert "agree within" in said
    assert page.text.count("<polygon") == len(HEIGHTS)
    assert "Chain that was on a scale piece by piece keeps its masses." in said
    assert visitor.version == 1


def test_a_slip_is_named(visitor: Coach) -> None:
    """Read on ring 6 while ring 7 was stated: 4 cm higher up the chain comes off."""
    masses = _predicted("A1 A2", "A3 A4")
    shifted = [*masses[:1], *(mass + 1.7 for mass in masses[1:])]
    said = text_of(
        visitor.post("/gym/weigh", {**_rig("A1 A2", "A3 A4"), **_readings(shifted)}).text
    )
    assert "What would explain it" in said or "more than predicted" in said


def test_what_the_scale_tells_better_is_taken_over_and_undone(coach: Coach) -> None:
    """Chain known by its size alone, in truth 4 % heavier than listed: readings tell it."""
    listed = demo_gym().stock.piece("B1").chain.density_kg_per_m
    truth = [{**one, "density": f"{1.04 * listed:.4f} kg/m"} if one.get("prefix") == "B" else one
             for one in DEMO["chain"]]  # fmt: skip
    masses = _predicted("B1 B2", "B3 B4", gym_of_tables({**DEMO, "chain": truth}, "truth"))
    words = {**_rig("B1 B2", "B3 B4"), **_readings(masses), "scale_within": "20 g"}
    page = coach.post("/gym/weigh", words)
    assert 'name="take.chain.B1"' in page.text, text_of(page.text)
    nothing = coach.post("/gym/weigh/take", words)
    assert nothing.status_code == 422
    page = coach.post("/gym/weigh/take", {**words, "take.chain.B1": "yes"})
    found = coach.gym.stock.piece("B2").chain.density_kg_per_m
    assert found == pytest.approx(1.04 * listed, rel=0.02)
    assert "By the scale: B1 and its like weigh" in text_of(page.text)
    coach.undo(page)
    assert coach.gym == demo_gym()


@pytest.mark.parametrize(
    ("words", "field", "message"),
    [
        ({"left": ""}, "left", "Nothing says what hangs on the left end."),
        ({"left": "Q7"}, "left", "No chain piece 'Q7' in stock."),
        ({"right": "A1"}, "right", "listed twice"),
        ({"feeder": ""}, "feeder", "Doubled chain hangs from a feeder."),
        ({"setting": "9"}, "feeder", "has no setting '9'"),
        ({"straight": ""}, "straight", "Nothing says what is on the bar."),
        ({"straight": "80 q"}, "straight", "Unknown unit 'q' for a mass."),
        ({"readings.0.mass": "heavy"}, "readings", "Not a mass."),
        ({"readings.0.way": "sideways"}, "readings", "Not a way."),
        ({"readings.0.height": "9 m"}, "readings", "No bar is weighed that high."),
        ({"scale_within": "1 m"}, "scale_within", "Unknown unit 'm' for a mass."),
        ({"lifter": "Nobody"}, "lifter", "No lifter called 'Nobody'."),
    ],
)
def test_what_can_not_be_weighed_stands_beside_its_field(
    visitor: Coach, words: dict[str, str], field: str, message: str
) -> None:
    sent = {**_rig("A1 A2", "A3 A4"), **_readings([80.6, 81.2, 84.7, 88.5, 91.7, 94.4]), **words}
    page = visitor.post("/gym/weigh", sent)
    assert page.status_code == 422
    assert message in wrong_at(page.text).get(field, str(wrong_at(page.text)))


def test_without_readings_there_is_nothing_to_say(visitor: Coach) -> None:
    page = visitor.post("/gym/weigh", _rig("A1 A2", "A3 A4"))
    assert "No readings of the scale." in wrong_at(page.text)["readings"]
