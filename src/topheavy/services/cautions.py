"""The usual cautions, each where it matters."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from topheavy.mechanics.hang import Doubled, Draped, Straight
from topheavy.mechanics.links import count_doubled, count_straight

if TYPE_CHECKING:
    from topheavy.gym.lifts import Lift
    from topheavy.gym.people import Travel
    from topheavy.mechanics.ground import Ground
    from topheavy.mechanics.rig import Rig


@dataclass(frozen=True, slots=True)
class Caution:
    """Something to mind.

    Parameters
    ----------
    code : str
        A short name that never changes.
    text : str
        What to do, in a sentence or two.
    """

    code: str
    text: str


_ALWAYS: Final = (
    Caution("collars", "Collars on, every set. Hang the feeder's loop where it can't walk off."),
    Caution("alike", "Both ends alike: same pieces, same setting, same side of the collar."),
    Caution(
        "ratings",
        "Only marked, rated connectors, loaded along their long axis. An assembly is as strong "
        "as its weakest part.",
    ),
    Caution(
        "inspect",
        "Look the chain over first. Retire any piece with a crack, bend, twist or gouge, a pitch "
        "3 % longer or a section worn by 10 %.",
    ),
    Caution(
        "familiarise",
        "New to chain? Learn it light. Chain on from the first warm-ups, so the top set is no "
        "surprise.",
    ),
    Caution(
        "defer",
        "Pain, illness, youth: ask licensed people first. Local rules and the makers' "
        "instructions come before this card.",
    ),
)

_BY_STATION: Final = {
    "bench": Caution(
        "spotter",
        "Never bench alone without safeties. A spotter and safety arms at chest height: people "
        "have died under the bar.",
    ),
    "rack": Caution(
        "safeties", "Set the safeties just below the bottom of the lift. Spotters ready."
    ),
    "platform": Caution(
        "clear",
        "Keep feet and hands away from the pile: chain comes down where it went up.",
    ),
}

_OVERHEAD: Final = Caution(
    "overhead",
    "The bar passes over the head: chain of Grade 30, 43 or 70 is not made for lifting overhead. "
    "Nobody stands below, the rack's safeties stay in.",
)
_SWING: Final = Caution(
    "swing",
    "At lockout no link is left on the floor: the chain will swing. Raise slowly, or use longer "
    "pieces, so that a link or two stays down and steadies it.",
)
_DRAG: Final = Caution(
    "drag",
    "Slack laid out to the side adds load and pulls the bar sideways. Pile it under the bar.",
)
_FLIMSY: Final = Caution(
    "nothing lifts",
    "The fold never leaves the floor: the feeder is too long for this lift, and the chain adds "
    "nothing.",
)
_HANGS: Final = Caution(
    "fold hangs",
    "The fold hangs clear of the floor at the bottom: part of the chain is on the bar all the way, "
    "and it may swing. Lengthen the feeder for a full deload.",
)


def cautions_for(lift: Lift, rig: Rig, travel: Travel, ground: Ground) -> tuple[Caution, ...]:
    """Choose the cautions for a lift and a rig; the most urgent first."""
    found = [_BY_STATION[lift.station]]
    if lift.overhead:
        found.append(_OVERHEAD)
    found += _about_chain(rig, travel, ground)
    return (*found, *_ALWAYS)


def _about_chain(rig: Rig, travel: Travel, ground: Ground) -> list[Caution]:
    found = []
    if ground.lay == "dragged":
        found.append(_DRAG)
    if not rig.left.hangs:
        return found
    hung = rig.hung_curve(ground, "still")
    rise_kg = float(hung.at(travel.top_m) - hung.at(travel.bottom_m))
    if rise_kg <= 0.01 * max(rig.left.mass_kg, 1e-9):
        found.append(_FLIMSY)
    if _clears(rig, travel, ground):
        found.append(_SWING)
    if _hangs_clear(rig, travel, ground):
        found.append(_HANGS)
    return found


def _clears(rig: Rig, travel: Travel, ground: Ground) -> bool:
    """Whether some piece leaves the floor altogether at the top."""
    for hang in rig.left.hangs:
        offset_m = hang.suspension.fold_m if isinstance(hang, Doubled) else hang.drop_m
        above_m = travel.top_m - ground.surface_m - offset_m
        count = count_straight if isinstance(hang, Straight) else count_doubled
        if any(count(chain, above_m).down == 0 for chain in hang.chains):
            return True
    return False


def _hangs_clear(rig: Rig, travel: Travel, ground: Ground) -> bool:
    """Whether a fold is more than a hand's width above the floor at the bottom."""
    folds = [h.suspension.fold_m for h in rig.left.hangs if isinstance(h, Doubled)]
    folds += [h.drop_m for h in rig.left.hangs if isinstance(h, Draped) and h.drop_m > 0]
    return any(travel.bottom_m - ground.surface_m - fold_m > 0.10 for fold_m in folds)
