"""Where this lifter would fail with this rig, and what a spotter should expect."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Final

import numpy as np

from topheavy.lifter.effort import heaviest_straight_kg
from topheavy.lifter.lowering import let_go
from topheavy.lifter.motion.batch import RepBatch
from topheavy.lifter.motion.columns import spread_of
from topheavy.lifter.rep import simulate_batch
from topheavy.phrase import Amount, Phrase

if TYPE_CHECKING:
    from topheavy.lifter.motion.inputs import OnBar, RepLifter
    from topheavy.lifter.motion_model import Motion

_STEP: Final = 0.02
"""Just too heavy: this share of the load at lockout above the limit, a usual step of plates."""

_RARE: Final = 0.05
_NEVER_OFF: Final = 0.01
"""Below this share of the travel a rep counts as never started."""

_TAKE_IT: Final = (
    "Spotters: hands ready from before that height on; take the bar at both ends at once when it "
    "stops, and never take hold of hanging chain."
)
_SAFETIES: Final = "Safeties just below the bottom, collars on."
_UNSPOTTED: Final = (
    "Nobody spots this lift: hold on to the bar and lower it, feet clear of plates and chain, "
    "collars on."
)
_PREDICTED: Final = (
    "This is what a fitted model predicts; no study found has tested it, and a lifter out of "
    "groove fails elsewhere."
)

_ROUGHLY: Final = 2e-4
_JUST_OFF_M: Final = 1e-3


@dataclass(frozen=True, slots=True, kw_only=True)
class Outlook:
    """What to expect of one heavy rep. Ranges hold nine in ten of the lifters that were tried.

    Parameters
    ----------
    miss_share : float
        Share of the lifters tried who miss [-]. Not a chance: they are draws from a model.
    spare_kg : float
        How much more straight weight the middle lifter would still lift [kg]; below zero when
        this is too much already: by how much.
    fails_at_m : tuple of float
        Height above the floor at which the rep fails when it is just too heavy: low, middle,
        high [m].
    fails_part : float
        The same, middle, as a share of the travel [-].
    stops_after_s : tuple of float
        When a rep that is just too heavy stops, from first movement: low, middle, high [s].
    lighter_kg : float
        How much load leaves the bar as it sinks from there to the bottom: chain that lands and
        bands that slacken [kg].
    drop_g : float
        How hard the bar starts down when let go at that height [g]: 1 with plates and chain,
        more with bands.
    """

    miss_share: float
    spare_kg: float
    fails_at_m: tuple[float, float, float]
    fails_part: float
    stops_after_s: tuple[float, float, float]
    lighter_kg: float
    drop_g: float

    @property
    def words(self) -> tuple[Phrase, ...]:
        """What to say to lifter and spotters, in plain words."""
        return self.words_for(spotted=True)

    def words_for(self, *, spotted: bool) -> tuple[Phrase, ...]:
        """What to say in plain words.

        Parameters
        ----------
        spotted : bool
            Whether this lift is done with spotters and safeties, as a bench press or squat; a
            deadlift is not.
        """
        said = [*self._chance(), self._where()]
        if spotted:
            said.append(Phrase(_TAKE_IT))
        if self.lighter_kg >= 1.0:
            said.append(
                Phrase(
                    "As it sinks from there to the bottom, {} leave the bar.",
                    (Amount(self.lighter_kg, "mass", 0),),
                )
            )
        if self.drop_g > 1.0 + 1e-6:
            said.append(
                Phrase(
                    f"Let go there, bands pull it down at {self.drop_g:.1f} g: faster than it "
                    "falls. Never let go of a bar with bands.",
                )
            )
        return (*said, Phrase(f"{_SAFETIES if spotted else _UNSPOTTED} {_PREDICTED}"))

    def _chance(self) -> tuple[Phrase, ...]:
        if self.miss_share <= _RARE:
            return ()
        begin = "Too heavy" if self.miss_share >= 1.0 - _RARE else "Too close to call"
        return (
            Phrase(
                f"{begin}: {100 * self.miss_share:.0f} % of the lifters that fit this one's "
                "numbers miss it in the simulation.",
            ),
        )

    def _where(self) -> Phrase:
        low, middle, high = (Amount(height_m, "length", 0) for height_m in self.fails_at_m)
        if self.fails_part < _NEVER_OFF:
            return Phrase("It does not leave the bottom, {} above the floor.", (middle,))
        return Phrase(
            "When it is too heavy, expect it to stop {} above the floor ({} to {}), "
            f"{100 * self.fails_part:.0f} % of the way up, some {self.stops_after_s[1]:.1f} s "
            "after it starts.",
            (middle, low, high),
        )


def outlook(lifter: RepLifter, on_bar: OnBar, lifters: Motion) -> Outlook:
    """Say where a rep with this rig would fail, and what then happens.

    For each lifter the rep just beyond the limit is simulated: that missed rep tells.

    Parameters
    ----------
    lifter : RepLifter
        Who.
    on_bar : OnBar
        What.
    lifters : Motion
        Numbers of one lifter, or of many plausible ones.

    Returns
    -------
    Outlook
        Heights, times and words.
    """
    limit_kg = np.nan_to_num(heaviest_straight_kg(lifter, [on_bar], lifters, _ROUGHLY)[0], nan=0.0)
    step_kg = _STEP * (limit_kg + float(on_bar.load_at(lifter.top_m)) - on_bar.straight_kg)
    tried_kg = np.maximum(limit_kg + step_kg, on_bar.straight_kg)
    missed = simulate_batch(RepBatch.of(lifter, on_bar, lifters, straight_kg=tried_kg))
    fails = spread_of(lifter.bottom_m + missed.reached_part * lifter.travel_m)
    hangs = on_bar.load_at([fails[1], lifter.bottom_m])
    from_there = replace(lifter, top_m=max(fails[1], lifter.bottom_m + _JUST_OFF_M))
    return Outlook(
        miss_share=float(np.mean(limit_kg < on_bar.straight_kg)),
        spare_kg=float(np.median(limit_kg)) - on_bar.straight_kg,
        fails_at_m=fails,
        fails_part=(fails[1] - lifter.bottom_m) / lifter.travel_m,
        stops_after_s=spread_of(missed.duration_s),
        lighter_kg=float(hangs[0] - hangs[1]),
        drop_g=let_go(from_there, on_bar).peak_g,
    )
