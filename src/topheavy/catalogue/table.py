"""The published chain tables: one frozen row for each size, with where it was seen."""

from __future__ import annotations

import csv
import re
from dataclasses import dataclass
from functools import cache
from importlib import resources
from typing import Final

from topheavy.errors import BadInputError, NotInStockError
from topheavy.mechanics.chain import require_positive
from topheavy.units import M_PER_IN

_MM: Final = 1e-3
_SAME_SIZE_M: Final = 1e-6
_SAME_WIRE: Final = 0.04
"""Trade sizes are nominal: 5/8 in chain has 16 mm wire, 3/8 in Grade 70 has 10.33 mm."""

GRADE_MARKS: Final = {
    "3": "30",
    "300": "30",
    "430": "43",
    "7": "70",
    "700": "70",
    "8": "80",
    "800": "80",
    "10": "100",
    "1000": "100",
}
"""Marks stamped on links and the grade they mean: 49 CFR 393.108, table of chain (read). The mark
4 is left alone: there it means Grade 43, in EN 818-3 it means Grade 4 (400 N/mm2)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ChainRow:
    """One size of one standard.

    Parameters
    ----------
    standard, grade, trade_size : str
        As printed.
    wire_diameter_m : float
        Nominal wire diameter [m].
    pitch_m, inside_width_m : float or None
        Nominal inside length and width of a link [m]; None where not printed.
    mass_kg_per_m : float or None
        Printed mass per length [kg/m].
    wll_kg : float or None
        Printed working load limit [kg].
    how_seen : str
        How far the source was read.
    """

    standard: str
    grade: str
    trade_size: str
    wire_diameter_m: float
    pitch_m: float | None
    inside_width_m: float | None
    mass_kg_per_m: float | None
    wll_kg: float | None
    how_seen: str

    @property
    def short_standard(self) -> str:
        """The standard's number only, such as ``"ASTM A413"`` or ``"EN 818-2"``."""
        return re.split(r"[/,:]", self.standard)[0].strip()

    @property
    def name(self) -> str:
        """Standard and size in one breath, such as ``"DIN 764, 16 mm"``."""
        size = self.trade_size if self.metric else f"{self.trade_size} in"
        grade = f" Grade {self.grade}" if self.short_standard == "ASTM A413" else ""
        return f"{self.short_standard}{grade}, {size}"

    @property
    def metric(self) -> bool:
        """Whether the trade size is in millimetres."""
        return "mm" in self.trade_size

    @property
    def trade_size_m(self) -> float:
        """The trade size as a length [m]: 5/8 in is 0.015875 m although its wire is 16 mm."""
        if self.metric:
            return float(self.trade_size.split()[0]) * _MM
        over, _, under = self.trade_size.partition("/")
        return float(over) / float(under or 1) * M_PER_IN

    @property
    def grades(self) -> frozenset[str]:
        """Every grade the row stands for: DIN 764's ``"30/50"`` is two."""
        return frozenset(self.grade.split("/"))


@cache
def all_rows() -> tuple[ChainRow, ...]:
    """Read the whole table, in the order printed.

    Examples
    --------
    >>> [row.name for row in all_rows() if row.mass_kg_per_m == 5.3]
    ['DIN 764, 16 mm']
    """
    text = resources.files(__package__).joinpath("standards.csv").read_text(encoding="utf-8")
    return tuple(_row(record) for record in csv.DictReader(text.splitlines()))


def _row(record: dict[str, str]) -> ChainRow:
    wire_m = _number(record, "wire_diameter_mm", _MM)
    if wire_m is None:
        raise BadInputError("A row of the chain table has no wire diameter", got=record)
    return ChainRow(
        standard=record["standard"],
        grade=record["grade"],
        trade_size=record["trade_size"],
        wire_diameter_m=wire_m,
        pitch_m=_number(record, "pitch_mm", _MM),
        inside_width_m=_number(record, "inside_width_mm", _MM),
        mass_kg_per_m=_number(record, "mass_kg_per_m", 1.0),
        wll_kg=_number(record, "wll_kg", 1.0),
        how_seen=record["how_seen"],
    )


def _number(record: dict[str, str], column: str, factor: float) -> float | None:
    text = record[column]
    return round(float(text) * factor, 9) if text else None


def find_rows(
    *,
    standard: str = "",
    grade: str = "",
    trade_size_m: float | None = None,
    wire_diameter_m: float | None = None,
) -> tuple[ChainRow, ...]:
    """Find the rows that fit everything given.

    Parameters
    ----------
    standard : str
        Part of a standard's name, in any case and spacing: ``"DIN 764"``, ``"a413"``.
    grade : str
        Grade or the mark on the link: ``"30"``, ``"G43"``, ``"8"``.
    trade_size_m : float, optional
        Trade size as a length [m]: 5/8 in is 0.015875.
    wire_diameter_m : float, optional
        Measured or nominal wire [m]; within 4 % counts.

    Returns
    -------
    tuple of ChainRow
        At least one row, in the table's order.

    Raises
    ------
    NotInStockError
        No row fits; the error lists what the table holds of the first thing that did not.

    Examples
    --------
    >>> [row.mass_kg_per_m for row in find_rows(standard="din764", wire_diameter_m=0.0158)]
    [5.3]
    """
    rows = all_rows()
    if standard:
        rows = _keep(
            "standard",
            standard,
            [(row, _plain(standard) in _plain(row.standard)) for row in rows],
            [row.short_standard for row in rows],
        )
    if grade:
        wanted = plain_grade(grade)
        known = [grade for row in rows for grade in sorted(row.grades)]
        rows = _keep("grade", grade, [(row, wanted in row.grades) for row in rows], known)
    if trade_size_m is not None:
        size = trade_size_m
        fits = [(row, abs(row.trade_size_m - size) < _SAME_SIZE_M) for row in rows]
        rows = _keep("size", f"{size * 1e3:g} mm", fits, size_names(rows))
    if wire_diameter_m is not None:
        require_positive("wire_diameter_m", wire_diameter_m)
        wire = wire_diameter_m
        fits = [(row, abs(row.wire_diameter_m / wire - 1) <= _SAME_WIRE) for row in rows]
        rows = _keep("wire diameter", f"{wire * 1e3:g} mm", fits, size_names(rows))
    return rows


def plain_grade(grade: str) -> str:
    """Read a grade as people write or stamp it.

    Examples
    --------
    >>> plain_grade("G80"), plain_grade("Grade 30"), plain_grade("7"), plain_grade("stainless")
    ('80', '30', '70', 'stainless')
    """
    bare = grade.casefold().strip().removeprefix("grade").strip()
    if re.fullmatch(r"g\s*\d+", bare):
        bare = bare.removeprefix("g").strip()
    return GRADE_MARKS.get(bare, bare)


def size_names(rows: tuple[ChainRow, ...]) -> list[str]:
    """Trade sizes of some rows, once each, thinnest first: inches, then millimetres."""
    ordered = sorted(rows, key=lambda row: (row.metric, row.trade_size_m))
    names = [row.trade_size if row.metric else f"{row.trade_size} in" for row in ordered]
    return list(dict.fromkeys(names))


def _keep(
    what: str, got: str, fits: list[tuple[ChainRow, bool]], known: list[str]
) -> tuple[ChainRow, ...]:
    kept = tuple(row for row, fit in fits if fit)
    if not kept:
        raise NotInStockError(
            f"The tables hold no chain of that {what}",
            field=what,
            got=repr(got),
            wanted="one of " + ", ".join(dict.fromkeys(known)),
        )
    return kept


def _plain(text: str) -> str:
    return re.sub(r"[^a-z0-9]", "", text.casefold())
