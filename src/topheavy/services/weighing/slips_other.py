"""Slips around what hangs: the floor, the plates, the scale, and a stated number that is off."""

from __future__ import annotations

import itertools
from dataclasses import replace
from typing import TYPE_CHECKING, Final

from topheavy.mechanics.scale_model import BANDS, FACTOR, SHIFT, STRAIGHT
from topheavy.phrase import Amount, Phrase
from topheavy.services.weighing.slips_bands import READ_BANDS, soft_phrase
from topheavy.services.weighing.suspects import Slip
from topheavy.units import KG_PER_LB

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from topheavy.mechanics.ground import Ground
    from topheavy.services.weighing.case import Case, ReadingWay, ScaleReading
    from topheavy.services.weighing.suspects import Kind, Suspects

MATS_M: Final = (0.010, 0.015, 0.020, 0.025, 0.030, 0.040)
"""Usual heights of a gym mat [m] (common practice, no source)."""

DRAGGED_FRICTIONS: Final = (0.35, 0.7)

LOOSE_CHAIN, LOOSE_LENGTH_M, LOOSE_WEIGHT_KG, LOOSE_BANDS = 0.6, 0.5, 50.0, 0.6
"""How far a number that is off by any amount may be off: share of kg/m, [m], [kg], share of the
bands' pull."""

_OTHER_WAY: Final[dict[ReadingWay, ReadingWay]] = {
    "raising": "lowering",
    "lowering": "raising",
    "unsaid": "unsaid",
}


def mat_slips(case: Case, suspects: Suspects) -> Iterator[Slip]:
    """List mats under the chain that were not counted, or counted and not there."""
    if not case.chains:
        return
    now_m = case.ground.surface_m
    surfaces = {round(s, 6) for s in (*suspects.surfaces_m, *(now_m + m for m in MATS_M), 0.0)}
    for surface_m in sorted(surfaces - {round(now_m, 6)}):
        higher = "higher" if surface_m > now_m else "lower"
        yield Slip(
            kind="mat",
            family="mat",
            what=Phrase(
                f"The chain lies {{}} {higher} than stated: a mat or block not counted, or "
                "counted and not there.",
                (Amount(abs(surface_m - now_m), "length"),),
            ),
            todo=_MEASURE_MAT,
            case=replace(case, ground=replace(case.ground, surface_m=surface_m)),
        )


def lay_slips(case: Case) -> Iterator[Slip]:
    """List slack dragged to one side instead of piled, or the reverse."""
    if not case.chains:
        return
    if case.ground.lay == "dragged":
        ground = replace(case.ground, lay="piled")
        yield _lay("The slack is piled under the bar, not dragged to one side.", case, ground)
        return
    for friction in DRAGGED_FRICTIONS:
        ground = replace(case.ground, lay="dragged", friction=friction)
        words = "The slack is dragged out to one side instead of piled under the bar"
        yield _lay(f"{words} (floor friction near {friction:g}).", case, ground)


def way_slips(case: Case) -> Iterator[Slip]:
    """List raising and lowering mixed up, when they were said."""
    if case.ground.lay == "dragged" or not {"raising", "lowering"} & set(case.ways):
        return
    readings = tuple(replace(r, way=_OTHER_WAY[r.way]) for r in case.readings)
    said = [way for way in case.ways if way != "unsaid"]
    mixed = f"The bar was {_OTHER_WAY[said[0]]} to these heights, not {said[0]}."
    words = mixed if len(said) == 1 else "Readings raising and lowering are mixed up."
    yield Slip(
        kind="way",
        family="way",
        what=Phrase(words.replace("lowering to", "lowered to").replace("raising to", "raised to")),
        todo=_COME_FROM_BELOW,
        case=replace(case, readings=readings),
    )


def unit_slips(case: Case) -> Iterator[Slip]:
    """List pounds taken for kilograms or the reverse: all readings, one, or the plates."""
    factors = (KG_PER_LB, 1 / KG_PER_LB)
    words = ("in pounds and taken for kilograms", "in kilograms and taken for pounds")
    for factor, said in zip(factors, words, strict=True):
        everything = tuple(_scaled(reading, factor) for reading in case.readings)
        changed = replace(case, readings=everything)
        yield _units("all", f"All readings are {said}.", changed)
        for place, reading in enumerate(case.readings):
            one = (*case.readings[:place], _scaled(reading, factor), *case.readings[place + 1 :])
            changed = replace(case, readings=one)
            yield _units("one", f"Reading {place + 1} is {said}.", changed)
        straight_kg = case.scale.straight(case.rig)[0]
        if case.scale.straight_kg is None and straight_kg > 0 and case.rig.plates_kg > 0:
            plates_kg = case.rig.plates_kg * straight_kg / case.rig.straight_weight_kg
            changed = replace(case, extra_kg=case.extra_kg + plates_kg * (factor - 1))
            yield _units("plates", f"The plates are {said}.", changed)


def plate_slips(case: Case, suspects: Suspects) -> list[Slip]:
    """List plates too many, too few or swapped: a difference that is the same at all heights."""
    if case.scale.on_floor or case.scale.straight(case.rig)[0] <= 0:
        return []
    whole = len(case.scale.sides) == 2
    found: dict[float, Slip] = {}
    for extra_kg, what in _plates(suspects.plates_kg, whole=whole):
        if round(extra_kg, 6) not in found and extra_kg > -case.rig.plates_kg - 1e-9:
            found[round(extra_kg, 6)] = Slip(
                kind="plate",
                family="plate",
                what=what,
                todo=_READ_PLATES,
                case=replace(case, extra_kg=case.extra_kg + extra_kg),
            )
    return list(found.values())


def loose_slips(case: Case) -> Iterator[Slip]:
    """List stated numbers that may be off by any amount; the fit says by how much."""
    loose: list[tuple[Kind, int, float, Phrase]] = []
    if case.chains:
        loose.append(("chain", FACTOR, LOOSE_CHAIN, _WEIGH_A_PIECE))
        loose.append(("length", SHIFT, LOOSE_LENGTH_M, _TAKE_A_TAPE))
    if case.bands:
        loose.append(("soft", BANDS, LOOSE_BANDS, READ_BANDS))
    if not case.scale.on_floor:
        loose.append(("weight", STRAIGHT, LOOSE_WEIGHT_KG, _WEIGH_BARE))
    for kind, place, within, todo in loose:
        changed = replace(case, loose=((place, within),))
        yield Slip(kind=kind, family=kind, what=Phrase(""), todo=todo, case=changed)


def pile_slip(case: Case, pile_pitches: Sequence[float]) -> Slip:
    """Make the heap that stands otherwise than its rule says: so many pitches, for each way."""
    length_m = sum(chain.length_m for chain in case.chains)
    pitch_m = sum(chain.pitch_m * chain.length_m for chain in case.chains) / length_m
    texts, amounts = list[str](), list[Amount]()
    for way, pitches in zip(case.ways, pile_pitches, strict=True):
        texts.append("{} high instead of {}" + ("" if way == "unsaid" else f", {way}"))
        amounts += [Amount(p * pitch_m, "length") for p in (pitches, case.pile(way)[0])]
    what = Phrase(f"The pile stands {' and '.join(texts)}.", tuple(amounts))
    return Slip(kind="pile", family="pile", what=what, todo=_LAY_ANEW, case=case)


def loose_phrase(kind: Kind, off_by: float, density_kg_per_m: float) -> Phrase:
    """Say by how much a loose number is off: share of kg/m, [m], [kg] or share of the pull."""
    if kind == "soft":
        return soft_phrase(off_by)
    if kind == "chain":
        amounts = (density_kg_per_m * (1 + off_by), density_kg_per_m)
        return Phrase(
            "The chain weighs {} instead of {}.",
            tuple(Amount(amount, "linear density") for amount in amounts),
        )
    if kind == "length":
        lower = "lower" if off_by > 0 else "higher"
        return Phrase(
            f"What hangs sits {{}} {lower} than stated, against the floor: the feeder, or the "
            "heights.",
            (Amount(abs(off_by), "length"),),
        )
    more = "more" if off_by > 0 else "less"
    return Phrase(
        f"There is {{}} {more} at every height: bar, collars, plates, or the scale's zero.",
        (Amount(abs(off_by), "mass"),),
    )


def _plates(plates_kg: Iterable[float], *, whole: bool) -> Iterator[tuple[float, Phrase]]:
    """List differences [kg], plainest first; a pair only where the scale sees both ends."""
    sizes = sorted(set(plates_kg))
    for number, where in ((1, "one end"), (2, "both ends"))[: 2 if whole else 1]:
        for kg in sizes:
            one = (_plate(kg),)
            yield number * kg, Phrase(f"A plate of {{}} too many on {where}.", one)
            yield -number * kg, Phrase(f"A plate of {{}} is missing on {where}.", one)
    for number, where in ((1, "one end"), (2, "both ends"))[: 2 if whole else 1]:
        for on_kg, meant_kg in itertools.permutations(sizes, 2):
            two = (_plate(on_kg), _plate(meant_kg))
            words = f"A plate of {{}} hangs in place of one of {{}} on {where}."
            yield number * (on_kg - meant_kg), Phrase(words, two)


def _plate(kg: float) -> Amount:
    return Amount(kg, "mass", 1 if kg >= 5 else 2)


def _lay(words: str, case: Case, ground: Ground) -> Slip:
    changed = replace(case, ground=ground)
    return Slip(kind="lay", family="lay", what=Phrase(words), todo=_PILE_IT, case=changed)


def _units(family: str, words: str, case: Case) -> Slip:
    what = Phrase(words)
    return Slip(kind="units", family=f"units {family}", what=what, todo=_CHECK_UNITS, case=case)


def _scaled(reading: ScaleReading, factor: float) -> ScaleReading:
    mass_kg, u_kg = reading.mass_kg * factor, reading.mass_u_kg * factor
    return replace(reading, mass_kg=mass_kg, mass_u_kg=u_kg)


_MEASURE_MAT = Phrase(
    "Measure what the chain lies on (mat, block, the scale itself) against what heights are "
    "measured from, and state it as the station's surface."
)
_LAY_ANEW = Phrase(
    "Look at the heap, lay it anew under the bar's end, and weigh again. If it stays so, it is "
    "this chain on this floor: reckon with the fitted numbers."
)
_PILE_IT = Phrase("Lay the slack in a heap under the bar's end and weigh again.")
_COME_FROM_BELOW = Phrase(
    "Say for each reading whether the bar came up or down to it; the pile stands higher on the "
    "way down."
)
_CHECK_UNITS = Phrase("Look at the unit on the scale's display and on the plates, and read again.")
_READ_PLATES = Phrase("Read the plates on both ends and count the collars.")
_WEIGH_A_PIECE = Phrase(
    "Weigh one piece by itself and measure it, then correct its mass in the gym's stock. Is it "
    "the size that was meant?"
)
_TAKE_A_TAPE = Phrase(
    "Measure from the bar's centre to the fold with a tape, and check where heights are measured "
    "from."
)
_WEIGH_BARE = Phrase("Weigh the bar with its plates and all chain on the floor; zero the scale.")
