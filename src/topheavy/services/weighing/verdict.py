"""What a weighing says, in one or two sentences."""

from __future__ import annotations

from typing import TYPE_CHECKING

from topheavy.phrase import Amount, Phrase
from topheavy.services.weighing.shift import difference_phrase

if TYPE_CHECKING:
    from collections.abc import Sequence

    from topheavy.services.weighing.causes import Cause
    from topheavy.services.weighing.shift import SharedShift
    from topheavy.services.weighing.weigh import Outcome, Row


def verdict_of(
    outcome: Outcome, likely: Sequence[Cause], rows: Sequence[Row], shift: SharedShift | None
) -> Phrase:
    """Say whether scale and prediction agree, how they differ and from where, and why.

    Parameters
    ----------
    outcome : Outcome
        What came of it.
    likely : sequence of Cause
        The likely causes, best first.
    rows : sequence of Row
        Every reading against its prediction.
    shift : SharedShift or None
        The shift of all chain, where one was looked for.
    """
    worst = Amount(max(abs(row.difference_kg) for row in rows), "mass")
    if outcome == "agrees":
        shared = _shared(rows)
        if shared is None:
            return Phrase("The scale and the prediction agree within {}.", (worst,))
        return Phrase(
            f"The scale and the prediction agree within {{}}: {shared.text}, no more than pile, "
            "tape, chain and straight weight as stated explain.",
            (worst, *shared.amounts),
        )
    how = _shared(rows) or Phrase("off by up to {}", (worst,))
    if outcome == "unexplained":
        return Phrase(
            f"The readings do not fit the rig as stated: {how.text}, and no single slip that was "
            "tried explains them. Check the scale with a known weight and weigh again.",
            how.amounts,
        )
    best = likely[0].what
    if outcome == "shifted" and shift is not None:
        floor, feeder = ("higher", "longer") if shift.lower_m > 0 else ("lower", "shorter")
        return Phrase(
            f"The scale and the prediction do not agree: {how.text}, more than scale and tape "
            f"explain. It is as if the floor under the chain were {{}} {floor} than said, or the "
            f"feeder so much {feeder}. {_CHECK_FIRST[len(likely) > 1]}{best.text}",
            (*how.amounts, Amount(abs(shift.lower_m), "length"), *best.amounts),
        )
    rivals = len(likely) - 1
    also = {0: "", 1: " One other slip fits as well."}.get(rivals, f" {rivals} others fit as well.")
    text = f"The readings do not fit the rig as stated: {how.text}. {best.text}{also}"
    return Phrase(text, (*how.amounts, *best.amounts))


def _shared(rows: Sequence[Row]) -> Phrase | None:
    """What the readings share; None with one that is called off."""
    if any(row.off for row in rows):
        return None
    return difference_phrase(
        [row.reading.height_m for row in rows],
        [row.difference_kg for row in rows],
        [row.noise_kg for row in rows],
    )


_CHECK_FIRST = ("It may be this: ", "Any of several things explains it; look at this first: ")
