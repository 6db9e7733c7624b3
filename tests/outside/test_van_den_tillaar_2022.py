"""Chain on a bench press at 85 % of 1RM, matched at the bottom.

van den Tillaar R, Saeterbakken AH, Andersen V. The acute effects of attaching chains to the
barbell on kinematics and muscle activation in bench press in resistance-trained men. Journal of
Functional Morphology and Kinesiology 7(2): 39, 2022. doi 10.3390/jfmk7020039. Seen: abstract. 12
men, 1RM 105 +- 17 kg: with the load at the bottom equal, chain led to lower peak velocities and
longer lifting times than plates alone (p <= 0.043). The mass of the chain is not in the abstract.
"""

from __future__ import annotations

import pytest

from topheavy.lifter.motion.batch import RepBatch
from topheavy.lifter.motion.inputs import OnBar, RepLifter
from topheavy.lifter.motion_model import BENCH
from topheavy.lifter.rep import simulate_batch
from topheavy.mechanics.curve import LoadCurve

LIFTER = RepLifter(best_kg=105.0, bottom_m=0.80, top_m=1.20)
PLATES = OnBar(straight_kg=0.85 * 105.0)


@pytest.mark.parametrize("share", [0.05, 0.10, 0.20])
def test_bottom_matched_chain_is_slower_and_longer(share: float) -> None:
    """Signs, whatever the chain: so much of the 1RM is added on the way to the top."""
    hung = LoadCurve.through([0.80, 1.20], [0.0, share * 105.0])
    chain = OnBar(straight_kg=0.85 * 105.0, hung=hung)
    found = simulate_batch(RepBatch.of(LIFTER, [PLATES, chain], BENCH.typical()))
    assert found.completed.all()
    assert found.peak_m_per_s[1] < found.peak_m_per_s[0]
    assert found.duration_s[1] > found.duration_s[0]
