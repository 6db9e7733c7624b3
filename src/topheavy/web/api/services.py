"""A route for each service: the question in, its view out, as the command of the same name."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated, Any, Final, TypeVar

from fastapi import APIRouter, Body, Query
from fastapi.responses import JSONResponse

from topheavy.asked.catalogue import answer_chain
from topheavy.asked.curve import curve_question
from topheavy.asked.described import read_rig
from topheavy.asked.evidence import evidence_from
from topheavy.asked.rig import place_in
from topheavy.asked.training import ramp_question, session_question
from topheavy.asked.weighing import doubt_of, read_typed, weigh_told
from topheavy.errors import BadInputError, NotInStockError
from topheavy.lifter.motion_model import model_for
from topheavy.planfile import PlanFileError, demo_plan, parse_plan
from topheavy.present.catalogue.view import CaliperView, LookUpView, view_calipers, view_look_up
from topheavy.present.jsonable import plain
from topheavy.present.loads.view import CurveView, view_curve
from topheavy.present.ramp.view import RampView, view_ramp
from topheavy.present.rep.view import RepView, view_rep
from topheavy.present.session.view import SessionView, view_session
from topheavy.present.strength.view import StrengthView, view_strength
from topheavy.present.weeks.view import WeeksView, view_weeks
from topheavy.present.weigh.view import WeighView, view_weighing
from topheavy.services.catalogue import LookUp
from topheavy.services.curve import answer_curve
from topheavy.services.ramp import answer_ramp
from topheavy.services.reps.rep import RepQuestion, answer_rep
from topheavy.services.reps.rig import found_rig
from topheavy.services.session import answer_session
from topheavy.services.strength import answer_strength, strength_asked
from topheavy.services.weeks import WeeksQuestion, answer_weeks
from topheavy.units import parse_quantity
from topheavy.web.api.schemas import answered, answered_either
from topheavy.web.asked import (  # noqa: TC001 - the routes are read when they are made
    ChainWords,
    CurveWords,
    RampWords,
    RepWords,
    SessionWords,
    WeeksWords,
    WeighWords,
    WhoWords,
)
from topheavy.web.desk import today
from topheavy.web.question import question_of
from topheavy.web.words import UnitWords

if TYPE_CHECKING:
    from collections.abc import Callable

    from topheavy.gym.gym import Gym
    from topheavy.training.weeks import Block
    from topheavy.units import UnitSystem
    from topheavy.web.house import House


_LONGEST: Final = 200_000
"""Longest plan that is read [bytes]."""

W = TypeVar("W", bound=UnitWords)
Plan = Annotated[
    bytes,
    Body(media_type="application/toml", max_length=_LONGEST, description="The plan file."),
]


def service_routes(house: House) -> APIRouter:
    """Make the routes that ask the services."""
    api = APIRouter()
    _about_chain(api, house)
    _about_lifters(api, house)
    _about_weeks(api, house)
    return api


def _about_chain(api: APIRouter, house: House) -> None:
    @api.get(
        "/curve",
        summary="The load at any height of a rig you describe",
        responses=answered(CurveView, "Loads, links and what to mind."),
    )
    def curve(words: Annotated[CurveWords, Query()]) -> JSONResponse:
        def work(gym: Gym, words: CurveWords, units: UnitSystem) -> CurveView:
            told = read_rig(gym, words.described(today()))
            question = curve_question(
                told,
                bottom=words.bottom or None,
                top=words.top or None,
                at=words.at,
                reach=words.reach,
            )
            return view_curve(answer_curve(question), units, told.title)

        return _answer(house, "curve", words, work)

    @api.get(
        "/weigh",
        summary="Check what hangs against a scale",
        responses=answered(WeighView, "What the scale says, and what may be wrong."),
    )
    def weigh(words: Annotated[WeighWords, Query()]) -> JSONResponse:
        def work(gym: Gym, words: WeighWords, units: UnitSystem) -> WeighView:
            told = read_rig(gym, words.described(today()))
            doubt = doubt_of(words.scale_within, words.height_within)
            taken = read_typed(words.reading, doubt)
            done = weigh_told(told, taken, words.carries, words.bare or None, doubt)
            return view_weighing(
                done.answer,
                done.described,
                done.dangers,
                units,
                told.title,
                done.again,
            )

        return _answer(house, "weigh", words, work)

    @api.get(
        "/catalogue",
        summary="What chain weighs, what it is and what it is good for",
        responses=answered_either(
            LookUpView,
            CaliperView,
            description="Published sizes; with an outside length or a pitch, what readings tell.",
        ),
    )
    def catalogue(words: Annotated[ChainWords, Query()]) -> JSONResponse:
        def work(_: Gym, words: ChainWords, units: UnitSystem) -> LookUpView | CaliperView:
            found = answer_chain(words.asked())
            if isinstance(found, LookUp):
                return view_look_up(found, units)
            return view_calipers(found, units)

        return _answer(house, "catalogue", words, work)


def _about_lifters(api: APIRouter, house: House) -> None:
    @api.get(
        "/strength",
        summary="How strong a lifter is at each height, and how sure that is",
        responses=answered(StrengthView, "Strength by height, and what would tell more."),
    )
    def strength(words: Annotated[WhoWords, Query()]) -> JSONResponse:
        def work(gym: Gym, words: WhoWords, units: UnitSystem) -> StrengthView:
            place = place_in(gym, words.lifter or None, words.lift, words.station or None)
            extra = evidence_from(place, **words.evidence())
            return view_strength(answer_strength(place, extra), units)

        return _answer(house, "strength", words, work)

    @api.get(
        "/rep",
        summary="How the bar moves with the rig that is found, beside others as hard",
        responses=answered(RepView, "Speed, push and power up the lift, and where it sticks."),
    )
    def rep(words: Annotated[RepWords, Query()]) -> JSONResponse:
        def work(gym: Gym, words: RepWords, units: UnitSystem) -> RepView:
            question = question_of(gym, words)
            place, effort = question.place, words.effort
            model_for(place.lift.name)
            share = parse_quantity(effort, "share", field="effort") if effort else None
            strong = strength_asked(question)
            found = found_rig(question)
            asked = RepQuestion(
                place=place, rig=found.best.rig, strength=strong, effort=share, lower_s=words.lower
            )
            return view_rep(answer_rep(asked), found, units)

        return _answer(house, "rep", words, work)

    @api.get(
        "/ramp",
        summary="The ramp from the empty bar to the top set, chain on",
        responses=answered(RampView, "Sets, rests, what to change on the bar; the next attempt."),
    )
    def ramp(words: Annotated[RampWords, Query()]) -> JSONResponse:
        def work(gym: Gym, words: RampWords, units: UnitSystem) -> RampView:
            question = ramp_question(question_of(gym, words), words.ramp())
            return view_ramp(answer_ramp(question), units)

        return _answer(house, "ramp", words, work)

    @api.get(
        "/session",
        summary="A session: sets, reps, loads, and when a set ends",
        responses=answered(SessionView, "The session, and a check on its volume."),
    )
    def session(words: Annotated[SessionWords, Query()]) -> JSONResponse:
        def work(gym: Gym, words: SessionWords, units: UnitSystem) -> SessionView:
            question = session_question(
                question_of(gym, words), words.day, words.do or None, words.stop_at or None
            )
            return view_session(answer_session(question), units)

        return _answer(house, "session", words, work)


def _about_weeks(api: APIRouter, house: House) -> None:
    @api.get(
        "/weeks",
        summary="The example of a plan, for the built-in gym",
        responses=answered(WeeksView, "Every session of the example, with its rig."),
    )
    def example(words: Annotated[WeeksWords, Query()]) -> JSONResponse:
        return _answer(house, "weeks", words, _example)

    @api.post(
        "/weeks",
        summary="A plan file: its rigs, plates and loads, and what to look at",
        responses=answered(WeeksView, "Every session of the plan, with its rig."),
    )
    def weeks(words: Annotated[WeeksWords, Query()], plan: Plan) -> JSONResponse:
        def work(gym: Gym, words: WeeksWords, units: UnitSystem) -> WeeksView:
            return _weeks(gym, parse_plan(_text(plan), gym, "the plan"), words, units)

        return _answer(house, "weeks", words, work, plan)


def _example(gym: Gym, words: WeeksWords, units: UnitSystem) -> WeeksView:
    try:
        block = demo_plan(gym)
    except PlanFileError:
        raise NotInStockError(
            "The example is a plan for the built-in gym",
            field="gym",
            got=gym.name,
            wanted="a plan file of your own, sent with POST",
        ) from None
    return _weeks(gym, block, words, units)


def _weeks(gym: Gym, block: Block, words: WeeksWords, units: UnitSystem) -> WeeksView:
    who = gym.lifter(words.lifter).name if words.lifter else ""
    if words.week is not None and words.week > block.weeks:
        raise BadInputError(
            "The block has no such week", field="week", got=words.week, wanted=f"1 to {block.weeks}"
        )
    answer = answer_weeks(WeeksQuestion(gym=gym, block=block, lifter=who))
    if who and not answer.sessions:
        raise BadInputError(
            "The plan has no session for this lifter",
            field="lifter",
            got=who,
            wanted="a lifter of the plan who was measured for one of its lifts",
        )
    return view_weeks(answer, units, who, words.week)


def _text(plan: bytes) -> str:
    try:
        return plan.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise BadInputError(
            "The plan is no text", field="plan", wanted="a plan file in UTF-8"
        ) from None


def _answer(
    house: House,
    name: str,
    words: W,
    work: Callable[[Gym, W, UnitSystem], Any],
    body: bytes = b"",
) -> JSONResponse:
    """Answer with a view that was worked out before, or work it out."""
    gym, stamp = house.read()
    units = house.units(words)
    asked = words.model_copy(update={"units": units.name})
    key = (name, stamp, today(), asked.model_dump_json(), body)
    return JSONResponse(house.answers.get(key, lambda: plain(work(gym, asked, units))))
