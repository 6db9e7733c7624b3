"""What to change on the bar between two sets, and between two lifters who share it."""

from __future__ import annotations

import pytest

from topheavy.errors import BadInputError
from topheavy.gym.records import BandsUsed, HungThen
from topheavy.training.bar_changes import Move, apply, changes, plates_handled
from topheavy.training.on_bar import BARE, Item, OnBar

CHAIN = HungThen(left=("A1",), right=("A2",), feeder="strap", setting="7", connector="link")


def told(before: OnBar, after: OnBar) -> list[str]:
    """Moves in a word or two each."""
    return [
        f"{move.do} {move.item.kind}" if move.item else f"{move.do}"
        for move in changes(before, after)
    ]


def test_the_chain_comes_off_with_its_loop_where_plates_change() -> None:
    light, heavy = OnBar(plates_kg=(20.0,), hung=CHAIN), OnBar(plates_kg=(25.0,), hung=CHAIN)
    assert told(light, heavy) == [
        "off collar", "off loop", "off plate", "on plate", "on loop", "on collar",
    ]  # fmt: skip
    loop = changes(light, heavy)[1]
    assert loop.again


def test_another_ring_moves_nothing_else() -> None:
    other = HungThen(left=("A1",), right=("A2",), feeder="strap", setting="9", connector="link")
    moves = changes(OnBar(plates_kg=(20.0,), hung=CHAIN), OnBar(plates_kg=(20.0,), hung=other))
    assert moves == (Move(do="set", setting="9"),)


def test_pieces_are_clipped_on_where_the_rest_stays() -> None:
    more = HungThen(
        left=("A1", "B1"), right=("A2", "B2"), feeder="strap", setting="7", connector="link"
    )
    moves = changes(OnBar(hung=CHAIN), OnBar(hung=more))
    assert moves == (Move(do="clip", left=("B1",), right=("B2",)),)
    assert changes(OnBar(hung=more), OnBar(hung=CHAIN))[0].do == "unclip"


def test_bands_are_outermost_and_give_way() -> None:
    both = HungThen(
        left=("A1",), right=("A2",), feeder="strap", setting="7", connector="link",
        bands=(BandsUsed(left="r1", right="r2", peg="low"),),
    )  # fmt: skip
    one, two = OnBar(plates_kg=(20.0,), hung=both), OnBar(plates_kg=(25.0,), hung=both)
    assert told(one, two) == [
        "off collar", "off bands", "off loop", "off plate", "on plate", "on loop", "on bands",
        "on collar",
    ]  # fmt: skip


def test_a_bare_bar_gets_its_collars() -> None:
    assert told(BARE, OnBar()) == ["on collar"]
    assert told(BARE, OnBar(plates_kg=(20.0,), hung=CHAIN)) == [
        "on plate", "on loop", "on collar", "set", "clip",
    ]  # fmt: skip


def test_another_connector_takes_the_chain_off_first() -> None:
    other = HungThen(left=("A1",), right=("A2",), feeder="strap", setting="7", connector="hook")
    before, after = OnBar(hung=CHAIN), OnBar(hung=other)
    assert told(before, after) == [
        "unclip", "off collar", "off loop", "on loop", "on collar", "set", "clip",
    ]  # fmt: skip
    assert apply(before, changes(before, after)) == after


def test_plates_that_stay_inside_are_not_handled() -> None:
    before, after = OnBar(plates_kg=(25.0, 20.0, 5.0)), OnBar(plates_kg=(25.0, 20.0, 10.0))
    assert plates_handled(changes(before, after)) == 4


@pytest.mark.parametrize(
    ("moves", "words"),
    [
        ([Move(do="off", item=Item(kind="plate", mass_kg=20.0))], "not the outermost"),
        ([Move(do="on", item=Item(kind="plate", mass_kg=20.0))], "collar is on"),
        ([Move(do="set", setting="7")], "no feeder"),
        ([Move(do="unclip", left=("A1",))], "does not hang there"),
        ([Move(do="clip", left=("A1",))], "on no feeder"),
    ],
)
def test_what_cannot_be_done_is_refused(moves: list[Move], words: str) -> None:
    with pytest.raises(BadInputError, match=words):
        apply(OnBar(plates_kg=(20.0,)), moves)


def test_nothing_hangs_twice() -> None:
    with pytest.raises(BadInputError, match="two places"):
        OnBar(hung=HungThen(left=("A1",), right=("A1",), style="straight"))
