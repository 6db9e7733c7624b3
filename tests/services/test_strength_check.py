"""A gym file's own contradictions are told when it is checked."""

from __future__ import annotations

from tests.services.lifters import measured, place
from topheavy.gym.gym import Gym
from topheavy.gym.people import Lifter
from topheavy.services.strength_check import contradictions_in


def gym_of(*lifters: Lifter) -> Gym:
    shed = place({"bench press": measured()}).gym
    return Gym(name="The {Shed}", stations=shed.stations, lifters=lifters)


def test_a_partial_below_the_best_is_told_with_name_and_lift() -> None:
    right = Lifter(name="Odda", lifts={"bench press": measured(best_kg=100.0)})
    wrong = Lifter(
        name="{Ulf}",
        lifts={
            "bench press": measured(best_kg=100.0),
            "pin press": measured(0.85, best_kg=80.0),
        },
    )
    (found,) = contradictions_in(gym_of(right, wrong))
    said = found.say()
    assert said.startswith("{Ulf}, bench press: A partial starts higher")
    assert "80.0 kg from 85.0 cm up (pin press, gym file)" in said


def test_lifters_without_data_or_station_are_no_contradiction() -> None:
    nothing = Lifter(name="Odda", lifts={"bench press": measured()})
    nowhere = Lifter(name="Ulf", lifts={"squat": measured(0.8, 1.4, best_kg=100.0, station="")})
    assert contradictions_in(gym_of(nothing, nowhere)) == ()
    assert contradictions_in(Gym(name="x", lifters=(nowhere,))) == ()
