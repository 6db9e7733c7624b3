"""Numbers fitted to weighings whose truth is known, and what is said when they can't be told."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np
import pytest

from tests.services.weighing.weighed_rigs import CHAIN, FLOOR, HELD, STATIONS, Truth, alike, heights
from topheavy.mechanics.ground import LOWERING_PILE_PITCHES, RAISING_PILE_PITCHES, Ground
from topheavy.mechanics.hang import Doubled
from topheavy.mechanics.scale_fit import fit_readings
from topheavy.services.weighing.case import Case
from topheavy.services.weighing.numbers import numbers_of
from topheavy.services.weighing.weigh import Fit, Number, Scale, ScaleReading

if TYPE_CHECKING:
    from topheavy.mechanics.rig import Rig

WEIGHINGS = 200


def fitted(rig: Rig, readings: list[ScaleReading], ground: Ground = FLOOR) -> Fit:
    case = Case(rig=rig, ground=ground, scale=Scale(), readings=tuple(readings))
    seen, data = case.seen(), case.data()
    return numbers_of(case, seen, data, fit_readings(seen, data), ())


def number(fit: Fit, name: str) -> Number:
    found = fit.number(name)
    assert found is not None
    return found


def true_numbers(truth: Truth, fit: Fit) -> dict[str, float]:
    """The same numbers as drawn; a lift-off is moved by feeder, rule, and what heaps keep."""
    pile_m = {}
    for way, stated in (("raising", RAISING_PILE_PITCHES), ("lowering", LOWERING_PILE_PITCHES)):
        kept = np.mean([u for (_, kept_way), u in truth.kept.items() if kept_way == way])
        pile_m[way] = CHAIN.pitch_m * (truth.pile[way] + float(kept) - stated)
    return {
        "chain": CHAIN.density_kg_per_m * truth.factor,
        "straight weight": truth.straight_kg,
        "lift-off raising": number(fit, "lift-off raising").stated
        + truth.shift_m
        + pile_m["raising"],
        "lift-off lowering": number(fit, "lift-off lowering").stated
        + truth.shift_m
        + pile_m["lowering"],
        "pile difference": number(fit, "pile difference").stated
        + pile_m["lowering"]
        - pile_m["raising"],
    }


@pytest.mark.parametrize("name", ["bench doubled", "squat straight"])
def test_one_standard_error_covers_the_truth_68_times_in_100(name: str) -> None:
    """200 weighings read link by link: 68 % within one SE, 95 % within two.

    The share of 200 has a standard deviation of 3.3 and 1.5 points; three of them are allowed.
    """
    station = STATIONS[name]
    within: Counter[tuple[str, int]] = Counter()
    for seed in range(WEIGHINGS):
        truth = Truth.draw(seed, station.rig)
        fit = fitted(station.rig, truth.read(station.blank()))
        for key, value in true_numbers(truth, fit).items():
            off = abs(number(fit, key).value - value) / number(fit, key).u
            within[key, 1] += off < 1
            within[key, 2] += off < 2
    for (key, errors), count in within.items():
        share, spread = (0.683, 0.10) if errors == 1 else (0.954, 0.045)
        assert count / WEIGHINGS == pytest.approx(share, abs=spread), key


def test_readings_tell_more_than_the_statement() -> None:
    station = STATIONS["squat straight"]
    fit = fitted(station.rig, Truth.draw(1, station.rig).read(station.blank()))
    chain = number(fit, "chain")
    assert chain.known_from == "scale"
    assert chain.u < 0.5 * chain.stated_u
    assert chain.stated_share == pytest.approx((chain.u / chain.stated_u) ** 2)
    assert (fit.free, fit.told) == (3, 3)


def test_feeder_and_pile_are_told_only_in_sum() -> None:
    station = STATIONS["bench doubled"]
    up = fitted(station.rig, Truth.draw(2, station.rig).read(station.blank(("raising",))))
    assert not up.separable
    assert {n.name for n in up.numbers} == {"chain", "lift-off raising", "straight weight"}
    assert {n.name for n in up.leaning} == {"feeder", "pile raising"}
    assert "only their sum" in up.notes[0].text
    lift_off, feeder, pile = (
        number(up, name) for name in ("lift-off raising", "feeder", "pile raising")
    )
    connector_m = HELD.connector_m
    assert lift_off.value == pytest.approx(feeder.value + connector_m + pile.value)
    assert lift_off.u < pile.u + feeder.u


def test_both_ways_tell_the_piles_difference_but_not_the_feeder() -> None:
    station = STATIONS["bench doubled"]
    truth = Truth.draw(2, station.rig)
    both = fitted(station.rig, truth.read(station.blank()))
    difference = number(both, "pile difference")
    assert difference.known_from == "scale"
    assert difference.stated == pytest.approx(
        (LOWERING_PILE_PITCHES - RAISING_PILE_PITCHES) * CHAIN.pitch_m
    )
    true_m = true_numbers(truth, both)["pile difference"]
    assert difference.value == pytest.approx(true_m, abs=2 * difference.u)
    assert not both.separable
    assert "Raising against lowering" in both.notes[0].text


def test_a_heavy_connector_seen_leaving_the_floor_tells_the_feeder_from_the_pile() -> None:
    """A 4 kg shackle 12 cm long comes off the floor before the chain and knows no pile."""
    heavy = replace(HELD, connector_kg=4.0, connector_m=0.12, feeder_u_m=0.03)
    rig = alike(21.0, 0.0, Doubled(chains=(CHAIN, CHAIN), suspension=heavy))
    truth = Truth.draw(5, rig)
    low = [ScaleReading(height_m=h, mass_kg=0.0, way="raising") for h in heights(0.56, 0.66, 5)]
    high = [ScaleReading(height_m=h, mass_kg=0.0, way="raising") for h in heights(0.8, 1.1, 5)]
    fit = fitted(rig, truth.read([*low, *high]))
    assert fit.separable
    assert not fit.leaning
    feeder = number(fit, "feeder")
    assert feeder.u < 0.25 * feeder.stated_u
    assert feeder.value == pytest.approx(0.55 + truth.shift_m, abs=2.5 * feeder.u)


def test_one_height_can_not_tell_the_mass_per_length() -> None:
    station = STATIONS["squat straight"]
    readings = [ScaleReading(height_m=1.0, mass_kg=0.0, way="raising")] * 5
    fit = fitted(station.rig, Truth.draw(3, station.rig).read(readings))
    assert number(fit, "chain").mostly_stated
    assert any("heights further apart" in note.text for note in fit.notes)


def test_all_chain_down_tells_the_straight_weight_alone() -> None:
    station = STATIONS["bench doubled"]
    readings = [ScaleReading(height_m=0.35, mass_kg=0.0, way="raising")] * 4
    fit = fitted(station.rig, Truth.draw(3, station.rig).read(readings))
    assert number(fit, "straight weight").known_from == "scale"
    assert number(fit, "lift-off raising").mostly_stated
    assert any("leaves the floor is mostly as stated" in note.text for note in fit.notes)


def test_dragged_slack_makes_no_pile_and_its_friction_is_told() -> None:
    station = STATIONS["squat straight"]
    ground = Ground(lay="dragged", friction=0.5)
    truth = Truth.draw(4, station.rig, ground)
    fit = fitted(station.rig, truth.read(station.blank()), ground)
    assert fit.separable
    friction = number(fit, "friction")
    assert friction.u < 0.5 * friction.stated_u
    assert friction.value == pytest.approx(0.5, abs=2.5 * friction.u)
    assert fit.number("pile raising") is None
    assert fit.number("nothing of the kind") is None


def test_a_number_stated_as_sure_is_held() -> None:
    sure = replace(CHAIN, density_u_kg_per_m=0.0)
    rig = alike(21.0, 0.0, Doubled(chains=(sure,), suspension=HELD))
    station = replace(STATIONS["bench doubled"], rig=rig)
    fit = fitted(rig, Truth.draw(1, rig).read(station.blank()))
    chain = number(fit, "chain")
    assert (chain.value, chain.u) == pytest.approx((5.6, 0.0))
    assert chain.known_from == "held"
    assert fit.free == 2
