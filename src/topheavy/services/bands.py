"""What the bands of a rig pull: each band, each pair, and when to read them again."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

import numpy as np

from topheavy.mechanics.banded import peg_u_m
from topheavy.phrase import Amount, Phrase

if TYPE_CHECKING:
    from collections.abc import Sequence

    from topheavy.gym.people import Travel
    from topheavy.mechanics.banded import Banded
    from topheavy.rigging.hung_band import HungBand

    Pairs = tuple[tuple[HungBand | None, HungBand | None], ...]

REST_STEP_M: Final = 0.01
"""Difference of rest length between like bands that the tension is shown for [m]."""

_TAUT_M: Final = 0.001
_JUST_BELOW_M: Final = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class Pull:
    """What one band does at one end of the lift.

    Parameters
    ----------
    height_m : float
        Height of the bar [m].
    load_kg, u_kg : float
        What it adds to the bar there, upwards pull negative, with its standard uncertainty [kg]:
        readings, rest length, height of the peg and of the bar.
    length_m : float
        Whole length of the band there [m].
    longer_rest_kg : float
        Change of that load if the band were like it but 1 cm longer at rest [kg]; 0 when slack.
    """

    height_m: float
    load_kg: float
    u_kg: float
    length_m: float
    longer_rest_kg: float


@dataclass(frozen=True, slots=True, kw_only=True)
class BandReading:
    """One band read over a lift.

    Parameters
    ----------
    hung : HungBand
        Which, on which peg.
    side : {'left', 'right'}
        Which end of the bar.
    bottom, top : Pull
        At both ends of the lift.
    longest_m : float
        Its longest reading [m].
    side_pull_n : float
        Largest horizontal pull on the bar over the lift [N], as a size.
    """

    hung: HungBand
    side: str
    bottom: Pull
    top: Pull
    longest_m: float
    side_pull_n: float

    @property
    def slack_m(self) -> float:
        """How much slack is in it at the bottom [m]; 0 when it is taut."""
        slack_m = self.hung.band.rest_m - self.bottom.length_m
        return slack_m if slack_m > _TAUT_M else 0.0

    @property
    def spare_m(self) -> float:
        """How far its longest reading is beyond the lift [m]; below zero it is guessed."""
        return self.longest_m - max(self.bottom.length_m, self.top.length_m)


@dataclass(frozen=True, slots=True, kw_only=True)
class PairReading:
    """Two bands hung alike on both ends of the bar.

    Parameters
    ----------
    left, right : HungBand
        The bands.
    worst_kg : float
        Largest difference of what they add to the bar over the lift [kg].
    """

    left: HungBand
    right: HungBand
    worst_kg: float


@dataclass(frozen=True, slots=True, kw_only=True)
class BandsReading:
    """All bands of a rig over a lift.

    Parameters
    ----------
    each : tuple of BandReading
        Every band, the left end first.
    pairs : tuple of PairReading
        Those that have a partner hung alike on the other end.
    alone : tuple of HungBand
        Those that have none.
    """

    each: tuple[BandReading, ...] = ()
    pairs: tuple[PairReading, ...] = ()
    alone: tuple[HungBand, ...] = ()

    def remarks(self) -> tuple[Phrase, ...]:
        """What is wrong with them: guessed, slack, or without a partner."""
        said = [_guessed(one) for one in self.each if one.spare_m < -1e-9]
        said += [_slack(one) for one in self.each if one.slack_m > 0]
        said += [_alone(hung) for hung in self.alone]
        return tuple(said)


def read_bands(left: Sequence[HungBand], right: Sequence[HungBand], travel: Travel) -> BandsReading:
    """Read the bands of a rig over a lift.

    Parameters
    ----------
    left, right : sequence of HungBand
        Bands on each end.
    travel : Travel
        Bottom and top with their uncertainty [m].

    Raises
    ------
    BadInputError
        A band stretched further than it was read.
    """
    if not (left or right):
        return BandsReading()
    pairs, alone = _paired(left, right)
    ends_m = (travel.bottom_m, travel.top_m)
    return BandsReading(
        each=tuple(
            _read(hung, side, travel)
            for side, hungs in (("left", left), ("right", right))
            for hung in hungs
        ),
        pairs=tuple(
            PairReading(
                left=a,
                right=b,
                worst_kg=a.over(ends_m).curve().worst_gap(b.over(ends_m).curve(), *ends_m),
            )
            for a, b in pairs
        ),
        alone=alone,
    )


def band_remarks(hungs: Sequence[HungBand], today: str) -> tuple[str, ...]:
    """Say which bands should be read again.

    Parameters
    ----------
    hungs : sequence of HungBand
        Bands in use.
    today : str
        The day it is, as ``"2026-11-25"``; empty when nobody said it: then nothing is said.

    Raises
    ------
    BadInputError
        A day that is none, or readings taken after today.
    """
    if not today:
        return ()
    return tuple(filter(None, (hung.band.remeasure(today) for hung in hungs)))


def _read(hung: HungBand, side: str, travel: Travel) -> BandReading:
    banded = hung.over((travel.bottom_m, travel.top_m))
    heights_m = np.linspace(travel.bottom_m, travel.top_m, 9)
    bottom, top = (_pull(banded, m, travel.height_u_m) for m in (travel.bottom_m, travel.top_m))
    return BandReading(
        hung=hung,
        side=side,
        bottom=bottom,
        top=top,
        longest_m=banded.band.law.longest_m,
        side_pull_n=float(np.max(np.abs(banded.side_pull_n(heights_m)))),
    )


def _pull(banded: Banded, height_m: float, height_u_m: float) -> Pull:
    length_m = float(banded.length_m(height_m))
    load_kg, upright = float(banded.load_kg(height_m)), float(banded.upright(height_m))
    fit = banded.band
    u_kg = upright * float(fit.tension_u_kg(length_m, beyond=banded.beyond))
    slope = float(banded.curve().slope_at(height_m - _JUST_BELOW_M))
    like_m = length_m * fit.law.rest_m / (fit.law.rest_m + REST_STEP_M)
    like_kg = upright * float(fit.tension_kg(like_m, beyond=banded.beyond))
    return Pull(
        height_m=height_m,
        load_kg=load_kg,
        u_kg=float(np.sqrt(u_kg**2 + slope**2 * (height_u_m**2 + peg_u_m(banded) ** 2))),
        length_m=length_m,
        longer_rest_kg=like_kg - load_kg,
    )


def _paired(
    left: Sequence[HungBand], right: Sequence[HungBand]
) -> tuple[list[tuple[HungBand, HungBand]], tuple[HungBand, ...]]:
    """Bands on the same peg in the same way, in the order given; and those left over."""
    others, pairs, alone = list(right), [], []
    for hung in left:
        place = (hung.peg.name, hung.doubled)
        twin = next((o for o in others if (o.peg.name, o.doubled) == place), None)
        if twin is None:
            alone.append(hung)
        else:
            others.remove(twin)
            pairs.append((hung, twin))
    return pairs, (*alone, *others)


def _guessed(one: BandReading) -> Phrase:
    return Phrase(
        f"Band {one.hung.band.tag} is stretched {{}} further than it was ever read: what it "
        "pulls there is a guess. Read it that long before you use it.",
        (Amount(-one.spare_m, "length"),),
    )


def _slack(one: BandReading) -> Phrase:
    if one.top.length_m <= one.hung.band.rest_m:
        return Phrase(f"Band {one.hung.band.tag} is slack all the way: it adds nothing.")
    return Phrase(
        f"Band {one.hung.band.tag} hangs slack by {{}} at the bottom: it may slip off its peg, "
        "and comes on only higher up. A lower peg, or doubled, keeps it taut.",
        (Amount(one.slack_m, "length"),),
    )


def _alone(hung: HungBand) -> Phrase:
    return Phrase(
        f"Band {hung.band.tag} has no partner on the other end: a like band on the same peg, "
        f"{hung.way} too. The bar will tip and turn."
    )
