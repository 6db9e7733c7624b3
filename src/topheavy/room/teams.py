"""Who could lift together on what, before any time of day: a strong start for planning.

Teams of lifters near each other in weight, each with a chain that serves all of them, are chosen so
that everyone is in one, few chains are hung, and station hours, chain and spotters suffice on the
whole. When each team lifts is left to the plan.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from itertools import combinations
from typing import TYPE_CHECKING, Any, Final

from topheavy.room.draft import Draft, capacities, hands_wanted, lengths, needs
from topheavy.room.plan import PER_CHANGE, PER_GRAIN, PER_STEP, STEP_KG

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from topheavy.room.ask import Room
    from topheavy.room.offers import Offers

_NEAR: Final = 1
"""A team is lifters next to each other in weight, so many skipped at most."""

_PACKED: Final = 110
"""Percent of the time of their use for which things must be there: use never packs perfectly."""

_MOST_HUNG: Final = 4
"""So many ways to hang are weighed for a team: those that serve most others, and the lightest."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Team:
    """Bookings that lift together, on a chain, at one of some stations that are alike."""

    stations: tuple[str, ...]
    hung: int
    bookings: tuple[int, ...]


def alike(room: Room, offers: Offers) -> list[tuple[str, ...]]:
    """Stations that offer the same to the same bookings, together."""
    groups: dict[tuple[tuple[int, int], ...], list[str]] = {}
    for station in room.stations:
        own = [
            (n, id(o)) for (n, name), o in offers.at.items() if name == station.name and o.miss_kg
        ]
        if own:
            groups.setdefault(tuple(sorted(own)), []).append(station.name)
    return [tuple(names) for names in groups.values()]


def all_teams(room: Room, offers: Offers) -> list[Team]:
    """List every team of neighbours in weight that one chain serves."""
    found: list[Team] = []
    for stations in alike(room, offers):
        at = {n: offer for (n, name), offer in offers.at.items() if name == stations[0]}
        serves = {
            hung: [n for n, offer in at.items() if hung in offer.miss_kg]
            for hung in {h for offer in at.values() for h in offer.miss_kg}
        }
        widest = sorted(serves, key=lambda h: (-len(serves[h]), sum(offers.hung[h].counts), h))
        lightest = sorted(serves, key=lambda h: (sum(offers.hung[h].counts), -len(serves[h]), h))
        times: Counter[tuple[int, ...]] = Counter()
        for hung in dict.fromkeys(h for both in zip(widest, lightest, strict=True) for h in both):
            served = sorted(serves[hung], key=lambda n: (at[n].straight_kg, n))
            for some in _neighbours(served, room.most_in_group):
                if times[some] < _MOST_HUNG and _can_meet(room, some):
                    times[some] += 1
                    found.append(Team(stations=stations, hung=hung, bookings=some))
    return found


def _neighbours(served: list[int], most: int) -> Iterator[tuple[int, ...]]:
    for begin, first in enumerate(served):
        for size in range(1, most + 1):
            later = served[begin + 1 : begin + size + _NEAR]
            for rest in combinations(later, size - 1):
                yield (first, *rest)


def _can_meet(room: Room, some: tuple[int, ...]) -> bool:
    names = {room.bookings[n].lifter.name for n in some}
    return len(names) == len(some) and hands_wanted(room, some) <= room.spotters


def teams_of(room: Room, offers: Offers, drafts: Sequence[Draft]) -> list[Team]:
    """Take the teams of a plan that is known."""
    groups = alike(room, offers)
    return [
        Team(
            stations=next(names for names in groups if draft.station in names),
            hung=draft.hung,
            bookings=draft.bookings,
        )
        for draft in drafts
    ]


def chosen_teams(
    room: Room, offers: Offers, library: Any, solver: Any, known: Sequence[Draft] = ()
) -> list[Team]:
    """Choose teams that cost least on the whole; empty when none was found in time.

    Parameters
    ----------
    room, offers : Room, Offers
        What is asked, and what serves whom.
    library : module
        CP-SAT.
    solver : CpSolver
        With how much work it may spend.
    known : sequence of Draft
        A plan to begin with.
    """
    standing = teams_of(room, offers, known)
    teams = [*standing, *(team for team in all_teams(room, offers) if team not in standing)]
    model = library.CpModel()
    taken = [model.new_bool_var("") for _ in teams]
    finish = model.new_int_var(0, room.length, "finish")
    long = [lengths(room, team.bookings) for team in teams]
    hung: dict[tuple[tuple[str, ...], int], Any] = {}
    by_hung: dict[tuple[Any, int], list[Any]] = {}
    having: dict[int, list[Any]] = {n: [] for n in range(len(room.bookings))}
    for team, var in zip(teams, taken, strict=True):
        key = (team.stations, team.hung)
        if key not in hung:
            hung[key] = model.new_bool_var("")
        for n in team.bookings:
            having[n].append(var)
            by_hung.setdefault((key, n), []).append(var)
    for some in having.values():
        model.add_exactly_one(some)
    for (key, _), some in by_hung.items():
        model.add(sum(some) <= hung[key])
    rig = room.pace.rig_grains
    for stations in {team.stations for team in teams}:
        own = sum(
            length * var
            for team, length, var in zip(teams, long, taken, strict=True)
            if team.stations == stations
        )
        rigs = sum(rig * var for (where, _), var in hung.items() if where == stations)
        model.add(own + rigs <= len(stations) * finish)
    _enough(room, offers, model, list(zip(teams, long, taken, strict=True)), finish)
    apart = sum(PER_STEP * _apart(offers, t) * v for t, v in zip(teams, taken, strict=True))
    model.minimize(PER_GRAIN * finish + PER_CHANGE * sum(hung.values()) + apart)
    if standing:
        _begin_with(model, standing, taken, hung)
        model.add_hint(finish, room.length)
    status = solver.solve(model)
    if status not in (library.OPTIMAL, library.FEASIBLE):
        return []
    return [team for team, var in zip(teams, taken, strict=True) if solver.value(var)]


def _begin_with(
    model: Any,
    standing: list[Team],
    taken: list[Any],
    hung: dict[tuple[tuple[str, ...], int], Any],
) -> None:
    """Begin with teams that are known, which come first."""
    for at, var in enumerate(taken):
        model.add_hint(var, at < len(standing))
    for key, var in hung.items():
        model.add_hint(var, any(key == (team.stations, team.hung) for team in standing))


def _enough(
    room: Room, offers: Offers, model: Any, teams: list[tuple[Team, int, Any]], finish: Any
) -> None:
    """Chain, feeders, connectors and spotters, over the whole time together."""
    used: dict[Any, list[Any]] = {}
    for team, length, var in teams:
        draft = Draft(
            station=team.stations[0],
            hung=team.hung,
            bookings=team.bookings,
            ways=tuple(0 for _ in team.bookings),
            begins=0,
            ends=length,
            fresh=True,
        )
        for part, count in needs(room, offers, draft).items():
            if count:
                used.setdefault(part, []).append(count * length * var)
    for part, have in capacities(room, offers).items():
        if part in used:
            model.add(_PACKED * sum(used[part]) <= 100 * have * finish)


def _apart(offers: Offers, team: Team) -> int:
    loads = [offers.at[n, team.stations[0]].straight_kg for n in team.bookings]
    return -int(-(max(loads) - min(loads)) // STEP_KG)
