"""The rig of a rep is the one that `topheavy rig` finds."""

from __future__ import annotations

from dataclasses import replace

import pytest

from topheavy.errors import NotInStockError
from topheavy.gym.lifts import lift_named
from topheavy.gymfile import demo_gym
from topheavy.rigging.limits import Limits
from topheavy.rigging.target import Ask
from topheavy.services.match import Matching
from topheavy.services.reps.rig import found_rig
from topheavy.services.rig import Place, RigQuestion, answer_rig
from topheavy.services.strength import strength_of

GYM = demo_gym()
PLACE = Place(
    gym=GYM,
    lifter=GYM.lifter("Pip"),
    lift=lift_named("bench press"),
    station=GYM.station("bench 1"),
)
ASKED = RigQuestion(place=PLACE, ask=Ask(bottom_kg=40.0, top_kg=50.0), limits=Limits(most_pieces=4))


@pytest.mark.parametrize("limits", [ASKED.limits, Limits(most_pieces=0, most_bands=1)])
def test_it_is_the_same_rig_with_the_same_loads_and_cautions(limits: Limits) -> None:
    asked = replace(ASKED, limits=limits)
    found, whole = found_rig(asked), answer_rig(asked)
    assert found.best == whole.best
    assert found.reading == whole.reading
    assert found.cautions == whole.cautions
    assert found.remeasure == whole.remeasure
    assert found.miss_kg == whole.best.miss_kg


def test_a_rig_matched_to_the_lifter_misses_no_load() -> None:
    matched = replace(ASKED, matching=Matching(strength=strength_of(PLACE), effort=0.8))
    assert found_rig(matched).miss_kg is None


def test_no_rig_at_all_says_what_blocks() -> None:
    never = replace(ASKED, limits=Limits(most_pieces=2, sizes=("1/4 in",), design_factor=9000.0))
    with pytest.raises(NotInStockError) as error:
        found_rig(never)
    assert error.value.wanted
