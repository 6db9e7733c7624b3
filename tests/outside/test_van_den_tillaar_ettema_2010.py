"""The sticking period of a bench press 1RM.

van den Tillaar R, Ettema G. The "sticking period" in a maximum bench press. Journal of Sports
Sciences 28(5): 529-535, 2010. doi 10.1080/02640411003628022. Seen: abstract. 12 lifters, all of
whom showed a sticking period, from the highest bar velocity to the first local lowest, that
started about 0.2 s after the initial upward movement and lasted about 0.9 s. Position in the
travel: about 10 to 15 cm above the chest (Jidovtseff et al. 2011, read, after Elliott 1989 and
Madsen & McLaughlin 1984).

Fitted. Known misfit: simulated, it starts 0.05 s later and lasts 0.14 s less.
"""

from __future__ import annotations

import numpy as np
import pytest

from topheavy.lifter.motion_model import BENCH
from topheavy.lifter.plausible import plausible
from topheavy.lifter.velocity import plain_reps

STICKING = plain_reps(BENCH.typical(), 1.0, 0.40).sticking


def test_it_starts_early() -> None:
    """About 0.2 s, no spread stated: within 0.1 s."""
    assert float(STICKING.start_s[0]) == pytest.approx(0.2, abs=0.1)


def test_it_lasts_most_of_a_second() -> None:
    """About 0.9 s, no spread stated: within 0.2 s."""
    lasts = float(STICKING.slowest_s[0] - STICKING.start_s[0])
    assert lasts == pytest.approx(0.9, abs=0.2)


def test_it_ends_a_third_up() -> None:
    """10 to 15 cm of 40 cm."""
    assert 0.10 <= float(STICKING.slowest_part[0]) * 0.40 <= 0.15
    assert float(STICKING.start_part[0]) < float(STICKING.slowest_part[0])


def test_all_lifters_show_one() -> None:
    """12 of 12; of the simulated ones at least 19 of 20."""
    found = plain_reps(plausible(BENCH, 200), 1.0, 0.40).sticking
    assert np.mean(np.isfinite(found.start_s)) >= 0.95
