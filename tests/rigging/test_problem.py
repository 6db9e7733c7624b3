"""Posing the problem: what is left out, what is refused, which rules hold where."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from tests.rigging.builders import BAR, batch, connector, feeder, piece, plate, setup_of
from topheavy.errors import BadInputError, NotInStockError
from topheavy.gym.stock import Collar
from topheavy.mechanics.ground import Ground
from topheavy.rigging.limits import Limits
from topheavy.rigging.problem import pose
from topheavy.rigging.target import Target

ENDS = Target(heights_m=(0.75, 1.2), loads_kg=(60.0, 78.0))


def test_retired_pieces_and_those_of_other_sizes_are_left_out() -> None:
    pieces = [
        *batch(3),
        piece("bad", retired="a gouge"),
        *batch(2, "1/2 in"),
        piece("lone", "3/4 in"),
    ]
    problem = pose(setup_of(*pieces), ENDS, Limits(sizes=("5/8 in", "3/4 in")))
    (kind,) = problem.kinds
    assert len(kind.pieces) == 3
    assert "bad" not in {p.tag for p in kind.pieces}


def test_a_retired_twin_leaves_no_pair() -> None:
    with pytest.raises(NotInStockError) as caught:
        pose(setup_of(piece("a"), piece("b", retired="3 % longer")), ENDS)
    assert caught.value.field == "stock.chain"


@pytest.mark.parametrize(
    "parts",
    [
        {"feeders": ()},
        {"connectors": ()},
        {"feeders": (feeder(rating_kg=None),)},
        {"connectors": (connector(rating_kg=None),)},
        {"connectors": (connector(count=1),)},
    ],
)
def test_nothing_rated_to_hang_from_is_refused(parts: dict[str, Any]) -> None:
    with pytest.raises(NotInStockError) as caught:
        pose(setup_of(*batch(4), **parts), ENDS)
    assert caught.value.field == "stock.feeder"


def test_a_fixed_straight_weight_leaves_one_pile_of_plates() -> None:
    problem = pose(setup_of(*batch(4)), replace(ENDS, straight_weight_kg=62.5))
    assert problem.straight_kg.tolist() == [62.5]


def test_a_straight_weight_that_the_plates_miss_names_the_nearest() -> None:
    with pytest.raises(NotInStockError) as caught:
        pose(setup_of(*batch(4)), replace(ENDS, straight_weight_kg=61.0))
    assert "60 kg or 62.5 kg" in str(caught.value.wanted)


def test_bar_and_both_collars_count() -> None:
    collar = Collar(name="c", mass_kg=2.5, width_m=0.05, count=2)
    setup = replace(setup_of(*batch(4), plates=()), collar=collar)
    assert pose(setup, ENDS).straight_kg.tolist() == [25.0]


@pytest.mark.parametrize(("sleeve_m", "plates"), [(0.094, 0), (0.095, 1), (0.114, 1), (0.115, 2)])
def test_plates_share_the_sleeve_with_collar_and_loop(sleeve_m: float, plates: int) -> None:
    """Collar 5 cm, loop 2.5 cm, plates of 2 cm."""
    collar = Collar(name="c", mass_kg=0.0, width_m=0.05, count=2)
    bar = replace(BAR, sleeve_m=sleeve_m)
    setup = replace(setup_of(*batch(4), plates=(plate(10, 4),), bar=bar), collar=collar)
    assert len(pose(setup, ENDS).straight_kg) == plates + 1


def test_a_sleeve_too_short_for_collar_and_loop_is_refused() -> None:
    bar = replace(BAR, sleeve_m=0.02)
    with pytest.raises(BadInputError) as caught:
        pose(setup_of(*batch(4), bar=bar), ENDS)
    assert caught.value.field == "bar.sleeve"
    assert "0.025 m" in str(caught.value.wanted)


def test_full_deload_allows_folds_on_the_floor_only() -> None:
    """Bottom 75 cm, connector 8 cm: the feeder must be 67 cm or longer."""
    setup = setup_of(*batch(2), feeders=(feeder(lengths_m=(0.60, 0.66, 0.67, 0.80)),))
    problem = pose(setup, replace(ENDS, full_deload=True))
    assert problem.allowed[:, 0].tolist() == [False, False, True, True]


def test_a_mat_lets_shorter_feeders_deload() -> None:
    setup = setup_of(
        *batch(2), feeders=(feeder(lengths_m=(0.64, 0.65)),), ground=Ground(surface_m=0.02)
    )
    assert pose(setup, replace(ENDS, full_deload=True)).allowed[:, 0].tolist() == [False, True]


@pytest.mark.parametrize(("links", "down"), [(16, 0), (20, 1), (21, 2), (22, 2), (24, 3)])
def test_links_down_at_lockout(links: int, down: int) -> None:
    """Fold 45 cm up at lockout, no pile: 8.04 links of each strand hang, the rest lie.

    Of 20 links, two strands of ten leave 1.96 on the floor: one whole link. Of 21, the middle
    one hangs on the connector and the strands of ten begin a link lower: 2.96.
    """
    setup = setup_of(
        *batch(2, links=links),
        feeders=(feeder(lengths_m=(0.67,)),),
        ground=Ground(raising_pitches=0.0),
    )
    allowed = [pose(setup, replace(ENDS, links_down=n)).allowed.item() for n in range(6)]
    assert allowed == [n <= down for n in range(6)]


@pytest.mark.parametrize(("links", "clear"), [(14, True), (15, True), (16, True), (17, False)])
def test_all_clear_at_lockout(links: int, clear: bool) -> None:
    """45.1 cm over the floor at lockout: eight links of 56 mm a strand clear it, nine don't."""
    setup = setup_of(
        *batch(2, links=links),
        feeders=(feeder(lengths_m=(0.669,)),),
        ground=Ground(raising_pitches=0.0),
    )
    assert pose(setup, replace(ENDS, all_clear=True)).allowed.tolist() == [[clear]]


def test_slack_dragged_aside_leaves_fewer_links_on_the_floor() -> None:
    """A catenary holds up more chain than the height it spans."""
    rows = []
    for ground in (Ground(raising_pitches=0.0), Ground(lay="dragged", friction=0.7)):
        setup = setup_of(*batch(2, links=30), feeders=(feeder(lengths_m=(0.67,)),), ground=ground)
        allowed = [pose(setup, replace(ENDS, links_down=n)).allowed.item() for n in range(12)]
        rows.append(sum(allowed) - 1)
    piled, dragged = rows
    assert piled == 6
    assert dragged < piled


def test_the_price_of_the_fold_counts_doubled_hangs_only() -> None:
    limits = Limits(styles=("straight", "doubled"), fold_price_kg_per_m=2.0)
    problem = pose(setup_of(*batch(2), feeders=(feeder(lengths_m=(0.57, 0.77)),)), ENDS, limits)
    assert problem.fold_price_kg.tolist() == pytest.approx([0.0, 0.2, 0.2])
