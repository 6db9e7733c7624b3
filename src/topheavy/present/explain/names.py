"""What places in a lift and things on the bar are called when talking to the lifter."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from topheavy.gym.lifts import Lift
    from topheavy.services.explain import Side

_OFF: Final = {
    "bar touching the chest": ("off the chest", "on the chest"),
    "bar on the boards": ("off the boards", "on the boards"),
    "bar on the pins": ("off the pins", "on the pins"),
    "upper arms on the floor": ("off the floor", "arms on the floor"),
    "hip crease below the knee": ("out of the hole", "in the hole"),
    "sitting on the box": ("off the box", "on the box"),
    "plates on the floor": ("off the floor", "on the floor"),
    "plates on the blocks": ("off the blocks", "on the blocks"),
    "bar at the shoulders": ("off the shoulders", "at the shoulders"),
}
"""Where the bottom is measured, and how lifters say starting there and being there."""

_HUNG: Final = {
    "plain weight": "plain weight",
    "chain straight": "chain hung straight",
    "chain doubled": "chain doubled",
    "chain draped": "chain draped",
    "band": "band",
}


def off_the_bottom(lift: Lift) -> str:
    """Say where the bar starts up from.

    >>> from topheavy.gym.lifts import lift_named
    >>> off_the_bottom(lift_named("squat")), at_the_bottom(lift_named("bench"))
    ('out of the hole', 'on the chest')
    """
    return _OFF.get(lift.bottom_at, ("off the bottom", ""))[0]


def at_the_bottom(lift: Lift) -> str:
    """Say where the bar is at the bottom."""
    return _OFF.get(lift.bottom_at, ("", "at the bottom"))[1]


def side_name(side: Side) -> str:
    """Name the rig, or what it is set beside."""
    name, _, more = side.name.partition(" and ")
    said = _HUNG.get(name, name) + (f" and {more}" if more else "")
    if side.chosen:
        return f"this rig: {said}"
    return f"bands {' and '.join(side.bands)}" if side.bands else said


def short_name(side: Side) -> str:
    """Name the rig, or what it is set beside, in two words."""
    if side.chosen:
        return "this rig"
    return "a pair of bands" if side.bands else side_name(side)
