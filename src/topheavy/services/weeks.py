"""A block of weeks for a lifter or a group, each on their own numbers and with the gym's rigs."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from topheavy.errors import NotInStockError, TopheavyError
from topheavy.gym.lifts import lift_named
from topheavy.mechanics.curve import LoadCurve
from topheavy.phrase import Amount, Phrase, Remark, literal
from topheavy.services.cautions import cautions_when_testing
from topheavy.services.rig import Place
from topheavy.services.strength import strength_of
from topheavy.services.top_set import Strong, effort_under
from topheavy.services.weeks_rigs import Found, RigBook, share_made, straight_wanted_kg
from topheavy.training.bases import chain_share
from topheavy.training.days import DAYS
from topheavy.training.scheme import ATTEMPTS
from topheavy.training.session import Plan, plan_session
from topheavy.training.weeks import WEEKDAYS
from topheavy.training.weeks_checks import check_weeks, merged
from topheavy.training.weeks_planned import Flag, Planned, numbers_of
from topheavy.training.weeks_slots import TEST, slots_of

if TYPE_CHECKING:
    from collections.abc import Sequence

    from topheavy.gym.gym import Gym
    from topheavy.rigging.built import BuiltRig
    from topheavy.rigging.plates import Loading
    from topheavy.services.cautions import Caution
    from topheavy.services.weeks_rigs import Hanger
    from topheavy.training.bases import Loads
    from topheavy.training.session import Session
    from topheavy.training.weeks import Block, Change
    from topheavy.training.weeks_planned import WeekNumbers
    from topheavy.training.weeks_slots import Slot

_HAIR_KG = 5e-4


@dataclass(frozen=True, slots=True, kw_only=True)
class WeeksQuestion:
    """A question for a block of weeks.

    Parameters
    ----------
    gym : Gym
        Stock, stations, lifters.
    block : Block
        As planned.
    lifter : str
        Only of this lifter; empty for everybody. Each has their own numbers, so the others
        change nothing.
    """

    gym: Gym
    block: Block
    lifter: str = ""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Laid:
    """A session with its rig.

    Parameters
    ----------
    planned : Planned
        Its loads and what they mean.
    place : Place
        Who, what and where.
    built : BuiltRig or None
        What hangs, with the plates of the day; None with straight weight.
    loading : Loading or None
        Plates; None when no load is known.
    cautions : tuple of Caution
        What to mind.
    """

    planned: Planned
    place: Place
    built: BuiltRig | None
    loading: Loading | None
    cautions: tuple[Caution, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class WeeksAnswer:
    """A block of weeks.

    Parameters
    ----------
    question : WeeksQuestion
        What was asked.
    sessions : tuple of Laid
        In the order of the calendar.
    numbers : tuple of WeekNumbers
        What each lifter does in each week.
    flags : tuple of Flag
        What to look at; nothing was changed for it.
    """

    question: WeeksQuestion
    sessions: tuple[Laid, ...]
    numbers: tuple[WeekNumbers, ...]
    flags: tuple[Flag, ...]

    @property
    def lifters(self) -> tuple[str, ...]:
        """Everybody who has a session, in the order of the gym."""
        has = {one.planned.slot.lifter for one in self.sessions}
        return tuple(one.name for one in self.question.gym.lifters if one.name in has)


def answer_weeks(question: WeeksQuestion) -> WeeksAnswer:
    """Find rig and plates of every session of a block, and look the whole over.

    Raises
    ------
    NotInStockError
        A lifter or station that the gym does not know, or no bar.
    BadInputError
        Heights that can't be moved to another bench.
    """
    gym, block = question.gym, question.block
    everybody = block.lifters or tuple(one.name for one in gym.lifters)
    slots, idle = slots_of(block, everybody)
    slots = tuple(slot for slot in slots if slot.lifter == (question.lifter or slot.lifter))
    places, flags = _places(gym, block, slots)
    found = _rigs([slot for slot in slots if slot in places], places)
    sessions = tuple(_laid(slot, places[slot], *found[slot]) for slot in slots if slot in places)
    planned = [one.planned for one in sessions]
    flags += [_idle(change) for change in idle]
    return WeeksAnswer(
        question=question,
        sessions=sessions,
        numbers=numbers_of(planned),
        flags=merged([*flags, *check_weeks(planned)]),
    )


def _places(gym: Gym, block: Block, slots: Sequence[Slot]) -> tuple[dict[Slot, Place], list[Flag]]:
    """Where each session is done; lifters without heights for a lift are left out."""
    places: dict[Slot, Place] = {}
    flags: list[Flag] = []
    for slot in slots:
        lifter, lift = gym.lifter(slot.lifter), lift_named(slot.lift)
        if lift.name not in lifter.lifts:
            if block.lifters or block.days[slot.day].lifters:
                flags.append(_not_measured(slot))
            continue
        where = slot.station or lifter.measured(lift).station
        station = gym.station(where) if where else gym.station_for(lift)
        place = Place(gym=gym, lifter=lifter, lift=lift, station=station)
        places[slot] = place
        _ = place.travel
    return places, flags


def _rigs(slots: Sequence[Slot], places: dict[Slot, Place]) -> dict[Slot, tuple[Found, Strong]]:
    """One rig for each wave, kind of day and share, kept from wave to wave where it will do."""
    groups: dict[tuple[object, ...], list[Slot]] = {}
    for slot in slots:
        key = (slot.lifter, slot.lift, places[slot].station.name, slot.wave, slot.kind)
        groups.setdefault((*key, slot.hang, slot.share, slot.match), []).append(slot)
    book = RigBook()
    found: dict[Slot, tuple[Found, Strong]] = {}
    known: dict[tuple[str, str, str], tuple[Strong, tuple[Remark, ...]]] = {}
    kinds = [*DAYS, TEST]
    for group in sorted(groups.values(), key=lambda one: (one[0].wave, kinds.index(one[0].kind))):
        place = places[group[0]]
        who = (place.lifter.name, place.lift.name, place.station.name)
        if who not in known:
            known[who] = _strong(place)
        strong, doubts = known[who]
        rig = book.hanger_for(place, group, strong)
        for slot in group:
            told = (*doubts, *rig.remarks) if slot is group[0] else ()
            found[slot] = (Found(hanger=rig.hanger, remarks=told), strong)
    return found


def _strong(place: Place) -> tuple[Strong, tuple[Remark, ...]]:
    """How strong the lifter is; what contradicts itself is told, and the best alone is used."""
    best_kg = place.measured.best_kg
    try:
        curve = strength_of(place)
    except NotInStockError:
        return Strong(curve=None, pieces=0, best_kg=best_kg), ()
    except TopheavyError as error:
        doubt = Remark("strength", Phrase(literal(f"{error.message}: topheavy strength shows it.")))
        return Strong(curve=None, pieces=0, best_kg=best_kg), (doubt,)
    best_kg = curve.full_range_kg if best_kg is None else best_kg
    return Strong(curve=curve, pieces=len(curve.evidence), best_kg=best_kg), ()


def _laid(slot: Slot, place: Place, rig: Found, strong: Strong) -> Laid:
    """A session with its plates, its loads and what they mean."""
    hanger = rig.hanger
    wanted_kg = straight_wanted_kg(slot, hanger, strong)
    if wanted_kg is None:
        told = (*rig.remarks, _no_best(place))
        return Laid(
            planned=Planned(slot=slot, remarks=told),
            place=place,
            built=None,
            loading=None,
            cautions=_cautions(slot, place, hanger),
        )
    loading = hanger.loading_for(wanted_kg, above=not slot.match)
    loads = hanger.hung.under(hanger.bar_kg + loading.total_kg)
    travel = place.travel
    whole = hanger.curve + LoadCurve.constant(loads.straight_kg)
    effort = None if strong.curve is None else effort_under(strong.curve, whole)[0]
    hung = hanger.built is not None
    best_kg = strong.best_kg
    planned = Planned(
        slot=slot,
        loads=loads,
        best_kg=best_kg,
        share=share_made(loads, slot, strong) if hung else None,
        share_of_best=chain_share(loads, "best", best_kg) if hung and best_kg else None,
        effort=effort,
        work_j=whole.work_j(travel.bottom_m, travel.top_m) * _reps_of_work(slot),
        rig=hanger.name,
        session=_session(slot, loads, best_kg, effort),
        remarks=(*rig.remarks, *_plates(wanted_kg, hanger)),
    )
    return Laid(
        planned=planned,
        place=place,
        built=hanger.with_loading(loading),
        loading=loading,
        cautions=_cautions(slot, place, hanger),
    )


def _session(
    slot: Slot, loads: Loads, best_kg: float | None, effort: float | None
) -> Session | None:
    if slot.kind == TEST:
        return None
    day = DAYS[slot.kind]
    plan = Plan(day=day, sets=slot.sets, reps=slot.reps, loss=day.loss)
    return plan_session(plan, loads, best_kg, effort)


def _reps_of_work(slot: Slot) -> float:
    """Reps at the session's load that do its work; singles before a max count for less."""
    if slot.kind != TEST:
        return float(slot.sets * slot.reps)
    before = [share for _, share in zip(range(slot.sets - 1), reversed(ATTEMPTS), strict=False)]
    return slot.reps * (1 + sum(before))


def _plates(wanted_kg: float, hanger: Hanger) -> tuple[Remark, ...]:
    """Where bar and plates can't make what is wanted."""
    most_kg = hanger.bar_kg + hanger.loadings[-1].total_kg
    if wanted_kg > most_kg + _HAIR_KG:
        words = "{} of bar, collars and plates are wanted, and {} is all that goes on here."
        amounts = (Amount(wanted_kg, "mass"), Amount(most_kg, "mass"))
        return (Remark("plates", Phrase(words, amounts)),)
    if wanted_kg < hanger.bar_kg - _HAIR_KG:
        words = "Bar and collars weigh {}, more than the {} that are wanted beside what hangs."
        amounts = (Amount(hanger.bar_kg, "mass"), Amount(max(wanted_kg, 0.0), "mass"))
        return (Remark("bar", Phrase(words, amounts)),)
    return ()


def _no_best(place: Place) -> Remark:
    return Remark(
        "no best",
        Phrase(
            literal(
                f"Nothing says how strong {place.lifter.name} is in the {place.lift.name}: no "
                "load is planned. Go by reps left, and write a set down; then plan again."
            )
        ),
    )


def _not_measured(slot: Slot) -> Flag:
    words = f"{slot.lifter} has no heights for the {slot.lift}: left out. Measure bottom and top."
    return Flag(
        code="not measured",
        lifter=slot.lifter,
        lift=slot.lift,
        weeks=(slot.week,),
        phrase=Phrase(literal(words)),
    )


def _idle(change: Change) -> Flag:
    day = "" if change.weekday is None else f" on {WEEKDAYS[change.weekday].capitalize()}"
    who = f" of {change.lifter}" if change.lifter else ""
    what = f" in the {change.lift}" if change.lift else ""
    words = f"A change in week {change.week}{day}{who}{what} meets no session: it does nothing."
    return Flag(
        code="idle",
        lifter=change.lifter,
        lift=change.lift,
        weeks=(change.week,),
        phrase=Phrase(literal(words)),
    )


def _cautions(slot: Slot, place: Place, hanger: Hanger) -> tuple[Caution, ...]:
    """What to mind with the rig, or with straight weight; pins are for those who test."""
    if hanger.built is not None:
        return hanger.cautions
    found = cautions_when_testing(place.lift)
    return tuple(one for one in found if slot.kind == TEST or one.code != "pins")
