"""What a reading names as most of its uncertainty: all heaps as one, at each end by itself."""

from __future__ import annotations

from topheavy.gym.people import Travel
from topheavy.mechanics.chain import Chain
from topheavy.mechanics.ground import Ground
from topheavy.mechanics.hang import Doubled, Suspension
from topheavy.mechanics.rig import End, Rig
from topheavy.services.reading import read_rig

TRAVEL = Travel(bottom_m=0.5, top_m=1.0, height_u_m=0.002)
WEIGHED = Chain(
    links=41, pitch_m=0.05, density_kg_per_m=5.0, density_u_kg_per_m=0.01, known_by="a scale"
)
END = End((Doubled(chains=(WEIGHED,) * 3, suspension=Suspension(feeder_m=0.5)),))
SURE = Ground(raising_rule_u_pitches=0.0)


def test_heaps_of_all_strands_are_named_as_one() -> None:
    """Twelve heaps of 0.15 kg each, 0.52 together: more than the plates, which do 0.29 kg."""
    reading = read_rig(Rig(20.0, 200.0, END, END), TRAVEL, SURE)
    assert reading.top.mostly == "pile height"
    assert reading.mean.mostly == "pile height"


def test_each_end_of_the_travel_names_its_own() -> None:
    """With the fold on the floor at the bottom the heaps hardly count there: plates lead."""
    reading = read_rig(Rig(20.0, 300.0, END, END), TRAVEL, SURE)
    assert (reading.bottom.mostly, reading.top.mostly) == ("plates", "pile height")


def test_a_density_known_by_one_word_keeps_its_name() -> None:
    table = Chain(
        links=41, pitch_m=0.05, density_kg_per_m=5.0, density_u_kg_per_m=0.5, known_by="DIN 764"
    )
    end = End((Doubled(chains=(table,), suspension=Suspension(feeder_m=0.5)),))
    reading = read_rig(Rig(20.0, 60.0, end, end), TRAVEL, Ground())
    assert reading.top.mostly == "density of chain, DIN 764"
