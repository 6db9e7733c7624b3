"""Answers of our own invention, built without a search, that the tests of the views share."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from topheavy.gym.gym import Gym
from topheavy.gym.lifts import lift_named
from topheavy.gym.people import Lifter, Measured, Station, Travel
from topheavy.gym.stock import (
    Bar,
    ChainPiece,
    Collar,
    Connector,
    Feeder,
    FeederSetting,
    Plate,
    Stock,
)
from topheavy.mechanics.chain import Chain
from topheavy.mechanics.rig import End, Rig
from topheavy.rigging.built import BuiltRig
from topheavy.rigging.fixtures import Fixture
from topheavy.rigging.obstacles import Addition, Blocker, Obstacles
from topheavy.rigging.offers import Offer
from topheavy.rigging.plates import Loading
from topheavy.rigging.target import Ask
from topheavy.rigging.trade import Alternative
from topheavy.services.cautions import cautions_for
from topheavy.services.reading import hung_straight, read_rig
from topheavy.services.rig import Place, RigAnswer, RigQuestion, Rules, target_of

if TYPE_CHECKING:
    from topheavy.mechanics.ground import Lay
    from topheavy.rigging.limits import Style

RINGS = Feeder(
    name="ring strap",
    form="rings",
    settings=tuple(FeederSetting(label=str(i + 1), length_m=0.42 + 0.04 * i) for i in range(7)),
    whole_m=0.70,
    density_kg_per_m=0.34,
    rating_kg=250.0,
    count=2,
    setting_u_m=0.002,
)
STRAP = Feeder(
    name="ratchet strap",
    form="strap",
    settings=tuple(
        FeederSetting(label=f"{50 + 5 * i}.0 cm", length_m=0.50 + 0.05 * i) for i in range(20)
    ),
    whole_m=1.85,
    density_kg_per_m=0.3,
    rating_kg=400.0,
    count=2,
    setting_u_m=0.003,
)
SCREW_LINK = Connector(
    name="10 mm screw link", mass_kg=0.175, length_m=0.072, rating_kg=850.0, count=2
)
PLATES = tuple(
    Plate(mass_kg=kg, width_m=0.02 + 0.001 * kg, diameter_m=diameter_m, count=4)
    for kg, diameter_m in ((20.0, 0.45), (10.0, 0.32), (5.0, 0.23), (2.5, 0.19), (1.25, 0.16))
)
STOCK = Stock(
    feeders=(RINGS, STRAP),
    connectors=(SCREW_LINK,),
    bars=(Bar(name="power bar", mass_kg=20.0, sleeve_m=0.415),),
    collars=(Collar(name="screw collar", mass_kg=2.5, width_m=0.05, count=2),),
    plates=PLATES,
)


def piece(tag: str, links: int = 32, size: str = "5/8 in", pitch_m: float = 0.056) -> ChainPiece:
    """A piece of 5.3 kg/m, known to 2 %."""
    return ChainPiece(
        tag=tag,
        size=size,
        wire_diameter_m=0.28 * pitch_m,
        chain=Chain(
            links=links,
            pitch_m=pitch_m,
            density_kg_per_m=5.3,
            density_u_kg_per_m=0.1,
            known_by="a scale",
        ),
    )


def pieces(tags: str, links: int = 32, size: str = "5/8 in") -> tuple[ChainPiece, ...]:
    """Pieces alike, named in a row."""
    return tuple(piece(tag, links, size) for tag in tags.split())


def place(
    lift: str = "bench press",
    *,
    bottom_m: float = 0.66,
    top_m: float = 1.07,
    surface_m: float = 0.0,
    lay: Lay = "piled",
    lifter: str = "Osric",
) -> Place:
    """Where and who; the lifter's best is 140 kg."""
    named = lift_named(lift)
    station = Station(
        name="the corner",
        kind=named.station,
        surface_m=surface_m,
        pad_m=0.43 if named.station == "bench" else None,
    )
    travel = Travel(bottom_m=bottom_m, top_m=top_m, height_u_m=0.003)
    someone = Lifter(name=lifter, lifts={named.name: Measured(travel=travel, best_kg=140.0)})
    gym = Gym(name="The Cellar", stock=STOCK, stations=(station,), lifters=(someone,))
    return Place(gym=gym, lifter=someone, lift=named, station=station, lay=lay)


def ring(label: str) -> Fixture:
    """A ring of the ring strap, chain doubled on the screw link."""
    return Fixture(
        style="doubled", feeder=RINGS, setting=RINGS.setting(label), connector=SCREW_LINK
    )


def strap(label: str) -> Fixture:
    """A mark of the ratchet strap."""
    return Fixture(
        style="doubled", feeder=STRAP, setting=STRAP.setting(label), connector=SCREW_LINK
    )


def plain(style: Style) -> Fixture:
    """Chain without a feeder."""
    return Fixture(style=style)


def built(
    where: Place,
    fixture: Fixture,
    left: tuple[ChainPiece, ...],
    right: tuple[ChainPiece, ...],
    plates: tuple[tuple[float, int], ...] = ((20.0, 1), (5.0, 1)),
) -> BuiltRig:
    """Hang pieces from a fixture; plates a side by mass [kg] and count."""
    of_mass = {plate.mass_kg: plate for plate in PLATES}
    loading = Loading(per_side=tuple((of_mass[kg], count) for kg, count in plates))
    return BuiltRig(
        fixture=fixture,
        left=left,
        right=right,
        loading=loading,
        rig=Rig(
            bar_kg=where.setup.bar_kg,
            plates_kg=loading.total_kg,
            left=End(fixture.hangs([one.chain for one in left])),
            right=End(fixture.hangs([one.chain for one in right])),
        ),
        miss_kg=0.5,
        imbalance_kg=0.0,
        cost_kg=0.9,
    )


def answer(where: Place, best: BuiltRig, *, miss_kg: float = 0.5) -> RigAnswer:
    """Read a rig as a found one is read; it may miss by 1 kg."""
    low_kg, high_kg = best.rig.curve(where.ground).at((where.travel.bottom_m, where.travel.top_m))
    question = RigQuestion(
        place=where,
        ask=Ask(bottom_kg=float(low_kg) - 0.3, top_kg=float(high_kg) + 0.5),
        rules=Rules(full_deload=best.fixture.style == "doubled"),
        tolerance_kg=1.0,
    )
    best_kg = where.measured.best_kg
    return RigAnswer(
        question=question,
        target=target_of(question),
        tolerance_kg=1.0,
        best=replace(best, miss_kg=miss_kg),
        exact=True,
        reading=read_rig(best.rig, where.travel, where.ground, best_kg),
        straight=read_rig(hung_straight(best.rig), where.travel, where.ground, best_kg),
        alternatives=(Alternative(differs_by="fewer pieces", built=best),),
        trade=(best,),
        obstacles=None if miss_kg <= 1.0 else _obstacles(best),
        cautions=cautions_for(where.lift, best.rig, where.travel, where.ground),
        left_out=("connector shiny hook: no rating marked",),
    )


def _obstacles(best: BuiltRig) -> Obstacles:
    offer = Offer(thing=piece("new"), count=2, added_kg=19.0, stock=Stock())
    more = Addition(offer=offer, built=best)
    return Obstacles(blockers=(Blocker(limit="at most 4 pieces", built=best),), additions=(more,))


BENCH = answer(place(), built(place(), ring("5"), pieces("A1 A2"), pieces("A3 A4")))
_ODD = built(place(), ring("5"), pieces("O1", 31), pieces("O2", 31))
ODD = answer(place(), _ODD)
_DEADLIFT = place("deadlift", bottom_m=0.225, top_m=0.76)
DEADLIFT = answer(_DEADLIFT, built(_DEADLIFT, plain("draped"), pieces("A1"), pieces("A2")))
STRAIGHT = answer(place(), built(place(), plain("straight"), pieces("A1 A2"), pieces("A3 A4")))
_SQUAT = place("squat", bottom_m=0.86, top_m=1.44, surface_m=0.02)
SQUAT = answer(
    _SQUAT,
    built(
        _SQUAT,
        strap("75.0 cm"),
        (*pieces("A1"), *pieces("C1", 38, "1/2 in")),
        (*pieces("A2"), *pieces("C2", 38, "1/2 in")),
        ((20.0, 2), (2.5, 1), (1.25, 1)),
    ),
)
_PRESS = place("overhead press", bottom_m=1.43, top_m=2.12)
PRESS = answer(_PRESS, built(_PRESS, strap("135.0 cm"), pieces("B1", 20), pieces("B2", 20), ()))
_DRAGGED = place(lay="dragged")
DRAGGED = answer(_DRAGGED, built(_DRAGGED, ring("6"), pieces("A1"), pieces("A2")))
UNMET = answer(place(), built(place(), ring("5"), pieces("A1 A2"), pieces("A3 A4")), miss_kg=12.25)
ANSWERS = {
    "bench": BENCH,
    "odd": ODD,
    "deadlift": DEADLIFT,
    "straight": STRAIGHT,
    "squat": SQUAT,
    "press": PRESS,
    "dragged": DRAGGED,
    "unmet": UNMET,
}
