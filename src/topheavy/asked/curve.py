"""A question for the load curve of a rig that somebody describes."""

from __future__ import annotations

from typing import TYPE_CHECKING

from topheavy.asked.quantities import length_m, load_kg
from topheavy.errors import BadInputError
from topheavy.gym.people import Travel
from topheavy.services.curve import CurveQuestion

if TYPE_CHECKING:
    from collections.abc import Sequence

    from topheavy.asked.described import Told


def curve_question(
    told: Told,
    *,
    bottom: str | None = None,
    top: str | None = None,
    at: Sequence[str] = (),
    reach: Sequence[str] = (),
) -> CurveQuestion:
    """Make the question that was asked.

    Parameters
    ----------
    told : Told
        The rig.
    bottom, top : str or None
        Heights where the lift turns round and locks out; else the lifter's.
    at : sequence of str
        More heights to read.
    reach : sequence of str
        Loads whose heights are asked for.

    Raises
    ------
    BadInputError
        Words not understood, or one end of the lift alone.
    """
    heights = [length_m(text, "--at") for text in at]
    return CurveQuestion(
        described=told.described,
        ground=told.ground,
        travel=_travel(told, bottom, top),
        lift=told.lift,
        heights_m=tuple(height for height in heights if height is not None),
        loads_kg=tuple(load_kg(text, "--reach", told.best_kg) or 0.0 for text in reach),
        best_kg=told.best_kg,
        design_factor=told.design_factor,
        today=told.today,
    )


def _travel(told: Told, bottom: str | None, top: str | None) -> Travel | None:
    """Heights as typed, else the lifter's; one of both may be typed over [m]."""
    measured = told.travel
    bottom_m, top_m = length_m(bottom, "--bottom"), length_m(top, "--top")
    if bottom_m is None and top_m is None:
        return measured
    if measured is not None:
        bottom_m = measured.bottom_m if bottom_m is None else bottom_m
        top_m = measured.top_m if top_m is None else top_m
    if bottom_m is None or top_m is None:
        raise BadInputError(
            "A lift has a bottom and a top",
            field="--bottom and --top",
            got=f"only --{'top' if bottom_m is None else 'bottom'}",
            wanted="both heights, such as --bottom 66cm --top 107cm, or --lifter",
        )
    return Travel(bottom_m=bottom_m, top_m=top_m)
