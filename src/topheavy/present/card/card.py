"""From an answer to a PDF page: the view's words and the picture, set by the template."""

from __future__ import annotations

from dataclasses import asdict, dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final

from topheavy.errors import BadInputError
from topheavy.present.figure import says_length
from topheavy.present.picture import draw_rig
from topheavy.present.picture.facts import facts
from topheavy.present.picture.plan import plan
from topheavy.present.picture.words import description
from topheavy.present.rig.facts import share_facts
from topheavy.present.rig.picture import rig_scene
from topheavy.present.rig.view import view_rig
from topheavy.present.typeset import INKS, paper_for, typeset

if TYPE_CHECKING:
    from topheavy.present.rig.link_rows import PieceRow
    from topheavy.present.rig.view import LoadRow, RigView
    from topheavy.services.rig import RigAnswer
    from topheavy.units import UnitSystem

_TEMPLATE: Final = Path(__file__).with_name("card.typ")
_NO_ROOM: Final = "The card does not fit on one page"


@dataclass(frozen=True, slots=True)
class Layout:
    """One way to fill the page.

    Parameters
    ----------
    picture_mm : float
        Width of the picture [mm].
    type_pt, big_pt : float
        Sizes of the running text and of what must be read from a metre away [pt].
    rows : int
        Blank lines for sets that must find room.
    beside : bool
        Whether what to see when the rig is right stands beside the picture, not below it.
    """

    picture_mm: float
    type_pt: float
    big_pt: float
    rows: int
    beside: bool


LAYOUTS: Final = (
    *(
        Layout(picture_mm, type_pt, big_pt, rows=2, beside=beside)
        for picture_mm, type_pt, big_pt in ((158, 9.2, 25), (150, 9.0, 24), (142, 8.8, 23))
        for beside in (False, True)
    ),
    Layout(132, 8.6, 22, rows=2, beside=True),
    Layout(132, 8.4, 21, rows=1, beside=True),
    Layout(124, 8.2, 20, rows=1, beside=True),
    Layout(116, 8.0, 18, rows=0, beside=True),
    Layout(106, 7.8, 17, rows=0, beside=True),
    Layout(96, 7.4, 16, rows=0, beside=True),
    Layout(84, 7.0, 15, rows=0, beside=True),
    Layout(72, 6.6, 14, rows=0, beside=True),
    Layout(60, 6.2, 13, rows=0, beside=True),
)
"""Tried in this order until everything fits; no text is ever cut."""


def card_pdf(answer: RigAnswer, units: UnitSystem) -> bytes:
    """Set the card of a rig: one page, A4 in kg and US Letter in lb.

    Parameters
    ----------
    answer : RigAnswer
        From `topheavy.services.rig.answer_rig`.
    units : UnitSystem
        What the user wants to see.

    Returns
    -------
    bytes
        A tagged PDF, without date or author: the same answer gives the same bytes. It keeps to
        PDF/UA-1 unless a name has letters that the packaged fonts lack.

    Raises
    ------
    BadInputError
        There are more words than a page holds in the smallest layout.
    """
    view, scene = view_rig(answer, units), rig_scene(answer, units)
    data = card_data(view, paper=paper_for(units))
    data["alt"] = description(scene, facts(scene, plan(scene)))
    refused = BadInputError(
        _NO_ROOM,
        field="card",
        wanted="shorter names, fewer kinds of chain, or the picture and the terminal instead",
    )
    return typeset(_TEMPLATE, data, {"picture": draw_rig(scene)}, refused)


def card_data(view: RigView, paper: str) -> dict[str, Any]:
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
        "wanted": view.wanted,
        "verdict": f"{view.verdict} {view.proof}",
        "meets": view.meets,
        "obstacles": view.obstacles,
        "ends": [_end("Left end", view.left, view), _end("Right end", view.right, view)],
        "middle": _middle(view),
        "plates": view.plates_a_side,
        "straight_weight": view.straight_weight.text,
        "compares": view.style not in {"straight", "bands"},
        "loads": [_load(row) for row in view.loads],
        "facts": [list(fact) for fact in share_facts(view)],
        "compared": view.compared,
        "steps": view.steps,
        "signs": view.signs,
        "cautions": view.cautions,
    }


def _end(name: str, rows: tuple[PieceRow, ...], view: RigView) -> dict[str, Any]:
    """What hangs on one end, pieces of one kind together, then its bands."""
    kinds: dict[tuple[str, int], list[str]] = {}
    for row in rows:
        kinds.setdefault((row.size, row.links), []).append(row.tag)
    return {
        "name": name,
        "kinds": [
            {"tags": " + ".join(tags), "chain": f"{size}, {links} links"}
            for (size, links), tags in kinds.items()
        ]
        + [
            {
                "tags": row.tag,
                "chain": f"band on peg {row.peg}{', doubled' if row.way == 'doubled' else ''}",
            }
            for row in view.bands
            if name.lower().startswith(row.side)
        ],
    }


def _middle(view: RigView) -> dict[str, str]:
    """How both ends hang: the feeder's setting, or the way to hang without one."""
    if view.style == "bands":
        pull = f"both ends pull {view.bands_bottom} to {view.bands_top}"
        return {"name": "Each end", "big": "bands", "detail": "alike on both ends", "more": pull}
    if view.feeder_length is None:
        draped = view.style == "draped"
        how = "laid across" if draped else "straight"
        detail = "tails even, both ends alike" if draped else "from the last link down"
        return {"name": "Each piece", "big": how, "detail": detail, "more": ""}
    long = view.feeder_length
    twice = says_length(view.setting, long)
    return {
        "name": "Feeders, both alike",
        "big": view.setting,
        "detail": view.feeder_name if twice else f"{view.feeder_name}, {long}",
        "more": f"on it: {view.connector}",
    }


def _load(row: LoadRow) -> dict[str, str]:
    return {
        "place": row.place,
        "height": row.height.text if row.height else "",
        "raising": row.raising.text,
        "lowering": row.lowering.text if row.lowering else "",
        "straight": row.straight.text,
    }
