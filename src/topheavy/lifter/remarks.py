"""What a coach should know of a strength curve: where it was measured, where it is a guess."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

import numpy as np

from topheavy.lifter.evidence import FullRange, HungBest, Isometric, Miss, Partial, best_of
from topheavy.phrase import Amount, Phrase, Remark

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    from topheavy.lifter.model import Model

    Floats = NDArray[np.float64]

_WELL_ABOVE: Final = 0.75
_SLIGHT: Final = 0.05
_NOTED: Final = 0.005


def remarks_on(model: Model, weakest: int, best_kg: Floats, *, kept: bool) -> tuple[Remark, ...]:
    """Say what is to be said.

    Parameters
    ----------
    model : Model
        Evidence and fit.
    weakest : int
        Index of the likeliest curve's weakest height.
    best_kg : array, shape (heights,)
        Likeliest strength [kg].
    kept : bool
        Whether the typical spans were kept.
    """
    found = [*_of_shape(model, kept=kept), *_of_top(model, best_kg)]
    found += _of_sets(model)
    found += _of_bests(model, best_kg)
    found += _of_partials(model, weakest, best_kg)
    found += _of_others(model, best_kg)
    return tuple(found)


def _of_shape(model: Model, *, kept: bool) -> Iterator[Remark]:
    if all(isinstance(piece, FullRange) for piece in model.pieces):
        yield _remark(
            "one number",
            "One number does not say how strength goes with height: this is the curve of a "
            f"typical {model.frame.lift}, and the range is wide. Bar speed does not tell it "
            "either: curves with very different lockouts fit the same speeds. A partial best, a "
            "miss and where it happened, or one best with chain on narrows it.",
        )
    if not kept:
        yield _remark(
            "not typical",
            f"These numbers don't fit the spans of a typical {model.frame.lift}: those are set "
            "aside, and between what was measured the range is wider. Check heights and loads.",
        )


def _of_top(model: Model, best_kg: Floats) -> Iterator[Remark]:
    """Say when lockout, where chain is heaviest, is a guess."""
    placed = [p.height_m for p in model.pieces if isinstance(p, Partial | Isometric)]
    hung = any(isinstance(p, HungBest) for p in model.pieces)
    if not placed or hung:
        return
    highest_m = max(placed)
    if model.frame.share(highest_m) < _WELL_ABOVE:
        at = _index(model, highest_m)
        yield _remark(
            "top unmeasured",
            "Nothing was measured above {}: there the curve goes on from {} as the typical shape "
            "does, and the range widens.",
            _length(highest_m),
            _mass(float(best_kg[at])),
        )


def _of_sets(model: Model) -> Iterator[Remark]:
    for piece in model.pieces:
        if not isinstance(piece, FullRange | Partial):
            continue
        if not piece.maximal:
            yield _remark(
                "lift, not best",
                "A lift of {} that was not a best counts as: at least that.",
                _mass(piece.load_kg),
            )
            continue
        best = best_of(piece, model.frame.lift)
        if best.values_kg:
            said = " ".join(best.caveats)
            yield _remark(
                "set",
                f"A set of {piece.reps} with {{}} stands for {{}}, by the formulas {{}} to {{}}. "
                f"A single tells more. {said}".rstrip(),
                _mass(piece.load_kg),
                _mass(best.middle_kg),
                _mass(best.low_kg),
                _mass(best.high_kg),
            )


def _of_bests(model: Model, best_kg: Floats) -> Iterator[Remark]:
    full = [p for p in model.pieces if isinstance(p, FullRange) and p.maximal]
    if len(full) > 1:
        yield _remark(
            "several bests",
            "Several full-range bests were given; the curve's own is {}.",
            _mass(float(np.min(best_kg))),
        )
    least_kg = float(np.min(best_kg))
    made_kg = max((p.load_kg for p in full if p.is_single and not p.reckoned), default=0.0)
    if made_kg > least_kg * (1 + _NOTED):
        yield _remark(
            "best lowered",
            "The single of {} was made, yet what else was given leaves no more than {}: both can "
            "hardly hold for one lifter now, and the range is narrower than it should be. Test "
            "again, or leave out what is out of date.",
            _mass(made_kg),
            _mass(least_kg),
        )


def _of_partials(model: Model, weakest: int, best_kg: Floats) -> Iterator[Remark]:
    least_kg = float(np.min(best_kg))
    for piece in model.pieces:
        if not isinstance(piece, Partial) or not piece.maximal:
            continue
        at = _index(model, piece.height_m)
        load_kg, shown_kg = best_of(piece).middle_kg, float(best_kg[at])
        if at <= weakest:
            yield _remark(
                "partial below weakest",
                "A partial of {} from {} starts at or below the weakest height: it says the same "
                "as the full-range best.",
                _mass(load_kg),
                _length(piece.height_m),
            )
        elif load_kg < shown_kg - _NOTED * least_kg:
            yield _remark(
                "partial low",
                "A partial of {} from {} is less than the curve's {}: other bests show more, by "
                "no more than their uncertainties. A lift made counts, a lift not shown does not.",
                _mass(load_kg),
                _length(piece.height_m),
                _mass(shown_kg),
            )


def _of_others(model: Model, best_kg: Floats) -> Iterator[Remark]:
    for piece in model.pieces:
        if isinstance(piece, Isometric):
            yield _remark(
                "isometric",
                "An isometric effort of {} at {} is only loosely related to what can be lifted "
                f"there: taken as {piece.share_low:.0%} to {piece.share_high:.0%} of it.",
                _mass(piece.load_kg),
                _length(piece.height_m),
            )
        elif isinstance(piece, Miss):
            shown_kg = float(best_kg[_index(model, piece.height_m)])
            if shown_kg > piece.load_kg + _NOTED * float(np.min(best_kg)):
                yield _remark(
                    "miss of a lifted load",
                    "{} was missed at {}, yet the bests say {} there, by no more than their "
                    "uncertainties: a bad day, or an old best.",
                    _mass(piece.load_kg),
                    _length(piece.height_m),
                    _mass(shown_kg),
                )
        elif isinstance(piece, HungBest):
            yield from _of_hung(model, piece)


def _of_hung(model: Model, piece: HungBest) -> Iterator[Remark]:
    best_kg = max((p.load_kg for p in model.pieces if isinstance(p, FullRange)), default=np.inf)
    if piece.straight_kg > best_kg:
        yield _remark(
            "hung above best",
            "{} went up under hung load, more than the full-range best of {}: that best is "
            "probably out of date.",
            _mass(piece.straight_kg),
            _mass(best_kg),
        )
    ends = piece.hung.at([model.frame.travel.bottom_m, model.frame.travel.top_m])
    rise_kg = float(ends[1] - ends[0])
    if rise_kg < _SLIGHT * piece.straight_kg:
        yield _remark(
            "little hung",
            "The hung load grows by only {} over the lift: such a best says little that the "
            "full-range best does not. Try it with more chain.",
            _mass(rise_kg),
        )


def _index(model: Model, height_m: float) -> int:
    return int(np.argmin(np.abs(model.height_m - height_m)))


def _remark(code: str, text: str, *amounts: Amount) -> Remark:
    return Remark(code, Phrase(text, amounts))


def _mass(value_kg: float) -> Amount:
    return Amount(value_kg, "mass")


def _length(value_m: float) -> Amount:
    return Amount(value_m, "length")
