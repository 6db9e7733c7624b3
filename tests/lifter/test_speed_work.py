"""Speed work: loads are equal where said, and each row is the rep it stands for."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from topheavy.errors import BadInputError
from topheavy.lifter.motion.batch import RepBatch
from topheavy.lifter.motion.inputs import OnBar, RepLifter
from topheavy.lifter.motion_model import BENCH
from topheavy.lifter.rep import simulate_batch
from topheavy.lifter.speed_work import SHARES, EqualAt, speed_work
from topheavy.mechanics.curve import LoadCurve

LIFTER = RepLifter(best_kg=140.0, bottom_m=0.80, top_m=1.20)
CHAIN = OnBar(straight_kg=77.0, hung=LoadCurve.strand(60.0, 0.6, 0.85), name="doubled")


def test_the_top_or_the_mean_load_is_equal() -> None:
    for row in speed_work(LIFTER, CHAIN, BENCH.typical(), "top"):
        assert row.top_kg == pytest.approx(row.plain_kg)
        assert row.bottom_kg < row.plain_kg
    mean = CHAIN.hung.at(LIFTER.grid_m)
    for row in speed_work(LIFTER, CHAIN, BENCH.typical(), "mean"):
        chain_mean = float(np.mean(0.5 * (mean[1:] + mean[:-1])))
        assert row.straight_kg + chain_mean == pytest.approx(row.plain_kg)
        assert row.bottom_kg < row.plain_kg < row.top_kg


@pytest.mark.parametrize("equal_at", ["mean", "top"])
def test_each_row_is_its_rep(equal_at: EqualAt) -> None:
    rows = speed_work(LIFTER, CHAIN, BENCH.typical(), equal_at)
    assert [row.share for row in rows] == list(SHARES)
    row = rows[3]
    plain = simulate_batch(
        RepBatch.of(LIFTER, OnBar(straight_kg=row.share * 140.0), BENCH.typical())
    )
    chain = simulate_batch(RepBatch.of(LIFTER, CHAIN, BENCH.typical(), straight_kg=row.straight_kg))
    assert row.plain_mean_m_per_s == pytest.approx(float(plain.mean_m_per_s[0]))
    assert row.chain_peak_m_per_s == pytest.approx(float(chain.peak_m_per_s[0]))
    assert row.mean_gain == pytest.approx(row.chain_mean_m_per_s / row.plain_mean_m_per_s - 1)
    assert row.peak_gain == pytest.approx(row.chain_peak_m_per_s / row.plain_peak_m_per_s - 1)


def test_with_the_top_equal_chain_is_faster() -> None:
    """It is lighter below and as heavy above: no other outcome is possible."""
    for row in speed_work(LIFTER, CHAIN, BENCH.typical(), "top"):
        assert row.mean_gain > 0


def test_the_two_questions_have_different_answers() -> None:
    top = speed_work(LIFTER, CHAIN, BENCH.typical(), "top")
    mean = speed_work(LIFTER, CHAIN, BENCH.typical(), "mean")
    assert all(t.mean_gain > m.mean_gain for t, m in zip(top, mean, strict=True))


def test_pick_up_costs_speed_work_more_than_heavy_work() -> None:
    """It takes k v^2 dC/dz: percents of peak speed with light bars, far less with heavy ones."""
    chain = OnBar(straight_kg=0.0, hung=LoadCurve.strand(105.0, 0.5, 0.80))
    loads = np.array([0.30, 0.80]) * 140.0

    def gain(pick_up: float) -> np.ndarray:
        motion = replace(BENCH.typical(), pick_up=pick_up)
        return simulate_batch(RepBatch.of(LIFTER, chain, motion, straight_kg=loads)).peak_m_per_s

    cost = 1.0 - gain(1.0) / gain(0.5)
    assert cost[0] > 0.02
    assert cost[1] < 0.5 * cost[0]
    assert cost[1] < 0.02


def test_a_missed_rep_has_no_speed() -> None:
    heavy = speed_work(LIFTER, CHAIN, BENCH.typical(), "mean", shares=(0.6, 1.2))
    assert np.isnan(heavy[1].plain_mean_m_per_s)
    assert np.isfinite(heavy[0].plain_mean_m_per_s)


def test_chain_heavier_than_the_plain_weight_is_refused() -> None:
    with pytest.raises(BadInputError) as error:
        speed_work(LIFTER, CHAIN, BENCH.typical(), "top", shares=(0.1, 0.5))
    assert error.value.field == "shares"
