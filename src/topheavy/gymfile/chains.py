"""From a chain table to chain pieces: names, links, pitch, and mass from the best source given."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Final

from topheavy.catalogue.calipers import CRUDE_LENGTH_U_M, CaliperReadings, measured_chain
from topheavy.catalogue.nearest import PITCH_TOLERANCE
from topheavy.catalogue.sizes import NAMED_STANDARD_U, chain_of_size
from topheavy.errors import BadInputError, NotInStockError
from topheavy.gym.care import Inspection, Weighing, by_day, retired_by
from topheavy.gym.stock import ChainPiece
from topheavy.mechanics.chain import Chain
from topheavy.mechanics.link import pitch_from_outside_m

if TYPE_CHECKING:
    from collections.abc import Sequence

    from topheavy.catalogue.sizes import SizedChain
    from topheavy.gymfile.problems import Keys
    from topheavy.gymfile.tables_stock import CalipersTable, ChainTable

LISTED_PITCH_U: Final = PITCH_TOLERANCE / math.sqrt(3)
"""Relative standard uncertainty of a pitch nobody measured [-]: anywhere in the band that new and
worn chain of a size may fill. It does not cover chain of another form than its size name says."""

SLIP: Final = 2.0
"""A mass further than this factor from what steel of that wire weighs is a slip: pounds written
as kilograms are 2.2 apart, links of another form 1.3."""

_MEASURED_LINKS: Final = 10
_TEN_LINKS_PITCHES: Final = 10.55
"""About how many pitches ten links measure outside: ten, and two wires of a quarter pitch or so."""

_DIGITS: Final = 9
_NUMBER_AND_UNIT: Final = re.compile(r"(\d)\s*(mm|cm|in|\")", re.IGNORECASE)
_BARE_FRACTION: Final = re.compile(r"(?:\d+ )?\d+/\d+")


@dataclass(frozen=True, slots=True, kw_only=True)
class Link:
    """What is known of a table's links before any piece was weighed.

    Parameters
    ----------
    wire_m, pitch_m : float
        Wire diameter and pitch [m].
    pitch_u_m : float
        Standard uncertainty of the pitch [m].
    pitch_measured : bool
        Whether somebody laid a tape to it.
    density, density_u : float
        Mass per length and its standard uncertainty [kg/m].
    known_by : str
        Where the density came from.
    """

    wire_m: float
    pitch_m: float
    pitch_u_m: float
    pitch_measured: bool
    density: float
    density_u: float
    known_by: str


def tags_of(table: ChainTable) -> list[tuple[str, Keys]]:
    """List a table's tags, each with the key it came from.

    Raises
    ------
    BadInputError
        Named in no way or in two, or an odd number of pieces to be matched.
    """
    ways = [word for word in ("tag", "tags", "count") if getattr(table, word) is not None]
    if len(ways) != 1 or (table.prefix is None) != (table.count is None):
        raise BadInputError(
            "Chain pieces are named in one way",
            got=" and ".join([*ways, *(["prefix"] if table.prefix else [])]) or "no name",
            wanted='one of tag = "A1"; tags = ["A1", "A2"]; prefix = "A" with count = 2',
        )
    if table.tag is not None:
        tags: list[tuple[str, Keys]] = [(table.tag, ("tag",))]
    elif table.tags is not None:
        tags = [(tag, ("tags", index)) for index, tag in enumerate(table.tags)]
    else:
        tags = [(f"{table.prefix}{number + 1}", ("prefix",)) for number in range(table.count or 0)]
    if table.matched and len(tags) % 2:
        raise BadInputError(
            "An odd batch can't be split equally over both ends",
            field="matched",
            got=f"{len(tags)} pieces",
            wanted="an even number of pieces, or matched = false",
        )
    return tags


def pieces_from(table: ChainTable, tags: list[str], scale_reading_kg: float) -> list[ChainPiece]:
    """Make the pieces of a table.

    Parameters
    ----------
    table : ChainTable
        As read.
    tags : list of str
        One for each piece.
    scale_reading_kg : float
        Smallest step of the gym's scale [kg], unless the table says another.

    Raises
    ------
    BadInputError
        Sources that contradict each other, or links that no chain has; its field is a key of the
        table where there is one.
    """
    _check_sources(table, len(tags))
    link = _link(table)
    step_kg = table.scale_reading or scale_reading_kg
    masses: list[float | None] = [None] * len(tags)
    if table.weighed is not None:
        masses = [*table.weighed]
    return [
        _piece(table, link, tag, _scale(mass_kg, step_kg))
        for tag, mass_kg in zip(tags, masses, strict=True)
    ]


def _scale(mass_kg: float | None, step_kg: float) -> tuple[Weighing, ...]:
    return () if mass_kg is None else (Weighing(mass_kg=mass_kg, scale_u_kg=step_kg),)


def _piece(table: ChainTable, link: Link, tag: str, weighings: tuple[Weighing, ...]) -> ChainPiece:
    last = weighings[-1] if weighings else None
    own = Inspection(
        day=table.inspected or "",
        pitch_growth=table.pitch_growth,
        lost_section=table.lost_section,
    )
    said = (own,) if own != Inspection() else ()
    return ChainPiece(
        tag=tag,
        size=_size(table, link),
        wire_diameter_m=link.wire_m,
        chain=_chain(table, link, tag, last),
        weighed=last is not None,
        scale_u_kg=None if last is None else last.scale_u_kg,
        grade=table.grade.strip(),
        retired=table.retired or retired_by(said),
        inspected_on=own.day,
        inspections=said,
        weighings=weighings,
    )


def weighed_again(table: ChainTable, piece: ChainPiece, later: Sequence[Weighing]) -> ChainPiece:
    """Take later weighings of a piece into account: the newest counts.

    Parameters
    ----------
    table : ChainTable
        The table it came from.
    piece : ChainPiece
        As made of that table.
    later : sequence of Weighing
        With their days.

    Raises
    ------
    BadInputError
        No chain of that size weighs so much or so little.
    """
    return _piece(table, _link(table), piece.tag, by_day([*piece.weighings, *later]))


def inspected_again(piece: ChainPiece, later: Sequence[Inspection]) -> ChainPiece:
    """Take later inspections of a piece into account; a piece that was retired stays so."""
    known = by_day([*piece.inspections, *later])
    own = retired_by(piece.inspections)
    said = piece.retired if piece.retired != own else ""
    return replace(
        piece,
        inspections=known,
        inspected_on=known[-1].day if known else "",
        retired=said or retired_by(known),
    )


def _check_sources(table: ChainTable, count: int) -> None:
    if table.weighed is not None and table.density is not None:
        raise BadInputError(
            "The mass is given twice",
            field="density",
            got="both weighed and density",
            wanted="one of them; a scale beats the seller's sheet",
        )
    if table.weighed is not None and len(table.weighed) != count:
        raise BadInputError(
            "Not one mass for each piece",
            field="weighed",
            got=f"{len(table.weighed)} for {count} pieces",
            wanted=f"a list of {count}, in the order of the tags" if count > 1 else "one mass",
        )
    if table.calipers is not None and table.ten_links is not None:
        raise BadInputError(
            "Ten links are measured twice",
            field="ten_links",
            wanted="ten_links inside calipers, or alone beside the size",
        )
    if table.calipers is None and table.size is None:
        raise BadInputError(
            "Nothing says what chain it is",
            field="size",
            wanted='size = "5/8 in", or calipers = { wire = ..., ten_links = ... }',
        )


def _link(table: ChainTable) -> Link:
    link = _by_calipers(table, table.calipers) if table.calipers else _by_size(table)
    if table.density is None:
        return link
    _refuse_slip(
        "density",
        table.density,
        link.density,
        f"{table.density:g} kg/m",
        f"{link.density:.2g} kg/m",
    )
    return Link(
        wire_m=link.wire_m,
        pitch_m=link.pitch_m,
        pitch_u_m=link.pitch_u_m,
        pitch_measured=link.pitch_measured,
        density=table.density,
        density_u=NAMED_STANDARD_U * table.density,
        known_by=f"mass per length as written, {_size(table, link)}",
    )


def _by_calipers(table: ChainTable, read: CalipersTable) -> Link:
    try:
        found = measured_chain(
            CaliperReadings(
                wire_diameter_m=read.wire, outside_m=read.ten_links, inside_width_m=read.width
            )
        )
    except BadInputError as error:
        raise BadInputError(
            error.message, field="calipers", got=error.got, wanted=error.wanted
        ) from None
    size = table.size or f"{read.wire * 1e3:g} mm"
    return Link(
        wire_m=read.wire,
        pitch_m=round(found.shape.pitch_m, _DIGITS),
        pitch_u_m=found.pitch_u_m,
        pitch_measured=True,
        density=found.density_kg_per_m,
        density_u=found.density_u_kg_per_m,
        known_by=f"calipers, {size}",
    )


def _by_size(table: ChainTable) -> Link:
    taped = table.ten_links is not None
    found = _with_tape(table, table.ten_links) if table.ten_links else _sized(table, None)
    return Link(
        wire_m=found.wire_diameter_m,
        pitch_m=round(found.pitch_m, _DIGITS),
        pitch_u_m=CRUDE_LENGTH_U_M / _MEASURED_LINKS if taped else LISTED_PITCH_U * found.pitch_m,
        pitch_measured=taped,
        density=found.density_kg_per_m,
        density_u=found.density_u_kg_per_m,
        known_by=found.known_by,
    )


def _sized(table: ChainTable, pitch_m: float | None) -> SizedChain:
    return chain_of_size(
        table.size or "", grade=table.grade, standard=table.standard or "", pitch_m=pitch_m
    )


def _with_tape(table: ChainTable, ten_links_m: float) -> SizedChain:
    """Take the wire from the size, the pitch from the tape, and the row that has both."""
    try:
        wire_m = _sized(table, ten_links_m / _TEN_LINKS_PITCHES).wire_diameter_m
        return _sized(table, pitch_from_outside_m(ten_links_m, _MEASURED_LINKS, wire_m))
    except NotInStockError:
        raise
    except BadInputError as error:
        raise BadInputError(
            error.message, field="ten_links", got=error.got, wanted=error.wanted
        ) from None


def _chain(table: ChainTable, link: Link, tag: str, scale: Weighing | None) -> Chain:
    """Make one piece's chain: by the scale when it was weighed.

    One step of the scale is taken as the standard uncertainty: rounding alone is 0.29 of it
    (JCGM 100:2008, F.2.2.1, from memory), the rest is left to the scale's own error. The pitch's
    uncertainty goes in as well, for density is mass over length. Pieces whose pitch nobody
    measured share that error, so they share their word.
    """
    density, density_u, known_by = link.density, link.density_u, link.known_by
    if scale is not None:
        mass_kg, step_kg = scale.mass_kg, scale.scale_u_kg
        length_m = table.links * link.pitch_m
        about_kg = link.density * length_m
        _refuse_slip(
            "weighed", mass_kg, about_kg, f"{mass_kg:g} kg for {tag}", f"{about_kg:.2g} kg"
        )
        density = mass_kg / length_m
        density_u = density * math.hypot(step_kg / mass_kg, link.pitch_u_m / link.pitch_m)
        where = tag if link.pitch_measured else f"pitch of {_size(table, link)} not measured"
        known_by = f"scale, {where}"
    return Chain(
        links=table.links,
        pitch_m=link.pitch_m,
        density_kg_per_m=density,
        density_u_kg_per_m=density_u,
        known_by=known_by,
    )


def _refuse_slip(key: str, value: float, about: float, got: str, wanted: str) -> None:
    if not about / SLIP <= value <= about * SLIP:
        raise BadInputError(
            "No steel chain of that size weighs so " + ("much" if value > about else "little"),
            field=key,
            got=got,
            wanted=f"about {wanted}; look at the unit (kg or lb), the links and the size",
        )


def _size(table: ChainTable, link: Link) -> str:
    """Write the size one way, so that equal chain makes one kind."""
    if table.size is None:
        return f"{link.wire_m * 1e3:g} mm"
    text = _NUMBER_AND_UNIT.sub(r"\1 \2", " ".join(table.size.split()))
    return f"{text} in" if _BARE_FRACTION.fullmatch(text) else text
