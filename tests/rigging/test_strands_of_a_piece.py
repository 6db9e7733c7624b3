"""What the search takes for one piece is what the mechanics hang: odd and even, every way."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
import pytest

from topheavy.gym.people import Travel
from topheavy.gym.stock import Bar, ChainPiece, Connector, Feeder, FeederSetting, Stock
from topheavy.mechanics.chain import Chain
from topheavy.mechanics.ground import Ground
from topheavy.mechanics.rig import End
from topheavy.rigging.limits import Limits
from topheavy.rigging.problem import Setup, pose
from topheavy.rigging.target import Target

if TYPE_CHECKING:
    from topheavy.rigging.problem import Problem

TRAVEL = Travel(bottom_m=0.62, top_m=1.05)
PITCH_M = 0.05
FOLD_M = 0.58
LINKS = (1, 7, 8, 18, 19, 30, 31)
AIMS_M = (0.62, 0.645, 0.8, 1.02)


def stock() -> Stock:
    """Two pieces of each number of links, all of one density; one feeder setting, light."""
    return Stock(
        chains=tuple(
            ChainPiece(
                tag=f"{links} {twin}",
                size="14 mm",
                wire_diameter_m=0.014,
                chain=Chain(links=links, pitch_m=PITCH_M, density_kg_per_m=4.0),
            )
            for links in LINKS
            for twin in "ab"
        ),
        feeders=(
            Feeder(
                name="strap",
                form="rings",
                settings=(FeederSetting(label="3", length_m=0.5),),
                whole_m=0.5,
                density_kg_per_m=0.0,
                rating_kg=400.0,
                count=2,
                setting_u_m=0.0,
            ),
        ),
        connectors=(Connector(name="link", mass_kg=0.2, length_m=0.08, rating_kg=400.0, count=2),),
        bars=(Bar(name="bar", mass_kg=20.0, sleeve_m=0.4),),
    )


def posed(ground: Ground, *, links_down: int | None = None, all_clear: bool = False) -> Problem:
    held = stock()
    target = Target(
        heights_m=AIMS_M,
        loads_kg=(20.0,) * len(AIMS_M),
        mean_kg=20.0,
        links_down=links_down,
        all_clear=all_clear,
    )
    setup = Setup(stock=held, bar=held.bars[0], collar=None, travel=TRAVEL, ground=ground)
    return pose(setup, target, Limits(styles=("doubled", "straight", "draped")))


@pytest.mark.parametrize(
    "ground", [Ground(), Ground(surface_m=0.03, raising_pitches=0.0), Ground(lay="dragged")]
)
def test_lifted_length_is_the_load_of_the_hung_piece_over_its_density(ground: Ground) -> None:
    """At each aim, on average over the travel, and at the top.

    Dragged slack: the curve joins points on the closed form, 0.05 % of a strand's weight.
    """
    problem = posed(ground)
    for s, fixture in enumerate(problem.fixtures):
        for k, kind in enumerate(problem.kinds):
            chain = kind.pieces[0].chain
            hung = End(fixture.hangs([chain])).curve(ground)
            bare = problem.held_kg[s] / 2
            ends_m = (TRAVEL.bottom_m, TRAVEL.top_m)
            aims_kg = np.array([*hung.at(AIMS_M), hung.mean(*ends_m)]) - bare
            within_m = 1e-9 if ground.lay == "piled" else 1e-3 * chain.length_m
            assert problem.lift_m[s, k] == pytest.approx(aims_kg / 4.0, abs=within_m)
            top_kg = float(hung.at(TRAVEL.top_m)) - (0.2 if fixture.suspension else 0.0)
            assert problem.lift_top_m[s, k] == pytest.approx(top_kg / 4.0, abs=within_m)


def allowed_links(problem: Problem, style: str) -> set[int]:
    (row,) = (s for s, fixture in enumerate(problem.fixtures) if fixture.style == style)
    kinds = zip(problem.kinds, problem.allowed[row], strict=True)
    return {kind.pieces[0].chain.links for kind, allowed in kinds if allowed}


def test_links_on_the_floor_are_counted_in_the_strands_below_the_middle_link() -> None:
    """Lockout at 1.05 m, fold at 0.58: 9.4 pitches up, so link 10 of a strand stands.

    Of 31 links the middle one takes the first pitch, 8.4 pitches of its 15 below are up: 6.6
    left. Of 30, 9.4 of 15: 5.6 left. Of 19: 0.6, of 18: none.
    """
    flat = Ground(raising_pitches=0.0)
    assert TRAVEL.top_m - FOLD_M == pytest.approx(9.4 * PITCH_M)
    assert allowed_links(posed(flat, links_down=6), "doubled") == {31}
    assert allowed_links(posed(flat, links_down=5), "doubled") == {30, 31}
    assert allowed_links(posed(flat, links_down=7), "doubled") == set()


def test_all_clear_waits_for_the_strands_below_the_middle_link() -> None:
    """9.4 pitches lift strands of nine links; under a middle link only strands of eight."""
    clear = allowed_links(posed(Ground(raising_pitches=0.0), all_clear=True), "doubled")
    assert clear == {1, 7, 8, 18}


def test_links_dragged_aside_leave_the_floor_sooner() -> None:
    """Straight, 31 links of 1.55 m, 1.05 m up: 10 left when piled, 6 when dragged at 0.7.

    s = -mu h + sqrt((mu h)2 + h2 + 2 mu h L) = -0.735 + 1.980 = 1.245 m: 6.1 links left.
    """
    piled = posed(Ground(raising_pitches=0.0), links_down=7)
    dragged = posed(Ground(lay="dragged", friction=0.7), links_down=7)
    assert 31 in allowed_links(piled, "straight")
    assert 31 not in allowed_links(dragged, "straight")
