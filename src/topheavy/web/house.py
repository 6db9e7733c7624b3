"""What every route works with: the gym, and what was answered before."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from topheavy.errors import BadInputError
from topheavy.present.card import card_pdf
from topheavy.present.rig_picture import scene_of
from topheavy.present.stage import (
    encode_motion,
    encode_stage,
    hung_straight_scene,
    moving,
    view_stage,
)
from topheavy.services.chosen import answer_chosen, build_chosen, choose
from topheavy.services.rig import answer_rig, target_of
from topheavy.web.answers import Answers
from topheavy.web.gyms import GymSource
from topheavy.web.question import height_m, parts_from, question_of, units_of

if TYPE_CHECKING:
    from topheavy.gym.gym import Gym
    from topheavy.services.rig import RigAnswer
    from topheavy.units import UnitSystem
    from topheavy.web.words import ChosenWords, MotionWords, RigWords, StageWords


@dataclass(frozen=True, slots=True)
class House:
    """The gym that is served, and answers given so far.

    Parameters
    ----------
    source : GymSource
        Where the gym comes from.
    """

    source: GymSource = field(default_factory=GymSource)
    answers: Answers = field(default_factory=Answers)

    @property
    def gym(self) -> Gym:
        """The gym as it stands now."""
        return self.source.read()[0]

    def units(self, words: RigWords) -> UnitSystem:
        """What to show."""
        return units_of(self.gym, words)

    def found(self, words: RigWords) -> RigAnswer:
        """Search the best rig for a question."""
        gym, stamp = self.source.read()
        asked = words.model_copy(update={"units": words.units or gym.units})
        key = ("found", stamp, asked.model_dump_json(include=set(type(words).model_fields)))
        return self.answers.get(key, lambda: answer_rig(question_of(gym, asked)))

    def chosen(self, words: ChosenWords) -> RigAnswer:
        """Read the rig whose parts were chosen."""
        gym, stamp = self.source.read()
        key = ("chosen", stamp, words.model_dump_json())
        return self.answers.get(
            key, lambda: answer_chosen(question_of(gym, words), parts_from(words))
        )

    def stage(self, words: StageWords) -> dict[str, Any]:
        """Put the chosen rig on the stage; quick, so that a page can follow each change."""
        gym, units = self.gym, self.units(words)
        question = question_of(gym, words)
        target = target_of(question)
        best = build_chosen(question, choose(question.place, parts_from(words)), target)
        scene = scene_of(question.place, best, units)
        return encode_stage(view_stage(scene, best, target, height_m(words.height, units)))

    def motion(self, words: MotionWords) -> dict[str, Any]:
        """Draw the chosen rig at every height."""
        gym, stamp = self.source.read()
        key = ("motion", stamp, words.model_dump_json())
        return self.answers.get(key, lambda: self._moved(gym, words))

    def _moved(self, gym: Gym, words: MotionWords) -> dict[str, Any]:
        question = question_of(gym, words)
        best = build_chosen(question, choose(question.place, parts_from(words)))
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
