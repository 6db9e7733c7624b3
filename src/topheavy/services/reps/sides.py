"""What a rig is set beside: plain weight, the same chain straight and doubled, the nearest band."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Final, Literal

from topheavy.errors import BadInputError
from topheavy.lifter.motion.inputs import OnBar
from topheavy.mechanics.band_pairs import MOST_BANDS, match_pairs
from topheavy.mechanics.hang import Doubled, Straight, Suspension
from topheavy.mechanics.rig import End, Rig
from topheavy.rigging.hung_band import HungBand
from topheavy.rigging.limits import Limits
from topheavy.services.reading import hung_straight

if TYPE_CHECKING:
    from topheavy.services.rig import Place

SideName = Literal["plain weight", "chain straight", "chain doubled", "chain draped", "band"]
"""What hangs, in two words."""

PLAIN: Final = "plain weight"
BAND: Final = "band"

_MOST_APART_KG: Final = Limits().most_imbalance_kg

_STYLES: Final[dict[str, SideName]] = {
    "straight": "chain straight",
    "doubled": "chain doubled",
    "draped": "chain draped",
}


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Beside:
    """One rig of the comparison.

    Parameters
    ----------
    name : str
        What hangs.
    on_bar : OnBar
        The same for the model; its straight weight is found later.
    found : bool
        Whether it hangs as the rig that was asked for does.
    bands : tuple of HungBand
        Left and right of the pair that was chosen to stand beside the rig.
    imbalance_kg : float
        Largest difference between these two over the lift [kg].
    """

    name: str
    on_bar: OnBar
    found: bool = False
    bands: tuple[HungBand, HungBand] | tuple[()] = ()
    imbalance_kg: float = 0.0


def style_of(rig: Rig) -> str:
    """Name the way a rig's chain hangs: ``doubled``, ``draped``, ``straight``; empty: no chain."""
    hangs = (*rig.left.hangs, *rig.right.hangs)
    if not hangs:
        return ""
    if all(isinstance(hang, Straight) for hang in hangs):
        return "straight"
    return "doubled" if any(isinstance(hang, Doubled) for hang in hangs) else "draped"


def beside(place: Place, rig: Rig) -> tuple[Beside, ...]:
    """Choose what to compare a rig with, plain weight first.

    Parameters
    ----------
    place : Place
        Where; whose bands and pegs.
    rig : Rig
        The rig that was asked for.

    Returns
    -------
    tuple of Beside
        Plain weight; the same chain straight, and folded (with its fold on the floor at the bottom
        when the rig itself hangs straight); the pair of bands of this gym, alone on a peg of this
        station below the bar, whose pull changes most nearly as much over the lift.
    """
    style = style_of(rig)
    sides = [Beside(name=PLAIN, on_bar=OnBar(straight_kg=0.0))]
    if style:
        straight = rig if style == "straight" else hung_straight(rig)
        folded = _folded(place, rig) if style == "straight" else rig
        sides += [
            _of(place, straight, "straight", found=style == "straight"),
            _of(place, folded, "doubled" if style == "straight" else style, found=folded is rig),
        ]
    else:
        sides.append(replace(_of(place, rig, "", found=True), name=BAND))
        return tuple(sides)
    band = nearest_band(place, _change_kg(place, rig))
    return (*sides, *(() if band is None else (band,)))


def _of(place: Place, rig: Rig, style: str, *, found: bool) -> Beside:
    name = _STYLES.get(style, BAND)
    both = " and band" if style and (rig.left.bands or rig.right.bands) else ""
    on_bar = OnBar.of_rig(rig, place.ground, f"{name}{both}")
    return Beside(name=on_bar.name, on_bar=on_bar, found=found)


def _folded(place: Place, rig: Rig) -> Rig:
    """The same chain, all of an end on one connector, its fold on the floor at the bottom."""
    drop_m = place.travel.bottom_m - place.ground.surface_m
    held = Suspension(feeder_m=max(drop_m, 1e-3))

    def folded(end: End) -> End:
        chains = tuple(chain for hang in end.hangs for chain in hang.chains)
        hangs = (Doubled(chains=chains, suspension=held),) if chains else ()
        return End(hangs, bands=end.bands)

    return Rig(rig.bar_kg, rig.plates_kg, folded(rig.left), folded(rig.right))


def _change_kg(place: Place, rig: Rig) -> float:
    added = rig.added_curve(place.ground)
    low_kg, high_kg = added.at((place.travel.bottom_m, place.travel.top_m))
    return float(high_kg - low_kg)


def nearest_band(place: Place, change_kg: float) -> Beside | None:
    """Find the pair of bands, alone, whose pull changes most nearly by so much over the lift.

    Parameters
    ----------
    place : Place
        Bands of the gym that are fit for use, and pegs of the station below the bar.
    change_kg : float
        Load at the top less load at the bottom [kg].

    Returns
    -------
    Beside or None
        The pair; None without a pair that this station's pegs can use.
    """
    found: list[tuple[float, Beside]] = []
    for peg in place.station.pegs:
        if peg.peg.height_m >= place.travel.bottom_m:
            continue
        for doubled in (False, True):
            hung = [
                HungBand(band=band, peg=peg, doubled=doubled) for band in place.gym.stock.fit_bands
            ]
            found += _pairs(place, hung, change_kg)
    if not found:
        return None
    return min(found, key=lambda one: one[0])[1]


def _pairs(place: Place, hung: list[HungBand], change_kg: float) -> list[tuple[float, Beside]]:
    """Best-matched pairs of bands on a peg, and how far off their change is [kg]."""
    span_m = (place.travel.bottom_m, place.travel.top_m)
    usable = {}
    for one in hung:
        try:
            usable[one.band.tag] = one, one.over(span_m)
        except BadInputError:  # stretched beyond its readings, or into the peg
            continue
    changes = {
        tag: float(over.load_kg(span_m[1]) - over.load_kg(span_m[0]))
        for tag, (_, over) in usable.items()
    }
    nearest = sorted(usable, key=lambda tag: abs(2.0 * changes[tag] - change_kg))[:MOST_BANDS]
    if len(nearest) < 2:
        return []
    pairs = match_pairs([over for tag, (_, over) in usable.items() if tag in nearest])
    said = []
    for pair in pairs:
        tags = (pair.left.band.tag, pair.right.band.tag)
        change = sum(changes[tag] for tag in tags)
        if change <= 0.0 or pair.worst_kg > _MOST_APART_KG:
            continue
        on_bar = OnBar(straight_kg=0.0, band=pair.left.curve() + pair.right.curve(), name=BAND)
        side = Beside(
            name=BAND,
            on_bar=on_bar,
            bands=(usable[tags[0]][0], usable[tags[1]][0]),
            imbalance_kg=pair.worst_kg,
        )
        said.append((abs(change - change_kg), side))
    return said
