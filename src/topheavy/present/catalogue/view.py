"""Chain out of the tables, or under the calipers, as frozen views for terminal and JSON."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from topheavy.present.figure import Figure, density, fine_length, fine_mass, mass, share

if TYPE_CHECKING:
    from topheavy.catalogue.calipers import MeasuredChain
    from topheavy.catalogue.nearest import Likeness
    from topheavy.catalogue.rating import Rating
    from topheavy.catalogue.verdict import Job, Verdict
    from topheavy.services.catalogue import CaliperAnswer, LookUp, RowAnswer
    from topheavy.units import UnitSystem

_AGAIN: Final = "as another maker prints it"


@dataclass(frozen=True, slots=True, kw_only=True)
class VerdictView:
    """Whether chain is heavy enough: in a word, plainly, and in numbers."""

    judgement: str
    words: str
    gain_per_piece: Figure
    wanted: Figure
    pieces_a_side: int
    reasons: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class SizeRow:
    """One published size; None where no pitch is printed.

    `standard` and `size` are the two halves of `name`; of a size that is printed in two tables
    the second one's standard says so.
    """

    name: str
    standard: str
    size: str
    grade: str
    wire: Figure
    pitch: Figure | None
    density: Figure | None
    link_mass: Figure | None
    limit: Figure | None
    known_by: str
    how_seen: str
    rating: str
    verdict: VerdictView | None


@dataclass(frozen=True, slots=True, kw_only=True)
class LookUpView:
    """Published sizes and what they would do."""

    title: str
    job: str
    rows: tuple[SizeRow, ...]
    cautions: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class LikelyRow:
    """A published size against the readings: misfit is the larger of wire and pitch."""

    name: str
    near: bool
    misfit: Figure
    wire_off: Figure
    pitch_off: Figure


@dataclass(frozen=True, slots=True, kw_only=True)
class WearView:
    """Readings against the size when new."""

    against: str
    named: bool
    judgement: str
    pitch_growth: Figure
    lost_section: Figure
    reasons: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class CaliperView:
    """What readings tell of a chain."""

    title: str
    wire: Figure
    pitch: Figure
    inside_width: Figure
    density: Figure
    link_mass: Figure
    mostly: str
    identified: bool
    likely: tuple[LikelyRow, ...]
    wear: WearView | None
    limit: Figure | None
    rating: str
    verdict: VerdictView
    remarks: tuple[str, ...]
    cautions: tuple[str, ...]


def view_look_up(answer: LookUp, units: UnitSystem) -> LookUpView:
    """Put rows of the tables into words and figures."""
    count = len(answer.rows)
    return LookUpView(
        title="One published size" if count == 1 else f"{count} published sizes",
        job=_job(answer.job, answer, units),
        rows=_sizes(answer.rows, units),
        cautions=_sentences(answer.cautions),
    )


def view_calipers(answer: CaliperAnswer, units: UnitSystem) -> CaliperView:
    """Put what readings tell into words and figures."""
    chain = answer.chain
    shape = chain.shape
    return CaliperView(
        title="Chain by its readings",
        wire=fine_length(units, shape.wire_diameter_m, chain.wire_u_m),
        pitch=fine_length(units, shape.pitch_m, chain.pitch_u_m),
        inside_width=fine_length(units, shape.inside_width_m),
        density=density(units, chain.density_kg_per_m, chain.density_u_kg_per_m),
        link_mass=fine_mass(units, chain.link_mass_kg, chain.link_mass_u_kg),
        mostly=_mostly(chain),
        identified=answer.identified,
        likely=tuple(_likely(one, units) for one in answer.likely),
        wear=_wear(answer),
        limit=_limit(answer.rating, units),
        rating=answer.rating.reason,
        verdict=_verdict(answer.verdict, units),
        remarks=_sentences(answer.remarks),
        cautions=_sentences(answer.cautions),
    )


def _job(job: Job, answer: LookUp, units: UnitSystem) -> str:
    judged = next((row.verdict for row in answer.rows if row.verdict), None)
    if judged is None:
        return f"chain for {100 * job.share:.0f} % of the best single"
    said = (
        f"{100 * judged.share:.0f} % of a best of {units.mass(judged.best_kg, 0)}, over "
        f"{units.length(judged.travel_m, 0)} of travel"
    )
    return f"{said}; assumed: {' and '.join(judged.assumed)}" if judged.assumed else said


def _sizes(answers: tuple[RowAnswer, ...], units: UnitSystem) -> tuple[SizeRow, ...]:
    names = [answer.row.name for answer in answers]
    return tuple(
        _size(answer, units, again=answer.row.name in names[:place])
        for place, answer in enumerate(answers)
    )


def _size(answer: RowAnswer, units: UnitSystem, *, again: bool) -> SizeRow:
    row, found, verdict = answer.row, answer.density, answer.verdict
    standard, _, size = row.name.rpartition(", ")
    per_length = None
    if found is not None:
        per_length = density(units, found.density_kg_per_m, found.density_u_kg_per_m)
    return SizeRow(
        name=row.name,
        standard=f"{standard}, {_AGAIN}" if again else standard,
        size=size,
        grade=row.grade,
        wire=fine_length(units, row.wire_diameter_m),
        pitch=None if row.pitch_m is None else fine_length(units, row.pitch_m),
        density=per_length,
        link_mass=None if answer.link_mass_kg is None else fine_mass(units, answer.link_mass_kg),
        limit=_limit(answer.rating, units),
        known_by=found.known_by if found else "",
        how_seen=row.how_seen,
        rating=answer.rating.reason,
        verdict=None if verdict is None else _verdict(verdict, units),
    )


def _limit(rating: Rating, units: UnitSystem) -> Figure | None:
    if rating.wll_kg is None:
        return None
    return Figure(rating.wll_kg, "kg", units.mass(rating.wll_kg, 0))


def _verdict(verdict: Verdict, units: UnitSystem) -> VerdictView:
    return VerdictView(
        judgement=verdict.judgement,
        words=f"{verdict.words}.",
        gain_per_piece=mass(units, verdict.gain_per_piece_kg),
        wanted=mass(units, verdict.wanted_kg),
        pieces_a_side=verdict.pieces_a_side,
        reasons=_sentences(verdict.reasons(units)),
    )


def _likely(one: Likeness, units: UnitSystem) -> LikelyRow:
    return LikelyRow(
        name=one.row.name,
        near=one.near,
        misfit=share(one.misfit),
        wire_off=_off(one.wire_off_m, units),
        pitch_off=_off(one.pitch_off_m, units),
    )


def _off(miss_m: float, units: UnitSystem) -> Figure:
    shown = fine_length(units, abs(miss_m)).text
    nothing = shown == fine_length(units, 0.0).text
    sign = "" if nothing else "+" if miss_m > 0 else "-"
    return Figure(miss_m, "m", f"{sign}{shown}")


def _mostly(chain: MeasuredChain) -> str:
    names = {
        "the wire's diameter": chain.budget.wire,
        "the pitch": chain.budget.pitch,
        "the inside width": chain.budget.width,
        "the form of the link": chain.budget.geometry,
    }
    return max(names, key=names.__getitem__)


def _wear(answer: CaliperAnswer) -> WearView | None:
    wear = answer.wear
    if wear is None:
        return None
    return WearView(
        against=wear.row.name,
        named=answer.nominal_named,
        judgement=wear.judgement,
        pitch_growth=share(wear.pitch_growth, wear.pitch_growth_u),
        lost_section=share(wear.lost_section, wear.lost_section_u),
        reasons=_sentences(wear.reasons),
    )


def _sentences(said: tuple[str, ...]) -> tuple[str, ...]:
    """Give each a capital and a final stop."""
    return tuple(f"{words[:1].upper()}{words[1:]}." for words in said)
