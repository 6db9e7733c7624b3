"""A rig whose parts the coach chooses: read like a found one, but not searched for."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

import numpy as np

from topheavy.errors import BadInputError, NotInStockError
from topheavy.mechanics.rig import End, Rig
from topheavy.rigging.built import BuiltRig
from topheavy.rigging.fixtures import Fixture
from topheavy.rigging.hung_band import HungBand
from topheavy.rigging.limits import LOOP_WIDTH_M
from topheavy.rigging.plates import Loading
from topheavy.services.bands import read_bands
from topheavy.services.described import DescribedRig, Hanging, check_counts, dangers, doubts
from topheavy.services.reading import hung_straight, read_rig
from topheavy.services.rig import (
    RigAnswer,
    due_again,
    fit_to,
    target_of,
    tolerance_of,
    what_to_mind,
)
from topheavy.services.stock_check import left_out

if TYPE_CHECKING:
    from collections.abc import Sequence

    from topheavy.gym.stock import ChainPiece, Plate, Stock
    from topheavy.rigging.limits import Style
    from topheavy.rigging.target import Target
    from topheavy.services.rig import Place, RigQuestion

_SAME_KG: Final = 1e-6
_HAIR_M: Final = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class BandPart:
    """A band of one end: its tag, the peg of the station that holds it, and whether doubled."""

    tag: str
    peg: str
    doubled: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Parts:
    """What hangs, by the names it has in the stock.

    Parameters
    ----------
    left, right : tuple of str
        Tags of the pieces on each end.
    hang : {'doubled', 'draped', 'straight'}
        How they hang.
    feeder, setting, connector : str
        What doubled chain hangs from, alike on both ends; empty for the other ways.
    plates_kg : tuple of float
        Each plate of one side by its mass [kg].
    left_bands, right_bands : tuple of BandPart
        Bands on each end.
    """

    left: tuple[str, ...]
    right: tuple[str, ...]
    hang: Style = "doubled"
    feeder: str = ""
    setting: str = ""
    connector: str = ""
    plates_kg: tuple[float, ...] = ()
    left_bands: tuple[BandPart, ...] = ()
    right_bands: tuple[BandPart, ...] = ()


def parts_of(built: BuiltRig) -> Parts:
    """Name the parts of a rig."""
    held = built.fixture
    return Parts(
        left=tuple(piece.tag for piece in built.left),
        right=tuple(piece.tag for piece in built.right),
        hang=held.style,
        feeder=held.feeder.name if held.feeder else "",
        setting=held.setting.label if held.setting else "",
        connector=held.connector.name if held.connector else "",
        plates_kg=tuple(
            plate.mass_kg for plate, count in built.loading.per_side for _ in range(count)
        ),
        left_bands=_named(built.left_bands),
        right_bands=_named(built.right_bands),
    )


def _named(hungs: Sequence[HungBand]) -> tuple[BandPart, ...]:
    return tuple(
        BandPart(tag=hung.band.tag, peg=hung.peg.name, doubled=hung.doubled) for hung in hungs
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Chosen:
    """A chosen rig: its parts as things of the stock, and what is on the bar.

    Parameters
    ----------
    fixture : Fixture
        How both ends hang.
    left, right : tuple of ChainPiece
        Pieces of each end.
    loading : Loading
        Plates.
    rig : Rig
        The same as the mechanics know it.
    left_bands, right_bands : tuple of HungBand
        Bands of each end.
    """

    fixture: Fixture
    left: tuple[ChainPiece, ...]
    right: tuple[ChainPiece, ...]
    loading: Loading
    rig: Rig
    left_bands: tuple[HungBand, ...] = ()
    right_bands: tuple[HungBand, ...] = ()

    @property
    def described(self) -> DescribedRig:
        """The same as a described rig, for what must come down."""
        return DescribedRig(
            bar_kg=self.rig.bar_kg,
            plates_kg=self.rig.plates_kg,
            left=_hanging(self.fixture, self.left),
            right=_hanging(self.fixture, self.right),
            left_bands=self.left_bands,
            right_bands=self.right_bands,
        )


def choose(place: Place, parts: Parts) -> Chosen:
    """Look the parts up in the stock of a place.

    Raises
    ------
    NotInStockError
        A part that the gym does not have, or not so often.
    BadInputError
        A piece or a band that hangs twice, a band stretched further than it was read, or more on
        the sleeve than it holds.
    """
    stock, setup = place.gym.stock, place.setup
    left, right = (tuple(map(stock.piece, tags)) for tags in (parts.left, parts.right))
    fixture = _fixture(stock, parts)
    loading = _loading(stock, parts.plates_kg)
    bands = tuple(_bands(place, tags) for tags in (parts.left_bands, parts.right_bands))
    loops = 0 if not (left or right) else 1
    if parts.hang != "doubled":
        loops = max(len(left), len(right))
    loops += max(map(len, bands))
    room_m = setup.bar.sleeve_m - setup.collar_width_m - loops * LOOP_WIDTH_M
    if loading.width_m > room_m + _HAIR_M:
        raise BadInputError(
            "The plates leave no room on the sleeve for collar and loop",
            field="plates",
            got=f"{loading.width_m:.3g} m of plates",
            wanted=f"at most {room_m:.3g} m",
        )
    span_m = (place.travel.bottom_m, place.travel.top_m)
    ends = (
        End(
            fixture.hangs([piece.chain for piece in pieces]),
            bands=tuple(hung.over(span_m) for hung in hungs),
        )
        for pieces, hungs in zip((left, right), bands, strict=True)
    )
    chosen = Chosen(
        fixture=fixture,
        left=left,
        right=right,
        loading=loading,
        rig=Rig(setup.bar_kg, loading.total_kg, *ends),
        left_bands=bands[0],
        right_bands=bands[1],
    )
    check_counts(chosen.described, stock)
    return chosen


def build_chosen(question: RigQuestion, chosen: Chosen, target: Target | None = None) -> BuiltRig:
    """Hold a chosen rig against the loads that were asked for."""
    place = question.place
    target = target or target_of(question)
    left, right = (
        float(end.curve(place.ground).at(place.travel.top_m))
        for end in (chosen.rig.left, chosen.rig.right)
    )
    miss_kg = _miss_kg(target, chosen.rig, place)
    return BuiltRig(
        fixture=chosen.fixture,
        left=chosen.left,
        right=chosen.right,
        loading=chosen.loading,
        rig=chosen.rig,
        miss_kg=miss_kg,
        imbalance_kg=abs(left - right),
        cost_kg=miss_kg,
        left_bands=chosen.left_bands,
        right_bands=chosen.right_bands,
    )


def answer_chosen(question: RigQuestion, parts: Parts) -> RigAnswer:
    """Read a chosen rig for a question: loads, links, steps, and what must come down first.

    Parameters
    ----------
    question : RigQuestion
        Who, where, and what loads are wanted.
    parts : Parts
        What hangs.
    """
    place, target = question.place, target_of(question)
    chosen = choose(place, parts)
    best, best_kg = build_chosen(question, chosen, target), place.measured.best_kg
    ends_m = (place.travel.bottom_m, place.travel.top_m)
    factor = question.limits.design_factor
    found = chosen.described.over(*ends_m)
    return RigAnswer(
        question=question,
        target=target,
        tolerance_kg=tolerance_of(question, target),
        best=best,
        exact=False,
        chosen=True,
        reading=read_rig(best.rig, place.travel, place.ground, best_kg),
        straight=read_rig(hung_straight(best.rig), place.travel, place.ground, best_kg),
        alternatives=(),
        trade=(),
        obstacles=None,
        cautions=what_to_mind(place, best),
        left_out=left_out(place.gym),
        bands=read_bands(best.left_bands, best.right_bands, place.travel),
        remeasure=due_again(question, best),
        fit=fit_to(question, best.rig),
        dangers=dangers(found, design_factor=factor),
        doubts=doubts(found, ends_m, place.ground),
    )


def _bands(place: Place, parts: tuple[BandPart, ...]) -> tuple[HungBand, ...]:
    """The bands of one end, on the pegs of the station."""
    pegs, found = {one.name: one for one in place.station.pegs}, []
    for part in parts:
        if part.peg not in pegs:
            raise NotInStockError(
                f"{place.station.name} has no such peg",
                field="bands",
                got=repr(part.peg),
                wanted="one of " + ", ".join(pegs) if pegs else "a station with pegs for bands",
            )
        band = place.gym.stock.band(part.tag)
        found.append(HungBand(band=band, peg=pegs[part.peg], doubled=part.doubled))
    return tuple(found)


def _hanging(fixture: Fixture, pieces: tuple[ChainPiece, ...]) -> tuple[Hanging, ...]:
    return (Hanging(fixture=fixture, pieces=pieces),) if pieces else ()


def _fixture(stock: Stock, parts: Parts) -> Fixture:
    if parts.hang != "doubled" or not (parts.left or parts.right):
        return Fixture(style=parts.hang if parts.hang != "doubled" else "straight")
    feeder, connector = stock.feeder(parts.feeder), stock.connector(parts.connector)
    return Fixture(
        style="doubled",
        feeder=feeder,
        setting=feeder.setting(parts.setting),
        connector=connector,
    )


def _loading(stock: Stock, plates_kg: tuple[float, ...]) -> Loading:
    """The plates of one side, heaviest first; each size in pairs."""
    taken = Counter(_plate(stock, mass_kg) for mass_kg in plates_kg)
    for plate, count in taken.items():
        if 2 * count > plate.count:
            raise NotInStockError(
                "There are not so many plates of this size",
                field="plates",
                got=f"{2 * count} of {plate.mass_kg:g} kg",
                wanted=f"at most {plate.count // 2} a side",
            )
    heaviest = sorted(taken.items(), key=lambda item: (-item[0].mass_kg, item[0].width_m))
    return Loading(per_side=tuple(heaviest))


def _plate(stock: Stock, mass_kg: float) -> Plate:
    for plate in stock.plates:
        if abs(plate.mass_kg - mass_kg) < _SAME_KG:
            return plate
    raise NotInStockError(
        "The gym has no such plate",
        field="plates",
        got=f"{mass_kg:g} kg",
        wanted="one of " + ", ".join(f"{plate.mass_kg:g} kg" for plate in stock.plates),
    )


def _miss_kg(target: Target, rig: Rig, place: Place) -> float:
    curve = rig.curve(place.ground, "raising")
    over_kg = curve.at(target.heights_m) - np.array(target.loads_kg)
    if target.never_over:
        under_kg = -over_kg / np.array(target.under_per_kg)
        return float(np.max(np.maximum(over_kg, under_kg)))
    misses = [float(np.max(np.abs(over_kg)))] if target.heights_m else []
    if target.mean_kg is not None:
        travel = place.travel
        misses.append(abs(curve.mean(travel.bottom_m, travel.top_m) - target.mean_kg))
    return max(misses, default=0.0)
