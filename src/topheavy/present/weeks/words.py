"""Waves, loads and rigs of a block in few words."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from topheavy.present.rig.steps import both_ends_text, ends_text
from topheavy.training.days import DAYS
from topheavy.training.weeks_slots import TEST

if TYPE_CHECKING:
    from collections.abc import Sequence

    from topheavy.rigging.built import BuiltRig
    from topheavy.training.bases import LoadName
    from topheavy.training.weeks import HangName, Wave
    from topheavy.training.weeks_slots import Slot
    from topheavy.units import UnitSystem

HANGS: Final[dict[HangName, str]] = {
    "straight": "straight weight",
    "chain": "chain",
    "bands": "bands",
    "mixed": "chain and bands",
}
PLACES: Final[tuple[LoadName, ...]] = ("straight", "bottom", "mean", "top")
TEST_WORDS: Final = "test week: singles up to a max, straight weight"
NO_LOAD: Final = "by feel"


def wave_words(wave: Wave) -> str:
    """Say what a wave is done with.

    >>> from topheavy.training.weeks import Wave
    >>> wave_words(Wave(hang="chain", weeks=3))
    'chain, 20 % of the top load'
    """
    name = HANGS[wave.hang]
    if wave.hang == "straight":
        return name
    if wave.match:
        return f"{name}, matched to the lifter's strength"
    shares = list(dict.fromkeys(f"{100 * share:g}" for share in wave.share))
    return f"{name}, {', '.join(shares)} % of {_base(wave.of)}"


def share_base(slot: Slot) -> str:
    """What the accommodating share of a session is a percentage of."""
    return f"of {_base(slot.of)}"


def _base(of: str) -> str:
    return "the best" if of == "best" else f"the {of} load"


def load_words(slot: Slot, units: UnitSystem) -> str:
    """Say which load was planned, of what and where.

    >>> from topheavy.units import METRIC
    >>> from topheavy.training.weeks_slots import Slot
    >>> slot = Slot(
    ...     week=1, weekday=0, day=0, wave=0, lifter="Pip", lift="squat", station="",
    ...     kind="heavy", hang="chain", load=0.83, sets=5, reps=3,
    ... )
    >>> load_words(slot, METRIC)
    '83 % of the best, mean load'
    """
    if slot.load_kg is not None:
        return f"{units.mass(slot.load_kg)} by hand, {_place(slot)}"
    percent = f"{100 * slot.load:.3g} %"
    if slot.kind == TEST:
        return f"singles up to {percent} of the best"
    return f"{percent} {base_words(slot)}"


def base_words(slot: Slot) -> str:
    """What a planned percentage is of, and which load it speaks of.

    >>> from topheavy.training.weeks_slots import Slot
    >>> slot = Slot(
    ...     week=1, weekday=0, day=0, wave=0, lifter="Pip", lift="squat", station="",
    ...     kind="heavy", hang="chain", load=0.83, match=True, sets=5, reps=3,
    ... )
    >>> base_words(slot)
    'of strength, where the lift is hardest'
    """
    if slot.match:
        return "of strength, where the lift is hardest"
    return "of the best" + (f", {_place(slot)}" if slot.rigged else "")


def _place(slot: Slot) -> str:
    names = {"straight": "straight weight", "mean": "mean load"}
    return names.get(slot.at, f"at the {slot.at}")


def short_load(slot: Slot) -> str:
    """The planned percentage alone; empty when the load was written down by hand."""
    return "by hand" if slot.load_kg is not None else f"{100 * slot.load:.3g} %"


def rig_words(built: BuiltRig | None) -> str:
    """Name what hangs on both ends, and the feeder with its setting; empty with straight weight."""
    if built is None:
        return ""
    feeder = ends_text(built).feeder
    return "; ".join(filter(None, (both_ends_text(built), feeder)))


def kind_words(slot: Slot) -> str:
    """Name the kind of day, and a deload."""
    return f"{slot.kind}, deload" if slot.deload else slot.kind


def reserve_words(slot: Slot) -> str:
    """How many reps to leave."""
    if slot.kind == TEST:
        return "stop at the first slow grind; a miss is never the aim"
    low, high = DAYS[slot.kind].reps_left
    if slot.deload:
        return f"{high} reps left or more"
    return f"{low} to {high} reps left"


def weeks_words(weeks: Sequence[int]) -> str:
    """Name weeks, those in a row together.

    >>> weeks_words((3,)), weeks_words((1, 2, 3, 6))
    ('week 3', 'weeks 1 to 3, 6')
    """
    runs: list[list[int]] = []
    for week in sorted(set(weeks)):
        if runs and week == runs[-1][-1] + 1:
            runs[-1].append(week)
        else:
            runs.append([week])
    parts = [
        f"{run[0]}" if len(run) == 1 else f"{run[0]} to {run[-1]}" if len(run) > 2
        else f"{run[0]}, {run[1]}"
        for run in runs
    ]  # fmt: skip
    return f"week{'' if len(set(weeks)) == 1 else 's'} {', '.join(parts)}"
