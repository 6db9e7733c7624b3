"""Tables with one thing changed: names that others speak of follow, pieces leave their batch."""

from __future__ import annotations

import copy
from typing import Any

import pytest

from tests.web.gym.keeping import DEMO
from topheavy.errors import NotInStockError
from topheavy.gymfile import gym_of_tables
from topheavy.web.gym.keep import PutBack
from topheavy.web.gym.things import keys_in, thing, with_piece_apart, with_thing, without_thing


def told() -> dict[str, Any]:
    """The demonstration with an inspection, a weighing and a record that name things."""
    tables = copy.deepcopy(DEMO)
    tables["inspection"] = [{"day": "2026-09-01", "tags": ["A1", "A2"], "pitch_growth": "1 %"}]
    tables["weighing"] = [
        {"day": "2026-09-01", "tags": ["A1", "A3"], "masses": ["9.50 kg", "9.55 kg"]}
    ]
    hung = {"straight": "100 kg", "left": ["A1"], "right": ["A2"], "feeder": "ring strap",
            "setting": "7", "connector": "10 mm screw link"}  # fmt: skip
    tables["lifter"][2]["lifts"]["bench press"]["hung"] = [hung]
    gym_of_tables(tables, "told")
    return tables


def test_a_renamed_thing_is_followed_by_what_speaks_of_it() -> None:
    tables = told()
    for section, key, word in (
        ("station", "bench 1", "name"),
        ("feeder", "ring strap", "name"),
        ("connector", "10 mm screw link", "name"),
    ):
        old = thing(tables, section, key) or {}
        tables, _ = with_thing(tables, section, key, {**old, word: "other " + section})
    gym = gym_of_tables(tables, "renamed")
    osric = gym.lifter("Osric").lifts["bench press"]
    assert osric.station == "other station"
    hung = tables["lifter"][2]["lifts"]["bench press"]["hung"][0]
    assert (hung["feeder"], hung["connector"]) == ("other feeder", "other connector")


def test_a_bar_that_is_renamed_stays_at_its_station() -> None:
    tables = copy.deepcopy(DEMO)
    tables["station"][2]["bar"] = "light bar"
    bar = {**(thing(tables, "bar", "light bar") or {}), "name": "thin bar"}
    found, _ = with_thing(tables, "bar", "light bar", bar)
    assert gym_of_tables(found, "renamed").station("rack").bar == "thin bar"


def test_a_tag_that_is_changed_keeps_its_history() -> None:
    tables = told()
    batch = thing(tables, "chain", "A1") or {}
    tags = ["Z1", *batch["tags"][1:]]
    found, _ = with_thing(tables, "chain", "A1", {**batch, "tags": tags})
    gym = gym_of_tables(found, "renamed")
    assert gym.stock.piece("Z1").inspections[0].pitch_growth == 0.01
    assert found["lifter"][2]["lifts"]["bench press"]["hung"][0]["left"] == ["Z1"]


def test_pieces_that_go_take_their_entries_along() -> None:
    tables = told()
    del tables["lifter"][2]["lifts"]["bench press"]["hung"]
    batch = thing(tables, "chain", "A1") or {}
    fewer = {**batch, "tags": batch["tags"][2:], "weighed": batch["weighed"][2:]}
    found, _ = with_thing(tables, "chain", "A1", fewer)
    assert "inspection" not in found
    assert found["weighing"][0]["masses"] == ["9.55 kg"]
    gym_of_tables(found, "fewer")
    assert "inspection" not in without_thing(tables, "chain", "A1")


@pytest.mark.parametrize("tag", ["A3", "B2", "H1"])
def test_a_piece_is_retired_alone_and_all_else_stays(tag: str) -> None:
    before = gym_of_tables(DEMO, "demo")
    tables, place = with_piece_apart(DEMO, tag, {"retired": "one link bent"})
    after = gym_of_tables(tables, "apart")
    assert tables["chain"][place]["tag"] == tag
    assert after.stock.piece(tag).retired == "one link bent"
    for piece in before.stock.chains:
        other = after.stock.piece(piece.tag)
        assert (other.chain, other.weighed) == (piece.chain, piece.weighed)
        assert other.retired == ("one link bent" if piece.tag == tag else piece.retired)
    back, _ = with_piece_apart(tables, tag, {"retired": None})
    assert gym_of_tables(back, "back").stock.piece(tag).retired == ""


def test_what_is_not_there_is_told() -> None:
    for make in (
        lambda: with_piece_apart(DEMO, "Q1", {"retired": "x"}),
        lambda: without_thing(DEMO, "bar", "no bar"),
        lambda: with_thing(DEMO, "bar", "no bar", {}),
    ):
        with pytest.raises(NotInStockError, match="There is no such"):
            make()


def test_plates_alike_are_told_apart() -> None:
    tables = {"plate": [{"mass": "45 lb"}, {"mass": "45 lb"}, {"mass": "25 lb"}]}
    assert keys_in(tables, "plate") == ["45 lb", "45 lb #2", "25 lb"]
    assert without_thing(tables, "plate", "45 lb #2")["plate"] == [
        {"mass": "45 lb"},
        {"mass": "25 lb"},
    ]


def test_what_one_version_did_is_taken_back_and_the_rest_stays() -> None:
    first = told()
    second = without_thing(first, "bar", "power bar")
    second, _ = with_thing(second, "plate", "", {"mass": "7.5 kg", "width": "20 mm",
                                                 "diameter": "30 cm", "pairs": 1})  # fmt: skip
    third, _ = with_thing(second, "collar", "", {"name": "spring", "count": 2, "mass": "0.2 kg",
                                                 "width": "3 cm"})  # fmt: skip
    back = PutBack(first, second).make(third)
    assert back["bar"] == first["bar"]
    assert back["plate"] == first["plate"]
    assert [one["name"] for one in back["collar"]] == ["screw collar", "spring"]
