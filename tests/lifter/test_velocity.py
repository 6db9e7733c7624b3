"""Published lines: forwards, backwards, refusals; and the misfit that the models state."""

from __future__ import annotations

import numpy as np
import pytest

from topheavy.errors import BadInputError
from topheavy.lifter.motion_model import MODELS, MotionModel
from topheavy.lifter.velocity import LINES, LoadVelocityLine, misfit

ALL = tuple(LINES.values())


@pytest.mark.parametrize("line", ALL, ids=lambda line: line.pattern)
def test_load_and_speed_are_each_others_inverse(line: LoadVelocityLine) -> None:
    share = np.linspace(line.low, line.high, 15)
    speed = line.speed_at(share)
    assert np.all(np.diff(speed) < 0)
    assert np.allclose(line.share_at(speed), share)


@pytest.mark.parametrize("line", ALL, ids=lambda line: line.pattern)
def test_a_line_is_not_read_beyond_its_ends(line: LoadVelocityLine) -> None:
    for share in (0.2, 1.1):
        with pytest.raises(BadInputError) as error:
            line.speed_at(share)
        assert error.value.field == "share"
    for speed in (0.01, 3.0):
        with pytest.raises(BadInputError) as error:
            line.share_at(speed)
        assert error.value.field == "speed_m_per_s"
    assert "memory" in line.seen or "second hand" in line.seen


@pytest.mark.parametrize("model", tuple(MODELS.values()), ids=lambda m: m.pattern)
def test_the_misfit_a_model_states_is_the_one_it_has(model: MotionModel) -> None:
    assert misfit(model).rms_m_per_s == pytest.approx(model.rms_m_per_s, abs=5e-4)


@pytest.mark.parametrize("model", tuple(MODELS.values()), ids=lambda m: m.pattern)
def test_another_travel_misfits_more(model: MotionModel) -> None:
    """A limit of the model: fitted at one travel, it is slower over a shorter one."""
    short = misfit(model, travel_m=model.travel_m.low)
    assert short.rms_m_per_s > 3 * misfit(model).rms_m_per_s
    assert np.all(short.simulated_m_per_s[:-1] < misfit(model).simulated_m_per_s[:-1])
