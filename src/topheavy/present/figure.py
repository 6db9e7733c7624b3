"""Numbers as people see them: the SI value and the words for it, kept together."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from topheavy.constants import STANDARD_GRAVITY_M_PER_S2
from topheavy.errors import BadInputError
from topheavy.units import KG_PER_LB, M_PER_IN, parse_quantity

if TYPE_CHECKING:
    from topheavy.units import UnitSystem

_SAME_M: Final = 1e-4


@dataclass(frozen=True, slots=True)
class Figure:
    """One number.

    Parameters
    ----------
    value : float
        In SI: kg, m, N, or a fraction of one.
    unit : str
        Its SI unit; empty for a fraction.
    text : str
        As shown, in the units the user chose.
    u : float or None
        Standard uncertainty, in the unit of `value`.
    """

    value: float
    unit: str
    text: str
    u: float | None = None

    def __str__(self) -> str:
        return self.text


def mass(units: UnitSystem, mass_kg: float, u_kg: float | None = None) -> Figure:
    """Show a mass [kg], with its standard uncertainty [kg] when given.

    >>> from topheavy.units import METRIC
    >>> mass(METRIC, 115.37, 1.52).text
    '115.4 ± 1.5 kg'
    """
    if u_kg is None:
        return Figure(mass_kg, "kg", units.mass(mass_kg))
    spread = units.mass(u_kg)
    number = units.mass(mass_kg).removesuffix(f" {units.mass_unit}")
    return Figure(mass_kg, "kg", f"{number} ± {spread}", u_kg)


def length(units: UnitSystem, length_m: float, u_m: float | None = None) -> Figure:
    """Show a length [m], with its standard uncertainty [m] when given."""
    if u_m is None:
        return Figure(length_m, "m", units.length(length_m))
    number = units.length(length_m).removesuffix(f" {units.length_unit}")
    return Figure(length_m, "m", f"{number} ± {units.length(u_m)}", u_m)


def fine_length(units: UnitSystem, length_m: float, u_m: float | None = None) -> Figure:
    """Show the size of a link [m] in mm or in, with its standard uncertainty [m] when given.

    >>> from topheavy.units import METRIC, POUNDS
    >>> fine_length(METRIC, 0.0158).text, fine_length(POUNDS, 0.0158).text
    ('15.8 mm', '0.622 in')
    """
    factor, unit, decimals = (1e3, "mm", 1) if units.name == "kg" else (1 / M_PER_IN, "in", 3)
    number = f"{length_m * factor:.{decimals}f}"
    spread = "" if u_m is None else f" ± {u_m * factor:.{decimals}f}"
    return Figure(length_m, "m", f"{number}{spread} {unit}", u_m)


def fine_mass(units: UnitSystem, mass_kg: float, u_kg: float | None = None) -> Figure:
    """Show the mass of a link [kg] to a gram or so, with its standard uncertainty [kg].

    >>> from topheavy.units import METRIC
    >>> fine_mass(METRIC, 0.297, 0.015).text
    '0.297 ± 0.015 kg'
    """
    number = units.mass(mass_kg, 3)
    if u_kg is not None:
        number = f"{number.removesuffix(units.mass_unit)}± {units.mass(u_kg, 3)}"
    return Figure(mass_kg, "kg", number, u_kg)


def sure_mass(units: UnitSystem, mass_kg: float, u_kg: float) -> Figure:
    """Show a mass [kg] with as many decimals as its standard uncertainty [kg] lets stand.

    The uncertainty keeps one figure that counts, or two between 1 and 2.

    >>> from topheavy.units import METRIC, POUNDS
    >>> sure_mass(METRIC, 9.515, 0.02).text, sure_mass(POUNDS, 5.936, 0.594).text
    ('9.52 ± 0.02 kg', '13.1 ± 1.3 lb')
    """
    decimals = 3
    if u_kg > 0:
        shown = f"{u_kg / units.kg_per_mass:.1e}"
        number, _, power = shown.partition("e")
        two = "1.0" < number < "2.0"
        decimals = min(max(two - int(power), 0), 3)
    number = units.mass(mass_kg, decimals).removesuffix(units.mass_unit)
    return Figure(mass_kg, "kg", f"{number}± {units.mass(u_kg, decimals)}", u_kg)


def says_length(label: str, shown: Figure) -> bool:
    """Whether a label is the very length that is shown beside it, be it rounded otherwise.

    >>> says_length("28.75 in", Figure(0.73025, "m", "28.8 in"))
    True
    >>> says_length("66.5 cm", Figure(0.665, "m", "26.2 in"))
    False
    """
    unit = shown.text.rpartition(" ")[2]
    if not label.endswith(unit):
        return False
    try:
        return abs(parse_quantity(label, "length", field="label") - shown.value) < _SAME_M
    except BadInputError:
        return False


def density(units: UnitSystem, density_kg_per_m: float, u_kg_per_m: float | None = None) -> Figure:
    """Show a mass per length [kg/m], with its standard uncertainty [kg/m] when given.

    >>> from topheavy.units import METRIC
    >>> density(METRIC, 5.3, 0.265).text
    '5.30 ± 0.27 kg/m'
    """
    number = units.density(density_kg_per_m)
    if u_kg_per_m is not None:
        number = f"{number.removesuffix(units.density_unit)}± {units.density(u_kg_per_m)}"
    return Figure(density_kg_per_m, "kg/m", number, u_kg_per_m)


def share(fraction: float, u: float | None = None) -> Figure:
    """Show a fraction [-] in percent.

    >>> share(0.2603, 0.012).text
    '26.0 ± 1.2 %'
    """
    number = f"{100 * fraction:.1f}"
    number = number.removeprefix("-") if float(number) == 0 else number
    if u is None:
        return Figure(fraction, "", f"{number} %")
    return Figure(fraction, "", f"{number} ± {100 * u:.1f} %", u)


def force(units: UnitSystem, force_n: float) -> Figure:
    """Show a force [N], with the mass that weighs as much.

    >>> from topheavy.units import METRIC
    >>> force(METRIC, 93.2).text
    '93 N, the weight of 9.5 kg'
    """
    like = units.mass(force_n / STANDARD_GRAVITY_M_PER_S2)
    return Figure(force_n, "N", f"{force_n:.0f} N, the weight of {like}")


def plate_mark(mass_kg: float) -> str:
    """What stands on a plate of this mass [kg]: kilograms, or pounds where those are round.

    >>> plate_mark(20.0), plate_mark(20.41165665)
    ('20 kg', '45 lb')
    """
    pounds = mass_kg / KG_PER_LB
    round_kg = abs(mass_kg * 20 - round(mass_kg * 20)) < 1e-6
    round_lb = abs(pounds * 20 - round(pounds * 20)) < 1e-6
    return f"{pounds:g} lb" if round_lb and not round_kg else f"{mass_kg:g} kg"
