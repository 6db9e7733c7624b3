"""The plan as a problem of whole numbers for CP-SAT.

Each station has a few places for groups, one after the other. A group has its lifters, one hung
chain that serves them all, and a stretch of time; what stations share is never taken more often
than it is there. Costs are those of `topheavy.room.plan`, so that the solver's bound is a bound on
what any plan can cost.
"""

from __future__ import annotations

import math
from collections import Counter
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any, Final

from topheavy.room.draft import Draft
from topheavy.room.model_parts import Place, SharedParts, Slack
from topheavy.room.plan import (
    PER_CHANGE,
    PER_GRAIN,
    PER_GRAIN_SHIFT,
    PER_MOVE,
    PER_STEP,
    STEP_KG,
    Former,
    key_of,
)

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from topheavy.room.ask import Room
    from topheavy.room.offers import Offers

_MOST_PLACES: Final = 4
_FINE: Final = 100
"""Weights are compared in hundredths of a kilogram."""


@dataclass(slots=True, eq=False)
class RoomModel:
    """A model and the variables that make a plan of its solution."""

    room: Room
    offers: Offers
    model: Any
    places: list[Place]
    ways: dict[tuple[int, str], list[Any]]
    finish: Any
    cost: Any
    extra: Any = None
    left_out: dict[int, Any] = field(default_factory=dict)

    def drafts(self, value: Callable[[Any], int]) -> tuple[Draft, ...]:
        """Read a solution; `value` gives the value of a variable."""
        found = []
        for place in self.places:
            if not value(place.used):
                continue
            who = tuple(n for n, var in place.who.items() if value(var))
            found.append(
                Draft(
                    station=place.station,
                    hung=next(h for h, var in place.hung.items() if value(var)),
                    bookings=who,
                    ways=tuple(self._way(n, place.station, value) for n in who),
                    begins=value(place.begins),
                    ends=value(place.ends),
                    fresh=bool(value(place.fresh)),
                )
            )
        return tuple(found)

    def _way(self, number: int, station: str, value: Callable[[Any], int]) -> int:
        ways = self.ways.get((number, station))
        return 0 if ways is None else next(at for at, var in enumerate(ways) if value(var))

    def hint(self, drafts: Sequence[Draft]) -> None:
        """Begin with a plan that is known."""
        by_station: dict[str, list[Draft]] = {}
        for known in sorted(drafts, key=lambda d: d.begins):
            by_station.setdefault(known.station, []).append(known)
        add = self.model.add_hint
        for place in self.places:
            some = by_station.get(place.station, [])
            draft: Draft | None = some.pop(0) if some else None
            bookings = draft.bookings if draft else ()
            add(place.used, int(draft is not None))
            for number, var in place.who.items():
                add(var, int(number in bookings))
            for hung, var in place.hung.items():
                add(var, int(draft is not None and hung == draft.hung))
            if draft is not None:
                add(place.begins, draft.begins)
                add(place.ends, draft.ends)
                add(place.fresh, int(draft.fresh))
        add(self.finish, max(d.ends for d in drafts))


def places_each(room: Room, station: str) -> int:
    """Say how many groups one after the other a station has at most in a plan."""
    some = [b for b in room.bookings if station in {s.name for s in room.stations_for(b)}]
    alike = {s.name for b in some for s in room.stations_for(b)}
    if len(room.bookings) <= 6:
        return len(some)
    spread = math.ceil(2 * len(some) / (max(1, len(alike)) * room.most_in_group)) + 1
    return min(len(some), max(_MOST_PLACES, spread))


def build(
    room: Room, offers: Offers, former: Former | None = None, slack: Slack | None = None
) -> RoomModel:
    """Write the model.

    Parameters
    ----------
    room : Room
        What is asked.
    offers : Offers
        What serves whom.
    former : mapping, optional
        A plan to stay near to.
    slack : Slack, optional
        What may be stretched; the plan then costs only that.
    """
    return _Writer(room, offers, slack or Slack()).write(former or {})


class _Writer(SharedParts):
    """Writes the constraints of a room, one kind after the other."""

    def __init__(self, room: Room, offers: Offers, slack: Slack) -> None:
        super().__init__(room, offers, slack)
        self.works = [room.work(booking) for booking in room.bookings]
        total = sum(w.sets * max(w.turn, w.cycle) for w in self.works)
        rigs = room.pace.rig_grains * len(room.bookings)
        latest = max([b.arrives + room.pace.between_grains for b in room.bookings])
        self.horizon = room.length + total + rigs + latest if slack.time else room.length
        self._apart_sets: dict[str, list[list[int]]] = {}

    def write(self, former: Former) -> RoomModel:
        """Write everything."""
        self.exact_starts = bool(former) or any(b.starts is not None for b in self.room.bookings)
        finish = self.model.new_int_var(0, self.horizon, "finish")
        for station in self.room.stations:
            self._station(station.name, finish)
        left_out = self._everyone_once()
        self._lifters_in_one_place()
        extra = self.enough_of_everything()
        self._bounds(finish)
        if not self.slack.leave_out:
            self._days(finish)
        cost = PER_GRAIN * finish + sum(PER_CHANGE * place.fresh for place in self.places)
        cost += sum(self._apart(place) for place in self.places) + self._disturbance(former)
        if self.slack.part:
            cost = extra
        elif self.slack.leave_out:
            cost = sum(left_out.values())
        elif self.slack.time:
            cost = finish
        self.model.minimize(cost)
        return RoomModel(
            room=self.room,
            offers=self.offers,
            model=self.model,
            places=self.places,
            ways=self.ways,
            finish=finish,
            cost=cost,
            extra=extra,
            left_out=left_out,
        )

    def _station(self, station: str, finish: Any) -> None:
        """Places of one station, in order; chain is hung anew or still hangs."""
        model = self.model
        who = [n for n in range(len(self.works)) if (n, station) in self.offers.at]
        who = [n for n in who if self.offers.at[n, station].miss_kg]
        hung = sorted({h for n in who for h in self.offers.at[n, station].miss_kg})
        before: Place | None = None
        for _ in range(places_each(self.room, station) if who else 0):
            place = self._place(station, who, hung)
            model.add(finish >= place.ends)
            if before is None:
                model.add(place.fresh == place.used)
            else:
                model.add_implication(place.used, before.used)
                model.add(place.begins >= before.ends)
                model.add(place.fresh <= place.used)
                for h, var in place.hung.items():
                    model.add(place.fresh >= var - before.hung[h])
                model.add(place.begins == before.ends).only_enforce_if(
                    place.used, place.fresh.negated()
                )
            self.places.append(place)
            before = place

    def _place(self, station: str, who: list[int], hung: list[int]) -> Place:
        model, room = self.model, self.room
        at = f"{station} {len(self.places)}"
        used = model.new_bool_var(f"used {at}")
        place = Place(
            station=station,
            used=used,
            who={n: model.new_bool_var(f"who {n} {at}") for n in who},
            hung={h: model.new_bool_var(f"hung {h} {at}") for h in hung},
            begins=model.new_int_var(0, self.horizon, f"begins {at}"),
            ends=model.new_int_var(0, self.horizon, f"ends {at}"),
            fresh=model.new_bool_var(f"fresh {at}"),
            long=self._long(at, who),
            interval=None,
        )
        size = model.new_int_var(0, self.horizon, f"size {at}")
        place.interval = model.new_optional_interval_var(
            place.begins, size, place.ends, used, f"interval {at}"
        )
        number = sum(place.who.values())
        model.add(number >= used)
        model.add(number <= room.most_in_group * used)
        model.add_at_most_one(place.hung.values())
        model.add(sum(place.hung.values()) == used)
        for n, var in place.who.items():
            serves = [place.hung[h] for h in self.offers.at[n, station].miss_kg]
            model.add(var <= sum(serves))
        for some in self._strangers(station, who):
            model.add_at_most_one(place.who[n] for n in some)
        self._long_enough(place, used)
        model.add(size >= place.long + room.pace.rig_grains * place.fresh).only_enforce_if(used)
        for n, var in place.who.items():
            self._when_there(place, n, var)
        return place

    def _strangers(self, station: str, who: list[int]) -> list[list[int]]:
        """Sets of bookings of which no two are served by one chain: never in one group.

        Greedy, so that every such two are together in one of the sets.
        """
        if station not in self._apart_sets:
            serves = {n: set(self.offers.at[n, station].miss_kg) for n in who}
            open_pairs = {(a, b) for a in who for b in who if a < b and not serves[a] & serves[b]}
            strange = open_pairs | {(b, a) for a, b in open_pairs}
            found = []
            while open_pairs:
                some = list(min(open_pairs))
                for n in who:
                    if n not in some and all((n, m) in strange for m in some):
                        some.append(n)
                found.append(some)
                open_pairs -= {(a, b) for a in some for b in some}
            self._apart_sets[station] = found
        return self._apart_sets[station]

    def _long(self, at: str, who: list[int]) -> Any:
        """Length of the rounds: a step for each number of sets that anyone has."""
        steps = sorted({self.works[n].sets for n in who})
        self._rounds = [
            (
                steps[i] - (steps[i - 1] if i else 0),
                steps[i],
                self.model.new_int_var(0, self.horizon, f"round {steps[i]} {at}"),
            )
            for i in range(len(steps))
        ]
        long = self.model.new_int_var(0, self.horizon, f"long {at}")
        self.model.add(long == sum(times * var for times, _, var in self._rounds))
        return long

    def _long_enough(self, place: Place, used: Any) -> None:
        """A round takes all turns, or the longest set with its rest.

        A longer round would do no harm, unless somebody wants to know just when it starts.
        """
        model = self.model
        for _, sets, length in self._rounds:
            on = [n for n in place.who if self.works[n].sets >= sets]
            turns = sum(self.works[n].turn * place.who[n] for n in on)
            cycles = [self.works[n].cycle * place.who[n] for n in on]
            most = self.room.most_in_group * max((self.works[n].turn for n in on), default=0)
            upper = max([most, *(self.works[n].cycle for n in on)])
            model.add(length <= upper * used)
            model.add(length >= turns)
            for cycle in cycles:
                model.add(length >= cycle)
            if self.exact_starts:
                all_turns = model.new_int_var(0, sum(self.works[n].turn for n in on), "")
                model.add(all_turns == turns)
                model.add_max_equality(length, [all_turns, *cycles])

    def _when_there(self, place: Place, n: int, var: Any) -> None:
        booking, model = self.room.bookings[n], self.model
        if booking.arrives:
            model.add(place.ends - place.long >= booking.arrives).only_enforce_if(var)
        if booking.leaves is not None:
            model.add(place.ends <= booking.leaves).only_enforce_if(var)
        if booking.starts is not None:
            model.add(place.ends - place.long == booking.starts).only_enforce_if(var)

    def _everyone_once(self) -> dict[int, Any]:
        left_out = {}
        for n in range(len(self.works)):
            somewhere = [place.who[n] for place in self.places if n in place.who]
            if self.slack.leave_out:
                left_out[n] = self.model.new_bool_var(f"left out {n}")
                somewhere.append(left_out[n])
            self.model.add_exactly_one(somewhere)
        return left_out

    def _lifters_in_one_place(self) -> None:
        """A lifter with several lifts does one after the other, with time between."""
        names = Counter(booking.lifter.name for booking in self.room.bookings)
        gap = self.room.pace.between_grains
        for name, count in names.items():
            if count < 2:
                continue
            intervals = []
            for place in self.places:
                own = [v for n, v in place.who.items() if self.room.bookings[n].lifter.name == name]
                for var in own:
                    size = self.model.new_int_var(0, self.horizon + gap, "")
                    self.model.add(size == place.long + gap)
                    start = self.model.new_int_var(-self.horizon, self.horizon, "")
                    self.model.add(start == place.ends - place.long)
                    intervals.append(
                        self.model.new_optional_interval_var(start, size, place.ends + gap, var, "")
                    )
            self.model.add_no_overlap(intervals)

    def _apart(self, place: Place) -> Any:
        """Steps of weight between the lightest and the heaviest bar of a group, as costs count."""
        at = self.offers.at
        plates = {n: round(at[n, place.station].loadings[0].total_kg * _FINE) for n in place.who}
        most = max(plates.values())
        low, high = (self.model.new_int_var(0, most, "") for _ in range(2))
        step = round(STEP_KG * _FINE)
        apart = self.model.new_int_var(0, math.ceil(most / step), "")
        for n, var in place.who.items():
            self.model.add(high >= plates[n] * var)
            self.model.add(low <= most + (plates[n] - most) * var)
        self.model.add(step * apart >= high - low)
        return PER_STEP * apart

    def _bounds(self, finish: Any) -> None:
        """Say what follows from the rest, so that the solver sees its bound at once."""
        sorts: dict[str, list[Place]] = {}
        kind_of = {station.name: station.kind for station in self.room.stations}
        for place in self.places:
            sorts.setdefault(kind_of[place.station], []).append(place)
        for some in sorts.values():
            stations = {place.station for place in some}
            rigs = self.room.pace.rig_grains * sum(place.fresh for place in some)
            self.model.add(len(stations) * finish >= rigs + sum(place.long for place in some))
            for station in stations:
                own = [place for place in some if place.station == station]
                rigs = self.room.pace.rig_grains * sum(place.fresh for place in own)
                self.model.add(finish >= rigs + sum(place.long for place in own))
            if not self.slack.leave_out:
                self.model.add(sum(place.fresh for place in some) >= self._fewest_rigs(some))

    def _days(self, finish: Any) -> None:
        """Nobody has done before all the lifts of the day, one after the other, with time between.

        Whoever lifts first anywhere has waited for chain to be hung.
        """
        bookings, pace = self.room.bookings, self.room.pace
        least = [work.sets * max(work.turn, work.cycle) for work in self.works]
        for name in {booking.lifter.name for booking in bookings}:
            own = [n for n, booking in enumerate(bookings) if booking.lifter.name == name]
            comes = max(pace.rig_grains, min(bookings[n].arrives for n in own))
            gaps = (len(own) - 1) * pace.between_grains
            self.model.add(finish >= comes + gaps + sum(least[n] for n in own))

    def _fewest_rigs(self, places: list[Place]) -> int:
        """So many different chains must be hung at least to serve all who lift at these places.

        Fewest ways to hang, whatever else: a cover of the bookings, proven by the same solver.
        """
        at = self.offers.at
        stations = dict.fromkeys(place.station for place in places)
        who = dict.fromkeys(n for place in places for n in place.who)
        hung = {
            (station, h)
            for (n, station), offer in at.items()
            if station in stations
            for h in offer.miss_kg
        }
        model = self.library.CpModel()
        taken = {one: model.new_bool_var(f"{one}") for one in sorted(hung)}
        for n in who:
            model.add_bool_or(
                taken[station, h]
                for station in stations
                if (n, station) in at
                for h in at[n, station].miss_kg
            )
        model.minimize(sum(taken.values()))
        solver = self.library.CpSolver()
        solver.parameters.num_workers = 1
        solver.parameters.random_seed = 1
        solver.parameters.max_deterministic_time = 0.5
        solver.solve(model)
        bound: float = solver.best_objective_bound
        return math.ceil(bound - 1e-6)

    def _disturbance(self, former: Former) -> Any:
        """What it costs to differ from a former plan."""
        total: Any = 0
        for n, booking in enumerate(self.room.bookings):
            was = former.get(key_of(booking))
            if was is None:
                continue
            shift = self.model.new_int_var(0, self.horizon, "")
            for place in self.places:
                if n not in place.who:
                    continue
                var = place.who[n]
                total += PER_MOVE * var if place.station != was[0] else 0
                starts = place.ends - place.long
                self.model.add(shift >= starts - was[1]).only_enforce_if(var)
                self.model.add(shift >= was[1] - starts).only_enforce_if(var)
            total += PER_GRAIN_SHIFT * shift
        return total
