"""Slips with bands: another peg, doubled or not, another band, one not hooked on, soft rubber."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from topheavy.errors import BadInputError
from topheavy.phrase import Phrase, literal
from topheavy.services.weighing.ends import changed_on, side_of, wheres
from topheavy.services.weighing.suspects import Slip

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from topheavy.mechanics.band import BandFit
    from topheavy.mechanics.banded import Banded, Peg
    from topheavy.mechanics.rig import End
    from topheavy.services.weighing.case import Case, Side
    from topheavy.services.weighing.suspects import Kind, Suspects

    Change = Callable[[Banded], Banded | None]


def band_slips(case: Case, suspects: Suspects) -> Iterator[Slip]:
    """List what may be wrong with the bands on the scale, on one end or both."""
    for place in range(max((len(end.bands) for end in case.ends), default=0)):
        if case.scale.on_floor:
            return
        for sides, where in wheres(case):
            bands = [_at(case, side, place) for side in sides]
            stated = [band for band in bands if band is not None]
            if len(stated) == len(sides):
                yield from _pegs(case, suspects, place, sides, where)
                yield from _ways(case, place, sides, where)
                yield from _others(case, suspects, place, sides, where)
                yield from _missing(case, place, sides, where)


def soft_phrase(off_by: float) -> Phrase:
    """Say by how much all bands pull less or more than their readings say: a share [-]."""
    less = "less" if off_by < 0 else "more"
    return Phrase(f"The bands pull {abs(off_by):.0%} {less} than their readings say.")


def _at(case: Case, side: Side, place: int) -> Banded | None:
    bands = getattr(case.rig, side).bands
    return bands[place] if len(bands) > place else None


def _tags(case: Case, sides: tuple[Side, ...], place: int) -> str:
    bands = [_at(case, side, place) for side in sides]
    tags = dict.fromkeys(band.band.tag for band in bands if band is not None)
    return f"Band{'s' if len(tags) > 1 else ''} {' and '.join(tags)}"


def _pegs(
    case: Case, suspects: Suspects, place: int, sides: tuple[Side, ...], where: str
) -> Iterator[Slip]:
    first = _at(case, sides[0], place)
    names = {one.peg: one.name for one in suspects.pegs}
    for other in suspects.pegs:
        if first is None or other.peg == first.peg:
            continue
        words = f"{_tags(case, sides, place)}: on peg {other.name}"
        words += f" instead of {names[first.peg]}" if first.peg in names else ""
        yield from _slip("peg", f"{words}, on {where}.", case, (place, sides), _onto(other.peg))


def _onto(peg: Peg) -> Change:
    def change(band: Banded) -> Banded | None:
        second = None if band.second is None else peg
        return _hung(band, lambda: replace(band, peg=peg, second=second, beyond=True))

    return change


def _ways(case: Case, place: int, sides: tuple[Side, ...], where: str) -> Iterator[Slip]:
    first = _at(case, sides[0], place)
    if first is None:
        return
    now, other = ("single", "doubled") if first.second is None else ("doubled", "single")

    def change(band: Banded) -> Banded | None:
        second = band.peg if band.second is None else None
        return _hung(band, lambda: replace(band, second=second, beyond=True))

    words = f"{_tags(case, sides, place)}: {other} instead of {now}, on {where}."
    yield from _slip("doubled", words, case, (place, sides), change)


def _others(
    case: Case, suspects: Suspects, place: int, sides: tuple[Side, ...], where: str
) -> Iterator[Slip]:
    """Another band of the gym in place of the stated one, on one end."""
    hung = {band.band.tag for end in (case.rig.left, case.rig.right) for band in end.bands}
    if len(sides) > 1:
        return
    for other in suspects.bands:
        if other.tag in hung:
            continue
        words = f"{_tags(case, sides, place)}: {other.tag} hangs in its place, on {where}."
        yield from _slip("band", words, case, (place, sides), _swapped(other.fit()))


def _swapped(fit: BandFit) -> Change:
    return lambda band: _hung(band, lambda: replace(band, band=fit, beyond=True))


def _missing(case: Case, place: int, sides: tuple[Side, ...], where: str) -> Iterator[Slip]:
    words = f"{_tags(case, sides, place)}: not hooked on, on {where}."
    yield from _slip("band", words, case, (place, sides), lambda _: None, drop=True)


def _hung(band: Banded, make: Callable[[], Banded]) -> Banded | None:
    """The band as it would hang; None where it can't, or where nothing would change."""
    try:
        other = make()
    except BadInputError:
        return None
    return None if other == band else other


def _slip(
    kind: Kind,
    words: str,
    case: Case,
    at: tuple[int, tuple[Side, ...]],
    change: Change,
    *,
    drop: bool = False,
) -> Iterator[Slip]:
    place, sides = at

    def on_end(end: End) -> End | None:
        new = change(end.bands[place])
        if new is None and not drop:
            return None
        bands = (*end.bands[:place], *([new] if new else []), *end.bands[place + 1 :])
        return replace(end, bands=bands)

    changed = changed_on(case, sides, on_end)
    if changed is not None:
        what = Phrase(literal(words))
        slip = Slip(kind=kind, family=kind, what=what, todo=LOOK_AT_BANDS, case=changed)
        yield replace(slip, side=side_of(case, sides))


LOOK_AT_BANDS: Final = Phrase(
    "Look at both ends: which band by its tag, on which peg, single or doubled. Take the bands off "
    "before anything is moved."
)
READ_BANDS: Final = Phrase(
    "Read each band again by itself, a scale in line with it, at the lengths of this lift: rubber "
    "pulls less when it is warm or worn, more when it is cold. Put the readings in the gym's stock."
)
