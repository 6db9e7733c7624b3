"""Work of the day made of a rig, a ramp and a session, and what to do after an attempt."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Final

import numpy as np

from topheavy.errors import BadInputError, TopheavyError
from topheavy.gym.log import MOST_RIG_WORDS, RigThen
from topheavy.gym.records import BandsUsed, HungThen
from topheavy.phrase import Phrase, Remark, literal
from topheavy.rigging.limits import Limits
from topheavy.services.ramp import ramp_to
from topheavy.services.session import speed_of
from topheavy.services.strength import strength_of
from topheavy.services.top_set import (
    Strong,
    effort_of,
    effort_under,
    gear_under,
    loads_of,
    strong_of,
)
from topheavy.training.bases import Hung
from topheavy.training.on_bar import OnBar
from topheavy.training.ramp import plan_ramp
from topheavy.training.ramp_parts import NOTHING, Hanging, TopSet
from topheavy.training.session import plan_session
from topheavy.training.weeks_slots import TEST
from topheavy.training.work import Step, Work

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from topheavy.gym.people import Travel
    from topheavy.rigging.built import BuiltRig
    from topheavy.services.cautions import Caution
    from topheavy.services.rig import Place, RigAnswer
    from topheavy.training.ramp_parts import Ramp, RampSet
    from topheavy.training.session import Plan
    from topheavy.training.work import Source

_HEIGHTS: Final = 21
_DIGITS: Final = 4
_TOLD: Final = ("too heavy", "to failure")
_AIM_OF_SINGLES: Final = "One rep each, to full lockout. Stop when the advice says so."


@dataclass(frozen=True, slots=True, kw_only=True)
class WorkAsk:
    """What is wanted of a day's work.

    Parameters
    ----------
    id : str
        A UUID for it.
    day : str
        Which day, ``"2026-11-25"``.
    plan : Plan or None
        Kind of day, sets and reps; None: singles up to a max.
    chain_from : int
        Set from which the chain is on.
    source : {'coach', 'weeks', 'room'}
        What it is made from.
    at : str
        When the first set is, or empty.
    """

    id: str
    day: str
    plan: Plan | None
    chain_from: int = 1
    source: Source = "coach"
    at: str = ""


def work_of(rig: RigAnswer, ask: WorkAsk) -> Work:
    """Make work of a rig that was found or chosen: the ramp to it, then its sets.

    Parameters
    ----------
    rig : RigAnswer
        With the plates of the work sets.
    ask : WorkAsk
        What is wanted.

    Raises
    ------
    BadInputError
        Something on the rig must come down, or a ramp that makes no sense.
    """
    if rig.dangers:
        raise BadInputError(
            "No work is given while something on the rig must come down",
            field="parts",
            got=rig.dangers[0].say(),
            wanted="other parts, or less on them",
        )
    strong = strong_of(rig)
    reps = ask.plan.reps if ask.plan else 1
    ramp = ramp_to(rig, strong, reps, singles=ask.plan is None, chain_from=ask.chain_from)
    speed = speed_of(rig, strong) if ask.plan and ask.plan.loss is not None else None
    effort = effort_of(rig, strong)
    told: tuple[Remark, ...] = ()
    if ask.plan is not None:
        hardest = None if effort is None else effort[0]
        told = plan_session(ask.plan, loads_of(rig), strong.best_kg, hardest).remarks
    return _work(
        rig.question.place,
        rig.best,
        ramp,
        ask,
        _remarks(rig.cautions, told),
        speed.middle_m_per_s if speed else None,
    )


def work_with(
    place: Place,
    built: BuiltRig | None,
    straight_kg: float,
    ask: WorkAsk,
    cautions: Iterable[Caution] = (),
) -> Work:
    """Make work of a rig that a plan has already, or of straight weight.

    Parameters
    ----------
    place : Place
        Who, what, where.
    built : BuiltRig or None
        What hangs; None: nothing.
    straight_kg : float
        Bar, collars and plates of the work sets [kg].
    ask : WorkAsk
        What is wanted.
    cautions : iterable of Caution
        What to mind.

    Raises
    ------
    BadInputError
        A ramp that makes no sense.
    NotInStockError
        The plates can't make that weight.
    """
    hanging = NOTHING
    loops = 0
    if built is not None:
        hanging = Hanging(pieces=built.pieces, curve=built.rig.added_curve(place.ground, "raising"))
        loops = bool(built.left) + len(built.left_bands)
    strong = _strong(place)
    top = TopSet(
        straight_kg=straight_kg,
        reps=ask.plan.reps if ask.plan else 1,
        hanging=hanging,
        singles=ask.plan is None,
        chain_from=ask.chain_from,
        from_floor=place.lift.station == "platform",
    )
    gear = gear_under(place.setup, Limits().loop_width_m, loops)
    ramp = plan_ramp(top, gear, place.travel, strong.curve)
    told: tuple[Remark, ...] = ()
    if ask.plan is not None:
        effort = None
        if strong.curve is not None and built is not None:
            effort = effort_under(strong.curve, built.rig.curve(place.ground, "raising"))[0]
        loads = Hung.of(hanging.curve, place.travel).under(straight_kg)
        told = plan_session(ask.plan, loads, strong.best_kg, effort).remarks
    return _work(place, built, ramp, ask, _remarks(cautions, told), None)


def with_straight(step: Step, straight_kg: float) -> Step:
    """The same set with other plates: what hangs is the same, so every load moves alike.

    Parameters
    ----------
    step : Step
        As planned.
    straight_kg : float
        Bar, collars and plates that were on [kg].
    """
    if abs(straight_kg - step.straight_kg) < 1e-6:
        return step
    more_kg = straight_kg - step.straight_kg
    rig = step.rig
    if rig is not None:
        rig = replace(
            rig,
            bottom_kg=round(rig.bottom_kg + more_kg, _DIGITS),
            mean_kg=round(rig.mean_kg + more_kg, _DIGITS),
            top_kg=round(rig.top_kg + more_kg, _DIGITS),
        )
    return replace(step, straight_kg=straight_kg, rig=rig)


def hung_of(built: BuiltRig | None) -> HungThen | None:
    """Name what hangs on a rig by its tags; None for straight weight."""
    if built is None or not (built.pieces or built.bands):
        return None
    return _hung(built, len(built.left), len(built.right))


def _hung(built: BuiltRig, left: int, right: int) -> HungThen:
    held = built.fixture
    doubled = held.style == "doubled" and built.pieces > 0
    return HungThen(
        left=tuple(piece.tag for piece in built.left[:left]),
        right=tuple(piece.tag for piece in built.right[:right]),
        style=held.style,
        feeder=held.feeder.name if doubled and held.feeder else "",
        setting=held.setting.label if doubled and held.setting else "",
        connector=held.connector.name if doubled and held.connector else "",
        bands=tuple(
            BandsUsed(
                left=one.band.tag,
                right=other.band.tag,
                peg=one.peg.name,
                second_peg=one.peg.name if one.doubled else "",
            )
            for one, other in zip(built.left_bands, built.right_bands, strict=True)
        ),
    )


def hung_words(hung: HungThen) -> str:
    """Name what hangs in a line, for the log.

    >>> hung_words(HungThen(left=("A1",), right=("A2",), feeder="strap", setting="7"))
    'left A1, right A2, folded on strap at 7'
    """
    how = {"straight": "hung straight", "draped": "laid across the bar"}.get(hung.style, "")
    said = []
    if hung.left or hung.right:
        ends = (("left", hung.left), ("right", hung.right))
        said = [f"{end} {' + '.join(tags)}" for end, tags in ends if tags]
        said.append(how or f"folded on {hung.feeder} at {hung.setting}")
        said += [f"in {hung.connector}"] if hung.connector else []
    said += [f"bands {pair.left} left, {pair.right} right, {_pegs(pair)}" for pair in hung.bands]
    return ", ".join(said)[:MOST_RIG_WORDS]


def _pegs(pair: BandsUsed) -> str:
    if pair.second_peg == pair.peg:
        return f"doubled on {pair.peg}"
    return f"on {pair.peg}" + (f" and {pair.second_peg}" if pair.second_peg else "")


def _work(
    place: Place,
    built: BuiltRig | None,
    ramp: Ramp,
    ask: WorkAsk,
    cautions: tuple[Remark, ...],
    speed_m_per_s: float | None,
) -> Work:
    plan, last = ask.plan, ramp.sets[-1]
    steps = [_step(one, built, place.travel) for one in ramp.sets]
    if plan is not None:
        first = replace(
            steps[-1],
            kind="work set",
            reps_left=plan.day.reps_left,
            speed_m_per_s=speed_m_per_s,
            loss=plan.loss,
        )
        more = [
            replace(first, number=first.number + again, rest_s=plan.day.rest_s[0])
            for again in range(1, plan.sets)
        ]
        steps = [*steps[:-1], first, *more]
    return Work(
        id=ask.id,
        day=ask.day,
        lifter=place.lifter.name,
        lift=place.lift.name,
        station=place.station.name,
        kind=plan.day.name if plan else TEST,
        steps=tuple(steps),
        aim=plan.day.aim if plan else _AIM_OF_SINGLES,
        limit_hung_kg=None if plan else round(float(last.hanging.curve.at(ramp.limit_m)), _DIGITS),
        cautions=cautions,
        source=ask.source,
        at=ask.at,
    )


def _step(one: RampSet, built: BuiltRig | None, travel: Travel) -> Step:
    hung = None
    if built is not None and one.hanging is not NOTHING:
        whole = one.hanging.pieces == built.pieces
        share = one.hanging.pieces // 2
        ends = (len(built.left), len(built.right)) if whole else (share, share)
        hung = _hung(built, *ends) if any(ends) or built.bands else None
    straight_kg = round(one.loads.straight_kg, 6)
    return Step(
        number=one.number,
        kind=one.kind,
        bar=OnBar(plates_kg=tuple(plate.mass_kg for plate in one.plates.stack), hung=hung),
        straight_kg=straight_kg,
        rig=_then(one, hung, travel) if hung else None,
        reps=one.reps,
        rest_s=one.rest_before_s,
    )


def _then(one: RampSet, hung: HungThen, travel: Travel) -> RigThen:
    """What hangs in a set, frozen."""
    heights_m: Sequence[float] = np.linspace(travel.bottom_m, travel.top_m, _HEIGHTS).tolist()
    loads = one.loads
    return RigThen(
        bottom_kg=round(loads.bottom_kg, _DIGITS),
        mean_kg=round(loads.mean_kg, _DIGITS),
        top_kg=round(loads.top_kg, _DIGITS),
        words=hung_words(hung),
        curve=tuple(
            (round(height_m, _DIGITS), round(float(one.hanging.curve.at(height_m)), _DIGITS))
            for height_m in heights_m
        ),
    )


def _remarks(cautions: Iterable[Caution], told: Iterable[Remark]) -> tuple[Remark, ...]:
    """What to mind: what is wrong with this load first, then the usual."""
    first = (one for one in told if one.code in _TOLD)
    return (*first, *(Remark(one.code, Phrase(literal(one.text))) for one in cautions))


def _strong(place: Place) -> Strong:
    """How strong the lifter is, as far as the gym knows and does not contradict itself."""
    best_kg = place.measured.best_kg
    try:
        curve = strength_of(place, ())
    except TopheavyError:
        return Strong(curve=None, pieces=0, best_kg=best_kg)
    best_kg = curve.full_range_kg if best_kg is None else best_kg
    return Strong(curve=curve, pieces=len(curve.evidence), best_kg=best_kg)
