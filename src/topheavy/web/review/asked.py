"""The question of a review page, and its answer from the store."""

from __future__ import annotations

from typing import TYPE_CHECKING, Literal

from pydantic import Field

from topheavy.gym.lifts import lift_named
from topheavy.present.review.view import view_review
from topheavy.services.review import answer_review
from topheavy.store.reviewing import review_question
from topheavy.store.sets import Wanted, count_sets
from topheavy.training.review.trend import NOISE_MEN, NOISE_WOMEN
from topheavy.web.desk import today
from topheavy.web.words import Day, Name, UnitWords

if TYPE_CHECKING:
    from topheavy.present.review.rows import ReviewView
    from topheavy.units import UnitSystem
    from topheavy.web.access import Visitor
    from topheavy.web.desk import Desk
    from topheavy.web.house import House


class ReviewWords(UnitWords):
    """A question for a review; what is left out does not matter."""

    lifter: Name = Field(default="", description="Only this lifter, and all of it.")
    lift: Name = Field(default="", description="Only this lift.")
    since: Day = Field(default="", description="First day: 2026-07-01; else half a year back.")
    until: Day = Field(default="", description="Last day; else that of the last set.")
    noise: Literal["", "men", "women"] = Field(
        default="", description="How well a single repeats: men 1.4 %, women and else 3.5 %."
    )


def reviewed(
    house: House, desk: Desk, visitor: Visitor, words: ReviewWords
) -> tuple[ReviewView, UnitSystem]:
    """Review what was asked for; the same log is reviewed once."""
    wanted = Wanted(
        lifter=house.whose(visitor, words.lifter),
        lift=lift_named(words.lift).name if words.lift else "",
        since=words.since,
        until=words.until,
    )
    gym, stamp = house.read()
    units, day = house.units(words), today()
    noise = NOISE_MEN if words.noise == "men" else NOISE_WOMEN
    logged = count_sets(desk.store, desk.gym_id)  # a log only grows: corrections are sets too
    key = ("review", desk.gym_id, stamp, logged, wanted, noise, units.name, day)

    def work() -> ReviewView:
        question = review_question(desk.store, desk.gym_id, gym, wanted, today=day, noise=noise)
        return view_review(answer_review(question), units)

    return house.answers.get(key, work), units
