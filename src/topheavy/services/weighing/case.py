"""A weighing as it was done: the rig as stated, the scale, and what it read."""

from __future__ import annotations

import math
from collections import defaultdict
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final, Literal, get_args

import numpy as np

from topheavy.errors import BadInputError
from topheavy.mechanics.banded import peg_u_m
from topheavy.mechanics.chain import require_not_negative, require_positive
from topheavy.mechanics.hang import Doubled
from topheavy.mechanics.scale_model import (
    BANDS,
    FACTOR,
    FRICTION,
    NEW_SHARE,
    PILES,
    SHIFT,
    STRAIGHT,
    ScaleData,
)
from topheavy.mechanics.scale_model import seen_by_scale as _seen_by_scale

if TYPE_CHECKING:
    from collections.abc import Iterator

    from topheavy.mechanics.banded import Banded
    from topheavy.mechanics.chain import Chain
    from topheavy.mechanics.ground import Ground
    from topheavy.mechanics.rig import End, Rig
    from topheavy.mechanics.scale_model import Seen

ReadingWay = Literal["raising", "lowering", "unsaid"]
Side = Literal["left", "right"]
Carries = Literal["bar", "left", "right", "floor", "floor left", "floor right"]
"""What the scale carries: the whole hung bar; one end of it; or the chain still on the floor."""

WAYS: Final[tuple[ReadingWay, ...]] = get_args(ReadingWay)

TAPE_ZERO_U_M: Final = 0.003
"""Standard uncertainty [m] of where all heights are measured from: the tape's zero, the bar's
centre found by eye. A guess, no source."""

STRAIGHT_U_SHARE: Final = 0.005
"""Standard uncertainty of bar, collars and plates as a share of their mass. Between competition
discs (0.25 %, IPF rules) and unmarked iron. A guess, no source."""

FRICTION_U: Final = 0.2
"""Standard uncertainty of chain on floor [-]; steel on concrete 0.3 and rubber 0.7 both fit in."""

HIGHEST_M: Final = 4.0

_LEAST_PULL_KG: Final = 0.01
_JUST_BELOW_M: Final = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class ScaleReading:
    """One reading of the scale.

    Parameters
    ----------
    height_m : float
        Height of the bar centre [m], 0 to 4, from where the rig's heights are measured.
    mass_kg : float
        What the scale showed [kg], >= 0.
    height_u_m : float
        Standard uncertainty of this height [m], >= 0; an error that all heights share is
        counted apart.
    mass_u_kg : float
        Standard uncertainty of the scale's reading [kg], > 0.
    way : {'raising', 'lowering', 'unsaid'}
        Which way the bar came to this height. Readings left unsaid are taken to be alike.

    Raises
    ------
    BadInputError
        A value outside its range or not a number.
    """

    height_m: float
    mass_kg: float
    height_u_m: float = 0.003
    mass_u_kg: float = 0.1
    way: ReadingWay = "unsaid"

    def __post_init__(self) -> None:
        for name in ("height_m", "mass_kg", "height_u_m"):
            require_not_negative(name, getattr(self, name))
        require_positive("mass_u_kg", self.mass_u_kg)
        if self.height_m > HIGHEST_M:
            raise BadInputError(
                "No bar is weighed that high",
                field="height_m",
                got=f"{self.height_m:g} m",
                wanted=f"a height up to {HIGHEST_M:g} m",
            )
        if self.way not in WAYS:
            raise BadInputError(
                "A reading is taken raising or lowering the bar",
                field="way",
                got=self.way,
                wanted="raising, lowering, or unsaid",
            )


@dataclass(frozen=True, slots=True, kw_only=True)
class Scale:
    """What the scale carries.

    Parameters
    ----------
    carries : {'bar', 'left', 'right', 'floor', 'floor left', 'floor right'}
        ``bar``: the whole hung bar, stood or hung on the scale. ``left``, ``right``: that end,
        with the other end held level at the same distance from the middle, so half of the bar
        and plates. ``floor``: the slack of both ends, ``floor left`` or ``floor right`` of one:
        a scale under the pile carries what the bar does not, and its own height counts as the
        ground's surface.
    straight_kg : float or None
        Bar, collars and plates on the scale [kg]; None: whole, half, or none, as said above.
        0 for a scale between sleeve and chain, or one zeroed with the bare bar on it.
    straight_u_kg : float or None
        Its standard uncertainty [kg]; None: 0.5 % of it.
    """

    carries: Carries = "bar"
    straight_kg: float | None = None
    straight_u_kg: float | None = None

    def __post_init__(self) -> None:
        if self.carries not in get_args(Carries):
            raise BadInputError(
                "The scale carries the bar, one end of it, or the chain on the floor",
                field="carries",
                got=self.carries,
                wanted="one of " + ", ".join(get_args(Carries)),
            )
        for name in ("straight_kg", "straight_u_kg"):
            if getattr(self, name) is not None:
                require_not_negative(name, getattr(self, name))

    @property
    def on_floor(self) -> bool:
        """Whether it lies under the slack."""
        return self.carries.startswith("floor")

    @property
    def sides(self) -> tuple[Side, ...]:
        """The ends it sees."""
        side = self.carries.removeprefix("floor").strip()
        return ("left",) if side == "left" else ("right",) if side == "right" else ("left", "right")

    def straight(self, rig: Rig) -> tuple[float, float]:
        """Straight weight on the scale [kg] and its standard uncertainty [kg]."""
        share = 0.0 if self.on_floor else len(self.sides) / 2
        kg = share * rig.straight_weight_kg if self.straight_kg is None else self.straight_kg
        return kg, STRAIGHT_U_SHARE * kg if self.straight_u_kg is None else self.straight_u_kg


@dataclass(frozen=True, slots=True, kw_only=True)
class Case:
    """A weighing under one assumption of what was on the scale.

    Parameters
    ----------
    rig, ground, scale, readings
        As stated, or as a suspected slip would have them.
    extra_kg : float
        Straight weight on the scale beyond the stated [kg].
    loose : tuple of (int, float)
        Free numbers, by place, that are wholly free instead of stated, and within what.
    pile_sure : bool
        Whether the rule of the pile's height is taken as sure; how heaps scatter about it is not.
    """

    rig: Rig
    ground: Ground
    scale: Scale
    readings: tuple[ScaleReading, ...]
    extra_kg: float = 0.0
    loose: tuple[tuple[int, float], ...] = ()
    pile_sure: bool = False

    @property
    def ends(self) -> tuple[End, ...]:
        """The ends that the scale sees."""
        return tuple(getattr(self.rig, side) for side in self.scale.sides)

    @property
    def chains(self) -> tuple[Chain, ...]:
        """Every piece that the scale sees."""
        return tuple(c for end in self.ends for hang in end.hangs for c in hang.chains)

    @property
    def bands(self) -> tuple[Banded, ...]:
        """Every band that pulls on the scale."""
        on_floor = self.scale.on_floor
        return () if on_floor else tuple(band for end in self.ends for band in end.bands)

    @property
    def density_kg_per_m(self) -> float:
        """Mean mass per length of these pieces [kg/m]; 0 without any."""
        length_m = sum(chain.length_m for chain in self.chains)
        return sum(c.mass_kg for c in self.chains) / length_m if length_m > 0 else 0.0

    @property
    def ways(self) -> tuple[ReadingWay, ...]:
        """The ways that the readings were taken."""
        taken = {reading.way for reading in self.readings}
        return tuple(way for way in WAYS if way in taken)

    def seen(self) -> Seen:
        """Gather what the scale sees."""
        return _seen_by_scale(self.ends, self.ground, on_floor=self.scale.on_floor)

    def data(self) -> ScaleData:
        """Put readings and stated numbers into arrays."""
        ways, readings = self.ways, self.readings
        stated, stated_u = _stated(self)
        for place, within in self.loose:
            stated_u[place] = within
        columns = [(r.height_m, r.height_u_m, r.mass_kg, r.mass_u_kg) for r in readings]
        height, height_u, mass, mass_u = np.array(columns, dtype=np.float64).reshape(-1, 4).T
        return ScaleData(
            height_m=height,
            height_u_m=height_u,
            mass_kg=mass,
            mass_u_kg=mass_u,
            way=np.array([ways.index(r.way) for r in readings], dtype=np.intp),
            stated=np.array(stated),
            stated_u=np.array(stated_u),
        )

    def pile(self, way: ReadingWay) -> tuple[float, float]:
        """Pile as stated, and standard uncertainty of its rule [pitches].

        Left unsaid it is somewhere between raising and lowering.
        """
        ground = self.ground
        if ground.lay == "dragged":
            return 0.0, 0.0
        unsure = 0.0 if self.pile_sure else 1.0
        up, up_u = ground.raising_pitches, unsure * ground.raising_rule_u_pitches
        down, down_u = ground.lowering_pitches, unsure * ground.lowering_rule_u_pitches
        if way == "raising":
            return up, up_u
        if way == "lowering":
            return down, down_u
        return (up + down) / 2, math.hypot(up_u, down_u, down - up) / 2

    @property
    def kept_u(self) -> float:
        """Uncertainty of the pile [pitches] from heaps that stay as they are for a weighing."""
        if self.ground.lay == "dragged":
            return 0.0
        return math.sqrt((1 - NEW_SHARE) / self.strands) * self.ground.strand_u_pitches

    @property
    def strands(self) -> float:
        """How many strands of chain share the load: as many equal ones would scatter alike."""
        hangs = [hang for end in self.ends for hang in end.hangs]
        strands = [s.density_kg_per_m for hang in hangs for s in hang.strands() if s.chain]
        return sum(strands) ** 2 / sum(d**2 for d in strands) if strands else 1.0

    @property
    def free_numbers(self) -> int:
        """How many numbers the readings must tell: kg/m, and the lift-off height each way."""
        if not self.chains:
            return 0
        ways = 1 if self.ground.lay == "dragged" else len(self.ways)
        return ways + (1 if density_u(self.chains) > 0 else 0)


def density_u(chains: tuple[Chain, ...]) -> float:
    """Standard uncertainty of the mass of all pieces together, as a share of it [-].

    Pieces known by the same word err together; others, and those known by none, apart.
    """
    by: defaultdict[str | int, float] = defaultdict(float)
    for place, chain in enumerate(chains):
        by[chain.known_by or place] += chain.density_u_kg_per_m * chain.length_m
    mass_kg = sum(chain.mass_kg for chain in chains)
    return math.hypot(*by.values()) / mass_kg if mass_kg > 0 else 0.0


def bands_u(bands: tuple[Banded, ...], height_m: float) -> float:
    """Standard uncertainty of the pull of all bands together, as a share of it [-].

    Their readings, rest lengths and pegs, at one height of the bar [m]; warmth and wear are not
    counted, no number stands for them.
    """
    pull_kg = sum(float(band.curve().at(height_m)) for band in bands)
    if abs(pull_kg) < _LEAST_PULL_KG:
        return 0.0
    parts = []
    for band in bands:
        length_m, upright = float(band.length_m(height_m)), float(band.upright(height_m))
        parts.append(upright * float(band.band.tension_u_kg(length_m, beyond=True)))
        parts.append(peg_u_m(band) * float(band.curve().slope_at(height_m - _JUST_BELOW_M)))
    return math.hypot(*parts) / abs(pull_kg)


def _stated(case: Case) -> tuple[list[float], list[float]]:
    """Stated values and standard uncertainties of the free numbers, in their places."""
    stated, stated_u = [0.0] * PILES, [0.0] * PILES
    straight_kg, straight_u_kg = case.scale.straight(case.rig)
    stated[FACTOR], stated_u[FACTOR] = 1.0, density_u(case.chains)
    stated[STRAIGHT], stated_u[STRAIGHT] = straight_kg + case.extra_kg, straight_u_kg
    stated[FRICTION], stated_u[FRICTION] = case.ground.friction, 0.0
    highest_m = max((reading.height_m for reading in case.readings), default=0.0)
    stated[BANDS], stated_u[BANDS] = 1.0, bands_u(case.bands, highest_m)
    if case.ground.lay == "dragged":
        stated_u[FRICTION] = FRICTION_U
    stated_u[SHIFT] = math.hypot(max(_feeder_us(case), default=0.0), TAPE_ZERO_U_M)
    kept_u = case.kept_u
    for way in case.ways:
        pitches, rule_u = case.pile(way)
        stated.append(pitches)
        stated_u.append(math.hypot(rule_u, kept_u))
    return stated, stated_u


def _feeder_us(case: Case) -> Iterator[float]:
    for end in case.ends:
        for hang in end.hangs:
            if isinstance(hang, Doubled):
                yield hang.suspension.feeder_u_m
