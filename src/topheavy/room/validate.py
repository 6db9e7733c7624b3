"""Whether a plan keeps every rule, worked out anew from the gym and the mechanics alone.

Nothing of the planning is used here, so that a mistake there can't hide itself: parts are counted
at each moment, loads are read from the rig that would stand on the floor, and times from the turns
that would be lifted.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING, Final

import numpy as np

from topheavy.errors import NotInStockError, TopheavyError
from topheavy.mechanics.banded import Banded
from topheavy.mechanics.rig import End, Rig
from topheavy.room.pace import GRAIN_S
from topheavy.room.plan import turns
from topheavy.services.rig import target_of, tolerance_of

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from topheavy.gym.people import Station
    from topheavy.room.ask import Room
    from topheavy.room.plan import Group, Member, Plan
    from topheavy.services.rig import RigQuestion

_HAIR: Final = 1e-6


class BrokenPlanError(TopheavyError):
    """A plan that breaks a rule; it is never shown."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Breach:
    """A rule that a plan breaks: a name for programs, and what is wrong."""

    rule: str
    words: str


def breaches(plan: Plan) -> tuple[Breach, ...]:
    """List everything a plan breaks; nothing when all is well."""
    return (
        *_everyone_once(plan),
        *(one for group in plan.groups for one in _group(plan.room, group)),
        *_stations(plan),
        *_in_one_place(plan),
        *_pieces(plan),
        *_shared(plan),
        *_spotters(plan),
    )


def require_sound(plan: Plan) -> Plan:
    """Return a plan that keeps all rules.

    Raises
    ------
    BrokenPlanError
        It breaks one.
    """
    broken = breaches(plan)
    if broken:
        raise BrokenPlanError(
            "The plan breaks a rule and is not shown",
            field="plan",
            got="; ".join(one.words for one in broken[:5]),
            wanted="a report of this mistake, with the room file",
        )
    return plan


def _everyone_once(plan: Plan) -> Iterator[Breach]:
    times = Counter(member.booking for group in plan.groups for member in group.members)
    for number, booking in enumerate(plan.room.bookings):
        if times[number] != 1:
            yield Breach(rule="once", words=f"{booking.name}: planned {times[number]} times")


def _group(room: Room, group: Group) -> Iterator[Breach]:
    station = next(one for one in room.stations if one.name == group.station)
    if not 1 <= len(group.members) <= room.most_in_group:
        yield Breach(rule="size", words=f"{group.station}: {len(group.members)} in a group")
    if not 0 <= group.begins <= group.starts < group.ends <= room.length:
        yield Breach(rule="time", words=f"{group.station}: outside the session")
    if group.fresh and group.starts - group.begins < room.pace.rig_grains:
        yield Breach(rule="time", words=f"{group.station}: no time to hang the chain")
    yield from _turns(room, group)
    for member in group.members:
        yield from _member(room, group, member, station)
    yield from _hung(room, group)


def _turns(room: Room, group: Group) -> Iterator[Breach]:
    """Every set is lifted, one at a time, with its rest before the next of the same lifter."""
    all_turns = turns(room, group)
    for member in group.members:
        booking = room.bookings[member.booking]
        own = [turn.at for turn in all_turns if turn.booking == member.booking]
        if len(own) != booking.sets:
            yield Breach(rule="sets", words=f"{booking.name}: {len(own)} of {booking.sets} sets")
        lift_s = room.pace.ready_s + booking.reps * room.pace.rep_s
        for one, other in pairwise(own):
            if (other - one) * GRAIN_S < lift_s + booking.rest_s - _HAIR:
                yield Breach(rule="rest", words=f"{booking.name}: too short a rest")
    for turn, after in pairwise(all_turns):
        booking = room.bookings[turn.booking]
        turn_s = room.pace.plates_s + room.pace.ready_s + booking.reps * room.pace.rep_s
        if (after.at - turn.at) * GRAIN_S < turn_s - _HAIR:
            yield Breach(rule="turns", words=f"{group.station}: two turns at one time")
    last = all_turns[-1]
    booking = room.bookings[last.booking]
    end_s = room.pace.plates_s + room.pace.ready_s + booking.reps * room.pace.rep_s
    if last.at * GRAIN_S + end_s > group.ends * GRAIN_S + _HAIR:
        yield Breach(rule="turns", words=f"{group.station}: the last set ends too late")


def _member(room: Room, group: Group, member: Member, station: Station) -> Iterator[Breach]:
    booking = room.bookings[member.booking]
    if station.kind != booking.lift.station:
        yield Breach(rule="station", words=f"{booking.name}: on a {station.kind}")
    if booking.station and booking.station.casefold() != station.name.casefold():
        yield Breach(rule="locked", words=f"{booking.name}: not at {booking.station}")
    if booking.starts is not None and group.starts != booking.starts:
        yield Breach(rule="locked", words=f"{booking.name}: another start")
    if group.starts < booking.arrives or (booking.leaves or room.length) < group.ends:
        yield Breach(rule="there", words=f"{booking.name}: lifts when not there")
    yield from _load(room, group, member, station)


def _load(room: Room, group: Group, member: Member, station: Station) -> Iterator[Breach]:
    """The load on the bar is as wanted, within tolerance, and the chain lies as it must."""
    booking = room.bookings[member.booking]
    question = room.question(booking, station)
    target, setup = target_of(question), question.place.setup
    fixture = group.hung.fixture
    try:
        rig = Rig(
            bar_kg=setup.bar_kg,
            plates_kg=member.loading.total_kg,
            left=_end(room, group, station, question, "left"),
            right=_end(room, group, station, question, "right"),
        )
    except TopheavyError as error:
        yield Breach(rule="bands", words=f"{booking.name}: {error.message}")
        return
    curve = rig.curve(setup.ground)
    loads_kg = [float(curve.at(height_m)) for height_m in target.heights_m]
    wanted_kg = list(target.loads_kg)
    if target.mean_kg is not None:
        loads_kg.append(curve.mean(setup.travel.bottom_m, setup.travel.top_m))
        wanted_kg.append(target.mean_kg)
    if target.never_over:
        over = any(load > want + 1e-4 for load, want in zip(loads_kg, wanted_kg, strict=True))
        misses = [
            (want - load) / each
            for want, load, each in zip(wanted_kg, loads_kg, target.under_per_kg, strict=True)
        ]
        if over:
            yield Breach(rule="load", words=f"{booking.name}: more than wanted on the bar")
    else:
        misses = [abs(w - load) for w, load in zip(wanted_kg, loads_kg, strict=True)]
    if max(misses) > tolerance_of(question, target) + 1e-4:
        yield Breach(rule="load", words=f"{booking.name}: {max(misses):.2f} kg off")
    fold_m = setup.travel.bottom_m - setup.ground.surface_m - fixture.fold_m
    if target.full_deload and fold_m > _HAIR and group.pairs:
        yield Breach(rule="deload", words=f"{booking.name}: chain hangs at the bottom")
    yield from _balance(booking.name, rig, setup.travel.bottom_m, setup.travel.top_m, room)
    yield from _taut(room, group, station, question)
    yield from _links(room, group, member, station)
    loops = len(group.hung.bands) + bool(group.pairs)
    room_m = setup.bar.sleeve_m - setup.collar_width_m - loops * room.limits.loop_width_m
    if member.loading.width_m > room_m + _HAIR:
        yield Breach(rule="sleeve", words=f"{booking.name}: no room on the sleeve")


def _end(room: Room, group: Group, station: Station, question: RigQuestion, side: str) -> End:
    """One end as it would stand there: chain from its fixture, bands on the station's pegs."""
    travel = question.place.travel
    bands = []
    for pair in group.hung.bands:
        peg = next((one for one in station.pegs if one.name == pair.peg), None)
        if peg is None:
            raise NotInStockError(f"no peg {pair.peg} at {station.name}")
        bands.append(
            Banded(
                band=room.gym.stock.band(getattr(pair, side)).fit(),
                peg=peg.peg,
                travel_m=(travel.bottom_m, travel.top_m),
                second=peg.peg if pair.doubled else None,
            )
        )
    chains = [getattr(pair, side).chain for pair in group.pairs]
    return End(group.hung.fixture.hangs(chains), bands=tuple(bands))


def _balance(name: str, rig: Rig, bottom_m: float, top_m: float, room: Room) -> Iterator[Breach]:
    """Bands pull alike over the whole lift, and with chain the ends agree at the top."""
    most_kg = room.limits.most_imbalance_kg + 1e-4
    heights_m = np.linspace(bottom_m, top_m, 25)
    left, right = (end.band_curve().at(heights_m) for end in (rig.left, rig.right))
    if float(np.max(np.abs(left - right))) > most_kg:
        yield Breach(rule="balance", words=f"{name}: the bands pull unalike")
    ends = [end.mass_kg + float(end.band_curve().at(top_m)) for end in (rig.left, rig.right)]
    if abs(ends[0] - ends[1]) > most_kg:
        yield Breach(rule="balance", words=f"{name}: one end pulls more than the other")


def _taut(room: Room, group: Group, station: Station, question: RigQuestion) -> Iterator[Breach]:
    """No band is slack anywhere in the lift: it would slip off its peg."""
    travel = question.place.travel
    heights_m = np.linspace(travel.bottom_m, travel.top_m, 25)
    for pair in group.hung.bands:
        peg = next(one.peg for one in station.pegs if one.name == pair.peg)
        for tag in (pair.left, pair.right):
            strand_m = np.hypot(heights_m - peg.height_m, peg.offset_m)
            length_m = float(np.min(strand_m)) * (2 if pair.doubled else 1)
            if length_m < room.gym.stock.band(tag).rest_m - 1e-6:
                yield Breach(rule="bands", words=f"{group.station}: {tag} hangs slack")


def _links(room: Room, group: Group, member: Member, station: Station) -> Iterator[Breach]:
    """Links of each lowest strand that lie at lockout: enough, or none where none may."""
    booking = room.bookings[member.booking]
    setup, rules = room.question(booking, station).place.setup, booking.rules
    for pair in group.pairs:
        strands = group.hung.fixture.strands_of(pair.left.chain)
        lowest = max(strands, key=lambda strand: strand.offset_m + strand.length_m)
        top_m = setup.travel.top_m - setup.ground.surface_m
        lying_m = lowest.offset_m + lowest.length_m - top_m
        wanted = 0 if booking.effort is not None else rules.links_down or 0
        if wanted and lying_m / pair.left.chain.pitch_m < wanted - 1e-5:
            yield Breach(rule="links", words=f"{booking.name}: too few links lie at lockout")


def _hung(room: Room, group: Group) -> Iterator[Breach]:
    """Pieces are fit, in matched pairs, rated for; both ends balance."""
    stock = room.gym.stock
    fit = {piece.tag for piece in stock.fit_chains} | {band.tag for band in stock.fit_bands}
    fit -= set(room.broken)
    for tag in (*group.tags, *group.hung.band_tags):
        if tag not in fit:
            yield Breach(rule="fit", words=f"{group.station}: {tag} must not be hung")
    for pair in group.pairs:
        if pair.left.kind != pair.right.kind:
            yield Breach(rule="pair", words=f"{group.station}: {' and '.join(pair.tags)} differ")
    lean_kg = sum(pair.left.chain.mass_kg - pair.right.chain.mass_kg for pair in group.pairs)
    if abs(lean_kg) > room.limits.most_imbalance_kg + _HAIR:
        yield Breach(
            rule="balance", words=f"{group.station}: one end {abs(lean_kg):.2f} kg heavier"
        )
    yield from _held(room, group)


def _held(room: Room, group: Group) -> Iterator[Breach]:
    """Only ways to hang that are allowed, and parts rated for what hangs from them."""
    if len(group.hung.bands) > room.limits.most_bands:
        yield Breach(rule="bands", words=f"{group.station}: more bands than are allowed")
    held = group.hung.fixture
    if group.pairs and held.style not in room.limits.styles:
        yield Breach(rule="hang", words=f"{group.station}: chain may not hang {held.style}")
    if not group.pairs or held.style != "doubled":
        return
    for part in (held.feeder, held.connector):
        end_kg = max(
            sum(pair.left.chain.mass_kg for pair in group.pairs),
            sum(pair.right.chain.mass_kg for pair in group.pairs),
        )
        rating_kg = part.rating_kg if part is not None else None
        if rating_kg is None or rating_kg < room.limits.design_factor * end_kg - _HAIR:
            yield Breach(
                rule="rating", words=f"{group.station}: more chain than a part is rated for"
            )


def _stations(plan: Plan) -> Iterator[Breach]:
    """Groups of a station follow each other, and chain hangs on only where it truly does."""
    for station in plan.room.stations:
        own = plan.at(station.name)
        for one, other in pairwise(own):
            if other.begins < one.ends:
                yield Breach(rule="station", words=f"{station.name}: two groups at one time")
            same = _as_it_hangs(one) == _as_it_hangs(other)
            if not other.fresh and not (same and other.begins == one.ends):
                yield Breach(rule="fresh", words=f"{station.name}: chain was never hung")
        if own and not own[0].fresh:
            yield Breach(rule="fresh", words=f"{station.name}: chain was never hung")


def _as_it_hangs(group: Group) -> tuple[object, ...]:
    return group.hung.style, group.hung.setting, group.tags, group.hung.bands


def _in_one_place(plan: Plan) -> Iterator[Breach]:
    """Nobody lifts in two groups at once, or without time between."""
    gap = plan.room.pace.between_lifts_s / GRAIN_S
    spans: dict[str, list[tuple[int, int]]] = {}
    for group in plan.groups:
        for member in group.members:
            name = plan.room.bookings[member.booking].lifter.name
            spans.setdefault(name, []).append((group.starts, group.ends))
    for name, some in spans.items():
        for (_, end), (start, _) in pairwise(sorted(some)):
            if start < end + gap - _HAIR:
                yield Breach(rule="two lifts", words=f"{name}: no time between two lifts")


def _moments(groups: Iterable[Group]) -> Iterator[list[Group]]:
    """Groups that have their station at the same time, for each time a group begins."""
    some = list(groups)
    for at in sorted({group.begins for group in some}):
        yield [group for group in some if group.begins <= at < group.ends]


def _pieces(plan: Plan) -> Iterator[Breach]:
    for now in _moments(plan.groups):
        for tag, times in Counter(
            tag for group in now for tag in (*group.tags, *group.hung.band_tags)
        ).items():
            if times > 1:
                yield Breach(rule="piece", words=f"{tag} is in two places at once")


def _shared(plan: Plan) -> Iterator[Breach]:
    """Feeders, connectors, collars and plates: never more in use than there are."""
    stock = plan.room.gym.stock
    plates: Counter[float] = Counter()
    for plate in stock.plates:
        plates[plate.mass_kg] += plate.count // 2
    collars = next((one.count // 2 for one in stock.collars if one.count >= 2), None)
    for now in _moments(plan.groups):
        feeders = Counter(group.hung.setting[0] for group in now)
        connectors = Counter(group.hung.setting[2] for group in now)
        for name, count in [(one.name, one.count) for one in stock.feeders]:
            if 2 * feeders[name] > count:
                yield Breach(rule="feeder", words=f"not enough of {name}")
        for name, count in [(one.name, one.count) for one in stock.connectors]:
            if 2 * connectors[name] > count:
                yield Breach(rule="connector", words=f"not enough of {name}")
        if collars is not None and len(now) > collars:
            yield Breach(rule="collars", words="not enough collars")
        for mass_kg, pairs in _plates_lying(now).items():
            if pairs > plates[mass_kg]:
                yield Breach(rule="plates", words=f"not enough plates of {mass_kg:g} kg")


def _plates_lying(now: list[Group]) -> Counter[float]:
    """Pairs of each size that groups keep at their stations: as many as any of theirs needs."""
    lying: Counter[float] = Counter()
    for group in now:
        most: dict[float, int] = {}
        for member in group.members:
            for plate, count in member.loading.per_side:
                most[plate.mass_kg] = max(most.get(plate.mass_kg, 0), count)
        lying.update(most)
    return lying


def _spotters(plan: Plan) -> Iterator[Breach]:
    """At every set there are enough to spot: of the group, and of those who only spot."""
    for now in _moments(plan.groups):
        wanted = 0
        for group in now:
            some = [plan.room.bookings[member.booking] for member in group.members]
            need = 0
            for lifting in some:
                resting = sum(one.may_spot for one in some if one is not lifting)
                need = max(need, lifting.hands - resting)
            wanted += max(0, need)
        if wanted > plan.room.spotters:
            yield Breach(rule="spotters", words=f"{wanted} spotters wanted at one time")
