"""Bands on a squat: faster down, slower up.

Stevenson MW, Warpeha JM, Dietz CC, Giveans RM, Erdman AG. Acute effects of elastic bands during
the free-weight barbell back squat exercise on velocity, power, and force production. Journal of
Strength and Conditioning Research 24(11): 2944-2954, 2010. doi 10.1519/JSC.0b013e3181db25de.
Seen: abstract. 20 men, 55 % of 1RM; band force added, equal to 20 % of that load: peak eccentric
velocity greater with bands, peak and mean concentric velocity greater without.
"""

from __future__ import annotations

from topheavy.lifter.lowering import let_go
from topheavy.lifter.motion.batch import RepBatch
from topheavy.lifter.motion.inputs import OnBar, RepLifter
from topheavy.lifter.motion_model import SQUAT
from topheavy.lifter.rep import simulate_batch
from topheavy.mechanics.curve import LoadCurve

LIFTER = RepLifter(best_kg=150.0, bottom_m=0.90, top_m=1.52)
LOAD_KG = 0.55 * 150.0
PLATES = OnBar(straight_kg=LOAD_KG)
BANDS = OnBar(
    straight_kg=LOAD_KG, band=LoadCurve.through([0.90, 1.52], [0.1 * LOAD_KG, 0.3 * LOAD_KG])
)


def test_bands_bring_the_bar_down_faster() -> None:
    """The sign, for any one steady push of the lifter; let go, faster than free fall."""
    for push in (0.0, 0.5, 0.8):
        with_bands, without = (let_go(LIFTER, one, push * LOAD_KG) for one in (BANDS, PLATES))
        assert with_bands.peak_m_per_s > without.peak_m_per_s
    assert let_go(LIFTER, BANDS).faster_than_free_fall
    assert not let_go(LIFTER, PLATES).faster_than_free_fall


def test_added_bands_make_it_slower_on_the_way_up() -> None:
    """Signs of peak and mean velocity."""
    found = simulate_batch(RepBatch.of(LIFTER, [PLATES, BANDS], SQUAT.typical()))
    assert found.peak_m_per_s[1] < found.peak_m_per_s[0]
    assert found.mean_m_per_s[1] < found.mean_m_per_s[0]
