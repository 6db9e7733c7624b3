"""A piece of evidence in a coach's words, in the units that are wanted."""

from __future__ import annotations

from typing import TYPE_CHECKING

from topheavy.lifter.evidence import FullRange, Isometric, Miss, Partial
from topheavy.phrase import Amount, Phrase

if TYPE_CHECKING:
    from topheavy.lifter.evidence import Evidence


def evidence_phrase(piece: Evidence, top_m: float) -> Phrase:
    """Say what a coach knows.

    Parameters
    ----------
    piece : Evidence
        One piece of it.
    top_m : float
        Where the lift locks out [m]: there the hung load is said.

    Examples
    --------
    >>> evidence_phrase(Partial(height_m=0.95, load_kg=120.0), 1.07).say()
    'a best of 120.0 kg from 95.0 cm up'
    >>> evidence_phrase(FullRange(load_kg=100.0, reps=5, reps_left=2), 1.07).say()
    'a set of 5 with 100.0 kg, 2 left'
    """
    if isinstance(piece, Isometric):
        said = "an isometric effort of {} at {}"
        return Phrase(said, (_mass(piece.load_kg), _height(piece.height_m)))
    if isinstance(piece, Miss):
        return Phrase("a miss of {} at {}", (_mass(piece.load_kg), _height(piece.height_m)))
    if isinstance(piece, FullRange) and piece.reckoned:
        u_kg = piece.load_u_kg or 0.0
        low, high = _mass(piece.load_kg - 2 * u_kg), _mass(piece.load_kg + 2 * u_kg)
        said = "a best of about {} ({} to {}) by bar speed"
        return Phrase(said, (_mass(piece.load_kg), low, high))
    if isinstance(piece, FullRange):
        return Phrase(_lifted(piece), (_mass(piece.load_kg),))
    if isinstance(piece, Partial):
        amounts = (_mass(piece.load_kg), _height(piece.height_m))
        return Phrase(f"{_lifted(piece)} from {{}} up", amounts)
    word = "a best" if piece.maximal else "a lift"
    at_top = _mass(float(piece.hung.at(top_m)))
    said = f"{word} of {{}} straight weight with {{}} of hung load at lockout"
    return Phrase(said, (_mass(piece.straight_kg), at_top))


def _lifted(piece: FullRange | Partial) -> str:
    if piece.reps == 1 and piece.reps_left == 0:
        return "a best of {}" if piece.maximal else "a lift of {}"
    left = f", {piece.reps_left:g} left" if piece.reps_left else ""
    tried = "" if piece.maximal else ", not to the end"
    return f"a set of {piece.reps} with {{}}{left}{tried}"


def _mass(value_kg: float) -> Amount:
    return Amount(value_kg, "mass")


def _height(value_m: float) -> Amount:
    return Amount(value_m, "length")
