"""Chain in place of plates lets a bench press bar go faster.

Baker DG, Newton RU. Effect of kinetically altering a repetition via the use of chain resistance
on velocity during the bench press. Journal of Strength and Conditioning Research 23(7):
1941-1946, 2009. doi 10.1519/JSC.0b013e3181b3dd09. Seen: abstract. 60 % of 1RM and 17.5 kg of
chain draped over the bar, in all about 75 % of 1RM, against 75 % in plates: mean and peak
concentric velocities around 10 % higher. How much of the chain the floor took at the chest is not
in the abstract; 36 to 42 % is what straight hung chain unloads (Neelly et al. 2010, abstract). A
rep is faster: nothing is said here of training.
"""

from __future__ import annotations

import pytest

from topheavy.lifter.motion.batch import RepBatch
from topheavy.lifter.motion.inputs import OnBar, RepLifter
from topheavy.lifter.motion_model import BENCH
from topheavy.lifter.rep import simulate_batch
from topheavy.mechanics.curve import LoadCurve

BEST_KG = 17.5 / 0.15
LIFTER = RepLifter(best_kg=BEST_KG, bottom_m=0.80, top_m=1.20)


@pytest.mark.parametrize("unloading", [0.36, 0.42])
def test_mean_and_peak_velocity_are_higher(unloading: float) -> None:
    """The direction of both; the mean within half and one and a half of the stated 10 %."""
    hung = LoadCurve.through([0.80, 1.20], [17.5 * (1.0 - unloading), 17.5])
    plates = OnBar(straight_kg=0.75 * BEST_KG)
    chain = OnBar(straight_kg=0.60 * BEST_KG, hung=hung)
    found = simulate_batch(RepBatch.of(LIFTER, [plates, chain], BENCH.typical()))
    assert found.top_load_kg[0] == pytest.approx(found.top_load_kg[1])
    mean = float(found.mean_m_per_s[1] / found.mean_m_per_s[0]) - 1.0
    peak = float(found.peak_m_per_s[1] / found.peak_m_per_s[0]) - 1.0
    assert 0.05 < mean < 0.15
    assert peak > 0.0
