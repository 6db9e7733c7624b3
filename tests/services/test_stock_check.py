"""Looking a gym over: what may not hang, and what it lacks for its own lifters."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any

import pytest

from tests.present.answers import RINGS, SCREW_LINK, STOCK, pieces, place
from topheavy.services.stock_check import check_gym, left_out

if TYPE_CHECKING:
    from topheavy.gym.gym import Gym

SOUND = place().gym
CHAIN = pieces("A1 A2 A3")


def said(gym: Gym) -> list[str]:
    return [remark.say() for remark in check_gym(gym).remarks]


def stocked(**parts: Any) -> Gym:
    return replace(SOUND, stock=replace(STOCK, **{"chains": CHAIN, **parts}))


def test_a_sound_gym_lacks_nothing() -> None:
    check = check_gym(stocked())
    assert check.remarks == ()
    assert check.left_out == ()
    (kind,) = check.kinds
    assert (len(kind.pieces), len(kind.fit)) == (3, 3)
    assert kind.mass_kg == pytest.approx(32 * 0.056 * 5.3)
    assert kind.mass_u_kg == pytest.approx(32 * 0.056 * 0.1)


def test_what_may_not_hang_is_listed_with_its_reason() -> None:
    worn = replace(pieces("A4")[0], retired="bent")
    gym = stocked(
        chains=(*CHAIN, worn, *pieces("X1", 20)),
        feeders=(RINGS, replace(RINGS, name="old strap", rating_kg=None, count=1)),
        connectors=(SCREW_LINK, replace(SCREW_LINK, name="hook", rating_kg=None)),
    )
    assert left_out(gym) == (
        "chain A4: retired (bent)",
        "feeder old strap: no rating marked",
        "feeder old strap: only one, two alike are needed",
        "connector hook: no rating marked",
        "chain X1: no other piece is like it",
    )


@pytest.mark.parametrize(
    ("gym", "missing"),
    [
        (stocked(chains=CHAIN[:1]), "No two chain pieces alike"),
        (stocked(feeders=(replace(RINGS, count=1),)), "No two rated feeders"),
        (stocked(connectors=(replace(SCREW_LINK, rating_kg=None),)), "No two rated connectors"),
        (stocked(bars=()), "No bar"),
        (stocked(collars=()), "No pair of collars"),
        (stocked(plates=()), "No plates"),
        (replace(stocked(), stations=(), lifters=()), "No station"),
        (replace(stocked(), lifters=()), "No lifter"),
        (replace(stocked(), stations=()), "needs a bench, and this gym lists none"),
    ],
)
def test_what_is_missing_is_said(gym: Gym, missing: str) -> None:
    assert any(missing in text for text in said(gym))


def test_a_fold_that_no_feeder_lowers_to_the_floor() -> None:
    """The longest ring is 66 cm, the screw link 7.2 cm: a bar at 95 cm leaves 21.8 cm."""
    gym = replace(
        place("squat", bottom_m=0.95, top_m=1.5).gym, stock=stocked(feeders=(RINGS,)).stock
    )
    (text,) = said(gym)
    assert text == (
        "Osric, squat: at the bottom the fold hangs 21.8 cm above the floor on the longest feeder, "
        "so the chain never comes off whole."
    )
    onto_mat = place("squat", bottom_m=0.95, top_m=1.5, surface_m=0.22).gym
    assert said(replace(onto_mat, stock=gym.stock)) == []


def test_thin_chain_is_pointed_out_once() -> None:
    thin = [
        replace(
            piece,
            size="1/4 {in}",
            wire_diameter_m=0.007,
            chain=replace(piece.chain, density_kg_per_m=0.8),
        )
        for piece in pieces("H1 H2")
    ]
    (text,) = said(stocked(chains=(*CHAIN, *thin)))
    assert text.startswith("1/4 {in} chain is too thin to matter")
