"""Rigs for a block of weeks: found once for a wave, and kept for as long as they will do."""

from __future__ import annotations

from dataclasses import dataclass, replace
from statistics import median
from typing import TYPE_CHECKING, Final

from topheavy.errors import NotInStockError, TopheavyError
from topheavy.lifter.match import heights_for
from topheavy.mechanics.curve import LoadCurve
from topheavy.phrase import Amount, Phrase, Remark
from topheavy.rigging.built import build
from topheavy.rigging.limits import Limits
from topheavy.rigging.plates import loadings
from topheavy.rigging.problem import pose
from topheavy.rigging.search import find
from topheavy.rigging.target import Ask
from topheavy.services.match import Matching
from topheavy.services.rig import RigQuestion, target_of, tolerance_of, what_to_mind
from topheavy.services.top_set import gear_under
from topheavy.training.bases import Bases, Hung, Percent, chain_share, straight_for

if TYPE_CHECKING:
    from collections.abc import Sequence

    from topheavy.rigging.built import BuiltRig
    from topheavy.rigging.plates import Loading
    from topheavy.services.cautions import Caution
    from topheavy.services.rig import Place
    from topheavy.services.top_set import Strong
    from topheavy.training.bases import Loads
    from topheavy.training.weeks import HangName
    from topheavy.training.weeks_slots import Slot

KEEP_WITHIN: Final = 0.03
"""A rig that the lifter already has in the lift is kept when its accommodating share comes within
this of what is wanted [-]: own judgement, so that rig changes are few."""

LIMITS: Final[dict[HangName, Limits]] = {
    "chain": Limits(),
    "bands": Limits(most_pieces=0, most_bands=1, least_bands=1),
    "mixed": Limits(most_bands=1, least_bands=1),
}
"""What the search may use for each way of loading."""

_INSTEAD: Final[dict[HangName, tuple[HangName, ...]]] = {
    "chain": ("chain",),
    "bands": ("bands", "chain"),
    "mixed": ("mixed", "chain", "bands"),
}
_WORDS: Final[dict[HangName, str]] = {
    "straight": "straight weight",
    "chain": "chain",
    "bands": "bands",
    "mixed": "chain and bands",
}
_NOTHING: Final = LoadCurve.constant(0.0)
_HAIR_KG: Final = 5e-4


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Hanger:
    """What hangs for a lifter in a lift, and the plates that go with it.

    Parameters
    ----------
    place : Place
        Who, what and where.
    built : BuiltRig or None
        The rig as it was found; None with straight weight.
    curve : LoadCurve
        What hangs [kg] by height, on the way up.
    bar_kg : float
        Bar and collars [kg].
    loadings : tuple of Loading
        Every total that the plates make, lightest first.
    cautions : tuple of Caution
        What to mind.
    """

    place: Place
    built: BuiltRig | None
    curve: LoadCurve
    bar_kg: float
    loadings: tuple[Loading, ...]
    cautions: tuple[Caution, ...]

    @property
    def hung(self) -> Hung:
        """What hangs at bottom, mean and top [kg]."""
        return Hung.of(self.curve, self.place.travel)

    @property
    def name(self) -> str:
        """What hangs where; the same name is the same rig."""
        built = self.built
        if built is None:
            return ""
        ends = [
            [*(piece.tag for piece in pieces), *(hung.band.tag for hung in bands)]
            for pieces, bands in (
                (built.left, built.left_bands),
                (built.right, built.right_bands),
            )
        ]
        setting = built.fixture.setting.label if built.fixture.setting else ""
        pegs = sorted({hung.peg.name for hung in built.left_bands})
        return " | ".join([*(" ".join(tags) for tags in ends), setting, *pegs])

    def loading_for(self, straight_kg: float, *, above: bool = True) -> Loading:
        """Plates nearest to a straight weight [kg], the lighter of equals; or never above it."""
        totals = [(self.bar_kg + one.total_kg, one) for one in self.loadings]
        if not above:
            below = [one for total, one in totals if total <= straight_kg + _HAIR_KG]
            return below[-1] if below else self.loadings[0]
        return min(totals, key=lambda pair: (round(abs(pair[0] - straight_kg), 6), pair[0]))[1]

    def with_loading(self, loading: Loading) -> BuiltRig | None:
        """The rig with other plates on it; None with straight weight."""
        if self.built is None:
            return None
        rig = replace(self.built.rig, plates_kg=loading.total_kg)
        return replace(self.built, loading=loading, rig=rig)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Found:
    """A hanger for some sessions, and where the stock could not do what was asked for."""

    hanger: Hanger
    remarks: tuple[Remark, ...] = ()


class RigBook:
    """Rigs found so far, by lifter, lift and station."""

    def __init__(self) -> None:
        self._kept: dict[tuple[str, str, str], list[Hanger]] = {}

    def hanger_for(self, place: Place, slots: Sequence[Slot], strong: Strong) -> Found:
        """Find one rig for sessions that want the same share of the same kind of load.

        Parameters
        ----------
        place : Place
            Who, what and where.
        slots : sequence of Slot
            Sessions of one wave and kind, alike but for their loads.
        strong : Strong
            How strong the lifter is.

        Returns
        -------
        Found
            A rig the lifter already has, if it will do; else the best for the middle of the
            loads; else the nearest that the stock allows, and what was wrong.
        """
        first = slots[0]
        if not first.rigged or strong.best_kg is None:
            return Found(hanger=straight_hanger(place))
        kept = self._kept.setdefault((place.lifter.name, place.lift.name, place.station.name), [])
        load_kg = reference_kg(slots, strong.best_kg)
        for hanger in kept:
            if _will_do(hanger, first, load_kg, strong):
                return Found(hanger=hanger)
        found = _new(place, first, load_kg, strong)
        if found.hanger.built is None:
            return found
        for hanger in kept:
            if _no_worse(hanger, found.hanger, first, load_kg, strong):
                return Found(hanger=hanger, remarks=found.remarks)
        kept.append(found.hanger)
        return found


def reference_kg(slots: Sequence[Slot], best_kg: float) -> float:
    """Load in the middle of a wave [kg], deloads left out, that its rig is found for."""
    hard = [slot for slot in slots if not slot.deload] or list(slots)
    return median(slot.load * best_kg if slot.load_kg is None else slot.load_kg for slot in hard)


def straight_hanger(place: Place) -> Hanger:
    """Straight weight alone."""
    gear = gear_under(place.setup, 0.0, 0)
    return Hanger(
        place=place,
        built=None,
        curve=_NOTHING,
        bar_kg=gear.bar_kg,
        loadings=loadings(gear.plates, gear.room_m),
        cautions=(),
    )


def straight_wanted_kg(slot: Slot, hanger: Hanger, strong: Strong) -> float | None:
    """Straight weight that a session wants under what hangs [kg]; None when nothing says it."""
    hung = hanger.hung
    if slot.load_kg is not None:
        return slot.load_kg - hung.at(slot.at)
    if slot.match and strong.curve is not None:
        heights_m = heights_for(strong.curve, hanger.curve)
        spare = slot.load * strong.curve.at(heights_m) - hanger.curve.at(heights_m)
        return float(spare.min())
    if strong.best_kg is None:
        return None
    percent = Percent(share=slot.load, at=slot.at, of="best")
    return straight_for(percent, hung, Bases(best_kg=strong.best_kg))


def _will_do(hanger: Hanger, slot: Slot, load_kg: float, strong: Strong) -> bool:
    """Whether a rig that is there already does for other sessions."""
    off = _off(hanger, slot, load_kg, strong)
    return not slot.match and off is not None and off <= KEEP_WITHIN


def _no_worse(old: Hanger, new: Hanger, slot: Slot, load_kg: float, strong: Strong) -> bool:
    """Whether a rig that is there is as good as a new one, near enough, or the very same."""
    if slot.match:
        return old.name == new.name
    offs = [_off(hanger, slot, load_kg, strong) for hanger in (old, new)]
    return offs[0] is not None and offs[1] is not None and offs[0] <= offs[1] + KEEP_WITHIN


def _off(hanger: Hanger, slot: Slot, load_kg: float, strong: Strong) -> float | None:
    """How far a rig's share is from what is wanted [-]; None when it is no rig for it at all."""
    built = hanger.built
    if built is None or not _is(built, slot.hang):
        return None
    loads = hanger.hung.under(load_kg - hanger.hung.at(slot.at))
    if loads.straight_kg < hanger.bar_kg - _HAIR_KG or loads.bottom_kg <= 0:
        return None
    share = share_made(loads, slot, strong)
    return None if share is None else abs(share - slot.share)


def share_made(loads: Loads, slot: Slot, strong: Strong) -> float | None:
    """Accommodating share that loads make, of the base that the plan names [-]."""
    if slot.of == "best" and strong.best_kg is None:
        return None
    return chain_share(loads, slot.of, strong.best_kg)


def _new(place: Place, slot: Slot, load_kg: float, strong: Strong) -> Found:
    for hang in _INSTEAD[slot.hang]:
        made = _searched(place, slot, load_kg, strong, hang)
        if made is None:
            continue
        built, off_kg, tolerance_kg = made
        hanger = _hanger(place, built, LIMITS[hang])
        remarks = []
        if hang != slot.hang:
            remarks.append(_instead(slot.hang, hang))
        if off_kg > tolerance_kg:
            remarks.append(_nearest(slot, off_kg, strong.best_kg or 1.0))
        return Found(hanger=hanger, remarks=tuple(remarks))
    return Found(hanger=straight_hanger(place), remarks=(_instead(slot.hang, "straight"),))


def _searched(
    place: Place, slot: Slot, load_kg: float, strong: Strong, hang: HangName
) -> tuple[BuiltRig, float, float] | None:
    """The best rig of one way of loading, what it is off and what counts as met [kg]."""
    try:
        question = _question(place, slot, load_kg, strong, LIMITS[hang])
        target = target_of(question)
        problem = pose(place.setup, target, question.limits)
        found = find(problem)
    except TopheavyError:
        return None
    if found.best is None:
        return None
    built = build(problem, found.best)
    if not _is(built, hang):
        return None
    return built, built.miss_kg, tolerance_of(question, target)


def _question(
    place: Place, slot: Slot, load_kg: float, strong: Strong, limits: Limits
) -> RigQuestion:
    if slot.match:
        if strong.curve is None or strong.best_kg is None:
            raise NotInStockError("Nothing says how strong the lifter is", field="match")
        matching = Matching(strength=strong.curve, effort=load_kg / strong.best_kg)
        return RigQuestion(place=place, ask=Ask(), limits=limits, matching=matching)
    ask = Ask(
        bottom_kg=load_kg if slot.at in {"bottom", "straight"} else None,
        mean_kg=load_kg if slot.at == "mean" else None,
        top_kg=load_kg if slot.at == "top" else None,
        chain_share=slot.share,
        base=slot.of,
        best_kg=strong.best_kg,
    )
    return RigQuestion(place=place, ask=ask, limits=limits)


def _is(built: BuiltRig, hang: HangName) -> bool:
    """Whether a rig is of a way of loading."""
    return (built.pieces > 0, bool(built.bands)) == {
        "straight": (False, False),
        "chain": (True, False),
        "bands": (False, True),
        "mixed": (True, True),
    }[hang]


def _hanger(place: Place, built: BuiltRig, limits: Limits) -> Hanger:
    loops = bool(built.left) + len(built.left_bands)
    gear = gear_under(place.setup, limits.loop_width_m, loops)
    return Hanger(
        place=place,
        built=built,
        curve=built.rig.added_curve(place.ground, "raising"),
        bar_kg=gear.bar_kg,
        loadings=loadings(gear.plates, gear.room_m),
        cautions=what_to_mind(place, built),
    )


def _instead(wanted: HangName, had: HangName) -> Remark:
    return Remark(
        "stock",
        Phrase(
            f"The search finds no rig with {_WORDS[wanted]} that would do here: {_WORDS[had]} "
            "stands in the plan instead. topheavy rig says which limit blocks."
        ),
    )


def _nearest(slot: Slot, off_kg: float, best_kg: float) -> Remark:
    if slot.match:
        words = (
            "The rig of this stock that follows strength best still uses the lifter "
            f"{100 * off_kg / best_kg:.0f} % less than planned where it uses least."
        )
        return Remark("nearest", Phrase(words))
    return Remark(
        "nearest",
        Phrase(
            f"{100 * slot.share:.0f} % of the {slot.of} is out of reach of the stock with "
            f"{_WORDS[slot.hang]}: the nearest rig is off by {{}} where it is off most.",
            (Amount(off_kg, "mass"),),
        ),
    )
