"""Which ends of the bar a slip sits on, and the weighing with those ends changed."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable

    from topheavy.mechanics.rig import End
    from topheavy.services.weighing.case import Case, Side


def wheres(case: Case) -> list[tuple[tuple[Side, ...], str]]:
    """Ends that a slip may sit on, and how to say so; ends alike can't be told apart."""
    sides = case.scale.sides
    if len(sides) == 1:
        return [(sides, f"the {sides[0]} end")]
    if case.rig.left == case.rig.right:
        return [(("left",), "one end"), (sides, "both ends")]
    return [(("left",), "the left end"), (("right",), "the right end"), (sides, "both ends")]


def side_of(case: Case, sides: tuple[Side, ...]) -> Side | None:
    """The one of two unlike ends that a slip sits on."""
    both = len(case.scale.sides) == 2 and case.rig.left != case.rig.right
    return sides[0] if both and len(sides) == 1 else None


def changed_on(
    case: Case, sides: tuple[Side, ...], change: Callable[[End], End | None]
) -> Case | None:
    """Change these ends of the rig; None when there is nothing to change on one of them."""
    ends = {side: change(getattr(case.rig, side)) for side in sides}
    if None in ends.values():
        return None
    left, right = ends.get("left") or case.rig.left, ends.get("right") or case.rig.right
    return replace(case, rig=replace(case.rig, left=left, right=right))
