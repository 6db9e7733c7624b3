"""A question for a rig, from the coach's words to the answer, on a gym of a few parts."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import pytest

from topheavy.errors import BadInputError, NotInStockError
from topheavy.gym.gym import Gym
from topheavy.gym.lifts import lift_named
from topheavy.gym.people import Lifter, Measured, Station, Travel
from topheavy.gym.stock import (
    Bar,
    ChainPiece,
    Collar,
    Connector,
    Feeder,
    FeederSetting,
    Plate,
    Stock,
)
from topheavy.mechanics.chain import Chain
from topheavy.mechanics.ground import Ground
from topheavy.rigging.limits import Limits
from topheavy.rigging.target import Ask
from topheavy.services.rig import Place, RigAnswer, RigQuestion, Rules, answer_rig, target_of

CHAIN = Chain(links=32, pitch_m=0.056, density_kg_per_m=5.3, density_u_kg_per_m=0.1)
FEEDER = Feeder(
    name="ring strap",
    form="rings",
    settings=(FeederSetting(label="1", length_m=0.54), FeederSetting(label="2", length_m=0.60)),
    whole_m=0.7,
    density_kg_per_m=0.3,
    rating_kg=250.0,
    count=2,
    setting_u_m=0.002,
)
LINK = Connector(name="screw link", mass_kg=0.2, length_m=0.06, rating_kg=500.0, count=2)
STOCK = Stock(
    chains=tuple(
        ChainPiece(tag=f"A{n}", size="5/8 in", wire_diameter_m=0.016, chain=CHAIN)
        for n in range(1, 5)
    ),
    feeders=(FEEDER,),
    connectors=(LINK,),
    bars=(Bar(name="bar", mass_kg=20.0, sleeve_m=0.415),),
    collars=(
        Collar(name="odd one", mass_kg=1.0, width_m=0.03, count=1),
        Collar(name="screw collar", mass_kg=2.5, width_m=0.05, count=2),
    ),
    plates=(
        Plate(mass_kg=20.0, width_m=0.04, diameter_m=0.45, count=2),
        Plate(mass_kg=5.0, width_m=0.02, diameter_m=0.23, count=2),
    ),
)
STATION = Station(name="bench", kind="bench", pad_m=0.43)
LIFTER = Lifter(
    name="Ansa",
    lifts={"bench press": Measured(travel=Travel(bottom_m=0.66, top_m=1.07), best_kg=120.0)},
)


def _place(stock: Stock = STOCK) -> Place:
    gym = Gym(name="The Shed", stock=stock, stations=(STATION,), lifters=(LIFTER,))
    return Place(gym=gym, lifter=LIFTER, lift=lift_named("bench"), station=STATION)


def _question(bottom_kg: float, top_kg: float, **changes: object) -> RigQuestion:
    asked = RigQuestion(place=_place(), ask=Ask(bottom_kg=bottom_kg, top_kg=top_kg))
    return replace(asked, **changes)  # type: ignore[arg-type]


@cache
def _met() -> RigAnswer:
    return answer_rig(_question(75.0, 93.0))


@cache
def _unmet() -> RigAnswer:
    return answer_rig(_question(75.0, 120.0))


def test_the_setup_takes_the_bar_of_the_station_and_two_collars_alike() -> None:
    setup = _place().setup
    assert setup.bar_kg == 25.0
    assert setup.collar is not None
    assert setup.collar.name == "screw collar"
    assert setup.ground == Ground()


def test_the_answer_is_near_what_was_asked_and_its_miss_is_read_off_the_curve() -> None:
    answer = _met()
    assert answer.meets
    assert answer.obstacles is None
    off = (answer.reading.bottom.load_kg - 75.0, answer.reading.top.load_kg - 93.0)
    assert answer.best.miss_kg == pytest.approx(max(abs(kg) for kg in off), abs=1e-6)
    assert answer.tolerance_kg == pytest.approx(0.015 * 93.0)


def test_the_answer_holds_to_stock_and_rules() -> None:
    best = _met().best
    tags = [piece.tag for piece in (*best.left, *best.right)]
    assert len(tags) == len(set(tags)) <= 4
    assert set(tags) <= {piece.tag for piece in STOCK.chains}
    assert len(best.left) == len(best.right)
    assert _met().reading.links_down_at_top >= 1
    assert _met().reading.fold_gap_m[0] <= 1e-9


def test_the_comparison_is_the_same_chain_straight() -> None:
    answer = _met()
    assert answer.straight.straight_weight_kg == answer.reading.straight_weight_kg
    assert {piece.strands for piece in answer.straight.left} == {1}
    assert len(answer.straight.left) == len(answer.reading.left)


def test_trade_gets_nearer_with_more_pieces() -> None:
    found = _met().trade
    assert [rig.pieces for rig in found] == sorted({rig.pieces for rig in found})
    misses = [rig.miss_kg for rig in found]
    assert misses == sorted(misses, reverse=True)
    assert found[-1].miss_kg <= _met().best.miss_kg + 1e-6


def test_a_target_out_of_reach_is_answered_with_the_nearest_and_with_why() -> None:
    answer = _unmet()
    assert not answer.meets
    assert answer.obstacles is not None
    assert answer.best.pieces == 4
    lighter = answer_rig(_question(75.0, 120.0, limits=Limits(most_pieces=2)))
    assert lighter.best.miss_kg > answer.best.miss_kg


def test_a_tolerance_of_one_s_own_decides() -> None:
    near = answer_rig(_question(75.0, 93.0, tolerance_kg=0.01))
    assert near.best.miss_kg == pytest.approx(_met().best.miss_kg)
    assert near.meets == (near.best.miss_kg <= 0.01)
    light = answer_rig(_question(25.0, 30.0))
    assert light.tolerance_kg == 0.5


def test_too_few_pieces_allowed_is_to_blame_and_no_chain_is_to_be_bought() -> None:
    answer = answer_rig(_question(75.0, 93.0, limits=Limits(most_pieces=2)))
    assert answer.obstacles is not None
    assert "at most 2 pieces" in [blocker.limit for blocker in answer.obstacles.blockers]
    things = [addition.offer.thing for addition in answer.obstacles.additions]
    assert not any(isinstance(thing, ChainPiece) for thing in things)


def test_a_mean_is_aimed_at_itself() -> None:
    """The best rig's largest miss counts the mean load over the lift, not only its ends."""
    asked = replace(_question(0.0, 1.0), ask=Ask(mean_kg=84.0, chain_share=0.2))
    answer = answer_rig(asked)
    assert answer.target.mean_kg == 84.0
    assert abs(answer.reading.mean.load_kg - 84.0) <= answer.best.miss_kg + 1e-6


def test_without_collars_none_is_counted_and_that_is_said_first() -> None:
    bare = answer_rig(replace(_question(75.0, 93.0), place=_place(replace(STOCK, collars=()))))
    assert bare.cautions[0].code == "no collars"
    assert bare.best.rig.bar_kg == 20.0
    assert "no collars" not in [caution.code for caution in _met().cautions]


def test_a_best_said_with_the_loads_is_the_one_that_counts() -> None:
    asked = _question(75.0, 93.0)
    light = answer_rig(replace(asked, ask=replace(asked.ask, best_kg=60.0)))
    more_kg = light.reading.top.load_kg - light.reading.bottom.load_kg
    assert light.reading.share.of_best == pytest.approx(more_kg / 60.0)
    assert "above best" in [caution.code for caution in light.cautions]
    assert "above best" not in [caution.code for caution in _met().cautions]


def test_no_rig_at_all_says_so() -> None:
    """All clear at lockout can't be: sixteen links a strand are twice as long as the lift."""
    asked = _question(75.0, 93.0, rules=Rules(links_down=None, all_clear=True))
    with pytest.raises(NotInStockError) as caught:
        answer_rig(asked)
    assert caught.value.field == "limits"
    assert "all clear" in str(caught.value.wanted)


def test_feeders_that_leave_chain_hanging_at_the_bottom_are_named_with_what_would_do() -> None:
    """Bar at 66 cm, connector 6 cm, ring at 40 cm: the fold is 20 cm up, and no load mends that."""
    short = replace(FEEDER, settings=(FeederSetting(label="1", length_m=0.40),))
    place = _place(replace(STOCK, feeders=(short,)))
    wanted = []
    for top_kg in (93.0, 150.0):
        with pytest.raises(NotInStockError) as caught:
            answer_rig(replace(_question(75.0, top_kg), place=place))
        wanted.append(str(caught.value.wanted))
        set_to_cm = float(wanted[-1].split("two feeders set to ")[1].split(" cm")[0])
        assert 57.0 < set_to_cm < 66.0
    assert wanted[0].startswith("the target could be met with two feeders")
    assert wanted[1].startswith("a rig could be built without this limit: full deload, or with two")


def test_what_is_refused_is_listed() -> None:
    retired = replace(STOCK.chains[0], tag="A9", retired="bent")
    hook = Connector(name="hook", mass_kg=0.1, length_m=0.05, rating_kg=None, count=2)
    stock = replace(STOCK, chains=(*STOCK.chains, retired), connectors=(LINK, hook))
    notes = answer_rig(replace(_question(75.0, 93.0), place=_place(stock))).left_out
    assert any("A9" in note and "bent" in note for note in notes)
    assert any("hook" in note for note in notes)
    assert not any("A1" in note for note in notes)


def test_a_target_from_bottom_and_top_stands_at_the_lift_s_heights() -> None:
    target = target_of(_question(75.0, 93.0))
    assert (target.heights_m, target.loads_kg) == ((0.66, 1.07), (75.0, 93.0))
    assert target.full_deload
    assert (target.links_down, target.all_clear) == (1, False)


def test_a_fixed_straight_weight_and_a_share_of_the_best() -> None:
    ask = Ask(straight_kg=75.0, chain_share=0.15, base="best", best_kg=120.0)
    target = target_of(_question(0.0, 1.0, ask=ask))
    assert target.straight_weight_kg == 75.0
    assert list(target.loads_kg) == pytest.approx([75.0, 93.0])


def test_points_to_follow_are_sorted_and_must_lie_in_the_lift() -> None:
    points = Rules(follow=((1.07, 93.0), (0.66, 75.0), (0.85, 80.0)))
    target = target_of(_question(0.0, 1.0, rules=points))
    assert target.heights_m == (0.66, 0.85, 1.07)
    assert target.loads_kg == (75.0, 80.0, 93.0)
    with pytest.raises(BadInputError) as caught:
        target_of(_question(0.0, 1.0, rules=Rules(follow=((0.5, 70.0), (1.0, 90.0)))))
    assert (caught.value.field, caught.value.got) == ("follow", "0.5 m")
