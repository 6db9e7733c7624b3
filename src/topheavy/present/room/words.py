"""Words for a room: times of day, parts that run short, what changes between two lifters."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING, Final, Literal

from topheavy.present.figure import plate_mark
from topheavy.room.pace import GRAIN_S
from topheavy.room.plan import key_of

if TYPE_CHECKING:
    from topheavy.rigging.plates import Loading
    from topheavy.room.ask import Room
    from topheavy.room.blocked_large import Short
    from topheavy.room.draft import Part
    from topheavy.room.plan import Former, Group, Plan

_DAY_MIN: Final = 24 * 60
_STYLES: Final = {
    "straight": "straight down from the sleeve",
    "draped": "laid across, both tails down",
}


def clock(room: Room, grain: int) -> str:
    """Time of day, to the minute that has begun."""
    minutes = (room.opens_s + grain * GRAIN_S) // 60 % _DAY_MIN
    return f"{minutes // 60}:{minutes % 60:02d}"


def clock_up(room: Room, grain: int) -> str:
    """Time of day when something is over, to the next full minute."""
    per_minute = 60 // GRAIN_S
    return clock(room, -(-grain // per_minute) * per_minute)


def minutes_text(grain: int) -> str:
    """Say a length of time in minutes.

    >>> minutes_text(3), minutes_text(4), minutes_text(10)
    ('1 minute', '1 minute', '3 minutes')
    """
    minutes = -(-grain * GRAIN_S // 60)
    return f"{minutes} minute{'' if minutes == 1 else 's'}"


def part_text(part: Part, count: int) -> str:
    """Name so many of what runs short.

    >>> part_text(("chain", "5/8 in, 32 links"), 1), part_text(("spotters", ""), 2)
    ('1 more pair of chain (5/8 in, 32 links)', '2 more spotters')
    """
    sort, name = part
    if sort == "spotters":
        return f"{count} more spotter{'' if count == 1 else 's'}"
    if sort == "collars":
        return f"{count} more pair{'' if count == 1 else 's'} of collars"
    if sort == "band":
        return f"another band like {name}"
    pairs = f"{count} more pair{'' if count == 1 else 's'} of"
    return f"{pairs} chain ({name})" if sort == "chain" else f"{pairs} {name} ({sort})"


def short_text(short: Short) -> str:
    """Say which hours are too few, whatever the plan.

    >>> from topheavy.room.blocked_large import Short
    >>> short_text(Short(part=("station", "rack"), wanted=500, there=480))
    'Station (rack): 125 minutes are wanted at least, of all of them together, and 120 are there.'
    """
    sort, name = short.part
    wanted, there = (-(-grain * GRAIN_S // 60) for grain in (short.wanted, short.there))
    named = f"{sort} ({name})" if name else sort
    return (
        f"{named.capitalize()}: {wanted} minutes are wanted at least, of all of them together, "
        f"and {there} are there."
    )


def moved_lines(plan: Plan, former: Former) -> tuple[str, ...]:
    """Say whose station or start differs from a former plan, or that nobody moves."""
    room, lines = plan.room, []
    for number, booking in enumerate(room.bookings):
        was, now = former.get(key_of(booking)), plan.of(number)
        if was is not None and (now.station, now.starts) != was:
            before = f"{was[0]} {clock(room, was[1])}"
            lines.append(f"{booking.name}: {now.station} {clock(room, now.starts)}, was {before}")
    return tuple(lines) or ("Nobody moves.",)


def change_text(one: Loading, other: Loading) -> str:
    """Say which plates a side to take off and put on from one lifter to the next."""
    here, there = ([p.mass_kg for p, n in side.per_side for _ in range(n)] for side in (one, other))
    while here and there and here[0] == there[0]:
        here, there = here[1:], there[1:]
    off, on = (", ".join(_counted(side)) for side in (here, there))
    said = [f"off {off}" if off else "", f"on {on}" if on else ""]
    return "; ".join(filter(None, said)) or "nothing"


def end_text(group: Group, side: Literal["left", "right"]) -> str:
    """Name pieces and bands of one end by their tags."""
    chain = " + ".join(getattr(pair, side).tag for pair in group.pairs)
    bands = [
        f"band {getattr(pair, side)} {pair.way} on peg {pair.peg}" for pair in group.hung.bands
    ]
    return "; ".join(filter(None, (chain, *bands)))


def hang_text(group: Group) -> str:
    """Say what each end carries, in kinds and numbers, and how chain hangs when not doubled."""
    sizes = Counter(f"{p.left.size}, {p.left.chain.links} links" for p in group.pairs)
    said = [f"{count} a side, {size}" for size, count in sizes.items()]
    style = group.hung.style
    if said and style != "doubled":
        said[-1] += f", {_STYLES[style]}"
    count = len(group.hung.bands)
    return "; ".join(
        [*said, *([f"{count} band{'s' if count > 1 else ''} a side"] if count else [])]
    )


def _counted(masses_kg: list[float]) -> list[str]:
    counts = Counter(masses_kg)
    return [
        plate_mark(mass_kg) if count == 1 else f"{count} x {plate_mark(mass_kg)}"
        for mass_kg, count in counts.items()
    ]
