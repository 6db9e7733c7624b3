"""Budgets against Monte Carlo: inputs are drawn, loads rebuilt by the plain formulas.

JCGM 101:2008 (propagation of distributions using a Monte Carlo method). 200 000 draws give a
standard deviation within 0.2 % (1/sqrt(2 N)). Away from kinks the load is linear in a position
and bilinear with a density: within 2 %. On a kink the budget holds the linear part of a clipped
normal, 0.500 of slope x spread, and its full standard deviation is sqrt(1/2 - 1/(2 pi)) = 0.584:
at most 14.4 % low, so within 20 %.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np
import pytest

from topheavy.errors import BadInputError
from topheavy.mechanics.chain import Chain
from topheavy.mechanics.curve import LoadCurve
from topheavy.mechanics.ground import Ground
from topheavy.mechanics.hang import Doubled, Draped, Straight, Suspension
from topheavy.mechanics.influence import smoothed_slope
from topheavy.mechanics.rig import End, Rig
from topheavy.mechanics.uncertainty import (
    Budget,
    InputSpread,
    ShareBudget,
    deload_budget,
    ends_budget,
    load_budget,
    mean_budget,
    share_budget,
)

if TYPE_CHECKING:
    from collections.abc import Callable

    from numpy.typing import NDArray

    Floats = NDArray[np.float64]

DRAWS = 200_000
SPREAD = InputSpread(height_u_m=0.006, bar_relative_u=0.004, plate_relative_u=0.01, friction_u=0.1)
GROUND = Ground(raising_rule_u_pitches=0.25, strand_u_pitches=0.4)
HEAVY = Chain(
    links=32, pitch_m=0.056, density_kg_per_m=5.3, density_u_kg_per_m=0.25, known_by="DIN 764"
)
OWN = Chain(links=19, pitch_m=0.045, density_kg_per_m=3.5, density_u_kg_per_m=0.2)
HELD = Suspension(
    feeder_m=0.5,
    feeder_density_kg_per_m=0.4,
    feeder_whole_m=0.9,
    connector_m=0.08,
    connector_kg=0.3,
    feeder_u_m=0.008,
)
RIG = Rig(
    20.0,
    60.0,
    End((Doubled(chains=(HEAVY, HEAVY, OWN), suspension=HELD),)),
    End((Doubled(chains=(HEAVY, HEAVY, OWN), suspension=HELD), Straight(chain=OWN, drop_m=0.1))),
)
TRAVEL = (0.62, 1.1)
BOTTOM_M, TOP_M = TRAVEL
FOLDED = (*4 * [(0.0, 0.896)], (0.0, 0.045), (0.045, 0.405), (0.045, 0.405))
"""Start below the fold and length [m] of the strands on one connector: two even pieces of 32 links
of 56 mm, then an odd one of 19 links of 45 mm, its middle link first."""
HEAPS = 2 * len(FOLDED) + 1


@dataclass(frozen=True)
class Draw:
    """Errors of the inputs, one a draw, in their own units (densities as factors)."""

    bottom_m: Floats
    top_m: Floats
    feeder_m: tuple[Floats, Floats]
    rule_pitches: Floats
    heap_pitches: tuple[Floats, ...]
    din: Floats
    own: tuple[Floats, Floats, Floats]
    bar: Floats
    plates: Floats


def draw() -> Draw:
    rng = np.random.default_rng(20_240_229)

    def normal(u: float) -> Floats:
        return rng.normal(0.0, u, DRAWS)

    relative = OWN.density_u_kg_per_m / OWN.density_kg_per_m
    return Draw(
        bottom_m=normal(SPREAD.height_u_m),
        top_m=normal(SPREAD.height_u_m),
        feeder_m=(normal(HELD.feeder_u_m), normal(HELD.feeder_u_m)),
        rule_pitches=normal(GROUND.raising_rule_u_pitches),
        heap_pitches=tuple(normal(GROUND.strand_u_pitches) for _ in range(HEAPS)),
        din=1 + normal(HEAVY.density_u_kg_per_m / HEAVY.density_kg_per_m),
        own=(1 + normal(relative), 1 + normal(relative), 1 + normal(relative)),
        bar=1 + normal(SPREAD.bar_relative_u),
        plates=1 + normal(SPREAD.plate_relative_u),
    )


DRAWN = draw()


def clipped(x: Floats, length_m: float) -> Floats:
    """Lifted length of a strand [m]."""
    return np.clip(x, 0.0, length_m)


def clipped_area(x: Floats, length_m: float) -> Floats:
    """Integral of the lifted length up to x [m2], for the mean over a travel."""
    lifted = np.clip(x, 0.0, length_m)
    return lifted**2 / 2 + length_m * np.maximum(x - length_m, 0.0)


def hung(d: Draw, height_m: Floats, shape: Callable[[Floats, float], Floats] = clipped) -> Floats:
    """Load of what hangs [kg] (or its integral), strand by strand from domain formulas."""
    total = np.zeros(np.broadcast(height_m, d.din).shape)
    piles_pitches = iter(0.25 + d.rule_pitches + heap for heap in d.heap_pitches)
    for feeder_error_m, own in zip(d.feeder_m, d.own[:2], strict=True):
        total += 0.4 * shape(height_m, 0.9)
        below_m = height_m - 0.5 - feeder_error_m
        total += 0.3 / 0.08 * shape(below_m, 0.08)
        for number, (start_m, length_m) in enumerate(FOLDED):
            density, pitch_m = (5.3 * d.din, 0.056) if number < 4 else (3.5 * own, 0.045)
            pile_m = next(piles_pitches) * pitch_m
            total += density * shape(below_m - 0.08 - start_m - pile_m, length_m)
    pile_m = next(piles_pitches) * 0.045
    return total + 3.5 * d.own[2] * shape(height_m - 0.1 - pile_m, 0.855)


def straight_weight(d: Draw) -> Floats:
    return 20.0 * d.bar + 60.0 * d.plates


NOMINAL = replace(
    DRAWN,
    bottom_m=np.zeros(1),
    top_m=np.zeros(1),
    feeder_m=(np.zeros(1), np.zeros(1)),
    rule_pitches=np.zeros(1),
    heap_pitches=(np.zeros(1),) * HEAPS,
    din=np.ones(1),
    own=(np.ones(1),) * 3,
    bar=np.ones(1),
    plates=np.ones(1),
)


@pytest.mark.parametrize("height_m", [0.3, 0.62, 0.8, 1.1, 1.6])
def test_the_formulas_drawn_from_are_the_rig_when_nothing_errs(height_m: float) -> None:
    loads = straight_weight(NOMINAL) + hung(NOMINAL, np.full(1, height_m))
    assert loads[0] == pytest.approx(float(RIG.curve(GROUND).at(height_m)))


@pytest.mark.parametrize("height_m", [0.3, 0.8, 0.86, 1.1, 1.8])
def test_load_away_from_kinks_against_monte_carlo(height_m: float) -> None:
    drawn = straight_weight(DRAWN) + hung(DRAWN, height_m + DRAWN.bottom_m)
    budget = load_budget(RIG, height_m, GROUND, "raising", SPREAD)
    assert float(budget.combined_kg) == pytest.approx(np.std(drawn), rel=0.02)


def test_load_on_the_kink_against_monte_carlo() -> None:
    """Fold just touching at 0.594 m: the chain's clipped part dominates when masses are exact."""
    exact = replace(SPREAD, bar_relative_u=0.0, plate_relative_u=0.0)
    drawn = hung(DRAWN, 0.594 + DRAWN.bottom_m)
    combined = float(load_budget(RIG, 0.594, GROUND, "raising", exact).combined_kg)
    assert 0.8 * np.std(drawn) < combined < np.std(drawn)


def test_a_clipped_normal_is_half_linear() -> None:
    """One strand, one input, on its kink: 0.500 and 0.584 of slope x spread, as the header says."""
    end = End((Straight(chain=Chain(links=20, pitch_m=0.05, density_kg_per_m=5.0)),))
    rig = Rig(0.0, 0.0, end, End())
    budget = load_budget(rig, 0.0, Ground(), "still", SPREAD)
    full = np.std(5.0 * np.maximum(DRAWN.bottom_m, 0.0))
    assert float(budget.combined_kg) == pytest.approx(0.5 * 5 * 0.006, rel=1e-9)
    assert full == pytest.approx(np.sqrt(0.5 - 0.5 / np.pi) * 5 * 0.006, rel=0.01)
    assert float(budget.combined_kg) > 0.85 * full


def test_a_lump_on_its_kink_against_monte_carlo() -> None:
    """A step of a normal: linear part phi(0) = 0.399 of the mass, full deviation 0.5: 20.2 %."""
    held = Suspension(feeder_m=0.5, connector_kg=0.4, feeder_u_m=0.008)
    light = Chain(links=2, pitch_m=0.01, density_kg_per_m=1e-6)
    rig = Rig(0.0, 0.0, End((Doubled(chains=(light,), suspension=held),)), End())
    errors_m = DRAWN.bottom_m - DRAWN.feeder_m[0]
    full = np.std(0.4 * (errors_m > 0))
    combined = float(load_budget(rig, 0.5, Ground(), "still", SPREAD).combined_kg)
    assert combined == pytest.approx(0.4 / np.sqrt(2 * np.pi), rel=1e-3)
    assert combined == pytest.approx(np.sqrt(2 / np.pi) * full, rel=0.01)


def test_mean_over_the_travel_against_monte_carlo() -> None:
    low, high = BOTTOM_M + DRAWN.bottom_m, TOP_M + DRAWN.top_m
    area = hung(DRAWN, high, clipped_area) - hung(DRAWN, low, clipped_area)
    drawn = straight_weight(DRAWN) + area / (high - low)
    budget = mean_budget(RIG, TRAVEL, GROUND, "raising", SPREAD)
    assert float(budget.combined_kg) == pytest.approx(np.std(drawn), rel=0.02)


@pytest.mark.parametrize("end", ["bottom height", "top height"])
def test_what_a_wrong_height_does_to_the_mean(end: str) -> None:
    """One end's error alone: contribution against the slope of the drawn means on that error."""
    exact = np.zeros(DRAWS)
    low = BOTTOM_M + (DRAWN.bottom_m if end == "bottom height" else exact)
    high = TOP_M + (DRAWN.top_m if end == "top height" else exact)
    area = hung(NOMINAL, high, clipped_area) - hung(NOMINAL, low, clipped_area)
    wanted = np.std(area / (high - low))
    parts = mean_budget(RIG, TRAVEL, GROUND, "raising", SPREAD).contributions
    assert float(parts[end]) == pytest.approx(wanted, rel=0.02)


def test_mean_starting_on_the_kink_against_monte_carlo() -> None:
    """The mean smooths the kink out: no allowance for it needed."""
    low, high = 0.594 + DRAWN.bottom_m, TOP_M + DRAWN.top_m
    area = hung(DRAWN, high, clipped_area) - hung(DRAWN, low, clipped_area)
    drawn = straight_weight(DRAWN) + area / (high - low)
    budget = mean_budget(RIG, (0.594, TOP_M), GROUND, "raising", SPREAD)
    assert float(budget.combined_kg) == pytest.approx(np.std(drawn), rel=0.03)


@pytest.mark.parametrize(("bottom_m", "within"), [(0.8, 0.02), (0.594, 0.144)])
def test_share_against_monte_carlo(bottom_m: float, within: float) -> None:
    """Inputs shared by bottom and top keep their correlation.

    On the kink the positions' part at the bottom is low by up to 14.4 %, so the whole by less.
    """
    weight = straight_weight(DRAWN)
    low = weight + hung(DRAWN, bottom_m + DRAWN.bottom_m)
    high = weight + hung(DRAWN, TOP_M + DRAWN.top_m)
    share = share_budget(RIG, (bottom_m, TOP_M), GROUND, "raising", SPREAD)
    nominal = RIG.curve(GROUND).at([bottom_m, TOP_M])
    assert share.share == pytest.approx(1 - nominal[0] / nominal[1])
    assert share.combined == pytest.approx(np.std(1 - low / high), rel=within)


def test_correlation_matters_to_the_share() -> None:
    """As if bottom and top erred apart, the share would look twice as unsure or more."""
    ends = ends_budget(RIG, (0.8, TOP_M), GROUND, "raising", SPREAD)
    bottom_kg, top_kg = RIG.curve(GROUND).at([0.8, TOP_M])
    apart = np.hypot(ends.combined_kg[0] / top_kg, ends.combined_kg[1] * bottom_kg / top_kg**2)
    assert apart > 2 * share_budget(RIG, (0.8, TOP_M), GROUND, "raising", SPREAD).combined


def test_deload_against_monte_carlo() -> None:
    low, high = hung(DRAWN, 0.8 + DRAWN.bottom_m), hung(DRAWN, TOP_M + DRAWN.top_m)
    deload = deload_budget(RIG, (0.8, TOP_M), GROUND, "raising", SPREAD)
    assert deload.share == pytest.approx(1 - np.mean(low) / np.mean(high), abs=0.005)
    assert deload.combined == pytest.approx(np.std(1 - low / high), rel=0.02)
    assert deload.contributions["plates"] == 0.0


@pytest.mark.parametrize("height_m", [0.1, 0.4, 0.7, 1.2])
def test_dragged_slack_against_monte_carlo(height_m: float) -> None:
    """Closed form with height, density and friction drawn; it bends, so within 4 %."""
    chain = replace(OWN, links=32, pitch_m=0.0475)
    rig = Rig(0.0, 0.0, End((Straight(chain=chain),)), End())
    rng = np.random.default_rng(7)
    friction = rng.normal(0.7, SPREAD.friction_u, DRAWS)
    h, length_m = height_m + DRAWN.bottom_m, chain.length_m
    lifted = -friction * h + np.sqrt((friction * h) ** 2 + h**2 + 2 * friction * h * length_m)
    drawn = 3.5 * DRAWN.own[0] * lifted
    budget = load_budget(rig, height_m, Ground(lay="dragged"), "raising", SPREAD)
    assert float(budget.combined_kg) == pytest.approx(np.std(drawn), rel=0.04)
    assert not any(name.startswith("pile height") for name in budget.contributions)


def test_signs_say_which_way_an_input_moves_the_load() -> None:
    parts = load_budget(RIG, 0.9, GROUND, "raising", SPREAD).contributions
    more = {"bar height", "density of chain, DIN 764", "bar and collars", "plates"}
    less = {"left feeder", "right feeder 1", "pile height, rule for all strands"}
    less |= {"pile height, left strand 1", "pile height, right strand 8"}
    assert all(parts[name] > 0 for name in more)
    assert all(parts[name] < 0 for name in less)


def test_each_source_is_named_once() -> None:
    assert set(load_budget(RIG, 0.9, GROUND, "raising", SPREAD).contributions) == {
        "bar and collars",
        "plates",
        "bar height",
        "pile height, rule for all strands",
        *(f"pile height, left strand {number}" for number in range(1, 8)),
        *(f"pile height, right strand {number}" for number in range(1, 9)),
        "left feeder",
        "right feeder 1",
        "density of chain, DIN 764",
        "density of chain, left piece 1",
        "density of chain, right piece 1",
        "density of chain, right piece 2",
    }


def test_pieces_known_by_the_same_word_add_and_others_add_in_squares() -> None:
    def u_kg(known_by: str) -> float:
        pieces = (replace(OWN, known_by=known_by),) * 4
        rig = Rig(0.0, 0.0, End((Draped(chains=pieces),)), End())
        none = InputSpread(height_u_m=0.0)
        return float(load_budget(rig, 2.0, Ground(), "still", none).combined_kg)

    one = OWN.density_u_kg_per_m * OWN.length_m
    assert u_kg("calipers") == pytest.approx(4 * one)
    assert u_kg("") == pytest.approx(2 * one)


def test_heaps_add_in_squares_and_the_rule_for_them_adds() -> None:
    """Sixteen strands: sixteen times the common part, four times the scatter of one."""
    pieces = (replace(HEAVY, density_u_kg_per_m=0.0),) * 4
    end = End((Doubled(chains=pieces, suspension=replace(HELD, feeder_u_m=0.0)),))
    exact = InputSpread(height_u_m=0.0, bar_relative_u=0.0, plate_relative_u=0.0)
    budget = load_budget(Rig(20.0, 60.0, end, end), 1.0, Ground(), "lowering", exact)
    per_pitch_kg = 5.3 * 0.056
    heaps = [kg for name, kg in budget.contributions.items() if "strand " in name]
    assert len(heaps) == 16
    assert heaps == pytest.approx([-0.6 * per_pitch_kg] * 16, rel=1e-3)
    rule = budget.contributions["pile height, rule for all strands"]
    assert float(rule) == pytest.approx(-16 * 0.4 * per_pitch_kg, rel=1e-3)
    wanted = np.hypot(16 * 0.4, 4 * 0.6) * per_pitch_kg
    assert float(budget.combined_kg) == pytest.approx(wanted, rel=1e-3)
    assert budget.largest() == "pile height"


def test_a_feeder_moves_what_hangs_below_it_and_not_itself() -> None:
    light = replace(HELD, connector_m=0.0, connector_kg=0.0, feeder_density_kg_per_m=2.0)
    rig = Rig(0.0, 0.0, End((Doubled(chains=(HEAVY,), suspension=light),)), End())
    parts = load_budget(rig, 0.8, Ground(), "still", SPREAD).contributions
    assert float(parts["left feeder"]) == pytest.approx(-2 * 5.3 * HELD.feeder_u_m)
    assert float(parts["bar height"]) == pytest.approx((2 * 5.3 + 2.0) * SPREAD.height_u_m)


def test_heights_are_taken_all_at_once() -> None:
    heights = np.linspace(0.2, 1.6, 12).reshape(3, 4)
    budget = load_budget(RIG, heights, GROUND, "raising", SPREAD)
    one_by_one = [
        float(load_budget(RIG, z, GROUND, "raising", SPREAD).combined_kg) for z in heights.ravel()
    ]
    assert budget.combined_kg.shape == (3, 4)
    assert budget.combined_kg.ravel() == pytest.approx(one_by_one)


def test_ends_take_their_heights_apart() -> None:
    ends = ends_budget(RIG, TRAVEL, GROUND, "raising", SPREAD)
    both = load_budget(RIG, TRAVEL, GROUND, "raising", SPREAD)
    assert ends.contributions["bottom height"][1] == ends.contributions["top height"][0] == 0.0
    assert ends.combined_kg == pytest.approx(both.combined_kg)
    assert "bar height" not in ends.contributions


def test_nothing_uncertain_gives_nothing() -> None:
    exact = InputSpread(height_u_m=0, bar_relative_u=0, plate_relative_u=0, friction_u=0)
    sure = replace(OWN, density_u_kg_per_m=0.0)
    rig = Rig(20.0, 60.0, End((Straight(chain=sure),)), End())
    for ground in (Ground(raising_rule_u_pitches=0.0, strand_u_pitches=0.0), Ground(lay="dragged")):
        assert load_budget(rig, [0.0, 0.5], ground, "raising", exact).combined_kg.tolist() == [0, 0]
        assert float(mean_budget(rig, (0.2, 0.5), ground, "raising", exact).combined_kg) == 0.0
        assert ends_budget(rig, (0.2, 0.5), ground, "raising", exact).combined_kg.tolist() == [0, 0]
        assert share_budget(rig, (0.2, 0.5), ground, "raising", exact).combined == 0.0


def test_largest_is_by_size_not_by_sign() -> None:
    budget = Budget({"small": np.array([0.1, 0.2]), "large": np.array([-0.5, 0.0])})
    assert budget.largest() == "large"
    assert budget.combined_kg.tolist() == pytest.approx([np.hypot(0.1, 0.5), 0.2])


def test_inputs_alike_before_the_comma_are_one_group() -> None:
    """Many heaps together outdo one density, though each of them does less."""
    inputs = {"bar height": 0.2, "density of chain, DIN 764": -0.5}
    inputs |= {f"pile height, left strand {n}": -0.3 for n in range(4)}
    budget = Budget({name: np.array([kg, 0.0]) for name, kg in inputs.items()})
    grouped = budget.grouped()
    assert {name: kg.tolist() for name, kg in grouped.items()} == {
        "bar height": [0.2, 0.0],
        "density of chain, DIN 764": [0.5, 0.0],
        "pile height": [pytest.approx(0.6), 0.0],
    }
    assert budget.largest() == "pile height"
    assert ShareBudget(0.3, budget.contributions).largest() == "pile height"


def test_groups_combine_to_the_whole() -> None:
    for budget in (
        load_budget(RIG, TRAVEL, GROUND, "raising", SPREAD),
        ends_budget(RIG, TRAVEL, GROUND, "raising", SPREAD),
        mean_budget(RIG, TRAVEL, GROUND, "raising", SPREAD),
    ):
        squares = sum(kg**2 for kg in budget.grouped().values())
        assert np.sqrt(squares) == pytest.approx(budget.combined_kg)
    share = share_budget(RIG, TRAVEL, GROUND, "raising", SPREAD)
    assert np.hypot.reduce(list(share.grouped().values())) == pytest.approx(share.combined)


def test_smoothed_slope_against_differences_of_drawn_loads() -> None:
    curve = LoadCurve.strand(5.0, 0.03, 0.4) + LoadCurve.lump(0.2, 0.41)
    errors = np.random.default_rng(3).normal(0, 0.01, 400_000)
    for height_m in (0.38, 0.405, 0.44):
        loads = curve.at(height_m + errors)
        regression = np.cov(loads, errors)[0, 1] / np.var(errors)
        assert float(smoothed_slope(curve, height_m, 0.01)) == pytest.approx(regression, rel=0.02)


def test_refusals() -> None:
    with pytest.raises(BadInputError) as caught:
        InputSpread(height_u_m=-0.001)
    assert caught.value.field == "height_u_m"
    with pytest.raises(BadInputError) as caught:
        smoothed_slope(LoadCurve.constant(1.0), 0.5, 0.0)
    assert caught.value.field == "spread_m"
    for function in (ends_budget, mean_budget, share_budget, deload_budget):
        with pytest.raises(BadInputError, match="bottom of the lift") as caught:
            function(RIG, (1.1, 0.6), GROUND, "raising", SPREAD)
        assert caught.value.field == "bottom_m"
    bare = Rig(20.0, 60.0, End(), End())
    assert share_budget(bare, TRAVEL, GROUND, "raising", SPREAD).share == 0.0
    with pytest.raises(BadInputError, match="needs a load there"):
        deload_budget(bare, TRAVEL, GROUND, "raising", SPREAD)
