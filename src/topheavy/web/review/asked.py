"""The question of a review page, and its answer from the store."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated, Literal

from pydantic import Field

from topheavy.gym.lifts import lift_named
from topheavy.present.review.view import view_review
from topheavy.services.review import answer_review
from topheavy.store.reviewing import review_question
from topheavy.store.sets import Wanted, count_sets
from topheavy.training.review.trend import NOISE_MEN, NOISE_WOMEN
from topheavy.units import SYSTEMS
from topheavy.web.access.refusals import forbidden
from topheavy.web.desk import today
from topheavy.web.words import Name, UnitWords

if TYPE_CHECKING:
    from topheavy.present.review.rows import ReviewView
    from topheavy.units import UnitSystem
    from topheavy.web.access import Visitor
    from topheavy.web.desk import Desk
    from topheavy.web.house import House

Day = Annotated[str, Field(max_length=10)]


class ReviewWords(UnitWords):
    """A question for a review; what is left out does not matter."""

    lifter: Name = Field(default="", description="Only this lifter, and all of it.")
    lift: Name = Field(default="", description="Only this lift.")
    since: Day = Field(default="", description="First day: 2026-07-01; else half a year back.")
    until: Day = Field(default="", description="Last day; else that of the last set.")
    noise: Literal["", "men", "women"] = Field(
        default="", description="How well a single repeats: men 1.4 %, women and else 3.5 %."
    )


def whose(house: House, visitor: Visitor, words: ReviewWords) -> str:
    """Whose log is asked for, by the gym's own name; a lifter's is always their own.

    Raises
    ------
    RefusedError
        A lifter who asks for somebody else, or whom the gym does not know any more.
    NotInStockError
        No such lifter.
    """
    if visitor.coach:
        return house.gym.lifter(words.lifter).name if words.lifter else ""
    if words.lifter:
        visitor.must_see(words.lifter)
    if not house.gym.lifters:
        raise forbidden(f"The gym has no lifter {visitor.lifter} any more", wanted="a coach")
    return house.gym.lifters[0].name


def reviewed(
    house: House, desk: Desk, visitor: Visitor, words: ReviewWords
) -> tuple[ReviewView, UnitSystem]:
    """Review what was asked for; the same log is reviewed once."""
    wanted = Wanted(
        lifter=whose(house, visitor, words),
        lift=lift_named(words.lift).name if words.lift else "",
        since=words.since,
        until=words.until,
    )
    gym, stamp = house.read()
    units, day = _units(house, words), today()
    noise = NOISE_MEN if words.noise == "men" else NOISE_WOMEN
    logged = count_sets(desk.store, desk.gym_id)  # a log only grows: corrections are sets too
    key = ("review", desk.gym_id, stamp, logged, wanted, noise, units.name, day)

    def work() -> ReviewView:
        question = review_question(desk.store, desk.gym_id, gym, wanted, today=day, noise=noise)
        return view_review(answer_review(question), units)

    return house.answers.get(key, work), units


def _units(house: House, words: ReviewWords) -> UnitSystem:
    return SYSTEMS[words.units] if words.units else house.units()
