"""What an own gym still needs before the first rig, in the order of going about it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from topheavy.gym.gym import Gym


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One thing a gym needs: what, why, where to say it, and whether it is there."""

    what: str
    why: str
    path: str
    done: bool


def steps_to_first_rig(gym: Gym) -> tuple[Step, ...]:
    """List what the first rig needs.

    Examples
    --------
    >>> from topheavy.gym.gym import Gym
    >>> [step.done for step in steps_to_first_rig(Gym(name="The Barn"))]
    [False, False, False, False, False, False, False, False]
    """
    stock = gym.stock
    kinds = [piece.kind for piece in stock.fit_chains]
    feeders, connectors = (
        any(one.rating_kg is not None and one.count >= 2 for one in some)
        for some in (stock.feeders, stock.connectors)
    )
    return (
        Step(what="A bar", why="its mass and sleeve", path="/gym/thing?section=bar",
             done=bool(stock.bars)),
        Step(what="Collars", why="never lift without", path="/gym/thing?section=collar",
             done=any(one.count >= 2 for one in stock.collars)),
        Step(what="Plates", why="in pairs", path="/gym/thing?section=plate",
             done=any(one.count >= 2 for one in stock.plates)),
        Step(what="Two pieces of chain alike", why="one for each end",
             path="/gym/thing?section=chain", done=any(kinds.count(kind) >= 2 for kind in kinds)),
        Step(what="Two feeders alike, rated", why="they lower the fold to the floor",
             path="/gym/thing?section=feeder&form=strap", done=feeders),
        Step(what="Two connectors alike, rated", why="they hold the fold",
             path="/gym/thing?section=connector", done=connectors),
        Step(what="A bench, rack or platform", why="where the lift is done",
             path="/gym/thing?section=station", done=bool(gym.stations)),
        Step(what="A lifter with bottom and top of a lift", why="they decide the feeder",
             path="/lifters", done=any(lifter.lifts for lifter in gym.lifters)),
    )  # fmt: skip
