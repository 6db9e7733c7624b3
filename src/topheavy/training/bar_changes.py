"""From one set to the next: what to change on the bar, in the order of doing it.

The same between two sets of one lifter and between two lifters who share a bar. What stays inside
stays where it is: things come off from outside in, down to the innermost that must go, and go on
again from inside out. A loop that only stands in the way comes off and goes on with its chain.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from topheavy.errors import BadInputError
from topheavy.training.on_bar import Item, OnBar, bar_of

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

Do = Literal["off", "on", "set", "unclip", "clip"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Move:
    """One thing to do, on both ends.

    Parameters
    ----------
    do : {'off', 'on', 'set', 'unclip', 'clip'}
        Something comes off the sleeve or goes on; the feeder is set; pieces come off the
        connector or go on.
    item : Item or None
        What comes off or goes on.
    again : bool
        Whether it only stood in the way: it goes on again, or has been on before.
    setting : str
        Of the feeder, for ``set``.
    left, right : tuple of str
        Tags of the pieces, for ``unclip`` and ``clip``; an end may have none.
    """

    do: Do
    item: Item | None = None
    again: bool = False
    setting: str = ""
    left: tuple[str, ...] = ()
    right: tuple[str, ...] = ()


def changes(before: OnBar, after: OnBar) -> tuple[Move, ...]:
    """Say what to do to get from one bar to another.

    Parameters
    ----------
    before, after : OnBar
        What is on, and what shall be on.

    Returns
    -------
    tuple of Move
        In the order of doing it; empty when there is nothing to change. As few plates are handled
        as can be without taking one out from under another.

    Examples
    --------
    >>> light, heavy = OnBar(plates_kg=(20.0, 5.0)), OnBar(plates_kg=(20.0, 10.0))
    >>> [(move.do, move.item.kind, move.item.mass_kg) for move in changes(light, heavy)]
    [('off', 'collar', 0.0), ('off', 'plate', 5.0), ('on', 'plate', 10.0), ('on', 'collar', 0.0)]
    >>> changes(light, light)
    ()
    """
    here, there = before.stack, after.stack
    kept = _same(here, there)
    gone, come = here[kept:], there[kept:]
    stays = _stays(here, there)
    old, new = (before.held, before.setting), (after.held, after.setting)
    left_off, right_off = (
        tuple(tag for tag in tags if not stays or tag not in wanted)
        for tags, wanted in zip(old[0], new[0], strict=True)
    )
    left_on, right_on = (
        tuple(tag for tag in tags if not stays or tag not in had)
        for tags, had in zip(new[0], old[0], strict=True)
    )
    moves = []
    if left_off or right_off:
        moves.append(Move(do="unclip", left=left_off, right=right_off))
    moves += _sleeve(gone, come)
    if new[1] and (not stays or new[1] != old[1]):
        moves.append(Move(do="set", setting=new[1]))
    if left_on or right_on:
        moves.append(Move(do="clip", left=left_on, right=right_on))
    return tuple(moves)


def apply(bar: OnBar, moves: Iterable[Move]) -> OnBar:
    """Do what moves say, strictly: only the outermost comes off, and nothing twice.

    Parameters
    ----------
    bar : OnBar
        What is on.
    moves : iterable of Move
        In order.

    Raises
    ------
    BadInputError
        A move that can't be done.

    Examples
    --------
    >>> light, heavy = OnBar(plates_kg=(20.0, 5.0)), OnBar(plates_kg=(20.0, 10.0))
    >>> apply(light, changes(light, heavy)) == heavy
    True
    """
    stack = list(bar.stack)
    setting, held = bar.setting, bar.held
    for move in moves:
        if move.do == "off" and move.item is not None:
            if not stack or stack[-1] != move.item:
                raise _impossible("It is not the outermost", move.item.kind)
            stack.pop()
        elif move.do == "on" and move.item is not None:
            if stack and stack[-1].kind == "collar":
                raise _impossible("The collar is on already", move.item.kind)
            stack.append(move.item)
        elif move.do == "set":
            if not any(item.kind == "loop" for item in stack):
                raise _impossible("There is no feeder to set", move.setting)
            setting = move.setting
        else:
            held = _clipped(held, move)
    if not any(item.kind == "loop" for item in stack):
        if any(held):
            raise _impossible("Chain is on no feeder", " ".join((*held[0], *held[1])))
        setting = ""
    return bar_of(stack, setting, held)


def plates_handled(moves: Iterable[Move]) -> int:
    """Count the plates that moves take off and put on, both ends together.

    >>> plates_handled(changes(OnBar(), OnBar(plates_kg=(20.0, 10.0))))
    4
    """
    return 2 * sum(move.item is not None and move.item.kind == "plate" for move in moves)


def _clipped(
    held: tuple[tuple[str, ...], tuple[str, ...]], move: Move
) -> tuple[tuple[str, ...], tuple[str, ...]]:
    found = []
    for tags, some in zip(held, (move.left, move.right), strict=True):
        if move.do == "unclip" and not set(some) <= set(tags):
            raise _impossible("It does not hang there", " ".join(some))
        if move.do == "clip" and set(some) & set(tags):
            raise _impossible("It hangs there already", " ".join(some))
        left = tuple(tag for tag in tags if tag not in some)
        found.append(left if move.do == "unclip" else (*left, *some))
    return found[0], found[1]


def _same(here: Sequence[Item], there: Sequence[Item]) -> int:
    """How many of the innermost are the same."""
    kept = 0
    while kept < min(len(here), len(there)) and here[kept] == there[kept]:
        kept += 1
    return kept


def _stays(here: Sequence[Item], there: Sequence[Item]) -> bool:
    """Whether the same feeders and connectors are used on."""
    loops = [{item for item in stack if item.kind == "loop"} for stack in (here, there)]
    return bool(loops[0]) and loops[0] == loops[1]


def _sleeve(gone: Sequence[Item], come: Sequence[Item]) -> Iterator[Move]:
    """What comes off, from outside in, and what goes on, from inside out."""
    both = {item for item in gone if item.kind != "plate"} & set(come)
    for item in reversed(gone):
        yield Move(do="off", item=item, again=item in both)
    for item in come:
        yield Move(do="on", item=item, again=item in both)


def _impossible(why: str, what: str) -> BadInputError:
    return BadInputError(why, field="moves", got=what, wanted="what changes says")
