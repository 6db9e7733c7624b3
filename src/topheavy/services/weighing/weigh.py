"""Check what hangs against a scale: compare, fit, and say what is off and why."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final, Literal

import numpy as np

from topheavy.errors import BadInputError
from topheavy.mechanics.scale_fit import fit_readings
from topheavy.mechanics.scale_model import expected_kg
from topheavy.services.weighing.case import Case, Scale, ScaleReading
from topheavy.services.weighing.causes import Cause, find_causes, hidden_slips, shift_causes
from topheavy.services.weighing.numbers import Fit, Number, numbers_of
from topheavy.services.weighing.shift import shared_shift
from topheavy.services.weighing.suspects import Suspects
from topheavy.services.weighing.verdict import verdict_of

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    from topheavy.gym.people import Travel
    from topheavy.mechanics.ground import Ground
    from topheavy.mechanics.rig import Rig
    from topheavy.mechanics.scale_fit import ScaleFit
    from topheavy.mechanics.scale_model import ScaleData, Seen
    from topheavy.phrase import Phrase

    Floats = NDArray[np.float64]

__all__ = [
    "Cause",
    "Fit",
    "Number",
    "Row",
    "Scale",
    "ScaleReading",
    "Suspects",
    "Weighing",
    "weigh",
]

FALSE_ALARM: Final = 0.01
"""Chance that a rig just as stated is called off. Three tests share it: readings that scatter,
numbers pulled away from what was stated, one reading apart from the others. Measured on 4800
weighings of four rigs read link by link, everything uncertain drawn from what was stated: 0.9 in
100 (0.5 to 1.8 by rig and ways)."""

Outcome = Literal["agrees", "shifted", "cause", "causes", "unexplained"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One reading against its prediction.

    Parameters
    ----------
    reading : ScaleReading
        As taken.
    predicted_kg, predicted_u_kg : float
        Expected from the rig as stated, with its standard uncertainty [kg].
    noise_kg : float
        Standard uncertainty of the reading itself [kg]: scale, height, links leaving the floor
        one by one, and how the pile happens to lie.
    difference_kg : float
        Reading less prediction [kg].
    z : float
        Difference over the standard uncertainty of reading and prediction together.
    fitted_kg : float
        Expected from the fit [kg].
    studentised : float or None
        Distance from the fit to the other readings, over the standard uncertainty of that
        distance; None where the others can't check it.
    off : bool
        Whether that is beyond the threshold.
    outside_travel : bool
        Taken below the bottom or above the top of the lift.
    """

    reading: ScaleReading
    predicted_kg: float
    predicted_u_kg: float
    noise_kg: float
    difference_kg: float
    z: float
    fitted_kg: float
    studentised: float | None
    off: bool
    outside_travel: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Weighing:
    """What a weighing says.

    Parameters
    ----------
    outcome : {'agrees', 'shifted', 'cause', 'causes', 'unexplained'}
        Nothing off; all chain shifted by more than scale and tape explain, though a pile may do
        so; one likely cause; several that these readings can't tell apart; or none of the causes
        tried.
    verdict : Phrase
        The same in plain words.
    rows : tuple of Row
        Each reading, in the order given.
    worst_kg, mean_kg, rms_kg : float
        Largest, mean and root mean square difference, reading less prediction [kg].
    fit : Fit
        Numbers of the rig as stated, readings called off left out.
    mended : Fit or None
        The same numbers with the first likely cause put right.
    causes : tuple of Cause
        Slips ranked by misfit, likely or not; empty when nothing is off.
    hidden : tuple of Phrase
        Slips that these readings could not have shown, whatever they say.
    misfit, scatter_chance, pull_chance : float
        Chi-squared of readings and stated numbers together; chance of scatter and of pull as
        large or larger, were all as stated.
    threshold : float
        Studentised residual beyond which a reading is called off.
    """

    outcome: Outcome
    verdict: Phrase
    rows: tuple[Row, ...]
    worst_kg: float
    mean_kg: float
    rms_kg: float
    fit: Fit
    mended: Fit | None
    causes: tuple[Cause, ...]
    hidden: tuple[Phrase, ...]
    misfit: float
    scatter_chance: float
    pull_chance: float
    threshold: float

    @property
    def likely(self) -> tuple[Cause, ...]:
        """The causes that explain the readings about equally well."""
        return tuple(cause for cause in self.causes if cause.likely)


def weigh(
    rig: Rig,
    ground: Ground,
    readings: Sequence[ScaleReading],
    scale: Scale = Scale(),  # noqa: B008 - frozen value
    suspects: Suspects = Suspects(),  # noqa: B008 - frozen value
    travel: Travel | None = None,
) -> Weighing:
    """Compare readings of a scale with the prediction, fit the rig's numbers, name what is off.

    Parameters
    ----------
    rig : Rig
        As stated, with the uncertainties of its chain and feeders.
    ground : Ground
        Where the chain lies, with the uncertainty of its pile.
    readings : sequence of ScaleReading
        In any order; equal heights are fine. As many as there are numbers to tell (kg/m, and
        the lift-off height each way), or more.
    scale : Scale
        What the scale carries.
    suspects : Suspects
        What could have been taken by mistake.
    travel : Travel or None
        Bottom and top of the lift; readings outside are used, and marked.

    Returns
    -------
    Weighing
        The answer.

    Raises
    ------
    BadInputError
        Fewer readings than numbers to tell.

    Examples
    --------
    >>> from topheavy.mechanics.chain import Chain
    >>> from topheavy.mechanics.ground import Ground
    >>> from topheavy.mechanics.hang import Straight
    >>> from topheavy.mechanics.rig import End, Rig
    >>> chain = Chain(links=30, pitch_m=0.05, density_kg_per_m=5.0, density_u_kg_per_m=0.25)
    >>> end = End((Straight(chain=chain),))
    >>> loads = {0.4: 23.9, 0.7: 26.8, 1.0: 29.9, 1.3: 32.9}
    >>> readings = [ScaleReading(height_m=h, mass_kg=m, way="raising") for h, m in loads.items()]
    >>> answer = weigh(Rig(20.0, 0.0, end, end), Ground(), readings)
    >>> answer.verdict.say()
    'The scale and the prediction agree within 0.1 kg.'
    """
    case = Case(rig=rig, ground=ground, scale=scale, readings=tuple(readings))
    _check_enough(case)
    seen, data = case.seen(), case.data()
    stated = fit_readings(seen, data)
    threshold = _threshold(len(case.readings))
    alone, off = _peel(seen, data, stated, threshold)
    scatter_chance, pull_chance = _chances(stated)
    alarm = bool(off) or min(scatter_chance, pull_chance) < FALSE_ALARM / 3
    causes = find_causes(case, suspects, stated, off) if alarm else ()
    shift = None if off or any(cause.likely for cause in causes) else shared_shift(case)
    if shift is not None and shift.beyond:
        causes = shift_causes(case, suspects, shift, None if alarm else stated) or causes
    likely = tuple(cause for cause in causes if cause.likely)
    out = likely[0].out if likely else ()
    used = fit_readings(seen, data.without(out)) if out else stated
    differences = data.mass_kg - stated.predicted_kg
    outcome = _outcome(alarm=alarm, shifted=shift is not None, likely=likely)
    rows = _rows(case, stated, expected_kg(seen, data, used.values), (alone, off), travel)
    return Weighing(
        outcome=outcome,
        verdict=verdict_of(outcome, likely, rows, shift),
        rows=rows,
        worst_kg=float(differences[np.argmax(np.abs(differences))]),
        mean_kg=float(np.mean(differences)),
        rms_kg=float(np.sqrt(np.mean(differences**2))),
        fit=numbers_of(case, seen, data, used, out),
        mended=_mended(likely[0].case) if outcome in {"cause", "causes"} and not out else None,
        causes=causes,
        hidden=hidden_slips(case, suspects, stated),
        misfit=stated.misfit,
        scatter_chance=scatter_chance,
        pull_chance=pull_chance,
        threshold=threshold,
    )


def _check_enough(case: Case) -> None:
    wanted = max(1, case.free_numbers)
    if len(case.readings) < wanted:
        ways = " and ".join(case.ways) or "each way"
        raise BadInputError(
            "Too few readings for the numbers they are to tell",
            field="readings",
            got=len(case.readings),
            wanted=f"{wanted} or more (mass per length, and where the chain leaves the floor, "
            f"{ways}); six or more, over the whole travel, can also show what is off",
        )


def _threshold(count: int) -> float:
    """Studentised residual that one of `count` good readings passes by chance once in 300."""
    from scipy.stats import norm  # noqa: PLC0415 - slow to import

    return float(norm.isf(FALSE_ALARM / 3 / (2 * count)))


def _chances(fit: ScaleFit) -> tuple[float, float]:
    """Chance of scatter and of pull as large or larger, were all as stated."""
    from scipy.stats import chi2  # noqa: PLC0415 - slow to import

    checks = fit.checks()
    scatter = chi2.sf(checks.scatter, checks.scatter_freedom) if checks.scatter_freedom else 1.0
    pull = chi2.sf(checks.pull, checks.pull_freedom) if checks.pull_freedom else 1.0
    return float(scatter), float(pull)


def _peel(
    seen: Seen, data: ScaleData, stated: ScaleFit, threshold: float
) -> tuple[list[float], tuple[int, ...]]:
    """Take out the worst reading beyond the threshold, again and again, up to a third of them.

    One by one, because a single bad reading pulls its neighbours off too. Returns studentised
    residuals, and the readings taken out.
    """
    count = data.mass_kg.size
    alone, off = np.full(count, math.nan), list[int]()
    fit, kept = stated, np.arange(count)
    while True:
        alone[kept] = fit.checks().alone
        sizes = np.nan_to_num(np.abs(alone[kept]))
        if len(off) == count // 3 or sizes.max(initial=0.0) <= threshold:
            return alone.tolist(), tuple(off)
        off.append(int(kept[np.argmax(sizes)]))
        kept = np.setdiff1d(np.arange(count), off)
        fit = fit_readings(seen, data.without(off))


def _rows(
    case: Case,
    stated: ScaleFit,
    fitted_kg: Floats,
    apart: tuple[list[float], tuple[int, ...]],
    travel: Travel | None,
) -> tuple[Row, ...]:
    low_m, high_m = (travel.bottom_m, travel.top_m) if travel else (-math.inf, math.inf)
    alone, off = apart
    rows = []
    for place, reading in enumerate(case.readings):
        predicted_kg, u_kg = float(stated.predicted_kg[place]), float(stated.predicted_u_kg[place])
        noise_kg = float(stated.predicted_noise_kg[place])
        difference_kg = reading.mass_kg - predicted_kg
        rows.append(
            Row(
                reading=reading,
                predicted_kg=predicted_kg,
                predicted_u_kg=u_kg,
                noise_kg=noise_kg,
                difference_kg=difference_kg,
                z=difference_kg / math.hypot(u_kg, noise_kg),
                fitted_kg=float(fitted_kg[place]),
                studentised=None if math.isnan(alone[place]) else alone[place],
                off=place in off,
                outside_travel=not low_m <= reading.height_m <= high_m,
            )
        )
    return tuple(rows)


def _mended(case: Case) -> Fit:
    seen, data = case.seen(), case.data()
    return numbers_of(case, seen, data, fit_readings(seen, data), ())


def _outcome(*, alarm: bool, shifted: bool, likely: tuple[Cause, ...]) -> Outcome:
    if not likely:
        return "unexplained" if alarm else "agrees"
    if shifted:
        return "shifted"
    return "cause" if len(likely) == 1 else "causes"
