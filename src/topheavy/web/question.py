"""From words to questions: lifter, lift, station, loads and parts as the gym knows them."""

from __future__ import annotations

from dataclasses import fields
from typing import TYPE_CHECKING, Final

from topheavy.asked.band_words import read_bands
from topheavy.asked.rig import RigAsked, rig_question
from topheavy.errors import BadInputError
from topheavy.gym.lifts import LIFTS, lift_named
from topheavy.rigging.limits import Limits
from topheavy.rigging.target import Ask
from topheavy.services.chosen import BandPart, Parts
from topheavy.services.match import EFFORT, Matching
from topheavy.services.rig import Place, RigQuestion
from topheavy.services.strength import strength_of
from topheavy.units import SYSTEMS, parse_quantity
from topheavy.web.asked import AskedWords, said_in
from topheavy.web.desk import today
from topheavy.web.typed import with_unit

if TYPE_CHECKING:
    from topheavy.gym.gym import Gym
    from topheavy.gym.lifts import Lift
    from topheavy.gym.people import Lifter
    from topheavy.units import Dimension, UnitSystem
    from topheavy.web.words import ChosenWords, RigWords

_LOADS: Final = ("bottom", "top", "mean", "straight", "best", "within", "most_imbalance")
_OF_RIG: Final = {field.name for field in fields(RigAsked)}


def units_of(gym: Gym, words: RigWords) -> UnitSystem:
    """Choose what to show: as asked, else as the gym has it."""
    return SYSTEMS[words.units or gym.units]


def place_of(gym: Gym, words: RigWords) -> Place:
    """Find lifter, lift and station; what was left out is the first that suits."""
    lifter = gym.lifter(words.lifter) if words.lifter else None
    lift = lift_named(words.lift) if words.lift else _first_lift(gym, lifter)
    lifter = lifter or gym.first_lifter(lift)
    name = words.station or lifter.measured(lift).station
    station = gym.station(name) if name else gym.station_for(lift)
    return Place(gym=gym, lifter=lifter, lift=lift, station=station)


def _first_lift(gym: Gym, lifter: Lifter | None) -> Lift:
    """The first lift of a lifter, or of anybody."""
    for one in (lifter,) if lifter else gym.lifters:
        for name in one.lifts:
            return LIFTS[name]
    raise BadInputError(
        "Nobody was measured yet",
        field="lifter",
        wanted="bottom and top of a lift in the gym file, floor to bar centre",
    )


def question_of(gym: Gym, words: RigWords) -> RigQuestion:
    """Turn words into a question.

    Raises
    ------
    BadInputError
        A load that can't be read, or none.
    NotInStockError
        An unknown name, or nothing known of a lifter who is to be matched.
    """
    place, units = place_of(gym, words), units_of(gym, words)
    if isinstance(words, AskedWords):
        return rig_question(gym, _asked(place, words, units))
    limits = Limits(most_bands=words.bands)
    if words.way == "match":
        share = _quantity(words.effort, "share", "effort", units) if words.effort else EFFORT
        matching = Matching(strength=strength_of(place, ()), effort=share)
        return RigQuestion(place=place, ask=Ask(), limits=limits, matching=matching, today=today())
    best_kg = place.measured.best_kg
    bottom, top = (
        _load_kg(text, field, best_kg, units)
        for text, field in ((words.bottom, "bottom"), (words.top, "top"))
    )
    ask = Ask(bottom_kg=bottom, top_kg=top, best_kg=best_kg)
    return RigQuestion(place=place, ask=ask, limits=limits, today=today())


def _asked(place: Place, words: AskedWords, units: UnitSystem) -> RigAsked:
    """The words of a program as services take them; bare numbers are in the units shown."""
    said = said_in(words, set(type(words).model_fields) - _OF_RIG)
    usual = {**dict.fromkeys(_LOADS, units.mass_unit), "effort": "%", "chain": "%"}
    said |= {name: with_unit(said[name], unit) for name, unit in usual.items() if name in said}
    named = {"lifter": place.lifter.name, "lift": place.lift.name, "station": place.station.name}
    day = {"today": words.today or today()}
    return RigAsked(**{**said, **named, **day, "match": words.way == "match"})


def parts_from(words: ChosenWords, place: Place) -> Parts:
    """Turn words into the parts of a rig at a place."""
    left, right = (
        _bands(place, tuple(texts), field)
        for texts, field in ((words.left_band, "left_band"), (words.right_band, "right_band"))
    )
    return Parts(
        left=tuple(words.left),
        right=tuple(words.right),
        hang=words.hang,
        feeder=words.feeder,
        setting=words.setting,
        connector=words.connector,
        plates_kg=tuple(_quantity(text, "mass", "plate", SYSTEMS["kg"]) for text in words.plate),
        left_bands=left,
        right_bands=right,
    )


def _bands(place: Place, texts: tuple[str, ...], field: str) -> tuple[BandPart, ...]:
    hungs = read_bands(texts, field, place.gym.stock, place.station, beyond=False)
    return tuple(BandPart(tag=one.band.tag, peg=one.peg.name, doubled=one.doubled) for one in hungs)


def height_m(text: str, units: UnitSystem) -> float | None:
    """Read a height of the bar [m]; None when none was given."""
    return _quantity(text, "length", "height", units) if text else None


def _load_kg(text: str, field: str, best_kg: float | None, units: UnitSystem) -> float:
    if not text.strip():
        raise BadInputError(
            f"Say the load you want at the {field}",
            field=field,
            wanted="a load such as 85 kg or 185 lb, or a share of the best such as 60 %",
        )
    if not text.strip().endswith("%"):
        load_kg = _quantity(text, "mass", field, units)
    elif best_kg is None:
        raise BadInputError(
            "A percentage is of the lifter's best, and no best is known",
            field=field,
            got=text,
            wanted="a load such as 85 kg, or a best in the gym file",
        )
    else:
        load_kg = parse_quantity(text, "share", field=field) * best_kg
    if load_kg <= 0:
        raise BadInputError(
            "A load on the bar is above zero", field=field, got=text, wanted="such as 85 kg"
        )
    return load_kg


def _quantity(text: str, dimension: Dimension, field: str, units: UnitSystem) -> float:
    """Read a quantity; a bare number is in the units that are shown."""
    usual = {"mass": units.mass_unit, "length": units.length_unit, "share": "%"}
    return parse_quantity(with_unit(text, usual[dimension]), dimension, field=field)
