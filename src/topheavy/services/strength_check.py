"""Whether what a gym file says of its lifters' strength can all be right."""

from __future__ import annotations

from typing import TYPE_CHECKING

from topheavy.errors import BadInputError, TopheavyError
from topheavy.gym.lifts import LIFTS
from topheavy.phrase import Phrase, literal
from topheavy.services.rig import Place
from topheavy.services.strength import curve_from, gather

if TYPE_CHECKING:
    from topheavy.gym.gym import Gym
    from topheavy.gym.people import Lifter


def contradictions_in(gym: Gym) -> tuple[Phrase, ...]:
    """Say whose bests and records contradict each other, lift by lift.

    Examples
    --------
    >>> from topheavy.gymfile import demo_gym
    >>> contradictions_in(demo_gym())
    ()
    """
    found = []
    for lifter in gym.lifters:
        for lift in lifter.lifts:
            said = _of_lift(gym, lifter, lift)
            if said:
                found.append(Phrase(literal(f"{lifter.name}, {lift}: {said}")))
    return tuple(found)


def _of_lift(gym: Gym, lifter: Lifter, name: str) -> str:
    lift = LIFTS[name]
    at = lifter.measured(lift).station
    try:
        station = gym.station(at) if at else gym.station_for(lift)
    except TopheavyError:
        return ""
    place = Place(gym=gym, lifter=lifter, lift=lift, station=station)
    gathered = gather(place)
    if not gathered.used:
        return ""
    try:
        curve_from(place, gathered)
    except BadInputError as error:
        return f"{error.message}: {error.got}. {str(error.wanted).capitalize()}."
    except TopheavyError:
        return ""
    return ""
