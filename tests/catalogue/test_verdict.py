"""Whether a chain is heavy enough."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from topheavy.catalogue.table import find_rows
from topheavy.catalogue.verdict import MOST_PIECES, TRADE_DENSITY_KG_PER_M, Job, judge_chain
from topheavy.errors import BadInputError
from topheavy.mechanics.chain import Chain
from topheavy.mechanics.hang import Doubled, Suspension
from topheavy.mechanics.rig import End, Rig
from topheavy.units import METRIC, POUNDS


def test_the_gain_is_what_the_load_curve_of_such_a_rig_gains() -> None:
    """One piece a side, doubled, just long enough: the mechanics must agree with the arithmetic."""
    verdict = judge_chain(5.3, Job(travel_m=0.448))
    chain = Chain(links=16, pitch_m=0.056, density_kg_per_m=5.3)
    assert chain.length_m == pytest.approx(verdict.shortest_piece_m)
    end = End((Doubled(chains=(chain,), suspension=Suspension(feeder_m=0.5)),))
    curve = Rig(20.0, 0.0, end, end).curve(way="still")
    gained_kg = float(curve.at(0.948) - curve.at(0.5))
    assert verdict.gain_per_piece_kg == pytest.approx(gained_kg)


@pytest.mark.parametrize(
    ("density", "wire_m", "judgement"),
    [
        (5.3, 0.016, "heavy enough"),
        (5.3, None, "heavy enough"),
        (4.45, 0.016, "heavy enough"),
        (3.5, 0.013, "light"),
        (2.1, 0.010, "light"),
        (1.1, 0.008, "too thin"),
        (0.8, 0.006, "too thin"),
        (0.8, None, "too thin"),
    ],
)
def test_common_chain_gets_the_verdict_of_the_trade(
    density: float, wire_m: float | None, judgement: str
) -> None:
    """Common practice, no source: 5/8 in (16 mm) or heavier."""
    assert judge_chain(density, wire_diameter_m=wire_m).judgement == judgement


@given(
    density=st.floats(0.05, 20.0),
    travel_m=st.floats(0.1, 1.2),
    best_kg=st.floats(20.0, 500.0),
    share=st.floats(0.02, 0.5),
)
def test_the_pieces_called_for_are_just_enough(
    density: float, travel_m: float, best_kg: float, share: float
) -> None:
    verdict = judge_chain(density, Job(travel_m=travel_m, best_kg=best_kg, share=share))
    gain = verdict.gain_per_piece_kg
    assert verdict.pieces_a_side * gain >= verdict.wanted_kg * (1 - 1e-6)
    assert (verdict.pieces_a_side - 1) * gain < verdict.wanted_kg or verdict.pieces_a_side == 1
    assert (verdict.judgement == "too thin") == (
        verdict.pieces_a_side > MOST_PIECES and not verdict.trade_size
    )


def test_heavy_chain_for_a_giant_is_called_light_not_thin() -> None:
    verdict = judge_chain(5.3, Job(travel_m=0.3, best_kg=400.0), wire_diameter_m=0.016)
    assert verdict.judgement == "light"
    assert "many pieces" in verdict.words
    assert any("too much to clip" in reason for reason in verdict.reasons())


def test_what_was_assumed_is_said() -> None:
    assert len(judge_chain(5.3).assumed) == 2
    told = judge_chain(5.3, Job(travel_m=0.4, best_kg=120.0))
    assert told.assumed == ()
    assert not any("assumed" in reason for reason in told.reasons())


def test_reasons_speak_the_units_asked_for() -> None:
    verdict = judge_chain(5.3)
    assert "8.5 kg" in verdict.reasons(METRIC)[0]
    assert "18.7 lb" in verdict.reasons(POUNDS)[0]


def test_the_trades_bound_by_mass_is_the_lightest_printed_16_mm_chain() -> None:
    rows = [row for row in find_rows(wire_diameter_m=0.016) if row.wire_diameter_m == 0.016]
    printed = [row.mass_kg_per_m for row in rows if row.mass_kg_per_m is not None]
    assert min(printed) == TRADE_DENSITY_KG_PER_M


@pytest.mark.parametrize(
    ("travel_m", "best_kg", "share", "field"),
    [(0.0, 100.0, 0.1, "travel_m"), (0.4, -1.0, 0.1, "best_kg"), (0.4, 100.0, 1.5, "share")],
)
def test_a_job_out_of_range_is_refused(
    travel_m: float, best_kg: float, share: float, field: str
) -> None:
    with pytest.raises(BadInputError) as error:
        Job(travel_m=travel_m, best_kg=best_kg, share=share)
    assert error.value.field == field


def test_weightless_chain_is_refused() -> None:
    with pytest.raises(BadInputError):
        judge_chain(0.0)
    with pytest.raises(BadInputError):
        judge_chain(5.0, wire_diameter_m=-1.0)
