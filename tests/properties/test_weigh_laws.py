"""Laws of a weighing that hold for any rig and any readings."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from tests.properties.test_rig_laws import GROUNDS, RIGS
from topheavy.gym.stock import FeederSetting
from topheavy.mechanics.ground import Ground
from topheavy.mechanics.scale_model import expected_kg
from topheavy.services.weighing.case import Case, density_u
from topheavy.services.weighing.weigh import Scale, ScaleReading, Suspects, weigh
from topheavy.units import POUNDS

if TYPE_CHECKING:
    from topheavy.mechanics.rig import Rig
    from topheavy.services.weighing.case import Carries

CARRIED = st.sampled_from(["bar", "left", "right", "floor", "floor left", "floor right"])
READINGS = st.lists(
    st.builds(
        ScaleReading,
        height_m=st.integers(0, 2000).map(lambda mm: mm / 1000),
        mass_kg=st.floats(0.0, 600.0),
        height_u_m=st.floats(0.0, 0.02),
        mass_u_kg=st.floats(0.01, 2.0),
        way=st.sampled_from(["raising", "lowering", "unsaid"]),
    ),
    min_size=4,
    max_size=9,
)
SUSPECTS = Suspects(
    settings=tuple(FeederSetting(label=f"{cm}", length_m=cm / 100) for cm in (30, 45, 60, 75)),
    plates_kg=(2.5, 10.0, 20.0),
    surfaces_m=(0.05,),
)


@settings(max_examples=12)
@given(RIGS, GROUNDS, READINGS, CARRIED)
def test_any_readings_get_an_answer_in_words_and_numbers(
    rig: Rig, ground: Ground, readings: list[ScaleReading], carries: Carries
) -> None:
    answer = weigh(rig, ground, readings, Scale(carries=carries), SUSPECTS)
    assert len(answer.rows) == len(readings)
    assert answer.outcome in {"agrees", "shifted", "cause", "causes", "unexplained"}
    assert (answer.outcome == "agrees") == (not answer.causes)
    words = [answer.verdict, *answer.hidden, *answer.fit.notes]
    words += [phrase for cause in answer.causes for phrase in (cause.what, cause.todo)]
    for phrase in words:
        assert phrase.say().strip()
        assert "{" not in phrase.say(POUNDS)
    for number in (*answer.fit.numbers, *answer.fit.leaning):
        assert math.isfinite(number.value)
        assert 0 <= number.u <= number.stated_u * (1 + 1e-9)
    for row in answer.rows:
        assert math.isfinite(row.z)
        assert row.noise_kg >= row.reading.mass_u_kg


@settings(max_examples=8)
@given(RIGS, GROUNDS, READINGS, CARRIED)
def test_readings_just_as_predicted_agree(
    rig: Rig, ground: Ground, readings: list[ScaleReading], carries: Carries
) -> None:
    scale = Scale(carries=carries)
    predicted = [row.predicted_kg for row in weigh(rig, ground, readings, scale).rows]
    exact = [
        replace(reading, mass_kg=max(kg, 0.0))
        for reading, kg in zip(readings, predicted, strict=True)
    ]
    answer = weigh(rig, ground, exact, scale, SUSPECTS)
    assert answer.outcome == "agrees"
    assert answer.worst_kg == pytest.approx(0.0, abs=1e-9)
    for number in answer.fit.numbers:
        assert number.value == pytest.approx(number.stated, abs=1e-6)


@settings(max_examples=40)
@given(RIGS, GROUNDS, READINGS)
def test_bar_and_slack_weigh_the_whole_rig(
    rig: Rig, ground: Ground, readings: list[ScaleReading]
) -> None:
    """Scales under the bar and under both heaps carry everything between them."""
    cases = [
        Case(rig=rig, ground=ground, scale=Scale(carries=carries), readings=tuple(readings))
        for carries in ("bar", "floor")
    ]
    bar, slack = (expected_kg(case.seen(), case.data(), case.data().stated) for case in cases)
    whole = rig.straight_weight_kg + rig.left.mass_kg + rig.right.mass_kg
    assert np.add(bar, slack) == pytest.approx(whole)


@settings(max_examples=40)
@given(RIGS)
def test_pieces_known_alike_never_average_out(rig: Rig) -> None:
    chains = tuple(c for end in (rig.left, rig.right) for h in end.hangs for c in h.chains)
    assume(chains)
    alike = tuple(replace(chain, known_by="one scale") for chain in chains)
    apart = tuple(replace(chain, known_by="") for chain in chains)
    shares = [chain.density_u_kg_per_m / chain.density_kg_per_m for chain in chains]
    assert density_u(apart) <= density_u(alike) + 1e-12
    assert density_u(alike) <= max(shares) + 1e-12
    case = Case(
        rig=rig,
        ground=Ground(),
        scale=Scale(),
        readings=(ScaleReading(height_m=1.0, mass_kg=50.0),),
    )
    assert case.chains == chains
