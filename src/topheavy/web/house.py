"""What every route works with: the gym, and what was answered before."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING, Any, TypeVar

from topheavy.errors import BadInputError
from topheavy.present.card import card_pdf
from topheavy.present.rig.picture import scene_of
from topheavy.present.stage import (
    encode_motion,
    encode_stage,
    hung_straight_scene,
    moving,
    view_stage,
)
from topheavy.services.chosen import answer_chosen, build_chosen, choose
from topheavy.services.rig import answer_rig, target_of
from topheavy.units import SYSTEMS
from topheavy.web.access.refusals import forbidden
from topheavy.web.access.visit import visit_now
from topheavy.web.answers import Answers
from topheavy.web.desk import today
from topheavy.web.gyms import GymSource
from topheavy.web.question import height_m, parts_from, question_of

if TYPE_CHECKING:
    from topheavy.gym.gym import Gym
    from topheavy.services.rig import RigAnswer
    from topheavy.units import UnitSystem
    from topheavy.web.access import Visitor
    from topheavy.web.desk import Desk
    from topheavy.web.gyms import Stamp
    from topheavy.web.words import ChosenWords, MotionWords, RigWords, StageWords, UnitWords

    W = TypeVar("W", bound=RigWords)


@dataclass(frozen=True, slots=True)
class House:
    """The gym that is served, and answers given so far.

    Parameters
    ----------
    source : GymSource
        Where the gym comes from when it is a file; a gym in the store is the request's own desk.
    """

    source: GymSource = field(default_factory=GymSource)
    answers: Answers = field(default_factory=Answers)

    @property
    def gym(self) -> Gym:
        """The gym as it stands now."""
        return self.read()[0]

    @property
    def desk(self) -> Desk | None:
        """The store and the gym in it that this request is about; None when a file is served."""
        visit = visit_now()
        return visit.desk if visit else None

    def read(self) -> tuple[Gym, Stamp]:
        """Give the gym, and what tells it from how it stood before.

        A lifter sees a gym in which nobody else lifts.
        """
        visit, desk = visit_now(), self.desk
        gym, stamp = (desk.source if desk else self.source).read()
        visitor = visit.visitor if visit else None
        if visitor is None or visitor.coach:
            return gym, stamp
        own = tuple(one for one in gym.lifters if visitor.may_see(one.name))
        return replace(gym, lifters=own), (*stamp, *(one.name for one in own))

    def units(self, words: UnitWords | None = None) -> UnitSystem:
        """What to show: as asked, else as the visitor likes it, else as the gym does."""
        visit = visit_now()
        liked = visit.visitor.units if visit and visit.visitor else ""
        asked = words.units if words else ""
        return SYSTEMS[asked or liked or self.gym.units]

    def whose(self, visitor: Visitor, lifter: str) -> str:
        """Whose log is asked for, by the gym's own name; empty for everybody's.

        A lifter's is always their own.

        Raises
        ------
        RefusedError
            A lifter who asks for somebody else, or whom the gym does not know any more.
        NotInStockError
            No such lifter.
        """
        gym = self.gym
        if visitor.coach:
            return gym.lifter(lifter).name if lifter else ""
        if lifter:
            visitor.must_see(lifter)
        if not gym.lifters:
            raise forbidden(f"The gym has no lifter {visitor.lifter} any more", wanted="a coach")
        return gym.lifters[0].name

    def _in_units(self, words: W) -> W:
        """Write down what bare numbers of a question are in."""
        return words.model_copy(update={"units": self.units(words).name})

    def found(self, words: RigWords) -> RigAnswer:
        """Search the best rig for a question."""
        gym, stamp = self.read()
        asked = self._in_units(words)
        key = (
            "found",
            stamp,
            today(),
            asked.model_dump_json(include=set(type(words).model_fields)),
        )
        return self.answers.get(key, lambda: answer_rig(question_of(gym, asked)))

    def chosen(self, words: ChosenWords) -> RigAnswer:
        """Read the rig whose parts were chosen."""
        gym, stamp = self.read()
        words = self._in_units(words)
        key = ("chosen", stamp, today(), words.model_dump_json())
        return self.answers.get(key, lambda: _chosen(gym, words))

    def stage(self, words: StageWords) -> dict[str, Any]:
        """Put the chosen rig on the stage; quick, so that a page can follow each change."""
        gym, units = self.gym, self.units(words)
        question = question_of(gym, self._in_units(words))
        target = target_of(question)
        chosen = choose(question.place, parts_from(words, question.place))
        best = build_chosen(question, chosen, target)
        scene = scene_of(question.place, best, units)
        return encode_stage(view_stage(scene, best, target, height_m(words.height, units)))

    def motion(self, words: MotionWords) -> dict[str, Any]:
        """Draw the chosen rig at every height."""
        gym, stamp = self.read()
        words = self._in_units(words)
        key = ("motion", stamp, words.model_dump_json())
        return self.answers.get(key, lambda: self._moved(gym, words))

    def _moved(self, gym: Gym, words: MotionWords) -> dict[str, Any]:
        question = question_of(gym, words)
        best = build_chosen(question, choose(question.place, parts_from(words, question.place)))
        scene = scene_of(question.place, best, self.units(words))
        if not words.straight:
            return encode_motion(moving(scene))
        other = hung_straight_scene(scene)
        return encode_motion(moving(other, bare=True) if other else [])

    def card(self, answer: RigAnswer, units: UnitSystem) -> bytes:
        """Print the card of an answer.

        Raises
        ------
        BadInputError
            Something on the rig must come down: no card sends anyone to lift with it.
        """
        if answer.dangers:
            raise BadInputError(
                "No card is printed while something on the rig must come down",
                field="parts",
                got=answer.dangers[0].say(units),
                wanted="other parts, or less on them",
            )
        return card_pdf(answer, units)


def _chosen(gym: Gym, words: ChosenWords) -> RigAnswer:
    question = question_of(gym, words)
    return answer_chosen(question, parts_from(words, question.place))
