"""Why the scale disagrees: every slip fitted to the readings and ranked by what is left over."""

from __future__ import annotations

import math
from collections import Counter
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Final

import numpy as np

from topheavy.mechanics.scale_fit import fit_readings, rough_deviance
from topheavy.mechanics.scale_model import BANDS, FACTOR, PILES, SHIFT, STRAIGHT, expected_kg
from topheavy.phrase import Phrase
from topheavy.services.weighing.slips_bands import band_slips
from topheavy.services.weighing.slips_hung import link_slips, piece_slips, ring_slips
from topheavy.services.weighing.slips_other import (
    lay_slips,
    loose_phrase,
    loose_slips,
    mat_slips,
    pile_slip,
    plate_slips,
    unit_slips,
    way_slips,
)
from topheavy.services.weighing.suspects import Slip

if TYPE_CHECKING:
    from collections.abc import Iterator

    from topheavy.mechanics.scale_fit import ScaleFit
    from topheavy.services.weighing.case import Case, Side
    from topheavy.services.weighing.shift import SharedShift
    from topheavy.services.weighing.suspects import Kind, Suspects

LOOSE_CHARGE: Final = 8.0
"""Misfit charged to a number that may be off by any amount: a range of some 130 standard
uncertainties, 2 ln(130 / sqrt(2 pi)) (Occam factor: MacKay, Information Theory, Inference and
Learning Algorithms, 2003, chapter 28, from memory)."""

RIVAL_MISFIT: Final = 4.0
"""Slips within this misfit of the best explain the readings about as well: odds below e2."""

LEAST_GAIN: Final = 6.0
"""A slip must better the misfit by this much to be called likely: odds of e3, 20 to 1."""

LEAST_CHANCE: Final = 0.001
"""A slip under which the readings were less likely than this does not explain them."""

SURELY_SEEN: Final = 9.0
"""A slip that would raise the misfit by less than this, three standard uncertainties, can hide."""

_SAYS_THE_SAME: Final[dict[Kind, tuple[Kind, ...]]] = {
    "length": ("ring", "mat", "way"),
    "weight": ("plate",),
}
_PLATES_TRIED: Final = 6
_SHOWN: Final = 8
_FINISHED: Final = 14
_LOOSE_STARTS_M: Final = (-0.3, -0.15, 0.15, 0.3)
_LOOSE_PLACE: Final[dict[Kind, int]] = {
    "chain": FACTOR,
    "length": SHIFT,
    "weight": STRAIGHT,
    "soft": BANDS,
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Cause:
    """A slip, and how well it explains the readings.

    Parameters
    ----------
    kind : str
        ``ring``, ``link``, ``piece``, ``mat``, ``lay``, ``plate``, ``units``, ``way``,
        ``reading``, ``pile``, ``peg``, ``doubled``, ``band``; or a number that is off: ``chain``,
        ``length``, ``weight``, ``soft`` (the pull of the bands).
    what, todo : Phrase
        The slip in plain words, and what to do about it.
    likely : bool
        Whether it explains the readings, and about as well as the best one.
    misfit : float
        Deviance left over (chi-squared, and 2 ln of the noise), with a charge of 2 ln N for a
        slip that is one of N alike.
    gain : float
        Misfit as stated less this one.
    rms_kg : float
        What is left between scale and fit under it, root mean square [kg].
    case : Case
        The weighing as it would have been.
    out : tuple of int
        Readings that it calls off, from 0.
    """

    kind: Kind
    what: Phrase
    todo: Phrase
    likely: bool
    misfit: float
    gain: float
    rms_kg: float
    case: Case
    out: tuple[int, ...] = ()
    side: Side | None = None


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Tried:
    """A slip with its fit."""

    slip: Slip
    fit: ScaleFit
    charge: float
    out: tuple[int, ...] = ()

    @property
    def misfit(self) -> float:
        return self.fit.deviance + self.charge

    @property
    def fits(self) -> bool:
        from scipy.stats import chi2  # noqa: PLC0415 - slow to import

        return bool(chi2.sf(self.fit.misfit, self.fit.residual.size) >= LEAST_CHANCE)


def find_causes(
    case: Case, suspects: Suspects, stated: ScaleFit, off: tuple[int, ...]
) -> tuple[Cause, ...]:
    """Fit every slip to the readings and rank them, best first.

    Parameters
    ----------
    case : Case
        The weighing as stated.
    suspects : Suspects
        What could have been taken by mistake.
    stated : ScaleFit
        The fit as stated.
    off : tuple of int
        Readings that do not lie with the others, from 0.

    Returns
    -------
    tuple of Cause
        At most eight, and every one that is likely.
    """
    tried = sorted(_try_all(case, suspects, stated, off), key=lambda one: one.misfit)
    best = next((one.misfit for one in tried if one.fits), math.inf)
    causes = _once([_cause(case, one, stated.deviance, best) for one in tried])
    causes = [replace(c, likely=c.likely and not _nested(c, causes)) for c in causes]
    causes.sort(key=lambda cause: not cause.likely)
    return tuple(cause for place, cause in enumerate(causes) if cause.likely or place < _SHOWN)


def shift_causes(
    case: Case, suspects: Suspects, shift: SharedShift, wide: ScaleFit | None
) -> tuple[Cause, ...]:
    """Rank what explains a shift that all readings share: the best of each sort.

    Parameters
    ----------
    case, suspects
        As for `find_causes`.
    shift : SharedShift
        The shift.
    wide : ScaleFit or None
        The fit as stated, the pile free within its rule; None where that does not fit.

    Returns
    -------
    tuple of Cause
        Best first, all called likely: these readings can't tell a longer feeder from a higher
        floor or pile. The pile itself is among them when it may.
    """
    enough = shift.shifted.deviance + RIVAL_MISFIT
    tried = list(_try_all(shift.sure, suspects, shift.stated, ()))
    tried = [one for one in tried if one.fits and one.fit.deviance <= enough]
    if wide is not None:
        tried.append(
            _Tried(slip=pile_slip(case, wide.values[PILES:].tolist()), fit=wide, charge=0.0)
        )
    tried.sort(key=lambda one: one.misfit)
    causes = [replace(_cause(case, t, shift.stated.deviance, 0.0), likely=True) for t in tried]
    # Chain and straight weight only bend the curve to follow a shift.
    causes = [
        c for c in _once(causes) if c.kind not in {"chain", "weight", "plate", "units", "soft"}
    ]
    # Laid out slack has no heaps that scatter: a few smooth readings would put it first.
    causes.sort(key=lambda cause: cause.kind == "lay")
    least: dict[Kind, float] = {}
    for cause in causes:
        least.setdefault(cause.kind, cause.misfit + (RIVAL_MISFIT if cause.kind == "ring" else 0))
    causes = [cause for cause in causes if cause.misfit <= least[cause.kind]]
    worst = min((c.misfit for c in causes if c.kind != "lay"), default=0.0) + 2 * RIVAL_MISFIT
    return tuple(c for c in causes if c.misfit <= worst)[:_SHOWN]


def _once(causes: list[Cause]) -> list[Cause]:
    """Keep the best of slips that read alike, or that differ only in which end they sit on."""
    kept: dict[tuple[object, ...], Cause] = {}
    for cause in causes:
        text = cause.what.text.removesuffix(f"the {cause.side} end.")
        key = (text, cause.what.say(), cause.side)
        told = next((k for k in kept if k[0] == text and _alike(kept[k], cause)), None)
        if told is None:
            kept[key] = cause
        elif cause.side != kept[told].side:
            what = replace(cause.what, text=f"{text}one end, left or right.")
            kept[told] = replace(kept[told], what=what)
    return list(kept.values())


def _alike(better: Cause, other: Cause) -> bool:
    """Whether the other says the same, or the same of the other end and about as well."""
    if better.what.amounts != other.what.amounts:
        return False
    near = other.misfit <= better.misfit + RIVAL_MISFIT
    return better.side == other.side or near


def _nested(loose: Cause, causes: list[Cause]) -> bool:
    """Whether a likely slip that can be named says the same as a number off by any amount."""
    named = _SAYS_THE_SAME.get(loose.kind, ())
    near = loose.misfit + RIVAL_MISFIT
    return any(c.likely and c.kind in named and c.misfit <= near for c in causes)


def hidden_slips(case: Case, suspects: Suspects, stated: ScaleFit) -> tuple[Phrase, ...]:
    """Name sorts of slip that these readings could not have shown.

    A slip that shifts the readings by d is seen by d' C^-1 d, where C is the covariance of what
    was expected: noise and stated uncertainties together.
    """
    spread = np.eye(stated.residual.size) + stated.jacobian @ stated.jacobian.T
    strongest: dict[Kind, float] = {}
    plates = sorted(plate_slips(case, suspects), key=lambda slip: -abs(slip.case.extra_kg))
    for slip in (*_hung_and_floor(case, suspects), *plates[:1]):
        data = slip.case.data()
        expected = expected_kg(slip.case.seen(), data, data.stated)
        shift = (expected - stated.predicted_kg) / stated.noise_kg
        seen = float(shift @ np.linalg.solve(spread, shift))
        strongest[slip.kind] = max(strongest.get(slip.kind, 0.0), seen)
    return tuple(_HIDDEN[kind] for kind, seen in strongest.items() if seen < SURELY_SEEN)


def _hung_and_floor(case: Case, suspects: Suspects) -> Iterator[Slip]:
    yield from ring_slips(case, suspects)
    yield from link_slips(case)
    yield from piece_slips(case)
    yield from band_slips(case, suspects)
    yield from mat_slips(case, suspects)
    yield from lay_slips(case)
    yield from way_slips(case)


def _try_all(
    case: Case, suspects: Suspects, stated: ScaleFit, off: tuple[int, ...]
) -> Iterator[_Tried]:
    loose = [_try(slip, LOOSE_CHARGE) for slip in loose_slips(case)]
    yield from loose
    slips = [*_hung_and_floor(case, suspects), *unit_slips(case)]
    families = Counter(slip.family for slip in slips)
    charged = [
        (slip, 2 * math.log(families[slip.family]) if slip.charge is None else slip.charge)
        for slip in slips
    ]
    weight = next((one.fit for one in loose if one.slip.kind == "weight"), None)
    if weight is not None:
        charged += _near_plates(case, suspects, weight)
    charged.sort(key=_rough_misfit)
    yield from (_try(slip, charge) for slip, charge in charged[:_FINISHED])
    yield from _try_readings(case, stated, off)


def _rough_misfit(charged: tuple[Slip, float]) -> float:
    slip, charge = charged
    return rough_deviance(slip.case.seen(), slip.case.data()) + charge


def _try(slip: Slip, charge: float) -> _Tried:
    starts = _LOOSE_STARTS_M if slip.kind == "length" else ()
    fit = fit_readings(slip.case.seen(), slip.case.data(), starts)
    return _Tried(slip=slip, fit=fit, charge=charge)


def _near_plates(case: Case, suspects: Suspects, weight: ScaleFit) -> list[tuple[Slip, float]]:
    """Plates nearest to the difference that fits at all heights; no others can fit better."""
    slips = plate_slips(case, suspects)
    extra_kg = float(weight.values[STRAIGHT]) - case.data().stated[STRAIGHT] + case.extra_kg
    near = sorted(slips, key=lambda slip: abs(slip.case.extra_kg - extra_kg))
    return [(slip, 2 * math.log(len(slips))) for slip in near[:_PLATES_TRIED]]


def _try_readings(case: Case, stated: ScaleFit, off: tuple[int, ...]) -> Iterator[_Tried]:
    """Try leaving out the readings that stand alone: one, then two, as far as they go."""
    data, count = case.data(), len(case.readings)
    for most in range(1, len(off) + 1):
        out = tuple(sorted(off[:most]))
        numbers = " and ".join(str(place + 1) for place in out)
        words = f"Reading {numbers} is off" if most == 1 else f"Readings {numbers} are off"
        slip = Slip(
            kind="reading",
            family="reading",
            what=Phrase(f"{words}; the others agree with each other."),
            todo=_READ_AGAIN,
            case=case,
        )
        charge = most * (LOOSE_CHARGE + 2 * math.log(count))
        charge += float(np.sum(stated.spread[list(out)]))
        fit = fit_readings(case.seen(), data.without(out))
        yield _Tried(slip=slip, fit=fit, charge=charge, out=out)


def _cause(case: Case, tried: _Tried, stated: float, best: float) -> Cause:
    slip, fit = tried.slip, tried.fit
    rival = tried.misfit <= best + RIVAL_MISFIT
    residual_kg = fit.residual * fit.noise_kg
    return Cause(
        kind=slip.kind,
        what=_words(case, tried),
        todo=slip.todo,
        likely=rival and tried.fits and stated - tried.misfit >= LEAST_GAIN,
        misfit=tried.misfit,
        gain=stated - tried.misfit,
        rms_kg=float(np.sqrt(np.mean(residual_kg**2))) if residual_kg.size else 0.0,
        case=slip.case,
        out=tried.out,
        side=slip.side,
    )


def _words(case: Case, tried: _Tried) -> Phrase:
    place = _LOOSE_PLACE.get(tried.slip.kind)
    if place is None:
        return tried.slip.what
    off_by = float(tried.fit.values[place] - case.data().stated[place])
    return loose_phrase(tried.slip.kind, off_by, case.density_kg_per_m)


_READ_AGAIN = Phrase("Read it again: wait until bar and chain hang still, and look at the height.")

_HIDDEN: Final[dict[Kind, Phrase]] = {
    "ring": Phrase("A feeder on a neighbouring ring: look at both ends."),
    "link": Phrase(
        "A link missing or extra: it shows only with all chain off the floor, or on a scale under "
        "the slack; count the links."
    ),
    "piece": Phrase("A piece missing or hung twice: count the pieces."),
    "mat": Phrase("A mat not counted: measure what the chain lies on."),
    "lay": Phrase("Slack dragged to one side: look at the floor."),
    "way": Phrase("Raising and lowering mixed up: say which way the bar came."),
    "peg": Phrase("A band on another peg: look at both ends."),
    "doubled": Phrase("A band doubled or not: look at both ends."),
    "band": Phrase("Another band in place of the stated one: read the tags."),
    "plate": Phrase("A plate too many, too few or swapped: read the plates."),
}
