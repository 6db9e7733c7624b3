"""A lifter's allowed curves and how likely each shape is: what best curve and samples come from."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

import numpy as np

from topheavy.lifter.bounds import Box, boxes_of
from topheavy.lifter.draw import Points, draw_curve
from topheavy.lifter.evidence import FullRange, HungBest, Miss, Partial, best_of
from topheavy.lifter.known import (
    COVERAGE,
    bounds_of,
    full_u_kg,
    hung_above,
    hung_u_kg,
    knots_of,
    miss_u_kg,
    shares_of,
)
from topheavy.lifter.shapes import Shapes, weigh_shapes
from topheavy.lifter.typical import OPEN

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from numpy.typing import NDArray

    from topheavy.gym.people import Travel
    from topheavy.lifter.evidence import Evidence
    from topheavy.lifter.known import Frame
    from topheavy.lifter.typical import TypicalShape

    Floats = NDArray[np.float64]

CELLS: Final = 200
"""Every curve has heights this many equal steps apart from bottom to top, and its own besides."""

_STEP: Final = 4
_SAME_M: Final = 1e-9
_CROSSED: Final = 1e6


@dataclass(frozen=True, slots=True, eq=False)
class Model:
    """Allowed curves.

    Parameters
    ----------
    pieces : tuple of Evidence
        What is known.
    frame : Frame
        Of which lift.
    height_m : array, shape (heights,)
        Heights [m] from bottom to top: equal steps, and those the evidence needs.
    boxes : dict of int to Box
        By index of the weakest height.
    shapes : Shapes
        Likelihoods.
    typical : TypicalShape
        Spans that were kept.
    """

    pieces: tuple[Evidence, ...]
    frame: Frame
    height_m: Floats
    boxes: dict[int, Box]
    shapes: Shapes
    typical: TypicalShape

    @property
    def shares(self) -> Floats:
        """Shares of the travel [-]."""
        return shares_of(self.height_m, self.frame.travel)


def heights_of(pieces: Sequence[Evidence], travel: Travel) -> tuple[Floats, NDArray[np.bool_]]:
    """Heights [m] of the curve, and which of them are the equal steps every curve has."""
    regular = np.linspace(travel.bottom_m, travel.top_m, CELLS + 1)
    own = np.unique(knots_of(pieces, travel))
    gap = np.min(np.abs(own[:, None] - regular[None, :]), axis=1, initial=np.inf)
    heights = np.unique(np.concatenate([regular, own[gap > _SAME_M]]))
    heights = heights[np.concatenate([[True], np.diff(heights) > _SAME_M / 2])]
    return heights, np.isin(heights, regular)


def allowed(pieces: Sequence[Evidence], frame: Frame, typical: TypicalShape) -> dict[int, Box]:
    """Find the boxes of allowed curves; empty when no curve agrees with every piece."""
    heights, regular = heights_of(pieces, frame.travel)
    bounds = [b for p in pieces for b in bounds_of(p, frame, heights, regular)]
    shares = shares_of(heights, frame.travel)
    tried = np.arange(CELLS + 1)[::_STEP] / CELLS
    span = typical.weakest
    tried = tried[(tried >= span.low - 1e-9) & (tried <= span.high + 1e-9)]
    tried = np.unique(np.concatenate([tried, [span.low, span.typical, span.high]]))
    indices = [int(np.argmin(np.abs(shares - share))) for share in tried]
    return {box.weakest: box for box in boxes_of(bounds, shares, indices, typical)}


def fit_model(pieces: tuple[Evidence, ...], frame: Frame, typical: TypicalShape) -> Model | None:
    """Fit within the typical spans, or when that leaves no curve, within none; None: no curve."""
    heights, _ = heights_of(pieces, frame.travel)
    for spans in (typical, OPEN):
        boxes = allowed(pieces, frame, spans)
        if boxes:
            shapes = weigh_shapes(pieces, frame, heights, sorted(boxes), spans)
            return Model(pieces, frame, heights, boxes, shapes, spans)
    return None


def best_curve(model: Model) -> tuple[int, Floats]:
    """Likeliest curve: index of its weakest height, and strength [kg] at each height."""
    which = int(np.argmin(model.shapes.misfit + _CROSSED * _crossed(model)))
    box = model.boxes[int(model.shapes.weakest[which])]
    points = _points(model, which, box, lambda value, _: value)
    shape = model.shapes.shape(which, model.shapes.bottom.typical)
    return box.weakest, draw_curve(model.shares, shape, points, box)


def _crossed(model: Model) -> NDArray[np.bool_]:
    """Which shapes have their weakest height where a best shows more than the full-range best."""
    crossed = np.zeros(model.shapes.misfit.size, dtype=np.bool_)
    full = [p for p in model.pieces if isinstance(p, FullRange) and p.maximal]
    if not full:
        return crossed
    best_kg = max(best_of(p).middle_kg for p in full) * (1 + _SAME_M)
    for piece in model.pieces:
        if isinstance(piece, Partial) and piece.maximal and best_of(piece).middle_kg > best_kg:
            crossed |= model.shapes.weakest >= _at(model, piece.height_m)
        elif isinstance(piece, HungBest):
            load_kg = piece.straight_kg + hung_above(piece.hung, model.height_m)
            crossed |= load_kg[model.shapes.weakest] > best_kg
    return crossed


def sampled_curves(model: Model, samples: int, seed: int) -> Floats:
    """Draw curves [kg], shape (samples, heights): shapes by their likelihood, loads by theirs."""
    random = np.random.default_rng(seed)
    chance = np.exp(-(model.shapes.misfit - np.min(model.shapes.misfit)) / 2)
    picks = random.choice(chance.size, size=samples, p=chance / np.sum(chance))

    def vary(value: float, u: float) -> float:
        drawn = float(np.clip(random.standard_normal(), -COVERAGE, COVERAGE))
        return max(value + u * drawn, 0.0)

    curves = np.empty((samples, model.height_m.size))
    for row, which in enumerate(picks):
        box = model.boxes[int(model.shapes.weakest[which])]
        bottom = random.uniform(model.shapes.bottom.low, model.shapes.bottom.high)
        shape = model.shapes.shape(int(which), bottom)
        points = _points(model, int(which), box, vary)
        curves[row] = draw_curve(model.shares, shape, points, box)
    return curves


def _points(model: Model, which: int, box: Box, vary: Callable[[float, float], float]) -> Points:
    """What a curve has to meet, each load put through `vary` with its uncertainty."""
    lifted: list[tuple[int, float]] = []
    missed: list[tuple[int, float]] = []
    under: list[Floats] = []
    at_least: list[Floats] = []
    for piece in model.pieces:
        if isinstance(piece, Miss):
            missed.append(
                (_at(model, piece.height_m), vary(piece.load_kg, miss_u_kg(piece, model.frame)))
            )
        elif isinstance(piece, HungBest):
            hung_kg = hung_above(piece.hung, model.height_m)
            straight_kg = vary(piece.straight_kg, hung_u_kg(piece, model.frame))
            (under if piece.maximal else at_least).append(straight_kg + hung_kg)
        elif isinstance(piece, Partial) and piece.maximal:
            load_kg = vary(best_of(piece).middle_kg, full_u_kg(piece, model.frame))
            lifted.append((_at(model, piece.height_m), load_kg))
        elif isinstance(piece, Partial):
            above = model.height_m >= piece.height_m - _SAME_M
            at_least.append(np.where(above, piece.load_kg, -np.inf))
    best_kg = _full_kg(model, which, vary)
    low, high = box.low_kg[box.weakest], box.high_kg[box.weakest]
    return Points(float(np.clip(best_kg, low, high)), lifted, missed, under, at_least)


def _full_kg(model: Model, which: int, vary: Callable[[float, float], float]) -> float:
    """Full-range best [kg]: the best single, or what sets and the rest imply for this shape."""
    full = [p for p in model.pieces if isinstance(p, FullRange)]
    singles = [p for p in full if p.is_single]
    lifted_kg = max((p.load_kg for p in full if not p.reckoned), default=0.0)
    if singles:
        top = max(singles, key=lambda p: p.load_kg)
        return max(vary(top.load_kg, full_u_kg(top, model.frame)), 0.0)
    implied_kg = float(model.shapes.best_kg[which])
    return max(vary(implied_kg, model.shapes.relative_u * implied_kg), lifted_kg)


def _at(model: Model, height_m: float) -> int:
    return int(np.argmin(np.abs(model.height_m - height_m)))
