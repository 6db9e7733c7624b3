"""What evidence can't be right together, or can't be right at all: named, never dropped."""

from __future__ import annotations

from itertools import combinations
from typing import TYPE_CHECKING

from topheavy.errors import BadInputError
from topheavy.lifter.evidence import FullRange, HungBest, Isometric, Miss, Partial
from topheavy.lifter.model import allowed
from topheavy.lifter.typical import OPEN

if TYPE_CHECKING:
    from collections.abc import Sequence

    from topheavy.gym.people import Travel
    from topheavy.lifter.evidence import Evidence
    from topheavy.lifter.known import Frame

_SAME_M = 1e-9


class ContradictionError(BadInputError):
    """Pieces of evidence that can't all be right.

    Parameters
    ----------
    message : str
        Why not.
    pieces : sequence of Evidence
        Those that contradict each other.
    wanted : str
        What to do about it.
    """

    def __init__(
        self, message: str, pieces: Sequence[Evidence] = (), wanted: str | None = None
    ) -> None:
        got = " and ".join(piece.words for piece in pieces)
        super().__init__(message, field="evidence", got=got, wanted=wanted)
        self.pieces = tuple(pieces)


def check_pieces(pieces: Sequence[Evidence], travel: Travel) -> None:
    """Refuse evidence outside the lift, or evidence without a single maximum.

    Raises
    ------
    BadInputError
        Naming the piece.
    """
    for number, piece in enumerate(pieces):
        if isinstance(piece, Partial | Isometric | Miss):
            _check_height(piece, travel, f"evidence[{number}].height_m")
    if not any(_is_maximum(piece) for piece in pieces):
        raise BadInputError(
            "Nothing says how strong the lifter is",
            field="evidence",
            got=", ".join(piece.words for piece in pieces) or "nothing",
            wanted="at least one best (full range, partial, under hung load) or isometric effort",
        )


def contradiction(pieces: Sequence[Evidence], frame: Frame) -> ContradictionError:
    """Say which pieces of evidence no strength curve can agree with.

    Parameters
    ----------
    pieces : sequence of Evidence
        Together they leave no curve.
    frame : Frame
        Of which lift.
    """
    for pair in combinations(pieces, 2):
        if not allowed_together(pair, frame):
            return ContradictionError(
                _why(*pair),
                pair,
                "check both loads and heights, or leave out the one that is out of date",
            )
    return ContradictionError(
        "No strength curve with one weakest height agrees with all of these, though with any two",
        pieces,
        "check loads and heights, or leave out what is out of date",
    )


def allowed_together(pair: tuple[Evidence, Evidence], frame: Frame) -> bool:
    """Whether some curve agrees with both pieces of evidence."""
    return bool(allowed(pair, frame, OPEN))


def _why(one: Evidence, other: Evidence) -> str:
    kinds = {type(one), type(other)}
    if kinds == {FullRange}:
        return "Two full-range bests are too far apart to hold for one lifter now"
    if kinds == {FullRange, Partial}:
        return "A partial starts higher, so its best can't be less than the full-range best"
    if kinds == {Partial}:
        return "A partial from higher up can't have a lower best"
    if Miss in kinds and kinds & {FullRange, Partial, HungBest}:
        return "A load was missed at a height that a heavier one went through"
    if HungBest in kinds:
        return "What was lifted under hung load does not fit what was lifted otherwise"
    return "No strength curve with one weakest height agrees with both"


def _check_height(piece: Partial | Isometric | Miss, travel: Travel, field: str) -> None:
    if travel.bottom_m - _SAME_M <= piece.height_m <= travel.top_m + _SAME_M:
        below_top = piece.height_m < travel.top_m - _SAME_M
        if below_top or isinstance(piece, Isometric):
            return
    raise BadInputError(
        "The height lies outside the lift",
        field=field,
        got=piece.words,
        wanted=f"from {travel.bottom_m:g} m, the bottom, to below {travel.top_m:g} m, the top",
    )


def _is_maximum(piece: Evidence) -> bool:
    if isinstance(piece, Miss):
        return False
    return isinstance(piece, Isometric) or piece.maximal
