"""Which hung chain serves which booking at which station, within tolerance: all of it, exactly.

For one booking at one station, the load that every feeder setting and choice of pairs puts on the
bar is read from the arrays of the exact search. Straight weight is fixed for each booking and
station: the one that most of the hung chain agrees with. What serves nobody else's need and takes
no fewer parts than another is dropped; no plan is lost by that.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

import numpy as np

from topheavy.errors import NotInStockError
from topheavy.room.hung import Hung, PairKind, pair_kinds, room_fixtures
from topheavy.room.readings import Choices, Reading, pose_for, read
from topheavy.room.tied import all_bands

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from topheavy.gym.people import Station
    from topheavy.rigging.plates import Loading
    from topheavy.room.ask import Booking, Room
    from topheavy.services.rig import RigQuestion

    Floats = NDArray[np.float64]
    Bools = NDArray[np.bool_]
    Ints = NDArray[np.int64]
    _Key = tuple[int, tuple[object, ...]]

_ALL: Final = 12
_MOST_HUNG: Final = 40
_LEAST_EACH: Final = 6
"""In rooms of more bookings than `_ALL`, so many ways to hang at a station are weighed, and for
each booking at least so many of those that serve it: the plan is proven among these."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Offer:
    """A booking at a station: its straight weight, and what may hang.

    Parameters
    ----------
    straight_kg : float
        Bar, collars and plates [kg].
    loadings : tuple of Loading
        Ways to load that weight, fewest plates first.
    miss_kg : dict of int to float
        Largest miss [kg] under each hung chain that will do, by its position.
    tolerance_kg, nearest_kg : float
        What will do, and the least miss that any chain leaves [kg].
    """

    straight_kg: float
    loadings: tuple[Loading, ...]
    miss_kg: dict[int, float]
    tolerance_kg: float
    nearest_kg: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Offers:
    """Everything a plan can choose from.

    Parameters
    ----------
    kinds : tuple of PairKind
        Matched pairs.
    hung : tuple of Hung
        What can hang.
    at : dict of (int, str) to Offer
        By position of the booking and name of the station.
    """

    kinds: tuple[PairKind, ...]
    hung: tuple[Hung, ...]
    at: dict[tuple[int, str], Offer]

    def serves(self, booking: int) -> bool:
        """Whether anything that can hang will do for a booking, at some station."""
        return any(offer.miss_kg for (one, _), offer in self.at.items() if one == booking)


def offers_for(room: Room) -> Offers:
    """Work out what serves whom.

    Raises
    ------
    NotInStockError
        No two pieces alike, or nothing rated to hang them from, and no bands that would do.
    BadInputError
        A booking whose loads make no sense.
    """
    stock = room.in_use.stock
    kinds = pair_kinds(room.gym.stock.fit_chains, room.broken)
    fixtures = room_fixtures(stock, room.limits)
    questions: dict[_Key, RigQuestion] = {}
    places: dict[tuple[int, str], _Key] = {}
    for number, booking in enumerate(room.bookings):
        for station in room.stations_for(booking):
            key = (number, _alike(room, booking, station))
            places[number, station.name] = key
            if key not in questions:
                questions[key] = room.question(booking, station)
    problems = {key: pose_for(question) for key, question in questions.items()}
    choices = Choices.of(room, kinds, fixtures, all_bands(problems.values()))
    if not choices.counts or not choices.fixtures:
        raise NotInStockError(
            "Nothing to hang in this room",
            field="stock",
            wanted="two chain pieces alike, or two bands that pull alike and suit a lift here",
        )
    whole = {key: read(questions[key], problems[key], choices) for key in questions}
    return _offered(room, choices, places, whole)


def _offered(
    room: Room, choices: Choices, places: dict[tuple[int, str], _Key], whole: dict[_Key, Reading]
) -> Offers:
    """Keep what is worth it at each station, and tell it by position."""
    kept: dict[str, list[tuple[int, int]]] = {}
    known: dict[tuple[object, ...], list[tuple[int, int]]] = {}
    for station in room.stations:
        keys = tuple(key for (_, name), key in places.items() if name == station.name)
        if keys not in known:
            known[keys] = _worth_keeping([whole[key] for key in keys], choices)
        kept[station.name] = known[keys]
    hung = sorted({one for some in kept.values() for one in some})
    position = {one: at for at, one in enumerate(hung)}
    made: dict[tuple[object, int], Offer] = {}
    at = {}
    for place, key in places.items():
        here = kept[place[1]]
        if (key, id(here)) not in made:
            made[key, id(here)] = _offer(whole[key], {position[one]: one for one in here})
        at[place] = made[key, id(here)]
    holds = choices.holds
    return Offers(
        kinds=choices.kinds,
        hung=tuple(
            Hung(fixture=holds[t][0], bands=holds[t][1], counts=choices.counts[c]) for t, c in hung
        ),
        at=at,
    )


def _alike(room: Room, booking: Booking, station: Station) -> tuple[object, ...]:
    """What of a station matters to a lift: where the bar goes, where the chain lies, which bar."""
    travel = room.gym.travel(booking.lifter, booking.lift, station)
    bar = room.gym.bar_at(station).name
    pegs = station.pegs if room.limits.most_bands else ()
    return station.kind, travel.bottom_m, travel.top_m, station.surface_m, bar, pegs


def _worth_keeping(readings: list[Reading], choices: Choices) -> list[tuple[int, int]]:
    """Hold and pairs of what no other at a station beats: as many served, no more parts."""
    if not readings:
        return []
    counts = np.array(choices.counts).reshape(len(choices.counts), len(choices.kinds))
    serves = np.stack([reading.serves for reading in readings])  # (b, t, c)
    off = np.zeros(serves.shape[1:])
    for reading in readings:
        nearer = reading.miss_kg + reading.fold_kg[:, None]
        off += np.where(reading.serves, nearer, 0.0)
    holds = choices.holds
    groups: dict[tuple[object, ...], list[tuple[int, int]]] = {}
    for t, c in zip(*np.nonzero(serves.any(axis=0)), strict=True):
        held, bands = holds[t]
        names = (
            held.feeder.name if held.feeder else "",
            held.connector.name if held.connector else "",
            bands,
        )
        groups.setdefault(names, []).append((int(t), int(c)))
    kept: list[tuple[int, int]] = []
    for some in groups.values():
        kept += _undominated(some, serves, off, counts)
    return sorted(_widest(kept, serves, counts))


def _widest(kept: list[tuple[int, int]], serves: Bools, counts: Ints) -> list[tuple[int, int]]:
    """Of very many, those that serve most bookings with fewest pieces, and enough for everyone."""
    if len(serves) <= _ALL or len(kept) <= _MOST_HUNG:
        return kept
    order = sorted(
        kept, key=lambda o: (-int(serves[:, o[0], o[1]].sum()), int(counts[o[1]].sum()), o)
    )
    chosen: list[tuple[int, int]] = []
    seen = np.zeros(len(serves), dtype=np.int64)
    for one in order:
        mine = serves[:, one[0], one[1]]
        if len(chosen) < _MOST_HUNG or np.any(seen[mine] < _LEAST_EACH):
            chosen.append(one)
            seen += mine
    return chosen


def _undominated(
    some: list[tuple[int, int]], serves: Bools, off_kg: Floats, counts: Ints
) -> list[tuple[int, int]]:
    """Keep what no other of the same feeder and connector beats; ties go to the nearer one."""
    cover = {
        one: int.from_bytes(np.packbits(serves[:, one[0], one[1]]).tobytes(), "big") for one in some
    }
    best: dict[tuple[int, int], tuple[int, int]] = {}
    for one in sorted(some, key=lambda o: (float(off_kg[o]), o)):
        best.setdefault((cover[one], one[1]), one)
    distinct = sorted(
        best.values(), key=lambda o: (-cover[o].bit_count(), int(counts[o[1]].sum()), o)
    )
    no_more = [
        {b for b in range(len(counts)) if np.all(counts[b] <= counts[c])}
        for c in range(len(counts))
    ]
    kept: dict[int, list[int]] = {}
    chosen = []
    for one in distinct:
        mine = cover[one]
        if not any(mine | theirs == theirs for c in no_more[one[1]] for theirs in kept.get(c, ())):
            kept.setdefault(one[1], []).append(mine)
            chosen.append(one)
    return chosen


def _offer(reading: Reading, kept: dict[int, tuple[int, int]]) -> Offer:
    serves = reading.serves
    return Offer(
        straight_kg=reading.straight_kg,
        loadings=reading.loadings,
        miss_kg={at: float(reading.miss_kg[s, c]) for at, (s, c) in kept.items() if serves[s, c]},
        tolerance_kg=reading.tolerance_kg,
        nearest_kg=float(reading.miss_kg.min()),
    )
