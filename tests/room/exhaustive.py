"""Every plan of a small room, one after the other: for checking the planning, not for use."""

from __future__ import annotations

from itertools import permutations, product
from typing import TYPE_CHECKING

from topheavy.room.draft import Draft, capacities, lengths, made_whole, short_of
from topheavy.room.validate import breaches

if TYPE_CHECKING:
    from collections.abc import Iterator

    from topheavy.room.ask import Room
    from topheavy.room.offers import Offers


def least_cost(room: Room, offers: Offers) -> int | None:
    """Cost of the cheapest plan that breaks no rule; None when there is none."""
    best = None
    for groups in _groupings(list(range(len(room.bookings)))):
        for placed in product(*(list(_ways(room, offers, group)) for group in groups)):
            for order in permutations(zip(groups, placed, strict=True)):
                drafts = _timed(room, offers, order)
                if drafts is None:
                    continue
                plan = made_whole(room, offers, drafts)
                if (best is None or plan.cost < best) and not breaches(plan):
                    best = plan.cost
    return best


def _groupings(numbers: list[int]) -> Iterator[list[tuple[int, ...]]]:
    if not numbers:
        yield []
        return
    first, *rest = numbers
    for some in _groupings(rest):
        yield [(first,), *some]
        for at, group in enumerate(some):
            yield [*some[:at], (first, *group), *some[at + 1 :]]


def _ways(room: Room, offers: Offers, group: tuple[int, ...]) -> Iterator[tuple[str, int]]:
    for station in room.stations:
        serving = [set(offers.at[n, station.name].miss_kg) for n in group]
        for hung in sorted(set.intersection(*serving)):
            yield station.name, hung


def _timed(
    room: Room, offers: Offers, order: tuple[tuple[tuple[int, ...], tuple[str, int]], ...]
) -> list[Draft] | None:
    """Begin each group as early as can be, in this order; chain stays on where it can."""
    have = capacities(room, offers)
    drafts: list[Draft] = []
    for group, (station, hung) in order:
        before = [draft for draft in drafts if draft.station == station]
        last = before[-1] if before else None
        free = last.ends if last else 0
        long = lengths(room, group)
        arrives = max(room.bookings[n].arrives for n in group)
        stays = last is not None and last.hung == hung
        rig = 0 if stays else room.pace.rig_grains
        times = sorted({free, *(d.ends for d in drafts if d.ends > free)})
        for begins in times[: 1 if stays else None]:
            draft = Draft(
                station=station,
                hung=hung,
                bookings=group,
                ways=(0,) * len(group),
                begins=begins,
                ends=max(begins + rig, arrives) + long,
                fresh=not stays,
            )
            if draft.ends <= room.length and not short_of(room, offers, [*drafts, draft], have):
                drafts.append(draft)
                break
        else:
            return None
    return drafts
