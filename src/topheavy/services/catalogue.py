"""Look chain up in the tables, or tell from calipers what it is, weighs and is good for."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from topheavy.catalogue.calipers import CaliperReadings, MeasuredChain, measured_chain
from topheavy.catalogue.nearest import Likeness, nearest_rows, same_wire
from topheavy.catalogue.rating import Rating, chain_rating, overhead_caution
from topheavy.catalogue.sizes import RowDensity, density_of_row, rows_of_size
from topheavy.catalogue.table import ChainRow, all_rows, find_rows
from topheavy.catalogue.verdict import Job, Verdict, judge_chain
from topheavy.catalogue.wear import RETIRE_ON_SIGHT, Wear, wear_of
from topheavy.errors import BadInputError

if TYPE_CHECKING:
    from collections.abc import Iterable

WEIGH_IT = "a scale beats every table: weigh one piece and divide by its length"
ON_SIGHT = f"readings don't show everything: retire a piece with {', '.join(RETIRE_ON_SIGHT)}"
WEAKEST = (
    "the limit is the chain's alone: an assembly is rated as its weakest part, connector and "
    "feeder counted"
)
RETIRED = Rating(None, "", "retired chain carries no rating")
LOCAL_CODES = "local codes and a licensed rigger go before this table"


@dataclass(frozen=True, slots=True, kw_only=True)
class RowAnswer:
    """One published size and what it would do.

    Parameters
    ----------
    row : ChainRow
        As printed, with how it was seen.
    density : RowDensity or None
        Mass per length [kg/m], uncertainty and where it came from; None without a printed pitch.
    link_mass_kg : float or None
        Mass of one link [kg].
    rating : Rating
        Working load limit [kg]; the row's own where printed.
    verdict : Verdict or None
        Whether it is heavy enough; None without a density.
    """

    row: ChainRow
    density: RowDensity | None
    link_mass_kg: float | None
    rating: Rating
    verdict: Verdict | None


@dataclass(frozen=True, slots=True, kw_only=True)
class LookUp:
    """Answer of `look_up`.

    Parameters
    ----------
    rows : tuple of RowAnswer
        What fits, in the table's order.
    job : Job
        What the verdicts are for.
    cautions : tuple of str
        What to mind, each a sentence without a final stop.
    """

    rows: tuple[RowAnswer, ...]
    job: Job
    cautions: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class CaliperAnswer:
    """Answer of `from_calipers`.

    Parameters
    ----------
    chain : MeasuredChain
        Sizes [m], mass per length [kg/m], mass of a link [kg], uncertainties and their shares.
    likely : tuple of Likeness
        Nearest published sizes, best first; look at `near`.
    identified : bool
        Whether the best of them is near.
    nominal : ChainRow or None
        What wear was judged against: the size named, else the best when near.
    nominal_named : bool
        Whether that size was named; if not, the wear holds only if the guess is right.
    wear : Wear or None
        Judgement of the readings; None when nothing is near and no size was named.
    rating : Rating
        Working load limit [kg] by wire and grade.
    verdict : Verdict
        Whether it is heavy enough for the job.
    remarks, cautions : tuple of str
        What the readings mean, and what to mind; each a sentence without a final stop.
    """

    chain: MeasuredChain
    likely: tuple[Likeness, ...]
    identified: bool
    nominal: ChainRow | None
    nominal_named: bool
    wear: Wear | None
    rating: Rating
    verdict: Verdict
    remarks: tuple[str, ...]
    cautions: tuple[str, ...]


def look_up(
    *,
    standard: str = "",
    grade: str = "",
    size: str = "",
    wire_diameter_m: float | None = None,
    job: Job | None = None,
) -> LookUp:
    """Look chain up by standard, grade, size name or wire.

    Parameters
    ----------
    standard, grade : str
        As in `find_rows`; empty for any.
    size : str
        ``"5/8 in"``, ``"16 mm"``, ``"16 x 56 mm"``; empty for any.
    wire_diameter_m : float, optional
        Wire [m]; within 4 % counts.
    job : Job, optional
        Travel, best single and share that the verdicts are for.

    Returns
    -------
    LookUp
        Rows with density, rating and verdict, and cautions. With nothing asked, every row.

    Raises
    ------
    NotInStockError
        Nothing fits; lists what is known.
    BadInputError
        A size without a unit, or a wire of no length.

    Examples
    --------
    >>> answer = look_up(standard="DIN 764", size="16 mm")
    >>> answer.rows[0].density.density_kg_per_m, answer.rows[0].verdict.judgement
    (5.3, 'heavy enough')
    """
    job = job or Job()
    rows = find_rows(standard=standard, grade=grade, wire_diameter_m=wire_diameter_m)
    if size:
        rows = rows_of_size(rows, size)
    answers = tuple(_answer(row, job) for row in rows)
    return LookUp(rows=answers, job=job, cautions=_table_cautions(rows))


def from_calipers(
    readings: CaliperReadings,
    *,
    grade: str = "",
    nominal_size: str = "",
    nominal_standard: str = "",
    job: Job | None = None,
) -> CaliperAnswer:
    """Tell from caliper readings what a chain weighs, what it is and what it is good for.

    Parameters
    ----------
    readings : CaliperReadings
        Wire, pitch or outside length, perhaps inside width, with uncertainties [m].
    grade : str
        Grade or mark on the link; empty when unmarked.
    nominal_size, nominal_standard : str
        What the chain was when new, if known: wear is judged against it.
    job : Job, optional
        Travel, best single and share that the verdict is for.

    Returns
    -------
    CaliperAnswer
        Masses, likely standards, wear, rating, verdict, remarks and cautions.

    Raises
    ------
    BadInputError
        Readings that no chain can have.
    NotInStockError
        An unknown nominal size.

    Examples
    --------
    >>> answer = from_calipers(CaliperReadings(wire_diameter_m=0.016, outside_m=0.592))
    >>> answer.likely[0].row.name, answer.verdict.judgement, answer.wear.judgement
    ('DIN 764, 16 mm', 'heavy enough', 'within limits')
    """
    chain = measured_chain(readings)
    wire_m, pitch_m = chain.shape.wire_diameter_m, chain.shape.pitch_m
    likely = nearest_rows(wire_m, pitch_m, readings.inside_width_m)
    nominal = likely[0].row if likely[0].near else None
    if nominal_size or nominal_standard:
        nominal = _named(nominal_size, nominal_standard, pitch_m)
    wear = None
    if nominal is not None:
        wear = wear_of(
            nominal,
            wire_diameter_m=wire_m,
            pitch_m=pitch_m,
            wire_u_m=chain.wire_u_m,
            pitch_u_m=chain.pitch_u_m,
        )
    return CaliperAnswer(
        chain=chain,
        likely=likely,
        identified=likely[0].near,
        nominal=nominal,
        nominal_named=bool(nominal_size),
        wear=wear,
        rating=RETIRED if wear and wear.judgement == "retire" else chain_rating(wire_m, grade),
        verdict=judge_chain(chain.density_kg_per_m, job, wire_diameter_m=wire_m),
        remarks=_remarks(chain, likely, nominal, named=bool(nominal_size)),
        cautions=_cautions([grade], wear),
    )


def _answer(row: ChainRow, job: Job) -> RowAnswer:
    density = density_of_row(row)
    link_mass_kg, verdict = None, None
    if density is not None and row.pitch_m is not None:
        link_mass_kg = density.density_kg_per_m * row.pitch_m
        verdict = judge_chain(density.density_kg_per_m, job, wire_diameter_m=row.wire_diameter_m)
    rating = Rating(row.wll_kg, row.grade, f"printed for {row.name}")
    if row.wll_kg is None:
        rating = chain_rating(row.wire_diameter_m, min(row.grades))
    return RowAnswer(
        row=row, density=density, link_mass_kg=link_mass_kg, rating=rating, verdict=verdict
    )


def _named(size: str, standard: str, pitch_m: float) -> ChainRow:
    """Find the row of a size when new; of several link forms the one nearest in pitch [m]."""
    if not size:
        raise BadInputError(
            "A standard alone does not say how thick the chain was",
            field="nominal_size",
            wanted='the size when new, such as "16 mm"',
        )
    rows = rows_of_size(find_rows(standard=standard), size)
    return min(rows, key=lambda row: abs((row.pitch_m or math.inf) - pitch_m))


def _table_cautions(rows: tuple[ChainRow, ...]) -> tuple[str, ...]:
    grades = sorted({grade for row in rows for grade in row.grades})
    cautions = list(_cautions(grades, None))
    if any("memory" in row.how_seen for row in rows):
        cautions.append("some sizes here are from memory and not from a standard read: measure")
    names = [row.name for row in rows]
    if len(set(names)) < len(names):
        cautions.append(
            "some sizes stand twice, for two makers print different tables of one standard: take "
            "the lower limit"
        )
    if any(row.pitch_m is None for row in rows):
        cautions.append("no pitch is printed for some sizes: their mass needs calipers")
    return tuple(cautions)


def _cautions(grades: Iterable[str], wear: Wear | None) -> tuple[str, ...]:
    overhead = [overhead_caution(grade) for grade in grades]
    cautions = [caution for caution in overhead if caution]
    if wear is not None and wear.judgement == "retire":
        cautions.insert(0, "retire this chain: do not hang it")
    return (*cautions, WEAKEST, ON_SIGHT, WEIGH_IT, LOCAL_CODES)


def _remarks(
    chain: MeasuredChain, likely: tuple[Likeness, ...], nominal: ChainRow | None, *, named: bool
) -> tuple[str, ...]:
    remarks = [chain.width_note] if chain.width_note else []
    best = likely[0]
    if not best.near:
        remarks.append(
            f"nothing in the tables is near: {best.row.name} misses by {100 * best.misfit:.0f} %"
        )
    elif len(likely) > 1 and likely[1].near:
        others = ", ".join(one.row.name for one in likely[1:] if one.near)
        remarks.append(f"could also be {others}: look for the mark on the link")
    if nominal is None:
        remarks.append(
            "wear can't be told without the size when new: measure links that bear no load too"
        )
    elif not named:
        remarks.append(f"wear is judged as if it was {nominal.name} when new")
    wire_m = chain.shape.wire_diameter_m
    hidden = [row.name for row in all_rows() if row.pitch_m is None and same_wire(row, wire_m)]
    if hidden:
        remarks.append(f"can't be told by pitch, since none is printed: {', '.join(hidden)}")
    return tuple(remarks)
