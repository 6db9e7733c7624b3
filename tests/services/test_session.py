"""The session with the rig of the day."""

from __future__ import annotations

import pytest

from tests.services.training import rig, session
from topheavy.lifter.match import heights_for
from topheavy.services.rig import answer_rig
from topheavy.services.top_set import effort_of, strong_of


def test_loads_are_the_rig() -> None:
    answer = session()
    assert answer.session.loads.top_kg == pytest.approx(answer.rig.reading.top.load_kg, abs=1e-6)
    assert set(answer.session.volume) == {"bottom", "mean", "top"}


def test_effort_is_the_greatest_anywhere() -> None:
    answer = answer_rig(rig())
    strong = strong_of(answer)
    found = effort_of(answer, strong)
    assert found is not None
    assert strong.curve is not None
    load = answer.best.rig.curve(answer.question.place.ground, "raising")
    heights_m = heights_for(strong.curve, load)
    assert found[0] == pytest.approx(max(load.at(heights_m) / strong.curve.at(heights_m)))
    assert session().session.effort == pytest.approx(found[0])


def test_a_target_speed_is_slower_the_heavier() -> None:
    """65 kg of 100 and of 130: both have a speed rule, the stronger lifter is faster."""
    strong, weak = session("speed", best_kg=130.0).speed, session("speed").speed
    assert strong is not None
    assert weak is not None
    assert weak.low_m_per_s < weak.middle_m_per_s < weak.high_m_per_s
    assert weak.middle_m_per_s < strong.middle_m_per_s


def test_no_speed_without_a_rule_or_a_lifter() -> None:
    assert session("technique").speed is None
    assert session("speed", best_kg=None).speed is None


def test_no_speed_where_many_would_miss() -> None:
    """84 kg at lockout and 65 kg below for a best of 60 kg."""
    answer = session("heavy", best_kg=60.0)
    assert answer.speed is None
    assert answer.session.remarks[0].code == "too heavy"
