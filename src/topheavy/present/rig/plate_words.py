"""Plates in few words: a stack, and what to change from one set to the next."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from topheavy.present.figure import plate_mark

if TYPE_CHECKING:
    from collections.abc import Iterable

    from topheavy.gym.stock import Plate


NO_PLATES: Final = "no plates"


def plate_unit(plates: Iterable[Plate]) -> str:
    """The one unit that all plates are marked in, or nothing when there are two or none.

    >>> from topheavy.gym.stock import Plate
    >>> plate_unit([Plate(mass_kg=20.0, width_m=0.03, diameter_m=0.45, count=2)])
    'kg'
    """
    units = {plate_mark(plate.mass_kg).split(" ")[1] for plate in plates}
    return units.pop() if len(units) == 1 else ""


def stack_text(stack: Iterable[Plate], unit: str = "") -> str:
    """Plates of one end, innermost first; marks in `unit` stand without it.

    >>> from topheavy.gym.stock import Plate
    >>> def plate(mass_kg):
    ...     return Plate(mass_kg=mass_kg, width_m=0.03, diameter_m=0.45, count=2)
    >>> stack_text([plate(20), plate(2.5)], "kg"), stack_text([plate(20), plate(2.5)])
    ('20 + 2.5', '20 kg + 2.5 kg')
    """
    return " + ".join(_mark(plate, unit) for plate in stack) or NO_PLATES


def change_text(off: Iterable[Plate], on: Iterable[Plate], unit: str = "") -> str:
    """What to do to each end, in the order of doing it.

    >>> from topheavy.gym.stock import Plate
    >>> def plate(mass_kg):
    ...     return Plate(mass_kg=mass_kg, width_m=0.03, diameter_m=0.45, count=2)
    >>> change_text([plate(2.5), plate(10)], [plate(20)], "kg")
    'off 2.5, 10; on 20'
    """
    said = [
        f"{word} {', '.join(_mark(plate, unit) for plate in plates)}"
        for word, plates in (("off", tuple(off)), ("on", tuple(on)))
        if plates
    ]
    return "; ".join(said)


def _mark(plate: Plate, unit: str) -> str:
    return plate_mark(plate.mass_kg).removesuffix(f" {unit}" if unit else "")
