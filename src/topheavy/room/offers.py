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

from topheavy.rigging.plates import Loading
from topheavy.rigging.problem import pose
from topheavy.room.hung import Hung, PairKind, counts_of, pair_kinds, room_fixtures
from topheavy.services.rig import target_of, tolerance_of

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from topheavy.gym.people import Station
    from topheavy.gym.stock import Plate
    from topheavy.rigging.fixtures import Fixture
    from topheavy.rigging.problem import Problem
    from topheavy.rigging.target import Target
    from topheavy.room.ask import Booking, Room
    from topheavy.services.rig import RigQuestion

    Floats = NDArray[np.float64]
    Bools = NDArray[np.bool_]
    Ints = NDArray[np.int64]

_HAIR_KG: Final = 1e-9
_MOST_LOADINGS: Final = 4
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
        No two pieces alike, or nothing rated to hang them from.
    BadInputError
        A booking whose loads make no sense.
    """
    stock = room.in_use.stock
    kinds = pair_kinds(stock.chains)
    fixtures = room_fixtures(stock, room.limits)
    counts = counts_of(kinds, room.limits.most_pieces // 2)
    ends = Ends.of(kinds, counts, fixtures, room)
    whole: dict[tuple[int, tuple[object, ...]], _Reading] = {}
    places: dict[tuple[int, str], tuple[int, tuple[object, ...]]] = {}
    for number, booking in enumerate(room.bookings):
        for station in room.stations_for(booking):
            key = (number, _alike(room, booking, station))
            places[number, station.name] = key
            if key not in whole:
                whole[key] = _reading(room.question(booking, station), ends)
    kept: dict[str, list[tuple[int, int]]] = {}
    known: dict[tuple[object, ...], list[tuple[int, int]]] = {}
    for station in room.stations:
        keys = tuple(key for (_, name), key in places.items() if name == station.name)
        if keys not in known:
            readings = [whole[key] for key in keys]
            known[keys] = _worth_keeping(readings, fixtures, np.array(counts))
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
    return Offers(
        kinds=kinds,
        hung=tuple(Hung(fixture=fixtures[s], counts=counts[c]) for s, c in hung),
        at=at,
    )


def _alike(room: Room, booking: Booking, station: Station) -> tuple[object, ...]:
    """What of a station matters to a lift: where the bar goes, where the chain lies, which bar."""
    travel = room.gym.travel(booking.lifter, booking.lift, station)
    bar = room.gym.bar_at(station).name
    return station.kind, travel.bottom_m, travel.top_m, station.surface_m, bar


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Ends:
    """Density of one end for each choice of pairs c, of the lightest and of the heaviest pairs."""

    light: Floats
    heavy: Floats
    allowed: Bools

    @classmethod
    def of(
        cls,
        kinds: tuple[PairKind, ...],
        counts: tuple[tuple[int, ...], ...],
        fixtures: tuple[Fixture, ...],
        room: Room,
    ) -> Ends:
        """Both ends together, shape (c, k) [kg/m]; and whether rating and balance allow them."""
        light, heavy = np.zeros((2, len(counts), len(kinds)))
        end_kg, lean_kg = np.zeros((2, len(counts)))
        for k, kind in enumerate(kinds):
            both = np.array(
                [p.left.chain.density_kg_per_m + p.right.chain.density_kg_per_m for p in kind.pairs]
            )
            heavier = np.array(
                [max(p.left.chain.mass_kg, p.right.chain.mass_kg) for p in kind.pairs]
            )
            leans = np.sort([abs(p.lean_kg) for p in kind.pairs])[::-1]
            for c, some in enumerate(counts):
                n = some[k]
                light[c, k], heavy[c, k] = both[:n].sum(), both[len(both) - n :].sum()
                end_kg[c] += np.sort(heavier)[len(both) - n :].sum()
                lean_kg[c] += leans[:n].sum()
        most_kg = np.array([fixture.most_hung_kg for fixture in fixtures])
        balanced = lean_kg <= room.limits.most_imbalance_kg + _HAIR_KG
        allowed = (end_kg[None] <= most_kg[:, None] + _HAIR_KG) & balanced[None]
        return cls(light=light, heavy=heavy, allowed=allowed)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Reading:
    """One booking at one sort of station: misses over fixtures and pairs, (s, c)."""

    straight_kg: float
    loadings: tuple[Loading, ...]
    miss_kg: Floats
    tolerance_kg: float
    fold_kg: Floats

    @property
    def serves(self) -> Bools:
        """Where the miss will do."""
        return self.miss_kg <= self.tolerance_kg + _HAIR_KG


def _reading(question: RigQuestion, ends: Ends) -> _Reading:
    target = target_of(question)
    tolerance_kg = tolerance_of(question, target)
    problem = pose(question.place.setup, target, question.limits)
    low_kg, high_kg = _straight_spans(question, target, problem, ends)
    chosen = _most_agreed(low_kg, high_kg, problem.straight_kg)
    straight_kg = float(problem.straight_kg[chosen])
    misses = [
        _miss(target, problem.wanted_kg - load - straight_kg) for load in _loads(problem, ends)
    ]
    return _Reading(
        straight_kg=straight_kg,
        loadings=_ways(problem, chosen),
        miss_kg=np.where(_kept(problem, ends), np.maximum(*misses), np.inf),
        tolerance_kg=tolerance_kg,
        fold_kg=problem.fold_price_kg[_doubled_rows(problem)],
    )


def could_serve(question: RigQuestion, ends: Ends) -> Bools:
    """Say which fixtures and pairs, shape (s, c), will do for a booking, with some plates.

    Parameters
    ----------
    question : RigQuestion
        The booking at a station.
    ends : Ends
        Density of the ends; its rows are choices of pairs.
    """
    target = target_of(question)
    problem = pose(question.place.setup, target, question.limits)
    if not problem.has_chain:
        return np.zeros(ends.allowed.shape, dtype=bool)
    low_kg, high_kg = _straight_spans(question, target, problem, ends)
    at = np.searchsorted(problem.straight_kg, low_kg - _HAIR_KG)
    least_kg = np.append(problem.straight_kg, np.inf)[at]
    return np.asarray(least_kg <= high_kg + _HAIR_KG)


def _straight_spans(
    question: RigQuestion, target: Target, problem: Problem, ends: Ends
) -> tuple[Floats, Floats]:
    """Straight weights [kg], from and to, that leave a miss within tolerance, (s, c)."""
    tolerance_kg = tolerance_of(question, target)
    kept = _kept(problem, ends)
    spans = [
        _span(target, problem.wanted_kg - load, tolerance_kg) for load in _loads(problem, ends)
    ]
    low_kg = np.where(kept, np.maximum(spans[0][0], spans[1][0]), np.inf)
    high_kg = np.where(kept, np.minimum(spans[0][1], spans[1][1]), -np.inf)
    return low_kg, high_kg


def _doubled_rows(problem: Problem) -> list[int]:
    return [at for at, fixture in enumerate(problem.fixtures) if fixture.style == "doubled"]


def _loads(problem: Problem, ends: Ends) -> list[Floats]:
    """Hung load at each aim [kg], (s, c, j), of the lightest pairs and of the heaviest."""
    rows = _doubled_rows(problem)
    lift_m = problem.lift_m[rows][:, _columns(problem, ends)]
    held_kg = problem.held_kg[rows]
    return [
        held_kg[:, None] + np.einsum("ck,skj->scj", some, lift_m)
        for some in (ends.light, ends.heavy)
    ]


def _kept(problem: Problem, ends: Ends) -> Bools:
    """Whether the rules on deload and links, ratings and balance are kept, (s, c)."""
    allowed = problem.allowed[_doubled_rows(problem)][:, _columns(problem, ends)]
    return np.asarray(_rules_kept(allowed, ends) & ends.allowed)


def _columns(problem: Problem, ends: Ends) -> list[int]:
    """Kinds of the search in the order of the room's: both are of the same pieces."""
    found = {kind.pieces[0].kind: at for at, kind in enumerate(problem.kinds)}
    ordered = [kind.pairs[0].left.kind for kind in pair_kinds(problem.setup.stock.chains)]
    assert len(ordered) == ends.light.shape[1]  # noqa: S101 - one stock, one list of kinds
    return [found[kind] for kind in ordered]


def _rules_kept(allowed: Bools, ends: Ends) -> Bools:
    """Whether every kind that hangs keeps the rules on deload and links, (s, c)."""
    hangs = ends.light > 0
    return np.asarray(~np.any(hangs[None] & ~allowed[:, None], axis=2))


def _span(target: Target, missing_kg: Floats, tolerance_kg: float) -> tuple[Floats, Floats]:
    """Straight weights that leave a miss within tolerance: from, to [kg]."""
    if target.never_over:
        under = np.array(target.under_per_kg) * tolerance_kg
        return (missing_kg - under).max(axis=2), missing_kg.min(axis=2)
    return missing_kg.max(axis=2) - tolerance_kg, missing_kg.min(axis=2) + tolerance_kg


def _miss(target: Target, missing_kg: Floats) -> Floats:
    if target.never_over:
        over = np.any(missing_kg < -_HAIR_KG, axis=2)
        under = np.max(missing_kg / np.array(target.under_per_kg), axis=2)
        return np.where(over, np.inf, under)
    return np.asarray(np.abs(missing_kg).max(axis=2))


def _most_agreed(low_kg: Floats, high_kg: Floats, straight_kg: Floats) -> int:
    """Position of the straight weight that most of the hung chain agrees with.

    Where none will do, that of the chain which comes nearest.
    """
    fits = low_kg <= high_kg + _HAIR_KG
    if not np.any(fits):
        off = np.where(np.isfinite(low_kg), low_kg - high_kg, np.inf)
        at = np.unravel_index(int(np.argmin(off)), off.shape)
        middle = 0.5 * (low_kg[at] + high_kg[at])
        return int(np.argmin(np.abs(straight_kg - (middle if np.isfinite(middle) else 0.0))))
    begin = np.sort(low_kg[fits] - _HAIR_KG)
    end = np.sort(high_kg[fits] + _HAIR_KG)
    count = np.searchsorted(begin, straight_kg, side="right") - np.searchsorted(end, straight_kg)
    if count.max() == 0:
        at = np.unravel_index(int(np.argmax(np.where(fits, high_kg - low_kg, -1))), fits.shape)
        return int(np.argmin(np.abs(straight_kg - 0.5 * (low_kg[at] + high_kg[at]))))
    best = np.flatnonzero(count == count.max())
    return int(best[len(best) // 2])


def _ways(problem: Problem, chosen: int) -> tuple[Loading, ...]:
    """The loading of fewest plates, and others of the same weight from other plates."""
    first = problem.plates[chosen]
    room_m = problem.setup.bar.sleeve_m - problem.setup.collar_width_m
    room_m -= problem.limits.loop_width_m
    found = [first]
    owned = sorted(
        (p for p in problem.setup.stock.plates if p.count >= 2), key=lambda p: -p.mass_kg
    )
    for spared in [plate for plate, _ in first.per_side]:
        for most in range(dict(first.per_side)[spared]):
            other = _made_of(first.total_kg / 2, {p: p.count // 2 for p in owned} | {spared: most})
            if other and other.width_m <= room_m + _HAIR_KG and other not in found:
                found.append(other)
    return tuple(found[:_MOST_LOADINGS])


def _made_of(side_kg: float, counts: dict[Plate, int]) -> Loading | None:
    """Make a side of these plates, heaviest first; None where that does not come out."""
    left_kg, used = side_kg, []
    for plate, most in counts.items():
        number = min(most, int((left_kg + 1e-6) // plate.mass_kg))
        if number:
            used.append((plate, number))
            left_kg -= number * plate.mass_kg
    return Loading(per_side=tuple(used)) if abs(left_kg) < 1e-6 else None


def _worth_keeping(
    readings: list[_Reading], fixtures: tuple[Fixture, ...], counts: Ints
) -> list[tuple[int, int]]:
    """Fixture and pairs of what no other at a station beats: as many served, no more parts."""
    if not readings:
        return []
    serves = np.stack([reading.serves for reading in readings])  # (b, s, c)
    off = np.zeros(serves.shape[1:])
    for reading in readings:
        nearer = reading.miss_kg + reading.fold_kg[:, None]
        off += np.where(reading.serves, nearer, 0.0)
    groups: dict[tuple[str, str], list[tuple[int, int]]] = {}
    for s, c in zip(*np.nonzero(serves.any(axis=0)), strict=True):
        held = fixtures[s]
        names = (
            held.feeder.name if held.feeder else "",
            held.connector.name if held.connector else "",
        )
        groups.setdefault(names, []).append((int(s), int(c)))
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


def _offer(reading: _Reading, kept: dict[int, tuple[int, int]]) -> Offer:
    serves = reading.serves
    return Offer(
        straight_kg=reading.straight_kg,
        loadings=reading.loadings,
        miss_kg={at: float(reading.miss_kg[s, c]) for at, (s, c) in kept.items() if serves[s, c]},
        tolerance_kg=reading.tolerance_kg,
        nearest_kg=float(reading.miss_kg.min()),
    )
