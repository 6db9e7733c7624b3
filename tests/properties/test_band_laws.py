"""Laws of bands that hold for any readings and any pegs."""

from __future__ import annotations

from itertools import accumulate

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from topheavy.constants import STANDARD_GRAVITY_M_PER_S2
from topheavy.errors import BadInputError
from topheavy.mechanics.band import BandFit, fit_band, rest_length_effect
from topheavy.mechanics.band_readings import BandReadings
from topheavy.mechanics.banded import Banded, Peg
from topheavy.mechanics.rig import End, Rig


@st.composite
def readings(draw: st.DrawFn) -> BandReadings:
    """Any band that stretches in steps and pulls more each time, even by nothing."""
    count = draw(st.integers(3, 9))
    rest_m = draw(st.integers(200, 1200)) / 1000
    steps = draw(st.lists(st.integers(20, 200), min_size=count, max_size=count))
    pulls = draw(st.lists(st.integers(0, 800), min_size=count, max_size=count))
    assume(sum(pulls) > 0)
    return BandReadings(
        tag="b",
        rest_m=rest_m,
        length_m=tuple(rest_m + x / 1000 for x in accumulate(steps)),
        tension_kg=tuple(x / 100 for x in accumulate(pulls)),
    )


FITS = readings().map(fit_band)


@st.composite
def banded(draw: st.DrawFn) -> Banded:
    """Single or doubled, pegs below, above or astride, wherever the readings reach."""
    fit = draw(FITS)
    pegs = st.builds(
        Peg,
        height_m=st.integers(0, 2500).map(lambda mm: mm / 1000),
        offset_m=st.integers(-300, 300).map(lambda mm: mm / 1000),
    )
    bottom_m = draw(st.integers(100, 1600)) / 1000
    try:
        return Banded(
            band=fit,
            peg=draw(pegs),
            second=draw(st.none() | pegs),
            travel_m=(bottom_m, bottom_m + draw(st.integers(100, 700)) / 1000),
            beyond=draw(st.booleans()),
        )
    except BadInputError:
        assume(False)
        raise


@given(FITS)
def test_tension_never_falls_and_starts_from_nothing(fit: BandFit) -> None:
    lengths = np.linspace(0.5 * fit.law.rest_m, 1.5 * fit.law.longest_m, 300)
    tension = fit.tension_kg(lengths, beyond=True)
    assert np.all(np.diff(tension) >= -1e-9)
    assert np.all(tension[lengths <= fit.law.rest_m] == 0)
    assert np.all(fit.tension_u_kg(lengths, beyond=True) >= 0)


@given(FITS)
def test_energy_rises_by_the_tension(fit: BandFit) -> None:
    lengths = np.linspace(fit.law.rest_m, fit.law.longest_m, 2001)
    tension = fit.tension_kg(lengths)
    area = float(np.trapezoid(tension, lengths))
    scale = float(tension[-1]) * fit.law.span_m
    assert float(fit.energy_kg_m(fit.law.longest_m)) == pytest.approx(area, abs=1e-5 * scale)


@given(FITS, st.floats(0.001, 0.2))
def test_a_longer_rest_length_never_pulls_more(fit: BandFit, rest_error: float) -> None:
    length = 0.5 * (fit.law.rest_m + fit.law.longest_m)
    assume(float(fit.tension_kg(length)) > 0)
    assert -1 <= float(rest_length_effect(fit, length, rest_error)) <= 1e-12


@given(banded())
def test_load_rises_with_height_and_the_curve_keeps_its_bound(hang: Banded) -> None:
    heights = np.linspace(*hang.travel_m, 400)
    loads = hang.load_kg(heights)
    assert np.all(np.diff(loads) >= -1e-9 * max(1.0, float(np.max(np.abs(loads)))))
    assert float(np.max(np.abs(hang.curve().at(heights) - loads))) <= 0.005 + 1e-6


@given(banded())
def test_work_on_the_bar_is_energy_in_the_band(hang: Banded) -> None:
    bottom_m, top_m = hang.travel_m
    held = float(hang.energy_j(top_m) - hang.energy_j(bottom_m))
    slack = 0.005 * STANDARD_GRAVITY_M_PER_S2 * (top_m - bottom_m)
    assert hang.curve().work_j(bottom_m, top_m) == pytest.approx(held, abs=slack + 1e-6)


@given(banded())
def test_pull_up_and_aside_is_never_more_than_the_strands_pull(hang: Banded) -> None:
    heights = np.linspace(*hang.travel_m, 50)
    pull = np.hypot(hang.load_kg(heights), hang.side_pull_n(heights) / STANDARD_GRAVITY_M_PER_S2)
    assert np.all(pull <= len(hang.pegs) * hang.tension_kg(heights) * (1 + 1e-9))


@given(banded(), st.integers(-500, 500))
def test_moving_floor_pegs_and_bar_together_changes_nothing(hang: Banded, up_mm: int) -> None:
    up_m = up_mm / 1000
    moved = Banded(
        band=hang.band,
        peg=Peg(height_m=hang.peg.height_m + up_m, offset_m=hang.peg.offset_m),
        second=hang.second
        and Peg(height_m=hang.second.height_m + up_m, offset_m=hang.second.offset_m),
        travel_m=(hang.travel_m[0] + up_m, hang.travel_m[1] + up_m),
        beyond=True,
    )
    heights = np.linspace(*hang.travel_m, 20)
    assert moved.load_kg(heights + up_m) == pytest.approx(hang.load_kg(heights), abs=1e-6)


@given(banded())
def test_two_ends_carry_twice_one_and_nothing_has_mass(hang: Banded) -> None:
    rig = Rig(20.0, 50.0, End((), (hang,)), End((), (hang,)))
    heights = np.linspace(*hang.travel_m, 20)
    assert rig.curve().at(heights) == pytest.approx(70 + 2 * hang.curve().at(heights))
    assert rig.hung_curve().at(heights).tolist() == [0.0] * 20
    assert rig.left.mass_kg == 0
