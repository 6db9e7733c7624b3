"""From a size name such as 5/8 in to wire, pitch and mass per length."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from typing import Final

from topheavy.catalogue.table import ChainRow, all_rows, find_rows, size_names
from topheavy.catalogue.widths import usual_width
from topheavy.errors import BadInputError, NotInStockError
from topheavy.mechanics.chain import require_positive
from topheavy.mechanics.link import LinkShape, link_density_kg_per_m
from topheavy.units import M_PER_IN, parse_quantity

SIZE_NAME_U: Final = 0.10
"""Relative standard uncertainty of a mass known from a size name only [-]: link form alone moves
it by 30 % from end to end at one wire size."""

NAMED_STANDARD_U: Final = 0.05
"""The same when the standard is named and prints a mass [-]: DIN 764 lets 16 mm wire miss by
0.6 mm, 2.2 % as a standard deviation, and the wire counts 2.3 times."""

_TWIN: Final = 0.02
_SAME_SIZE_M: Final = 1e-6
_SAME_PITCH: Final = 0.04
MM_OF_INCHES: Final[dict[int | None, float]] = {
    4: 7,
    5: 8,
    6: 10,
    7: 11,
    8: 13,
    10: 16,
    12: 20,
    14: 22,
    16: 26,
}
"""Wire in mm that passes for so many sixteenths of an inch: 49 CFR 393.108, table of chain, up to
5/8 in (read); above, the Grade 30 rows of ASTM A413."""

_PREFERRED: Final = ("DIN 764", "DIN 766", "EN 818-2", "EN 818-3", "DIN 763", "DIN 5685-C")
_BY_WIRE_AND_PITCH: Final = re.compile(r"\s*(\d+(?:\.\d+)?)\s*[x*]\s*(\d+(?:\.\d+)?)\s*(?:mm)?\s*")
_BARE_FRACTION: Final = re.compile(r"\s*(?:\d+\s+)?\d+/\d+\s*")


@dataclass(frozen=True, slots=True)
class RowDensity:
    """Mass per length that a published row stands for.

    Parameters
    ----------
    density_kg_per_m, density_u_kg_per_m : float
        Value and standard uncertainty [kg/m].
    known_by : str
        Printed mass, a twin's printed mass, or geometry.
    """

    density_kg_per_m: float
    density_u_kg_per_m: float
    known_by: str


@dataclass(frozen=True, slots=True, kw_only=True)
class SizedChain:
    """What a size name stands for.

    Parameters
    ----------
    row : ChainRow
        The published row taken.
    wire_diameter_m, pitch_m : float
        Sizes [m].
    density_kg_per_m, density_u_kg_per_m : float
        Mass per length and its standard uncertainty [kg/m].
    known_by : str
        What the density was taken from; chains with the same words err together.
    """

    row: ChainRow
    wire_diameter_m: float
    pitch_m: float
    density_kg_per_m: float
    density_u_kg_per_m: float
    known_by: str


def chain_of_size(
    size: str, *, grade: str = "", standard: str = "", pitch_m: float | None = None
) -> SizedChain:
    """Say what chain a size name stands for.

    Without standard and grade, an inch size is taken as unmarked, so Grade 30 (49 CFR 393.108);
    a millimetre size as DIN 764, else DIN 766, EN 818-2, EN 818-3, DIN 763, DIN 5685-C: the
    first that has it. A row without a printed mass takes that of its twin, the printed row with
    the same wire and pitch within 2 % (5/8 in Grade 30, 16 x 56 mm: DIN 764, 5.3 kg/m), else it
    is computed from the link's geometry.

    Parameters
    ----------
    size : str
        ``"5/8 in"``, ``"5/8"`` (a bare fraction is inches), ``"16 mm"`` or ``"16 x 56 mm"``.
    grade : str
        Grade or mark on the link; empty when unmarked.
    standard : str
        Part of a standard's name; empty when unknown.
    pitch_m : float, optional
        Measured pitch [m]; picks among link forms, and stands in where none is printed.

    Returns
    -------
    SizedChain
        Uncertainty 10 % from a size name, 5 % when the standard is named and prints the mass.

    Raises
    ------
    NotInStockError
        Unknown standard, grade or size; lists those known.
    BadInputError
        No size at all, or a row whose pitch nobody printed and none was given.

    Examples
    --------
    >>> chain = chain_of_size("5/8 in")
    >>> chain.wire_diameter_m, chain.pitch_m, chain.density_kg_per_m
    (0.016, 0.056, 5.3)
    >>> chain.known_by
    'size name 5/8 in as ASTM A413 Grade 30; mass printed for DIN 764, 16 mm'
    """
    if pitch_m is not None:
        require_positive("pitch_m", pitch_m)
    rows = rows_of_size(find_rows(standard=standard, grade=grade), size)
    row = _best(rows, size, pitch_m)
    pitch = row.pitch_m if pitch_m is None else pitch_m
    if pitch is None:
        raise BadInputError(
            f"No table here prints the pitch of {row.name}",
            field="pitch",
            wanted="its pitch, measured over ten links, or wire and pitch by calipers",
        )
    found = _density(row, pitch, named=bool(standard))
    name = " ".join(size.split())
    known_by = found.known_by
    if not standard:
        form = row.name.partition(",")[0]
        known_by = f"size name {name} as {form}; {known_by}"
    return SizedChain(
        row=row,
        wire_diameter_m=row.wire_diameter_m,
        pitch_m=pitch,
        density_kg_per_m=found.density_kg_per_m,
        density_u_kg_per_m=found.density_u_kg_per_m,
        known_by=known_by,
    )


def density_of_row(row: ChainRow) -> RowDensity | None:
    """Mass per length of a published row [kg/m], or None when its pitch is not printed.

    Examples
    --------
    >>> density_of_row(find_rows(standard="DIN 764", trade_size_m=0.016)[0])
    RowDensity(density_kg_per_m=5.3, density_u_kg_per_m=0.265, known_by='mass
    printed for DIN 764, 16 mm')
    """
    return None if row.pitch_m is None else _density(row, row.pitch_m, named=True)


def twin_of(row: ChainRow) -> ChainRow | None:
    """Find the row that prints a mass and has the same wire and pitch within 2 %, nearest first."""
    if row.pitch_m is None:
        return None
    pitch_m = row.pitch_m

    def miss(other: ChainRow) -> float:
        wire = abs(other.wire_diameter_m / row.wire_diameter_m - 1)
        return max(wire, abs((other.pitch_m or math.inf) / pitch_m - 1))

    twin = min((other for other in all_rows() if other.mass_kg_per_m is not None), key=miss)
    return twin if miss(twin) <= _TWIN else None


def read_size(size: str) -> tuple[float, float | None]:
    """Read a size name as a length [m], and the pitch [m] when it is named too.

    Raises
    ------
    BadInputError
        No length in it.

    Examples
    --------
    >>> read_size("5/8"), read_size("16 x 56 mm")
    ((0.015875, None), (0.016, 0.056))
    """
    both = _BY_WIRE_AND_PITCH.fullmatch(size)
    if both:
        return round(float(both[1]) / 1e3, 9), round(float(both[2]) / 1e3, 9)
    text = f"{size} in" if _BARE_FRACTION.fullmatch(size) else size
    try:
        return parse_quantity(text, "length", field="size"), None
    except BadInputError as error:
        raise BadInputError(
            "Not a chain size",
            field="size",
            got=error.got,
            wanted='wire or trade size with its unit, such as "5/8 in", "16 mm" or "16 x 56 mm"',
        ) from error


def rows_of_size(rows: tuple[ChainRow, ...], size: str) -> tuple[ChainRow, ...]:
    """Keep the rows of a size name: of that trade size, else with that wire.

    Parameters
    ----------
    rows : tuple of ChainRow
        Where to look.
    size : str
        As in `chain_of_size`; a pitch in it must fit within 4 %.

    Raises
    ------
    NotInStockError
        None of the rows has it; lists the sizes they have.
    BadInputError
        No size in the text.

    Examples
    --------
    >>> rows_of_size(find_rows(standard="DIN 764"), "5/8 in")[0].name
    'DIN 764, 16 mm'
    """
    size_m, pitch_m = read_size(size)
    kept = [row for row in rows if abs(row.trade_size_m - size_m) < _SAME_SIZE_M]
    if not kept:
        wire_m = MM_OF_INCHES.get(_sixteenths(size_m), size_m * 1e3) / 1e3
        kept = [row for row in rows if abs(row.wire_diameter_m - wire_m) < _SAME_SIZE_M]
    if pitch_m is not None:
        kept = [row for row in kept if _same_pitch(row, pitch_m)]
    if not kept:
        raise NotInStockError(
            "No chain of that size in the tables",
            field="size",
            got=repr(size),
            wanted=f"one of {', '.join(size_names(rows))}; or give wire and pitch by calipers",
        )
    return tuple(kept)


def _same_pitch(row: ChainRow, pitch_m: float) -> bool:
    return row.pitch_m is not None and abs(row.pitch_m / pitch_m - 1) <= _SAME_PITCH


def _best(rows: tuple[ChainRow, ...], size: str, pitch_m: float | None) -> ChainRow:
    """Choose among rows of one size: by pitch when known, else by how usual they are."""
    if pitch_m is not None:
        rows = tuple(row for row in rows if _same_pitch(row, pitch_m)) or rows
    elif any(row.pitch_m is not None for row in rows):
        rows = tuple(row for row in rows if row.pitch_m is not None)

    def rank(row: ChainRow) -> tuple[int, bool]:
        order = ("ASTM A413", *_PREFERRED) if _in_inches(size) else (*_PREFERRED, "ASTM A413")
        return order.index(row.short_standard), "30" not in row.grades

    return min(rows, key=rank)


def _sixteenths(size_m: float) -> int | None:
    count = size_m / M_PER_IN * 16
    return round(count) if abs(count - round(count)) < 1e-6 else None


def _in_inches(size: str) -> bool:
    return bool(_BARE_FRACTION.fullmatch(size) or re.search(r"in|\"|ft|'", size.casefold()))


def _density(row: ChainRow, pitch_m: float, *, named: bool) -> RowDensity:
    """Printed mass, else the twin's, else geometry; the printed ones only at their own pitch."""
    own_pitch = _same_pitch(row, pitch_m)
    twin = twin_of(row)
    if own_pitch and row.mass_kg_per_m is not None:
        value, share = row.mass_kg_per_m, NAMED_STANDARD_U if named else SIZE_NAME_U
        return RowDensity(value, value * share, f"mass printed for {row.name}")
    if own_pitch and twin is not None and twin.mass_kg_per_m is not None:
        value = twin.mass_kg_per_m
        return RowDensity(value, value * SIZE_NAME_U, f"mass printed for {twin.name}")
    value = link_density_kg_per_m(_shape(row, pitch_m))
    how = f"link geometry of {row.name}" + ("" if own_pitch else " at the pitch given")
    return RowDensity(value, value * SIZE_NAME_U, how)


def _shape(row: ChainRow, pitch_m: float) -> LinkShape:
    width_m = row.inside_width_m
    if width_m is None:
        width_m = usual_width(pitch_m, row.wire_diameter_m).ratio * row.wire_diameter_m
    return LinkShape(wire_diameter_m=row.wire_diameter_m, pitch_m=pitch_m, inside_width_m=width_m)
