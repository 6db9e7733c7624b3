"""What to know of a ramp: what a late or lighter start costs, where plates fall short."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from topheavy.phrase import Amount, Phrase, Remark

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from topheavy.training.ramp_parts import Gear, Ramp, TopSet

_SAME_M: Final = 0.01
WIDE_LAST: Final = 0.18
"""A last jump wider than this share of the top set is more than a ramp wants [-]."""


def remarks_on(
    ramp: Ramp, top: TopSet, gear: Gear, skipped: Sequence[float] = ()
) -> tuple[Remark, ...]:
    """Say what to know of a ramp, the most urgent first.

    Parameters
    ----------
    ramp : Ramp
        Its sets.
    top : TopSet
        What it leads to.
    gear : Gear
        Bar and plates.
    skipped : sequence of float
        Straight weights of sets that no plates make [kg].
    """
    return (
        *_start(ramp, top, gear),
        *_low(ramp, top, gear),
        *_late(ramp, top),
        *_jumps(ramp),
        *_skipped(skipped),
        *_goal(top),
    )


def _start(ramp: Ramp, top: TopSet, gear: Gear) -> Iterator[Remark]:
    """A first set that is heavy, or lighter than the chain of the day."""
    first = ramp.sets[0]
    if top.chain_from > 1 or first.hanging is top.hanging:
        bare_share = max(first.share, first.top_share)
    else:
        second = ramp.sets[1]
        hung = f"{first.hanging.pieces} of {top.hanging.pieces} pieces"
        with_what = hung if first.hanging.pieces else "straight weight"
        bare_share = max(first.share, first.top_share)
        yield Remark(
            "lighter start",
            Phrase(
                f"The empty bar with all the {top.hanging.name} on is already "
                f"{100 * second.top_share:.0f} % of the top set at lockout, {{}}. So the first set "
                f"is done with {with_what}. It costs a change on both ends, and that set does not "
                "feel like the top set.",
                (Amount(second.loads.top_kg, "mass"),),
            ),
        )
    if bare_share > 0.6:
        yield Remark(
            "heavy bar",
            Phrase(
                f"The first set, {{}} of bar and collars, is {100 * bare_share:.0f} % of the top "
                "set: hard for a warm-up. Warm up with a lighter bar or without one first.",
                (Amount(gear.bar_kg, "mass"),),
            ),
        )


def _low(ramp: Ramp, top: TopSet, gear: Gear) -> Iterator[Remark]:
    """Sets that start low because their plates are small."""
    if not top.from_floor:
        return
    largest_m = max((plate.diameter_m for plate in gear.plates if plate.count >= 2), default=0.0)
    low = {
        step.number: largest_m - max((p.diameter_m for p in step.plates.stack), default=0.0)
        for step in ramp.sets
    }
    sets = [str(number) for number, short_m in low.items() if short_m > _SAME_M]
    if sets:
        yield Remark(
            "low start",
            Phrase(
                f"In {'set' if len(sets) == 1 else 'sets'} {_and(sets)} the plates are smaller "
                "than {}: put the bar on blocks, so that it starts where it was measured. Loads "
                "and links here count on that.",
                (Amount(largest_m, "length"),),
            ),
        )


def _and(words: Sequence[str]) -> str:
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"


def _goal(top: TopSet) -> Iterator[Remark]:
    if top.singles:
        yield Remark(
            "goal",
            Phrase(
                "The last set is a goal, not a promise: choose each single by how the one before "
                "went, and stop at the first that looks wrong. Never without safeties or spotters."
            ),
        )


def _late(ramp: Ramp, top: TopSet) -> Iterator[Remark]:
    """Chain that comes on late by choice: what it costs."""
    if top.chain_from == 1:
        return
    on = next(step for step in ramp.sets if step.hanging is top.hanging)
    before = ramp.sets[on.number - 2]
    jump_kg = on.loads.top_kg - before.loads.top_kg
    plates_kg = on.loads.straight_kg - before.loads.straight_kg
    if on.kind == "top set":
        cost = (
            f"The lifter meets the {top.hanging.name} in the top set itself, so the top set can't "
            "be judged, and nobody has seen the rig hang right under load."
        )
    else:
        left = len(ramp.sets) - on.number
        sets = "one set" if left == 1 else f"{left} sets"
        cost = f"It is met at {100 * on.share:.0f} % of the top set, {sets} before it."
    yield Remark(
        "late chain",
        Phrase(
            f"Set {on.number} is the first with {top.hanging.name} on. {cost} At lockout the load "
            "jumps there by {} from the set before, of which plates are {}.",
            (Amount(jump_kg, "mass"), Amount(plates_kg, "mass")),
        ),
    )


def _jumps(ramp: Ramp) -> Iterator[Remark]:
    """Plates that leave a wide last jump."""
    last_kg, before_kg = ramp.sets[-1].limit_kg, ramp.sets[-2].limit_kg
    jump_kg = last_kg - before_kg
    if jump_kg > WIDE_LAST * last_kg:
        yield Remark(
            "wide last jump",
            Phrase(
                f"The last jump is {{}}, {100 * jump_kg / last_kg:.0f} % of the top set: the "
                "plates make nothing between. Smaller plates would bring the lifter nearer to it.",
                (Amount(jump_kg, "mass"),),
            ),
        )


def _skipped(skipped: Sequence[float]) -> Iterator[Remark]:
    if skipped:
        yield Remark(
            "no plates",
            Phrase(
                f"No plates make a set near {' or '.join('{}' for _ in skipped)} straight weight, "
                "so it is left out. Smaller plates would mend it.",
                tuple(Amount(kg, "mass") for kg in skipped),
            ),
        )
