"""A plan in the rough: groups by number, what each needs, and whether there is enough at a time."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from typing import TYPE_CHECKING

from topheavy.errors import NotInStockError
from topheavy.room.pace import round_lengths
from topheavy.room.plan import Group, Member, Plan, in_good_order

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from topheavy.rigging.plates import Loading
    from topheavy.room.ask import Room
    from topheavy.room.hung import Pair
    from topheavy.room.offers import Offers

Part = tuple[str, str]
"""A sort of thing that stations share, and its name."""

COLLARS, HANDS = ("collars", ""), ("spotters", "")


@dataclass(frozen=True, slots=True, kw_only=True)
class Draft:
    """One group in the rough.

    Parameters
    ----------
    station : str
        Where.
    hung : int
        Position in the offers.
    bookings : tuple of int
        Who.
    ways : tuple of int
        For each, which of the loadings of its offer.
    begins, ends : int
        In grains.
    fresh : bool
        Whether chain is hung for it.
    """

    station: str
    hung: int
    bookings: tuple[int, ...]
    ways: tuple[int, ...]
    begins: int
    ends: int
    fresh: bool


def capacities(room: Room, offers: Offers) -> dict[Part, int]:
    """Count what stations share: chain, feeders and connectors in pairs, bands, collars, people."""
    stock = room.in_use.stock
    found: dict[Part, int] = {("chain", kind.name): len(kind.pairs) for kind in offers.kinds}
    found |= {("feeder", one.name): one.count // 2 for one in stock.feeders}
    found |= {("connector", one.name): one.count // 2 for one in stock.connectors}
    found |= {("band", one.tag): 1 for one in stock.fit_bands}
    sets = next((collar.count // 2 for collar in stock.collars if collar.count >= 2), None)
    if sets is not None:
        found[COLLARS] = sets
    plates: Counter[Part] = Counter()
    for plate in stock.plates:
        plates[plate_part(plate.mass_kg)] += plate.count // 2
    return {**found, **plates, HANDS: room.spotters}


def plate_part(mass_kg: float) -> Part:
    """Name a size of plate, of `mass_kg` [kg]."""
    return "plates", f"{mass_kg:.6g} kg"


def parts_hung(offers: Offers, hung: int) -> dict[Part, int]:
    """What one hung chain takes."""
    one = offers.hung[hung]
    feeder, _, connector = one.setting
    parts: dict[Part, int] = {("feeder", feeder): 1, ("connector", connector): 1} if feeder else {}
    parts |= {("band", tag): 1 for tag in one.band_tags}
    for kind, count in zip(offers.kinds, one.counts, strict=True):
        if count:
            parts["chain", kind.name] = count
    return parts


def plates_on(loading: Loading) -> dict[Part, int]:
    """Pairs of plates of a loading, by size."""
    found: Counter[Part] = Counter()
    for plate, count in loading.per_side:
        found[plate_part(plate.mass_kg)] += count
    return dict(found)


def hands_wanted(room: Room, bookings: Iterable[int]) -> int:
    """People a group needs who are not of it: those who rest spot where they may."""
    some = [room.bookings[number] for number in bookings]
    spots = sum(one.may_spot for one in some)
    return max((one.hands - (spots - one.may_spot) for one in some), default=0)


def needs(room: Room, offers: Offers, draft: Draft) -> dict[Part, int]:
    """Everything a group takes from what stations share, for as long as it has its station."""
    found = {**parts_hung(offers, draft.hung), COLLARS: 1}
    found[HANDS] = max(0, hands_wanted(room, draft.bookings))
    for number, way in zip(draft.bookings, draft.ways, strict=True):
        for part, count in plates_on(offers.at[number, draft.station].loadings[way]).items():
            found[part] = max(found.get(part, 0), count)
    return found


def lengths(room: Room, bookings: Sequence[int]) -> int:
    """How long a group lifts, in grains."""
    return sum(round_lengths([room.work(room.bookings[number]) for number in bookings]))


def short_of(
    room: Room, offers: Offers, drafts: Sequence[Draft], have: Mapping[Part, int]
) -> dict[Part, int]:
    """What is missing at the worst moment, by part."""
    wanted = [(draft, needs(room, offers, draft)) for draft in drafts]
    missing: dict[Part, int] = {}
    for at in {draft.begins for draft in drafts}:
        now: Counter[Part] = Counter()
        for draft, parts in wanted:
            if draft.begins <= at < draft.ends:
                now.update(parts)
        for part, count in now.items():
            over = count - have.get(part, count)
            if over > 0:
                missing[part] = max(missing.get(part, 0), over)
    return missing


def made_whole(room: Room, offers: Offers, drafts: Sequence[Draft]) -> Plan:
    """Say which pairs go where, and in which order each group lifts.

    Pairs stay where they hang until other chain is hung there. Groups that run on without a change
    are one stretch; stretches take free pairs in the order they begin, which always comes out when
    there are enough at any time.
    """
    free: dict[str, list[Pair]] = {kind.name: list(kind.pairs) for kind in offers.kinds}
    hanging: dict[str, Group] = {}
    groups: list[Group] = []
    ordered = sorted(drafts, key=lambda draft: (draft.begins, draft.ends))
    for draft in ordered:
        if draft.fresh:
            for station, last in list(hanging.items()):
                if last.ends <= draft.begins and not _runs_on(ordered, last):
                    _give_back(offers, free, hanging.pop(station).pairs)
        pairs = _take(offers, free, draft.hung) if draft.fresh else hanging[draft.station].pairs
        hanging[draft.station] = _group(room, offers, draft, pairs)
        groups.append(hanging[draft.station])
    order = {station.name: number for number, station in enumerate(room.stations)}
    groups.sort(key=lambda group: (order[group.station], group.begins))
    return Plan(room=room, groups=tuple(groups))


def _runs_on(drafts: Sequence[Draft], last: Group) -> bool:
    """Whether a group carries on with the same chain right after another."""
    return any(
        draft.station == last.station and draft.begins == last.ends and not draft.fresh
        for draft in drafts
    )


def _take(offers: Offers, free: dict[str, list[Pair]], hung: int) -> tuple[Pair, ...]:
    found: list[Pair] = []
    for kind, count in zip(offers.kinds, offers.hung[hung].counts, strict=True):
        if len(free[kind.name]) < count:
            raise NotInStockError(
                f"Not enough pairs of {kind.name} at one time", field="stock.chain"
            )
        found += [free[kind.name].pop(0) for _ in range(count)]
    return tuple(found)


def _give_back(offers: Offers, free: dict[str, list[Pair]], pairs: tuple[Pair, ...]) -> None:
    for kind in offers.kinds:
        free[kind.name] = sorted(
            [*free[kind.name], *(pair for pair in pairs if pair in kind.pairs)],
            key=kind.pairs.index,
        )


def _group(room: Room, offers: Offers, draft: Draft, pairs: tuple[Pair, ...]) -> Group:
    members = [
        Member(booking=number, loading=offers.at[number, draft.station].loadings[way])
        for number, way in zip(draft.bookings, draft.ways, strict=True)
    ]
    return Group(
        station=draft.station,
        hung=offers.hung[draft.hung],
        pairs=pairs,
        members=in_good_order(room, members),
        begins=draft.begins,
        starts=draft.ends - lengths(room, draft.bookings),
        ends=draft.ends,
        fresh=draft.fresh,
    )
