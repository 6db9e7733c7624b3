"""Working load limit of a chain by its grade, and what its grade may not be used for."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from topheavy.catalogue.table import all_rows, plain_grade
from topheavy.mechanics.chain import require_positive

NOT_OVERHEAD: Final = frozenset({"30", "43", "70"})
"""Grades of ASTM A413/A413M: for general purposes other than overhead lifting (scope 1.1, read)."""

_TABLE_OF_GRADE: Final = {
    "30": "ASTM A413",
    "43": "ASTM A413",
    "70": "ASTM A413",
    "80": "EN 818-2",
    "4": "EN 818-3",
}
_STRONGER_THAN_30: Final = frozenset({"40", "50", "100", "120"})
_WIRE_SLACK: Final = 1.03


@dataclass(frozen=True, slots=True)
class Rating:
    """What a chain is rated for.

    Parameters
    ----------
    wll_kg : float or None
        Working load limit of the chain alone [kg]; None when no table covers it.
    counted_as : str
        The grade it was counted as; empty when none.
    reason : str
        Why, as a sentence without a final stop.
    """

    wll_kg: float | None
    counted_as: str
    reason: str


def chain_rating(wire_diameter_m: float, grade: str = "") -> Rating:
    """Rate a chain by wire and grade; an unmarked chain counts as Grade 30.

    The limit is that of the thickest tabled chain no thicker than this one (3 % allowed for
    nominal sizes), so odd sizes are rated low. A whole assembly is rated as its weakest part.

    Parameters
    ----------
    wire_diameter_m : float
        Wire diameter [m], > 0.
    grade : str
        Grade or mark on the link; empty when unmarked.

    Returns
    -------
    Rating
        Limit in kg, the grade counted, and why.

    References
    ----------
    49 CFR 393.108 (d) and its table of chain (read); other sizes as the catalogue says.

    Examples
    --------
    >>> chain_rating(0.016).wll_kg, chain_rating(0.016, "80").wll_kg
    (3130.0, 8210.0)
    >>> chain_rating(0.004).wll_kg is None
    True
    """
    require_positive("wire_diameter_m", wire_diameter_m)
    marked = plain_grade(grade)
    counted, reason = _counted_as(marked)
    if not counted:
        return Rating(None, "", reason)
    limits = [
        (row.wire_diameter_m, row.wll_kg)
        for row in all_rows()
        if row.short_standard == _TABLE_OF_GRADE[counted]
        and counted in row.grades
        and row.wll_kg is not None
        and row.wire_diameter_m <= wire_diameter_m * _WIRE_SLACK
    ]
    if not limits:
        return Rating(None, counted, f"thinner than any rated Grade {counted} chain")
    return Rating(max(limits)[1], counted, reason)


def _counted_as(grade: str) -> tuple[str, str]:
    if not grade:
        return "30", "unmarked chain counts as Grade 30 (49 CFR 393.108)"
    if grade in _TABLE_OF_GRADE:
        return grade, f"Grade {grade} as marked"
    if grade in _STRONGER_THAN_30:
        return "30", f"no table here for Grade {grade}, which is stronger: counted as Grade 30"
    return "", f"no table here for grade {grade!r}: go by what is marked on it"


def overhead_caution(grade: str) -> str:
    """Say that a grade is not for overhead lifting; empty for lifting grades.

    Examples
    --------
    >>> overhead_caution("")
    'Grade 30 (unmarked) chain is not for overhead lifting (ASTM A413): never hang a load or a
    person from it'
    >>> overhead_caution("80")
    ''
    """
    marked = plain_grade(grade)
    counted = marked or "30"
    if counted not in NOT_OVERHEAD:
        return ""
    name = f"Grade {counted}" + ("" if marked else " (unmarked)")
    return (
        f"{name} chain is not for overhead lifting (ASTM A413): "
        "never hang a load or a person from it"
    )
