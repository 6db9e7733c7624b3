"""All that is known of a lifter's strength in one lift, put together once."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from topheavy.lifter.by_speed import together
from topheavy.lifter.evidence import FullRange
from topheavy.lifter.strength import agree
from topheavy.phrase import Phrase
from topheavy.services.evidence_words import evidence_phrase
from topheavy.services.known_of_lifter import LeftOut, Used, from_lift, from_variants

if TYPE_CHECKING:
    from collections.abc import Sequence

    from topheavy.lifter.evidence import Evidence
    from topheavy.services.rig import Place


@dataclass(frozen=True, slots=True, kw_only=True)
class Gathered:
    """Evidence on one lifter in one lift, at one station.

    Parameters
    ----------
    used : tuple of Used
        Each piece and where it comes from.
    left_out : tuple of LeftOut
        What was found and not used, and why.
    """

    used: tuple[Used, ...]
    left_out: tuple[LeftOut, ...] = ()

    @property
    def evidence(self) -> tuple[Evidence, ...]:
        """The pieces themselves."""
        return tuple(one.piece for one in self.used)


def gather(place: Place, extra: Sequence[Evidence] = ()) -> Gathered:
    """Find all that is known, nothing asked for twice.

    The best and the records of the lift, and those of the same lifter in the same lift done from
    higher up; heights move with the station.

    Parameters
    ----------
    place : Place
        Who, what and where.
    extra : sequence of Evidence
        What is known besides.
    """
    used = [Used(piece, "as given") for piece in extra]
    left_out: list[LeftOut] = []
    for found, not_used in (from_lift(place), from_variants(place)):
        used += found
        left_out += not_used
    return _without_what_the_log_contradicts(_without_the_weaker(used, left_out, place), place)


def _without_what_the_log_contradicts(found: Gathered, place: Place) -> Gathered:
    """Leave out logged sets that no curve agrees with, the oldest first.

    A best is a claim, a day in the log is not: an off day must not make the rest unusable.
    """
    logged = [one for one in found.used if one.logged]
    kept = [one for one in found.used if not one.logged]
    if not logged:
        return found
    left_out = list(found.left_out)
    travel = place.travel
    for one in sorted(logged, key=lambda used: used.origin, reverse=True):
        if agree([*(other.piece for other in kept), one.piece], place.lift, travel):
            kept.append(one)
        else:
            why = Phrase("it does not agree with what else is known; an off day, or a slip")
            left_out.append(LeftOut(evidence_phrase(one.piece, travel.top_m), one.origin, why))
    kept_pieces = {id(one.piece) for one in kept}
    in_order = tuple(one for one in found.used if id(one.piece) in kept_pieces)
    return Gathered(used=in_order, left_out=tuple(left_out))


def _without_the_weaker(used: list[Used], left_out: list[LeftOut], place: Place) -> Gathered:
    """A single as given replaces the file's, and so does more in the log; bar speed steps back."""
    given = [one for one in used if one.given and _is_single(one.piece)]
    beaten = _most_kg(used, logged=True) > _most_kg(used, logged=False)
    kept: list[Used] = []
    by_speed: list[Used] = []
    top_m = place.travel.top_m
    for one in used:
        if (given or beaten) and one.is_file_best:
            why = "another best was given" if given else "more than that was logged since"
            left_out.append(LeftOut(evidence_phrase(one.piece, top_m), one.origin, Phrase(why)))
        elif isinstance(one.piece, FullRange) and one.piece.reckoned:
            by_speed.append(one)
        else:
            kept.append(one)
    if any(_is_single(one.piece) for one in kept):
        why = "a single that was made says more"
        left_out += [
            LeftOut(evidence_phrase(one.piece, top_m), one.origin, Phrase(why)) for one in by_speed
        ]
    elif by_speed:
        origins = ", ".join(dict.fromkeys(one.origin for one in by_speed))
        bests = [one.piece for one in by_speed if isinstance(one.piece, FullRange)]
        kept.append(Used(together(bests), origins))
    return Gathered(used=tuple(kept), left_out=tuple(left_out))


def _most_kg(used: list[Used], *, logged: bool) -> float:
    """Most that was lifted over the full range [kg], by the log or as the file's best."""
    ours = (one for one in used if (one.logged if logged else one.is_file_best))
    return max((p.piece.load_kg for p in ours if isinstance(p.piece, FullRange)), default=0.0)


def _is_single(piece: Evidence) -> bool:
    return isinstance(piece, FullRange) and piece.is_single
