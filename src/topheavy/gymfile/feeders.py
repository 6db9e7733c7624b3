"""From a feeder table to every working length the feeder can be set to."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Final

from topheavy.errors import BadInputError
from topheavy.gym.stock import Feeder, FeederSetting
from topheavy.gymfile.tables_stock import LinksTable, RingsTable, StrapTable

if TYPE_CHECKING:
    from topheavy.gymfile.tables_stock import FeederTable
    from topheavy.units import UnitSystem

SLEEVE_DIAMETER_M: Final = 0.050
"""Outside diameter of a sleeve [m]: IPF technical rules, 50 to 52 mm (part)."""

RINGS_U_M: Final = 0.003
LINKS_U_M: Final = 0.005
MEASURED_LINKS_U_M: Final = 0.002
STRAP_U_M: Final = 0.005
"""Standard uncertainty of a working length [m], by form; common practice, no source."""

MOST_SETTINGS: Final = 2000
FINEST_MARKS_M: Final = 0.001
"""Guards against slips of the pen: most settings of one strap, and their closest step [m]."""

_LABEL_MISS: Final = 0.03
_TINY_M: Final = 1e-9
_DIGITS: Final = 9


def feeder_from(table: FeederTable, units: UnitSystem) -> Feeder:
    """Make a feeder of its table.

    Parameters
    ----------
    table : FeederTable
        One of the three forms.
    units : UnitSystem
        What a strap's marks are read in.

    Raises
    ------
    BadInputError
        Settings that contradict each other; its field is the key of the table.
    """
    if isinstance(table, RingsTable):
        settings, u_m = _rings(table), RINGS_U_M
        whole_m = table.whole or settings[-1].length_m
    elif isinstance(table, LinksTable):
        settings = _links(table)
        u_m = LINKS_U_M if table.loop_drop is None else MEASURED_LINKS_U_M
        whole_m = table.links * table.pitch
    elif isinstance(table, StrapTable):
        settings, u_m = _strap(table, units), STRAP_U_M
        whole_m = table.whole or table.longest
    else:
        raise TypeError(table)
    if whole_m < settings[-1].length_m - _TINY_M:
        raise BadInputError(
            "A feeder can't work longer than it is",
            field="whole",
            got=f"{whole_m:g} m",
            wanted=f"at least its longest working length, {settings[-1].length_m:g} m",
        )
    return Feeder(
        name=table.name,
        form=table.form,
        settings=settings,
        whole_m=whole_m,
        density_kg_per_m=_density(table, whole_m),
        rating_kg=table.rating,
        count=table.count,
        setting_u_m=table.within or u_m,
    )


def loop_drop_m(loop_m: float, sleeve_m: float = SLEEVE_DIAMETER_M) -> float:
    """Drop of a taut loop round a sleeve: bar centre to where the loop closes.

    A closed loop under tension lies on the sleeve above and runs in two tangents to the point
    where it closes. With r the sleeve's radius and D the drop, its length is
    2 sqrt(D2 - r2) + 2 r (pi - acos(r / D)), solved here for D.

    Parameters
    ----------
    loop_m : float
        Length of the loop [m], more than once round the sleeve.
    sleeve_m : float
        Outside diameter of the sleeve [m].

    Returns
    -------
    float
        Drop [m].

    Raises
    ------
    BadInputError
        The loop does not go round the sleeve.

    Examples
    --------
    Eight links of 26 mm round a 50 mm sleeve.

    >>> round(loop_drop_m(0.208), 4)
    0.0594
    """
    radius_m = sleeve_m / 2
    if loop_m <= math.pi * sleeve_m:
        raise BadInputError(
            "The loop does not go round the sleeve",
            field="loop",
            got=f"{loop_m * 1e3:.0f} mm of chain",
            wanted=f"more than {math.pi * sleeve_m * 1e3:.0f} mm, once round a "
            f"{sleeve_m * 1e3:.0f} mm sleeve",
        )
    low_m, high_m = radius_m, loop_m
    while high_m - low_m > _TINY_M:
        middle_m = (low_m + high_m) / 2
        tangents_m = 2 * math.sqrt(middle_m**2 - radius_m**2)
        round_m = 2 * radius_m * (math.pi - math.acos(radius_m / middle_m))
        if tangents_m + round_m < loop_m:
            low_m = middle_m
        else:
            high_m = middle_m
    return (low_m + high_m) / 2


def _rings(table: RingsTable) -> tuple[FeederSetting, ...]:
    labels = table.labels or [f"ring {number}" for number in range(1, len(table.rings) + 1)]
    if len(labels) != len(table.rings):
        raise BadInputError(
            "Not one label for each ring",
            field="labels",
            got=f"{len(labels)} labels, {len(table.rings)} rings",
            wanted="as many labels as rings",
        )
    _refuse_twice(labels, "labels")
    _refuse_twice([f"{ring_m:g} m" for ring_m in table.rings], "rings")
    settings = [
        FeederSetting(label=label, length_m=length_m)
        for label, length_m in zip(labels, table.rings, strict=True)
    ]
    return tuple(sorted(settings, key=lambda setting: setting.length_m))


def _refuse_twice(words: list[str], field: str) -> None:
    twice = sorted({word for word in words if words.count(word) > 1})
    if twice:
        raise BadInputError(
            f"Two {field} alike", field=field, got=", ".join(twice), wanted="each one once"
        )


def _links(table: LinksTable) -> tuple[FeederSetting, ...]:
    if table.loop >= table.links:
        raise BadInputError(
            "The loop leaves no link to hang from",
            field="loop",
            got=f"{table.loop} of {table.links} links",
            wanted=f"fewer than {table.links}",
        )
    drop_m = _loop_drop_m(table)
    return tuple(
        FeederSetting(
            label=f"link {number}", length_m=round(drop_m + number * table.pitch, _DIGITS)
        )
        for number in range(1, table.links - table.loop + 1)
    )


def _loop_drop_m(table: LinksTable) -> float:
    loop_m = table.loop * table.pitch
    if table.loop_drop is None:
        return loop_drop_m(loop_m)
    if table.loop_drop > loop_m / 2:
        raise BadInputError(
            "A loop can't drop by more than half its length",
            field="loop_drop",
            got=f"{table.loop_drop * 1e3:g} mm",
            wanted=f"at most {loop_m / 2 * 1e3:g} mm, bar centre to where the loop closes",
        )
    return table.loop_drop


def _strap(table: StrapTable, units: UnitSystem) -> tuple[FeederSetting, ...]:
    if table.shortest > table.longest:
        raise BadInputError(
            "The strap's shortest length is above its longest",
            field="shortest",
            got=f"shortest {table.shortest:g} m, longest {table.longest:g} m",
            wanted="shortest <= longest",
        )
    steps = math.floor((table.longest - table.shortest) / table.marks + 1e-6)
    if table.marks < FINEST_MARKS_M or steps >= MOST_SETTINGS:
        raise BadInputError(
            "The strap's marks are too close",
            field="marks",
            got=f"{steps + 1} settings, one every {table.marks * 1e3:g} mm",
            wanted=f"at least {FINEST_MARKS_M * 1e3:g} mm, at most {MOST_SETTINGS} settings",
        )
    lengths_m = [round(table.shortest + step * table.marks, _DIGITS) for step in range(steps + 1)]
    decimals = _decimals(lengths_m, table.marks, units)
    return tuple(
        FeederSetting(label=units.length(length_m, decimals), length_m=length_m)
        for length_m in lengths_m
    )


def _decimals(lengths_m: list[float], step_m: float, units: UnitSystem) -> int:
    """Find how few decimals write all marks within a small part of a step."""
    for decimals in (1, 2):
        shown = [length_m / units.m_per_length for length_m in lengths_m]
        miss = max(abs(value - round(value, decimals)) for value in shown)
        if miss * units.m_per_length <= _LABEL_MISS * step_m:
            return decimals
    return 3


def _density(table: FeederTable, whole_m: float) -> float:
    if (table.mass is None) == (table.density is None):
        raise BadInputError(
            "A feeder weighs something, and is weighed once",
            field="mass",
            got="neither mass nor density" if table.mass is None else "both mass and density",
            wanted='either mass = "0.4 kg" (one whole feeder) or density = "0.3 kg/m"',
        )
    return table.density if table.density is not None else (table.mass or 0.0) / whole_m
