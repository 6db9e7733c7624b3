"""Plates for a session, and rigs that are kept."""

from __future__ import annotations

from dataclasses import replace

import pytest

from tests.services.training import place
from tests.training.blocks import slot
from topheavy.services.top_set import Strong
from topheavy.services.weeks_rigs import (
    RigBook,
    reference_kg,
    straight_hanger,
    straight_wanted_kg,
)

STRONG = Strong(curve=None, pieces=0, best_kg=100.0)
WANTED = slot(lift="bench press", hang="chain", share=0.2)


def test_a_rig_is_found_for_the_middle_of_the_hard_weeks() -> None:
    slots = [slot(load=load, deload=load < 0.7) for load in (0.8, 0.84, 0.9, 0.6)]
    assert reference_kg(slots, 100.0) == pytest.approx(84.0)
    assert reference_kg([slot(load=0.6, deload=True)], 100.0) == pytest.approx(60.0)


def test_nearest_plates_and_plates_never_above() -> None:
    """The tiny gym makes 25 kg, and 10 kg more each step, up to 95 kg."""
    hanger = straight_hanger(place())
    assert hanger.bar_kg + hanger.loading_for(68.0).total_kg == 65.0
    assert hanger.bar_kg + hanger.loading_for(70.0).total_kg == 65.0
    assert hanger.bar_kg + hanger.loading_for(70.5).total_kg == 75.0
    assert hanger.bar_kg + hanger.loading_for(74.9, above=False).total_kg == 65.0
    assert hanger.bar_kg + hanger.loading_for(75.0, above=False).total_kg == 75.0
    assert hanger.loading_for(10.0, above=False).total_kg == 0.0
    assert hanger.name == ""


def test_straight_weight_that_a_session_wants() -> None:
    hanger = RigBook().hanger_for(place(), [WANTED], STRONG).hanger
    hung = hanger.hung
    mean_kg = straight_wanted_kg(WANTED, hanger, STRONG)
    assert mean_kg == pytest.approx(80.0 - hung.mean_kg)
    top_kg = straight_wanted_kg(replace(WANTED, at="top", load_kg=90.0), hanger, STRONG)
    assert top_kg == pytest.approx(90.0 - hung.top_kg)
    nobody = Strong(curve=None, pieces=0, best_kg=None)
    assert straight_wanted_kg(WANTED, hanger, nobody) is None


def test_a_rig_that_is_there_is_kept_within_three_points() -> None:
    book = RigBook()
    first = book.hanger_for(place(), [WANTED], STRONG).hanger
    assert first.built is not None
    assert book.hanger_for(place(), [replace(WANTED, share=0.21)], STRONG).hanger is first
    assert book.hanger_for(place(), [replace(WANTED, share=0.1)], STRONG).hanger is not first


def test_plates_change_and_what_hangs_does_not() -> None:
    hanger = RigBook().hanger_for(place(), [WANTED], STRONG).hanger
    light, heavy = (hanger.with_loading(hanger.loadings[number]) for number in (0, -1))
    assert light is not None
    assert heavy is not None
    assert (light.left, light.right, light.fixture) == (heavy.left, heavy.right, heavy.fixture)
    assert light.rig.left == heavy.rig.left
    assert heavy.rig.plates_kg - light.rig.plates_kg == pytest.approx(70.0)
