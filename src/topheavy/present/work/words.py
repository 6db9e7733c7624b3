"""The work of the day in words: what to change on the bar, what to do, when to stop."""

from __future__ import annotations

from itertools import groupby
from typing import TYPE_CHECKING

from topheavy.gym.lifts import lift_named
from topheavy.present.figure import plate_mark
from topheavy.present.rig.steps import setting_text

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from topheavy.gym.log import LoggedSet
    from topheavy.gym.records import HungThen
    from topheavy.training.bar_changes import Move
    from topheavy.training.on_bar import Item
    from topheavy.training.work import Step, Work

NOTHING_TO_CHANGE = "Nothing to change."


def change_lines(moves: Sequence[Move], lift: str) -> tuple[str, ...]:
    """Say what to do to the bar, in the order of doing it.

    Parameters
    ----------
    moves : sequence of Move
        From `topheavy.training.bar_changes.changes`.
    lift : str
        The lift, for where the bar is meanwhile.

    Examples
    --------
    >>> from topheavy.training.bar_changes import changes
    >>> from topheavy.training.on_bar import OnBar
    >>> moves = changes(OnBar(plates_kg=(20.0, 5.0)), OnBar(plates_kg=(20.0, 10.0, 2.5)))
    >>> for line in change_lines(moves, "bench press"):
    ...     print(line)
    Bar in the rack, nobody under it. Both ends alike.
    Collars off.
    Off each end: 5 kg.
    On each end: 10 kg, then 2.5 kg.
    Collars on.
    >>> change_lines((), "bench press")
    ('Nothing to change.',)
    """
    if not moves:
        return (NOTHING_TO_CHANGE,)
    floor = lift_named(lift).station == "platform"
    lines = [f"{'Bar down' if floor else 'Bar in the rack, nobody under it'}. Both ends alike."]
    for (do, kind), group in groupby(moves, key=lambda move: (move.do, _kind(move))):
        some = list(group)
        if kind == "plate":
            marks = ", then ".join(plate_mark(move.item.mass_kg) for move in some if move.item)
            lines.append(f"{'Off' if do == 'off' else 'On'} each end: {marks}.")
        else:
            lines += [_line(move) for move in some]
    return (*lines, *_hooked(moves))


def _kind(move: Move) -> str:
    return move.item.kind if move.item else ""


def _line(move: Move) -> str:
    if move.item is not None:
        return (_off if move.do == "off" else _on)(move.item, again=move.again)
    if move.do == "set":
        return f"Feeders at {setting_text(move.setting)}, both ends."
    where = _ends(move.left, move.right)
    if move.do == "unclip":
        return f"Off the connectors: {where}."
    return f"On the connectors, folded in half: {where}. Gates closed and locked."


def _off(item: Item, *, again: bool) -> str:
    if item.kind == "collar":
        return "Collars off."
    if item.kind == "bands":
        return f"Bands {item.left[0]} left and {item.right[0]} right off, held until slack."
    if item.kind == "loop":
        if again:
            return "Loops off, the chain's weight held."
        return f"Off the sleeves: the {item.feeder}, both ends."
    return f"Chain off the sleeves, its weight held: {_ends(item.left, item.right)}."


def _on(item: Item, *, again: bool) -> str:
    if item.kind == "collar":
        return "Collars on."
    if item.kind == "bands":
        return f"Bands over the sleeves, still loose: {item.left[0]} left, {item.right[0]} right."
    if item.kind == "loop":
        if again:
            return "Loops back on, the chain's weight held."
        held = f", with its {item.connector}" if item.connector else ""
        return f"A {item.feeder} on each sleeve{held}."
    how = "by the last link" if item.style == "straight" else "across, both tails even"
    return f"Chain over the sleeves, {how}: {_ends(item.left, item.right)}."


def _hooked(moves: Iterable[Move]) -> Iterator[str]:
    """Bands are stretched last of all, with the collars on."""
    bands = [m.item for m in moves if m.do == "on" and m.item and m.item.kind == "bands"]
    if bands:
        pegs = dict.fromkeys(
            f"{item.left[0]} and {item.right[0]} {pegs_words(item.peg, item.second_peg)}"
            for item in bands
        )
        yield f"Last: bands {', '.join(pegs)}, both ends at the same time. Pull each by hand."


def pegs_words(peg: str, second_peg: str) -> str:
    """Say where a band is anchored.

    >>> pegs_words("low", ""), pegs_words("low", "low"), pegs_words("low", "high")
    ('to peg low', 'doubled to peg low', 'to pegs low and high')
    """
    if second_peg == peg:
        return f"doubled to peg {peg}"
    return f"to pegs {peg} and {second_peg}" if second_peg else f"to peg {peg}"


def _ends(left: tuple[str, ...], right: tuple[str, ...]) -> str:
    ends = (("left", left), ("right", right))
    return ", ".join(f"{' + '.join(tags)} {end}" for end, tags in ends if tags)


def stack_words(plates_kg: Sequence[float]) -> str:
    """Plates of one end, innermost first.

    >>> stack_words((20.0, 2.5)), stack_words(())
    ('20 + 2.5 kg each end', 'no plates')
    """
    marks = [plate_mark(plate_kg) for plate_kg in plates_kg]
    units = {mark.split(" ")[1] for mark in marks}
    if not marks:
        return "no plates"
    if len(units) > 1:
        return f"{' + '.join(marks)} each end"
    return f"{' + '.join(mark.split(' ')[0] for mark in marks)} {units.pop()} each end"


def hung_words(hung: HungThen | None) -> str:
    """What hangs, in a line.

    >>> hung_words(None)
    'nothing hung'
    """
    if hung is None:
        return "nothing hung"
    said = []
    if hung.left or hung.right:
        how = {
            "straight": "hung straight",
            "draped": "laid across the bar",
            "doubled": f"{hung.feeder} at {setting_text(hung.setting)}" if hung.feeder else "",
        }
        said = [_ends(hung.left, hung.right), how[hung.style]]
    said += [
        f"bands {one.left} left, {one.right} right {pegs_words(one.peg, one.second_peg)}"
        for one in hung.bands
    ]
    return ", ".join(said)


def goal_words(step: Step) -> str:
    """What to do in a set, and when it ends."""
    said = ["1 rep" if step.reps == 1 else f"{step.reps} reps"]
    if step.reps_left is not None:
        low, high = step.reps_left
        said.append(f"{low} left in it" if low == high else f"{low} to {high} left in it")
    return ", ".join(said)


def stop_words(step: Step) -> str:
    """When a set ends before its reps are done; empty without such a rule."""
    if step.loss is None:
        return ""
    share = f"{100 * step.loss:.0f} %"
    if step.speed_m_per_s is None:
        return f"End it when a rep is {share} slower than the fastest."
    slow = step.speed_m_per_s * (1 - step.loss)
    return (
        f"First rep about {step.speed_m_per_s:.2f} m/s, a model's guess; end it {share} below the "
        f"fastest, there below {slow:.2f}."
    )


def kind_words(work: Work) -> str:
    """Kind of day, with its sets."""
    if work.kind == "test":
        return "singles up to a max"
    sets = [step for step in work.steps if step.kind == "work set"]
    return f"{work.kind} day, {len(sets)} x {sets[0].reps}" if sets else f"{work.kind} day"


def done_words(logged: LoggedSet) -> str:
    """How a logged set went.

    >>> from topheavy.gym.log import LoggedSet
    >>> done_words(LoggedSet(
    ...     id="5d5a2c8e-0000-4000-8000-000000000001", lifter="Osric", lift="squat",
    ...     day="2026-11-25", straight_kg=100.0, reps=3, reps_left=1.0,
    ... ))
    '3 reps, 1 left'
    """
    said = ["1 rep" if logged.reps == 1 else f"{logged.reps} reps"]
    if logged.missed:
        said.append(f"then missed in the {logged.third} third" if logged.third else "then missed")
        if not logged.reps:
            said = [said[1].removeprefix("then ")]
    elif logged.reps_left is not None:
        said.append(f"{logged.reps_left:g} left")
    return ", ".join(said)
