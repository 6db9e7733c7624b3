"""What a rig puts on the bar: every number that a coach reads off it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from topheavy.mechanics.hang import Doubled, Straight
from topheavy.mechanics.rig import End, Rig
from topheavy.mechanics.uncertainty import (
    InputSpread,
    ends_budget,
    load_budget,
    mean_budget,
    share_budget,
)
from topheavy.rigging.target import share_of
from topheavy.services.counting import links_of

if TYPE_CHECKING:
    from topheavy.gym.people import Travel
    from topheavy.mechanics.chain import Chain
    from topheavy.mechanics.ground import Ground
    from topheavy.mechanics.hang import Hang
    from topheavy.mechanics.links import LinkCount

_POINTS = 25


@dataclass(frozen=True, slots=True, kw_only=True)
class Load:
    """A load [kg] with its standard uncertainty [kg] and the input that does most to it."""

    load_kg: float
    u_kg: float
    mostly: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class PieceCount:
    """Links of one piece at bottom and top of the lift.

    Parameters
    ----------
    links, strands : int
        Links of the piece, and over how many strands they hang.
    pitch_m : float
        Pitch [m].
    bottom, top : LinkCount
        What is off the floor.
    """

    links: int
    strands: int
    pitch_m: float
    bottom: LinkCount
    top: LinkCount


@dataclass(frozen=True, slots=True, kw_only=True)
class Share:
    """Accommodating share with its base named: (top - bottom) / base, as a fraction."""

    of_top: float
    of_top_u: float
    of_bottom: float
    of_best: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """A rig read over a lift.

    Parameters
    ----------
    travel : Travel
        Bottom and top [m].
    straight_weight_kg : float
        Bar, collars and plates [kg].
    bottom, mean, top : Load
        On the bar on the way up [kg].
    lowering_bottom_kg, lowering_mean_kg, lowering_top_kg : float
        On the way down [kg]; the top once the bar has come down a few links: at lockout itself
        nothing has moved yet.
    lowering_bottom_u_kg, lowering_mean_u_kg : float
        Standard uncertainty of the first two [kg].
    hung_bottom_kg, hung_top_kg : float
        What hangs, on the way up [kg]: chain and what holds it.
    bands_bottom_kg, bands_top_kg : float
        What the bands pull [kg]; zero without any.
    share : Share
        Accommodating share, chain and bands together.
    deload : float or None
        Of the chain alone: 1 - hung at bottom / hung at top; None when nothing hangs at the top.
    imbalance_kg : float
        Left less right at the top [kg], as a size.
    left, right : tuple of PieceCount
        Links of each piece.
    fold_gap_m : tuple of float
        For each doubled hang of the left end, how far its fold is above the floor at the bottom
        of the lift [m]; below zero the connector lies down.
    side_pull_n : float
        Largest sideways pull of chain on an end over the travel [N]; zero when the slack is piled.
    work_j : float
        Work to raise the bar slowly from bottom to top [J].
    heights_m, raising_kg, lowering_kg, u_kg : tuple of float
        The curve, at even heights from bottom to top.
    """

    travel: Travel
    straight_weight_kg: float
    bottom: Load
    mean: Load
    top: Load
    lowering_bottom_kg: float
    lowering_mean_kg: float
    lowering_top_kg: float
    lowering_bottom_u_kg: float
    lowering_mean_u_kg: float
    hung_bottom_kg: float
    hung_top_kg: float
    bands_bottom_kg: float
    bands_top_kg: float
    share: Share
    deload: float | None
    imbalance_kg: float
    left: tuple[PieceCount, ...]
    right: tuple[PieceCount, ...]
    fold_gap_m: tuple[float, ...]
    side_pull_n: float
    work_j: float
    heights_m: tuple[float, ...]
    raising_kg: tuple[float, ...]
    lowering_kg: tuple[float, ...]
    u_kg: tuple[float, ...]

    @property
    def links_down_at_top(self) -> int:
        """Fewest links that any piece still has on the floor at lockout."""
        return min((piece.top.down for piece in (*self.left, *self.right)), default=0)


def read_rig(rig: Rig, travel: Travel, ground: Ground, best_kg: float | None = None) -> Reading:
    """Read a rig over a lift.

    Parameters
    ----------
    rig : Rig
        What is on the bar.
    travel : Travel
        Bottom and top with their uncertainty [m].
    ground : Ground
        Where the chain lies.
    best_kg : float or None
        Straight-weight best [kg], for the share of the best.
    """
    spread = InputSpread(height_u_m=travel.height_u_m)
    ends_m = (travel.bottom_m, travel.top_m)
    heights_m = np.linspace(*ends_m, _POINTS)
    up, down = rig.curve(ground, "raising"), rig.curve(ground, "lowering")
    hung_bottom, hung_top = (float(kg) for kg in rig.hung_curve(ground, "raising").at(ends_m))
    bands_bottom, bands_top = (float(kg) for kg in rig.band_curve().at(ends_m))
    bottom, top = _ends(rig, travel, ground, spread)
    mean = mean_budget(rig, ends_m, ground, "raising", spread)
    lowered_u = load_budget(rig, travel.bottom_m, ground, "lowering", spread).combined_kg
    lowered_mean_u = mean_budget(rig, ends_m, ground, "lowering", spread).combined_kg
    left_top, right_top = (float(e.curve(ground).at(travel.top_m)) for e in (rig.left, rig.right))
    return Reading(
        travel=travel,
        straight_weight_kg=rig.straight_weight_kg,
        bottom=bottom,
        mean=Load(load_kg=up.mean(*ends_m), u_kg=float(mean.combined_kg), mostly=mean.largest()),
        top=top,
        lowering_bottom_kg=float(down.at(travel.bottom_m)),
        lowering_mean_kg=down.mean(*ends_m),
        lowering_top_kg=float(down.at(travel.top_m)),
        lowering_bottom_u_kg=float(lowered_u),
        lowering_mean_u_kg=float(lowered_mean_u),
        hung_bottom_kg=hung_bottom,
        hung_top_kg=hung_top,
        bands_bottom_kg=bands_bottom,
        bands_top_kg=bands_top,
        share=_share(rig, travel, ground, best_kg),
        deload=1 - hung_bottom / hung_top if hung_top > 0 else None,
        imbalance_kg=abs(left_top - right_top),
        left=_counts(rig.left, travel, ground),
        right=_counts(rig.right, travel, ground),
        fold_gap_m=tuple(
            travel.bottom_m - ground.surface_m - hang.suspension.fold_m
            for hang in rig.left.hangs
            if isinstance(hang, Doubled)
        ),
        side_pull_n=max(
            end.side_pull_n(float(h), ground) for end in (rig.left, rig.right) for h in heights_m
        ),
        work_j=up.work_j(*ends_m),
        heights_m=_floats(heights_m),
        raising_kg=_floats(up.at(heights_m)),
        lowering_kg=_floats(down.at(heights_m)),
        u_kg=_floats(load_budget(rig, heights_m, ground, "raising", spread).combined_kg),
    )


def _ends(rig: Rig, travel: Travel, ground: Ground, spread: InputSpread) -> tuple[Load, Load]:
    ends_m = (travel.bottom_m, travel.top_m)
    loads = rig.curve(ground, "raising").at(ends_m)
    budget = ends_budget(rig, ends_m, ground, "raising", spread)
    u_kg, groups_kg = budget.combined_kg, budget.grouped()
    bottom, top = (
        Load(
            load_kg=float(loads[i]),
            u_kg=float(u_kg[i]),
            mostly=max(groups_kg, key=lambda name: float(groups_kg[name][i])),
        )
        for i in (0, 1)
    )
    return bottom, top


def _share(rig: Rig, travel: Travel, ground: Ground, best_kg: float | None) -> Share:
    ends_m = (travel.bottom_m, travel.top_m)
    low, high = (float(kg) for kg in rig.curve(ground, "raising").at(ends_m))
    budget = share_budget(rig, ends_m, ground, "raising", InputSpread(height_u_m=travel.height_u_m))
    return Share(
        of_top=share_of(low, high, "top") if high > 0 else 0.0,
        of_top_u=budget.combined,
        of_bottom=share_of(low, high, "bottom") if low > 0 else 0.0,
        of_best=share_of(low, high, "best", best_kg) if best_kg else None,
    )


def _counts(end: End, travel: Travel, ground: Ground) -> tuple[PieceCount, ...]:
    return tuple(_count(hang, chain, travel, ground) for hang in end.hangs for chain in hang.chains)


def _count(hang: Hang, chain: Chain, travel: Travel, ground: Ground) -> PieceCount:
    return PieceCount(
        links=chain.links,
        strands=1 if isinstance(hang, Straight) else 2,
        pitch_m=chain.pitch_m,
        bottom=links_of(hang, chain, travel.bottom_m, ground),
        top=links_of(hang, chain, travel.top_m, ground),
    )


def _floats(values: np.ndarray[tuple[int, ...], np.dtype[np.float64]]) -> tuple[float, ...]:
    return tuple(float(value) for value in values)


def hung_straight(rig: Rig) -> Rig:
    """The same chain on the same bar, each piece one strand straight from the sleeve; bands stay.

    This is the common mistake: over the same travel it loads and unloads half as much.
    """
    ends = (
        End(
            tuple(Straight(chain=chain) for hang in end.hangs for chain in hang.chains),
            bands=end.bands,
        )
        for end in (rig.left, rig.right)
    )
    return Rig(rig.bar_kg, rig.plates_kg, *ends)
