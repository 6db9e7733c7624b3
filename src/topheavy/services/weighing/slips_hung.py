"""Slips in what hangs: another ring, a link too many, a piece too few."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING, Final

from topheavy.mechanics.hang import Doubled, Straight
from topheavy.phrase import Amount, Phrase
from topheavy.services.weighing.ends import changed_on, side_of, wheres
from topheavy.services.weighing.suspects import Slip

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from topheavy.gym.stock import FeederSetting
    from topheavy.mechanics.chain import Chain
    from topheavy.mechanics.hang import Hang
    from topheavy.mechanics.rig import End
    from topheavy.services.weighing.case import Case
    from topheavy.services.weighing.suspects import Suspects

_REACH: Final = 40
"""Settings tried either way. Further ones are so unlikely that a length off by any amount fits."""

_SAME_M: Final = 1e-4


def ring_slips(case: Case, suspects: Suspects) -> Iterator[Slip]:
    """List each doubled hang on each other setting of its feeder, one end or both.

    A slip of k settings happens once for k (k + 1) / 2 slips of one, so that all add up to one
    (a guess, no source).
    """
    most = max((len(end.hangs) for end in case.ends), default=0)
    for place in range(most):
        hangs = [end.hangs[place] for end in case.ends if len(end.hangs) > place]
        stated_m = next((h.suspension.feeder_m for h in hangs if isinstance(h, Doubled)), None)
        if stated_m is None:
            continue
        label = _label(suspects.settings, stated_m)
        places = wheres(case)
        for steps, setting in _others(suspects.settings, stated_m):
            charge = 2 * math.log(2 * steps * (steps + 1) * len(places))
            for sides, where in places:
                changed = changed_on(case, sides, _reset(place, setting.length_m))
                if changed is not None:
                    slip = _ring(changed, where, setting, Amount(stated_m, "length"), label)
                    yield replace(slip, side=side_of(case, sides), charge=charge)


def link_slips(case: Case) -> Iterator[Slip]:
    """List one link missing or extra, in one piece on one end, and in every piece of its kind."""
    for chain in dict.fromkeys(case.chains):
        for more in (-1, 1):
            if chain.links + more < 1:
                continue
            other = (replace(chain, links=chain.links + more),)
            word = "is missing from" if more < 0 else "too many is in"
            for sides, where in wheres(case):
                if len(sides) == 1:
                    changed = changed_on(case, sides, _swap(chain, other))
                    if changed is not None:
                        slip = _link(changed, f"One link {word} a piece", chain, where)
                        yield replace(slip, side=side_of(case, sides))
            changed = changed_on(case, case.scale.sides, _swap(chain, other, every=True))
            if changed is not None:
                yield _link(changed, f"One link {word} every piece", chain, "")


def piece_slips(case: Case) -> Iterator[Slip]:
    """List a piece missing from, or hung twice on, one end or both."""
    for chain in dict.fromkeys(case.chains):
        for others, word in (((), "is missing from"), ((chain, chain), "is hung twice on")):
            for sides, where in wheres(case):
                changed = changed_on(case, sides, _swap(chain, others))
                if changed is not None:
                    yield Slip(
                        kind="piece",
                        family="piece",
                        what=Phrase(f"A piece of {chain.links} links {word} {where}."),
                        todo=_COUNT_PIECES,
                        case=changed,
                        side=side_of(case, sides),
                    )


def _ring(case: Case, where: str, setting: FeederSetting, stated: Amount, label: str) -> Slip:
    length = Amount(setting.length_m, "length")
    return Slip(
        kind="ring",
        family="ring",
        what=Phrase(
            f"The feeder is on {setting.label} ({{}}) instead of {label}, on {where}.",
            (length, stated),
        ),
        todo=_LOOK_AT_RING,
        case=case,
    )


def _link(case: Case, words: str, chain: Chain, where: str) -> Slip:
    place = f" on {where}" if where else ""
    return Slip(
        kind="link",
        family="link",
        what=Phrase(f"{words} of {chain.links} links{place}."),
        todo=_COUNT_LINKS,
        case=case,
    )


def _others(
    settings: tuple[FeederSetting, ...], stated_m: float
) -> list[tuple[int, FeederSetting]]:
    """Other settings within reach, with how many steps away each is, nearest first."""
    shorter = [s for s in settings if s.length_m < stated_m - _SAME_M]
    longer = [s for s in settings if s.length_m > stated_m + _SAME_M]
    down = sorted(shorter, key=lambda s: -s.length_m)[:_REACH]
    up = sorted(longer, key=lambda s: s.length_m)[:_REACH]
    return sorted([*enumerate(down, 1), *enumerate(up, 1)], key=lambda other: other[0])


def _label(settings: tuple[FeederSetting, ...], stated_m: float) -> str:
    """Name of the stated setting with room for its length."""
    found = (s.label for s in settings if abs(s.length_m - stated_m) <= _SAME_M)
    label = next(found, "")
    return f"{label} ({{}})" if label else "{}"


def _reset(place: int, length_m: float) -> Callable[[End], End | None]:
    """Set the feeder of the hang at `place` to `length_m` [m]."""

    def change(end: End) -> End | None:
        hang = end.hangs[place] if len(end.hangs) > place else None
        if not isinstance(hang, Doubled):
            return None
        whole_m = hang.suspension.feeder_whole_m
        whole_m = None if whole_m is None else max(whole_m, length_m)
        held = replace(hang.suspension, feeder_m=length_m, feeder_whole_m=whole_m)
        hangs = list(end.hangs)
        hangs[place] = replace(hang, suspension=held)
        return replace(end, hangs=tuple(hangs))

    return change


def _swap(
    chain: Chain, others: tuple[Chain, ...], *, every: bool = False
) -> Callable[[End], End | None]:
    """Put `others` in place of the first piece like `chain`, or of every one."""

    def change(end: End) -> End | None:
        hangs: list[Hang] = []
        swapped = 0
        for hang in end.hangs:
            pieces: list[Chain] = []
            for piece in hang.chains:
                swap = piece == chain and (every or not swapped)
                swapped += swap
                pieces.extend(others if swap else (piece,))
            hangs.extend(_rehung(hang, tuple(pieces)))
        return replace(end, hangs=tuple(hangs)) if swapped else None

    return change


def _rehung(hang: Hang, pieces: tuple[Chain, ...]) -> list[Hang]:
    if isinstance(hang, Straight):
        return [replace(hang, chain=piece) for piece in pieces]
    return [replace(hang, chains=pieces)] if pieces else []


_LOOK_AT_RING = Phrase(
    "Read the ring at both ends. Move it to the stated one, or take the rig as it hangs and "
    "compute its loads anew."
)
_COUNT_LINKS = Phrase(
    "Count the links of every piece, both ends, and correct the number in the gym's stock."
)
_COUNT_PIECES = Phrase("Count the pieces on each connector: both ends must carry the same.")
