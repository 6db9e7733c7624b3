"""The sticking region on tracks whose turning points are known in closed form."""

from __future__ import annotations

import numpy as np
import pytest

from topheavy.lifter.motion.sticking import sticking_region
from topheavy.lifter.motion.track import Track, vertex


def track_of(speed: np.ndarray, time: np.ndarray) -> Track:
    height = np.concatenate([[0.0], np.cumsum(0.5 * (speed[1:] + speed[:-1]) * np.diff(time))])
    columns = (time, height, speed, np.ones_like(time))
    return Track(*(column[:, None] for column in columns))


def test_start_slowest_and_end_of_a_wave() -> None:
    """V = 0.3 sin(pi t) bent: peaks and troughs of 1 - cos are known."""
    time = np.linspace(0.0, 2.0, 161)
    speed = 0.3 + 0.1 * np.sin(2 * np.pi * time)
    found = sticking_region(track_of(speed, time), np.array([0.6]), np.array([False]))
    assert found.start_s[0] == pytest.approx(0.25, abs=2e-3)
    assert found.slowest_s[0] == pytest.approx(0.75, abs=2e-3)
    assert found.end_s[0] == pytest.approx(1.25, abs=5e-3)
    assert found.start_m_per_s[0] == pytest.approx(0.4, abs=1e-4)
    assert found.slowest_m_per_s[0] == pytest.approx(0.2, abs=1e-4)
    height = 0.3 * 0.75 + 0.1 / (2 * np.pi)
    assert found.slowest_part[0] == pytest.approx(height / 0.6, abs=2e-3)
    assert found.last_peak_s[0] == pytest.approx(1.25, abs=2e-3)


def test_it_ends_where_the_bar_is_as_fast_again() -> None:
    time = np.linspace(0.0, 1.5, 301)
    speed = np.interp(time, [0.0, 0.3, 0.7, 1.2, 1.5], [0.0, 0.3, 0.1, 0.6, 0.55])
    found = sticking_region(track_of(speed, time), np.array([0.5]), np.array([False]))
    assert found.end_s[0] == pytest.approx(0.7 + 0.5 * 0.2 / 0.5, abs=2e-3)
    assert found.last_peak_s[0] == pytest.approx(1.2, abs=5e-3)


def test_a_bar_that_only_speeds_up_and_slows_once_does_not_stick() -> None:
    time = np.linspace(0.0, 1.0, 101)
    found = sticking_region(
        track_of(np.sin(np.pi * time), time), np.array([0.64]), np.array([False])
    )
    assert np.isnan(found.start_s[0])
    assert np.isnan(found.slowest_part[0])
    assert found.last_peak_s[0] == pytest.approx(0.5, abs=1e-3)


def test_less_than_a_wobble_is_not_sticking() -> None:
    time = np.linspace(0.0, 2.0, 161)
    speed = 0.3 + 0.001 * np.sin(2 * np.pi * time)
    found = sticking_region(track_of(speed, time), np.array([0.6]), np.array([False]))
    assert np.isnan(found.start_s[0])


def test_a_missed_rep_sticks_where_it_stops() -> None:
    time = np.linspace(0.0, 1.0, 101)
    speed = np.sin(np.pi * time)
    track = track_of(speed, time)
    found = sticking_region(track, np.array([1.0]), np.array([True]))
    assert found.slowest_s[0] == pytest.approx(1.0)
    assert found.slowest_part[0] == pytest.approx(float(track.height_m[-1, 0]))
    assert np.isnan(found.end_s[0])


def test_a_vertex_is_exact_for_a_parabola_on_uneven_steps() -> None:
    time = np.array([0.0, 0.1, 0.25, 0.6])[:, None]
    value = 2.0 - 3.0 * (time - 0.2) ** 2
    at, most = vertex(time, value, np.array([2]))
    assert at[0] == pytest.approx(0.2)
    assert most[0] == pytest.approx(2.0)
