"""A rig that somebody describes, and where it stands, out of the words it was described in."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Final

from topheavy.asked.band_words import read_bands
from topheavy.asked.facts import amount, dimension_of
from topheavy.asked.hang_words import HangWords, read_ends
from topheavy.asked.quantities import length_m, load_kg
from topheavy.errors import BadInputError
from topheavy.gym.lifts import lift_named
from topheavy.mechanics.ground import Ground
from topheavy.rigging.limits import DESIGN_FACTOR
from topheavy.services.described import DescribedRig, check_counts

if TYPE_CHECKING:
    from topheavy.gym.gym import Gym
    from topheavy.gym.lifts import Lift
    from topheavy.gym.people import Lifter, Station, Travel

FRICTION: Final = 0.7
"""Of chain on a rubber floor [-], unless said otherwise."""

_PLATE: Final = re.compile(r"\s*(?:(\d{1,3})\s*[x*\u00d7]\s*)?(.+)", re.DOTALL)


@dataclass(frozen=True, slots=True, kw_only=True)
class RigDescribed:
    """What was said of a rig; each as its option of ``topheavy curve`` says it.

    Parameters
    ----------
    left, right, chain : tuple of str
        What hangs on each end, and on both ends alike.
    feeder, connector : str or None
        What doubled chain hangs from.
    hang : str
        How it hangs where nothing else is said.
    left_band, right_band : tuple of str
        Bands of each end.
    beyond : bool
        Whether bands may be stretched further than they were read.
    straight, bar, plates : str or None
        What is on the bar.
    lifter, lift, station : str or None
        Who, what and where.
    best, mat : str or None
        Best single, and the height of what lies under the chain.
    dragged : bool
        Whether the slack is laid out to the side.
    friction : float
        Of chain on this floor [-], > 0.
    design_factor : float
        Rated load over what hangs on it [-].
    today : str
        The day it is, year-month-day.
    """

    left: tuple[str, ...] = ()
    right: tuple[str, ...] = ()
    chain: tuple[str, ...] = ()
    feeder: str | None = None
    connector: str | None = None
    hang: str = "doubled"
    left_band: tuple[str, ...] = ()
    right_band: tuple[str, ...] = ()
    beyond: bool = False
    straight: str | None = None
    bar: str | None = None
    plates: str | None = None
    lifter: str | None = None
    lift: str | None = None
    station: str | None = None
    best: str | None = None
    mat: str | None = None
    dragged: bool = False
    friction: float = FRICTION
    design_factor: float = DESIGN_FACTOR
    today: str = ""

    @property
    def empty(self) -> bool:
        """Whether nothing was said of what hangs."""
        return not (self.left or self.right or self.chain or self.left_band or self.right_band)


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """A rig as it was described, and where it stands.

    Parameters
    ----------
    gym : Gym
        The gym in use.
    described : DescribedRig
        What hangs, and on what bar.
    ground : Ground
        Where the chain lies.
    lifter, lift, station : Lifter, Lift, Station or None
        Who, what and where, as far as anybody said.
    best_kg : float or None
        Straight-weight best [kg].
    design_factor : float
        A part is used up to its rating over this factor [-].
    today : str
        The day it is.
    """

    gym: Gym
    described: DescribedRig
    ground: Ground
    lifter: Lifter | None
    lift: Lift | None
    station: Station | None
    best_kg: float | None
    design_factor: float
    today: str = ""

    @property
    def title(self) -> str:
        """Who, what and where, as far as anybody said."""
        named = [one.name for one in (self.lifter, self.lift, self.station) if one is not None]
        return ", ".join(named) or "A rig as described"

    @property
    def travel(self) -> Travel | None:
        """Bottom and top of the lifter [m]; None when nobody was named."""
        if self.lifter is None or self.lift is None or self.station is None:
            return None
        return self.gym.travel(self.lifter, self.lift, self.station)


def read_rig(gym: Gym, said: RigDescribed) -> Told:
    """Make the rig that was described.

    Parameters
    ----------
    gym : Gym
        Whose parts and people are named.
    said : RigDescribed
        The words.

    Raises
    ------
    BadInputError, NotInStockError
        Words not understood, or something the gym does not have; names the option.
    """
    words = HangWords(
        left=said.left,
        right=said.right,
        both=said.chain,
        feeder=said.feeder,
        connector=said.connector,
        style=said.hang,
        left_bands=said.left_band,
        right_bands=said.right_band,
    )
    who, what, where = _place(gym, said.lifter, said.lift, said.station)
    best_kg = load_kg(said.best, "--best") or _best_kg(who, what)
    bar_kg, plates_kg = _bar_and_plates(
        gym, where, said.straight, said.bar, said.plates, best_kg=best_kg
    )
    on_left, on_right = read_ends(words, gym.stock)
    left_bands, right_bands = (
        read_bands(texts, f"--{side}-band", gym.stock, where, beyond=said.beyond)
        for side, texts in (("left", words.left_bands), ("right", words.right_bands))
    )
    described = DescribedRig(
        bar_kg=bar_kg,
        plates_kg=plates_kg,
        left=on_left,
        right=on_right,
        left_bands=left_bands,
        right_bands=right_bands,
    )
    check_counts(described, gym.stock)
    told = Told(
        gym=gym,
        described=described,
        ground=_ground(where, said.mat, dragged=said.dragged, friction=said.friction),
        lifter=who,
        lift=what,
        station=where,
        best_kg=best_kg,
        design_factor=said.design_factor,
        today=said.today,
    )
    travel = told.travel
    if travel is None:
        return told
    return replace(told, described=described.over(travel.bottom_m, travel.top_m))


def _place(
    gym: Gym, who: str | None, what: str | None, where: str | None
) -> tuple[Lifter | None, Lift | None, Station | None]:
    """Find who, what and where; a lifter without a lift benches, and lifts where measured."""
    lift = lift_named(what) if what else (lift_named("bench press") if who else None)
    lifter = gym.lifter(who) if who else None
    if where is None and lifter is not None and lift is not None:
        where = lifter.measured(lift).station or gym.station_for(lift).name
    return lifter, lift, gym.station(where) if where else None


def _best_kg(lifter: Lifter | None, lift: Lift | None) -> float | None:
    if lifter is None or lift is None:
        return None
    return lifter.measured(lift).best_kg


def _bar_and_plates(
    gym: Gym,
    station: Station | None,
    straight: str | None,
    bar: str | None,
    plates: str | None,
    *,
    best_kg: float | None,
) -> tuple[float, float]:
    """Mass of bar with collars, and of all plates [kg]."""
    straight_kg = load_kg(straight, "--straight", best_kg)
    if straight_kg is not None and plates is not None:
        raise BadInputError(
            "The plates are given twice",
            field="--straight and --plates",
            wanted="one of them; the straight weight counts the plates",
        )
    if straight_kg is not None and bar is None and not gym.stock.bars:
        return straight_kg, 0.0
    bar_kg = _bar_kg(gym, station, bar)
    if straight_kg is None:
        return bar_kg, 2 * _plates_kg(plates)
    if straight_kg >= bar_kg:
        return bar_kg, straight_kg - bar_kg
    if bar is None:
        return straight_kg, 0.0
    raise BadInputError(
        "The straight weight is less than the bar",
        field="--straight",
        got=repr(straight),
        wanted=f"{bar_kg:g} kg or more: bar, collars and plates together",
    )


def _bar_kg(gym: Gym, station: Station | None, bar: str | None) -> float:
    """A bar of the gym with its collars, or what was said [kg]."""
    known = [one.name for one in gym.stock.bars]
    if bar is not None and bar not in known and dimension_of(bar) == "mass":
        return load_kg(bar, "--bar") or 0.0
    if bar is not None:
        chosen = gym.stock.bar(bar)
    elif station is not None:
        chosen = gym.bar_at(station)
    elif gym.stock.bars:
        chosen = gym.stock.bars[0]
    else:
        raise BadInputError(
            "Nothing says what bar it is", field="--bar", wanted="--bar 20kg, or --straight 80kg"
        )
    collar = next((collar for collar in gym.stock.collars if collar.count >= 2), None)
    return chosen.mass_kg + (2 * collar.mass_kg if collar else 0.0)


def _plates_kg(plates: str | None) -> float:
    """Plates of one side together [kg]."""
    total_kg = 0.0
    for text in [] if plates is None else plates.split("+"):
        found = _PLATE.fullmatch(text)
        if found is None:
            raise BadInputError(
                "A plate is missing", field="--plates", got=repr(plates), wanted="25kg + 2x10kg"
            )
        total_kg += int(found[1] or 1) * amount(found[2], "mass", "--plates")
    return total_kg


def _ground(station: Station | None, mat: str | None, *, dragged: bool, friction: float) -> Ground:
    surface_m = length_m(mat, "--mat")
    if surface_m is None:
        surface_m = station.surface_m if station else 0.0
    if not -1 <= surface_m <= 1:
        raise BadInputError(
            "No chain lies that far from the floor",
            field="--mat",
            got=repr(mat),
            wanted="up to 1 m; below zero for a lifter who stands higher than the chain lies",
        )
    return Ground(surface_m=surface_m, lay="dragged" if dragged else "piled", friction=friction)
