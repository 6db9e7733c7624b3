"""Drawing bands: a flat strip from its peg to the sleeve, thinner the more it is stretched."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from topheavy.present.picture.plan import SLEEVE_RADIUS_M
from topheavy.present.picture.sheet import CHALK, FAINT, INK, RUBBER, SLATE, STEEL

if TYPE_CHECKING:
    from topheavy.mechanics.banded import Banded
    from topheavy.present.picture.pen import Pen
    from topheavy.present.picture.plan import BandAt, Plan
    from topheavy.present.picture.scene import Scene

_REST_WIDTH_M: Final = 0.034
_STRANDS_APART_M: Final = 0.022
_PEG_RADIUS_M: Final = 0.016
_POST_M: Final = 0.02
_SAG: Final = 0.5
"""Looks of a band and its peg; no source."""


@dataclass(frozen=True, slots=True)
class _Strand:
    """One strand: from the peg to the sleeve, how wide, and how far it bows aside when slack."""

    x_m: float
    peg_m: float
    bar_m: float
    width_m: float
    bow_m: float

    @property
    def points(self) -> list[tuple[float, float]]:
        """Places along it; a slack one bows."""
        steps = 12 if self.bow_m > 0 else 1
        rise_m = self.bar_m - self.peg_m
        return [
            (
                self.x_m + self.bow_m * math.sin(math.pi * step / steps),
                self.peg_m + rise_m * step / steps,
            )
            for step in range(steps + 1)
        ]


def draw_pegs(pen: Pen, scene: Scene, placed: Plan, high_m: float) -> None:
    """Draw the pegs and what holds them: from the floor up, or from above where the bar is below.

    Heights are to scale; a peg stands under its band, how far to the side it is is not drawn.
    """
    for hung in placed.bands:
        peg_m = hung.banded.peg.height_m
        above = peg_m > scene.top_m
        group = pen.inside(class_="peg", stroke=STEEL, stroke_width=0.5)
        left_m, right_m = hung.x_m - 0.5 * _POST_M, hung.x_m + 0.5 * _POST_M
        end_m = high_m if above else scene.low_m
        group.box((left_m, max(peg_m, end_m)), (right_m, min(peg_m, end_m)), fill=FAINT)
        group.disc((hung.x_m, peg_m), _PEG_RADIUS_M, fill=SLATE, stroke=INK)
        group.disc((hung.x_m, peg_m), 0.4 * _PEG_RADIUS_M, fill=CHALK, stroke="none")


def draw_bands(pen: Pen, placed: Plan, bar_m: float) -> None:
    """Draw the bands of one bar end, bar at `bar_m` [m]: a dark strip with a light line in it."""
    for hung in placed.bands:
        group = pen.inside(class_="band", data_band=hung.banded.band.tag)
        for strand in _strands(hung, bar_m):
            group.tube(strand.points, strand.width_m, RUBBER)
            line = max(0.16 * group.units(strand.width_m), 0.25)
            group.trace(strand.points, stroke=CHALK, stroke_width=line)
        over_m, half_m = SLEEVE_RADIUS_M + 0.005, 0.5 * _REST_WIDTH_M
        corner, opposite = (hung.x_m - half_m, bar_m + over_m), (hung.x_m + half_m, bar_m - over_m)
        group.box(corner, opposite, fill=RUBBER, stroke=INK, stroke_width=0.45, rx=0.8)


def _strands(hung: BandAt, bar_m: float) -> list[_Strand]:
    banded, peg_m = hung.banded, hung.banded.peg.height_m
    count = len(banded.pegs)
    slack_m = max(_rest_m(banded) - abs(bar_m - peg_m), 0.0)
    width_m = _width_m(banded, bar_m)
    places = [0.0] if count == 1 else [-0.5 * _STRANDS_APART_M, 0.5 * _STRANDS_APART_M]
    return [
        _Strand(
            x_m=hung.x_m + place,
            peg_m=peg_m,
            bar_m=bar_m,
            width_m=width_m,
            bow_m=_SAG * math.sqrt(slack_m * _rest_m(banded)) if slack_m > 0.01 else 0.0,
        )
        for place in places
    ]


def _rest_m(banded: Banded) -> float:
    """Rest length of one strand [m]."""
    return banded.band.law.rest_m / len(banded.pegs)


def _width_m(banded: Banded, bar_m: float) -> float:
    """Width of a strand [m]: rubber keeps its volume, so it thins as the root of its stretch."""
    stretch = float(banded.length_m(bar_m)) / banded.band.law.rest_m
    share = 1.0 if len(banded.pegs) == 1 else 0.5
    return share * _REST_WIDTH_M / math.sqrt(max(stretch, 1.0))
