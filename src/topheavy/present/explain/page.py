"""From what a lifter should know to a PDF of two pages."""

from __future__ import annotations

from dataclasses import asdict, dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final

from topheavy.errors import BadInputError
from topheavy.present.curves import Curve, CurveSheet, Note, Strength, curves_svg
from topheavy.present.curves.words import description as curves_words
from topheavy.present.explain.names import at_the_bottom, side_name
from topheavy.present.explain.strip import Hung, strip_svg, strip_words
from topheavy.present.explain.view import view_explained
from topheavy.present.rig.picture import rig_scene
from topheavy.present.typeset import INKS, paper_for, typeset
from topheavy.services.reps.sides import BAND, PLAIN

if TYPE_CHECKING:
    from topheavy.present.curves.given import Kind
    from topheavy.present.explain.view import ExplainView, StandRow
    from topheavy.services.explain import Explained, Side
    from topheavy.units import UnitSystem

_TEMPLATE: Final = Path(__file__).with_name("explain.typ")
_NO_ROOM: Final = "The page for the lifter does not fit on two sheets"


@dataclass(frozen=True, slots=True)
class Layout:
    """One way to fill the sheets.

    Parameters
    ----------
    type_pt, big_pt : float
        Sizes of the running text and of the loads [pt].
    picture : float
        Width of the pictures, as a share of the text's width [-].
    """

    type_pt: float
    big_pt: float
    picture: float


LAYOUTS: Final = (
    *(Layout(13.0 - 0.4 * step, 30.0 - step, 1.0) for step in range(8)),
    Layout(9.8, 21, 0.94),
    Layout(9.4, 20, 0.88),
    Layout(9.0, 18, 0.8),
    Layout(8.4, 16, 0.72),
    Layout(7.6, 15, 0.62),
    Layout(6.8, 13, 0.52),
)
"""Tried in this order until everything fits, each sheet by itself; no text is ever cut."""


def explain_pdf(explained: Explained, units: UnitSystem) -> bytes:
    """Set the pages for the lifter: two sheets, A4 in kg and US Letter in lb.

    Parameters
    ----------
    explained : Explained
        From `topheavy.services.explain.explain_rig`.
    units : UnitSystem
        What the user wants to see.

    Returns
    -------
    bytes
        A PDF as `topheavy.present.typeset.typeset` makes it.

    Raises
    ------
    BadInputError
        There are more words than two sheets hold in the smallest layout.
    """
    sheet, hangs = curve_sheet(explained, units), hung_ways(explained, units)
    data = page_data(view_explained(explained, units), paper_for(units))
    data["curves_alt"] = f"{sheet.title}. {curves_words(sheet)}"
    data["strip_alt"] = strip_words(hangs)
    pictures = {"curves": curves_svg(sheet), "strip": strip_svg(hangs)}
    refused = BadInputError(
        _NO_ROOM, field="explain", wanted="shorter names, or the rig's card instead"
    )
    return typeset(_TEMPLATE, data, pictures, refused)


def curve_sheet(explained: Explained, units: UnitSystem) -> CurveSheet:
    """Choose the curves: plain weight, the rig and what stands beside it, and strength."""
    place, strength = explained.answer.question.place, explained.strength
    travel = place.travel
    span_m = travel.bottom_m, travel.top_m
    notes = () if strength is None else (Note(height_m=strength.weakest_m, words="weakest here"),)
    return CurveSheet(
        bottom_m=travel.bottom_m,
        top_m=travel.top_m,
        units=units,
        curves=tuple(
            Curve.of(side_name(side), _kind(side), side.hung, span_m, side.straight_kg)
            for side in explained.sides
        ),
        strength=None if strength is None else Strength.of(strength, "your strength"),
        bottom_at=at_the_bottom(place.lift),
        top_at="locked out",
        notes=notes,
        title=f"Load on the bar by height, {place.lifter.name}, {place.lift.name}",
        width=527.0,
        height=270.0,
    )


def hung_ways(explained: Explained, units: UnitSystem) -> tuple[Hung, ...]:
    """The rig, and the same chain straight, as they hang."""
    answer = explained.answer
    scene = rig_scene(answer, units)
    own = Hung(name=side_name(explained.chosen), scene=replace(scene, straight=None))
    if scene.straight is None:
        return (own,)
    straight = replace(scene, rig=scene.straight, straight=None, notes=())
    return own, Hung(name="the same chain hung straight", scene=straight)


def _kind(side: Side) -> Kind:
    if side.chosen:
        return "chosen"
    kinds: dict[str, Kind] = {PLAIN: "plain", BAND: "band"}
    return kinds.get(side.name, "straight" if "straight" in side.name else "other")


def page_data(view: ExplainView, paper: str) -> dict[str, Any]:
    """Collect what the template shows: words and numbers of the view, nothing worked out anew."""
    return {
        "paper": paper,
        "inks": INKS,
        "layouts": [asdict(layout) for layout in LAYOUTS],
        "title": view.title,
        "gym": view.gym,
        "lifter": view.lifter,
        "lift": view.lift,
        "station": view.station,
        "rig": view.rig,
        "warning": view.warning,
        "why_title": view.why_title,
        "hang_title": view.hang_title,
        "why_head": view.why_head,
        "why": list(view.why),
        "small": [words for words in (view.drawn_from, *view.sureness) if words],
        "stands": [_stand(row) for row in view.stands],
        "feel": list(view.feel),
        "fold": list(view.fold),
        "down": list(view.down),
        "sides": [
            {
                "name": row.short,
                "chosen": row.chosen,
                "starts": row.starts_down.text,
                "reaches": row.reaches_bottom.text,
            }
            for row in view.sides
            if row.falls
        ],
        "promise": list(view.promise),
        "cautions": list(view.cautions),
    }


def _stand(row: StandRow) -> dict[str, str]:
    use = ""
    if row.of_strength and row.of_strength_least and row.of_strength_most:
        low, high = row.of_strength_least.text.split(" ")[0], row.of_strength_most.text
        use = f"{row.of_strength.text} of your strength ({low} to {high})"
    return {
        "where": row.where,
        "height": row.height.text,
        "load": row.raising.text,
        "lowering": row.lowering.text if row.lowering else "",
        "links": row.links,
        "use": use,
    }
