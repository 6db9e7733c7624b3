"""Pages of inspections: what to look for, what was found, what is due; a piece and its history."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated, Any, Final
from urllib.parse import quote

from fastapi import APIRouter, Query
from fastapi.responses import HTMLResponse, Response  # noqa: TC002 - read by the routes

from topheavy.catalogue.wear import LONGEST_PITCH, MOST_LOST_SECTION
from topheavy.errors import TopheavyError
from topheavy.gym.care import ON_SIGHT
from topheavy.present.figure import share, sure_mass
from topheavy.services.chain_care import inspections_due
from topheavy.web.access import Coach  # noqa: TC001 - read by the routes
from topheavy.web.access.desks import OpenDesk  # noqa: TC001 - read by the routes
from topheavy.web.desk import happened_on, today
from topheavy.web.gym.fields import Field
from topheavy.web.gym.keep import PieceApart, Put, keep
from topheavy.web.gym.sheets import Sheet
from topheavy.web.gym.shown import show_form
from topheavy.web.gym.stock_routes import said
from topheavy.web.gym.things import tags_in
from topheavy.web.gym.troubles import Trouble, troubles_of
from topheavy.web.gym.typed import Typed, over_in
from topheavy.web.templates import render
from topheavy.web.typed import with_unit

if TYPE_CHECKING:
    from topheavy.gym.gym import Gym
    from topheavy.gym.stock import ChainPiece
    from topheavy.store.gyms import StoredGym
    from topheavy.units import UnitSystem
    from topheavy.web.gym.fields import Words
    from topheavy.web.house import House

Short = Annotated[str, Query(max_length=80)]

_BY: Final = Field(key="by", label="Who")
_NOTE: Final = Field(key="note", label="Note", help="such as: cleaned and oiled")
_DAY: Final = Field(key="day", label="Day", kind="day", must=True)

INSPECTION: Final = Sheet(
    section="inspection",
    what="inspection",
    fields=(
        _DAY,
        Field(key="pitch_growth", label="Pitch grown by", kind="quantity", of="share",
              help="where it is worst; leave it empty when it was not measured"),
        Field(key="lost_section", label="Section worn by", kind="quantity", of="share",
              help="where the wire is thinnest; about twice the loss of its diameter"),
        _BY,
        _NOTE,
    ),
)  # fmt: skip
WEIGHING: Final = Sheet(
    section="weighing",
    what="weighing",
    fields=(
        _DAY,
        Field(key="masses", label="What the scale said", kind="lines", of="mass", must=True,
              help="one mass a piece, one a line, in the order of the pieces"),
        Field(key="scale_reading", label="Smallest step of the scale", kind="quantity", of="mass",
              help="when other than the gym's, such as 20 g"),
        _BY,
        _NOTE,
    ),
)  # fmt: skip
_SHEETS: Final = {"inspection": INSPECTION, "weighing": WEIGHING}


def care_routes(house: House) -> APIRouter:
    """Make the routes."""
    pages = APIRouter(include_in_schema=False)

    @pages.get("/gym/care")
    def care(visitor: Coach, desk: OpenDesk, tag: Short = "") -> HTMLResponse:
        words = {"day": today(), "by": visitor.name} | ({f"tag.{tag}": "yes"} if tag else {})
        return _page(house, desk.stored(), "inspection", words)

    @pages.get("/gym/weighing")
    def weighing(visitor: Coach, desk: OpenDesk) -> HTMLResponse:
        words = {"day": today(), "by": visitor.name}
        return _page(house, desk.stored(), "weighing", words)

    @pages.post("/gym/care/{kind}")
    def put(visitor: Coach, desk: OpenDesk, kind: str, words: Typed) -> Response:
        kind = kind if kind in _SHEETS else "inspection"
        found, units = desk.stored(), house.units()
        table = _entry(kind, words, units)
        edit = Put(kind, "", table)
        note = f"{kind} of {', '.join(table['tags']) or 'nothing'} on {table.get('day', '')}"
        try:
            _check_ticked(table)
            happened_on(table["day"], "inspection[1].day")
            kept = keep(desk, edit, over=over_in(words), by=visitor.name, note=note)
        except TopheavyError as error:
            troubles = troubles_of(error, _SHEETS[kind], edit.path or (kind, 0))
            return _page(house, found, kind, words, troubles)
        note += _newly_retired(found.gym, desk.stored().gym, table["tags"])
        return said("/gym/care" if kind == "inspection" else "/gym/stock", note, kept)

    @pages.get("/gym/piece")
    def piece(_: Coach, desk: OpenDesk, tag: Short) -> HTMLResponse:
        found, units = desk.stored(), house.units()
        one = found.gym.stock.piece(tag)
        values = {
            "found": found,
            "piece": one,
            "mass": sure_mass(units, one.chain.mass_kg, one.mass_u_kg),
            "history": _history(one, units),
            "by_hand": _retired_by_hand(found, tag),
            "room": "care",
        }
        return render("gym/piece.html", values)

    @pages.post("/gym/piece")
    def retire(visitor: Coach, desk: OpenDesk, words: Typed) -> Response:
        tag, why = words.get("tag", ""), words.get("retired", "").strip()
        note = f"{tag} retired: {why}" if why else f"{tag} taken back into use"
        edit = PieceApart(tag, {"retired": why or None})
        kept = keep(desk, edit, over=over_in(words), by=visitor.name, note=note)
        return said(f"/gym/piece?tag={quote(tag)}", note, kept)

    return pages


def _entry(kind: str, words: Words, units: UnitSystem) -> dict[str, Any]:
    """An entry of an inspection or a weighing as the gym file says it."""
    tags = [name.removeprefix("tag.") for name in words if name.startswith("tag.")]
    entry: dict[str, Any] = {"day": words.get("day", "").strip(), "tags": tags}
    for field in _SHEETS[kind].fields[1:]:
        text = words.get(field.key, "").strip()
        if not text:
            continue
        entry[field.key] = with_unit(text, field.unit(units))
        if field.kind == "lines":
            lines = [
                with_unit(line, field.unit(units)) for line in text.splitlines() if line.strip()
            ]
            entry[field.key] = lines[0] if len(lines) == 1 else lines
    found = [word for word in ON_SIGHT if words.get(f"found.{word}")]
    return {**entry, "found": found} if found and kind == "inspection" else entry


def _newly_retired(before: Gym, after: Gym, tags: list[str]) -> str:
    """Say which of the pieces may not hang any more, and why."""
    fit = {piece.tag for piece in before.stock.fit_chains}
    gone = [piece for piece in after.stock.chains if piece.tag in tags and piece.retired]
    return "".join(f". {p.tag} is retired: {p.retired}" for p in gone if p.tag in fit)


def _check_ticked(table: dict[str, Any]) -> None:
    if not table["tags"]:
        raise TopheavyError(
            "No piece is ticked",
            field="inspection[1]",
            wanted="a tick at each piece it was done to",
        )


def _page(
    house: House, found: StoredGym, kind: str, words: Words, troubles: tuple[Trouble, ...] = ()
) -> HTMLResponse:
    units, gym = house.units(), found.gym
    sheet = _SHEETS[kind]
    due = inspections_due(gym.stock.chains, today(), gym.inspect_days)
    nobody = [piece.tag for piece in gym.stock.fit_chains if not piece.inspected_on]
    values = {
        "found": found,
        "kind": kind,
        "form": show_form(sheet, words, units, found.tables, troubles),
        "words": words,
        "pieces": _pieces(gym, words),
        "on_sight": [(word, said_, words.get(f"found.{word}")) for word, said_ in ON_SIGHT.items()],
        "longest": f"{100 * LONGEST_PITCH:g} %",
        "most_lost": f"{100 * MOST_LOST_SECTION:g} %",
        "days": gym.inspect_days,
        "due": [one.say(units) for one in due],
        "nobody": nobody,
        "over": words.get("over") or found.version.number,
        "room": "care",
    }
    return render("gym/care.html", values, 422 if troubles else 200)


def _pieces(gym: Gym, words: Words) -> list[tuple[str, str, bool, str]]:
    """Every piece: tag, what it is, whether it is ticked, and its state."""
    return [
        (
            piece.tag,
            f"{piece.size}, {piece.chain.links} links",
            bool(words.get(f"tag.{piece.tag}")),
            f"retired: {piece.retired}" if piece.retired else piece.inspected_on or "never noted",
        )
        for piece in gym.stock.chains
    ]


def _history(piece: ChainPiece, units: UnitSystem) -> list[tuple[str, str, str]]:
    """Inspections and weighings of a piece, the newest first: day, what, who and notes."""
    found = []
    for look in piece.inspections:
        said_ = [ON_SIGHT[word] for word in look.found]
        if look.pitch_growth is not None:
            said_.append(f"pitch grown by {share(look.pitch_growth)}")
        if look.lost_section is not None:
            said_.append(f"section worn by {share(look.lost_section)}")
        who = ", ".join(part for part in (look.by, look.note) if part)
        found.append((look.day, ", ".join(said_) or "nothing found", who))
    for weighed in piece.weighings:
        who = ", ".join(part for part in (weighed.by, weighed.note) if part)
        mass = sure_mass(units, weighed.mass_kg, weighed.scale_u_kg).text
        found.append((weighed.day, f"weighed {mass}", who))
    return sorted(found, reverse=True)


def _retired_by_hand(found: StoredGym, tag: str) -> str:
    """Why a coach retired a piece; empty when nobody did, whatever its readings say."""
    for table in found.tables.get("chain", []):
        if tag in tags_in(table):
            return str(table.get("retired", ""))
    return ""
