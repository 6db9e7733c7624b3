"""A rig matched to the lifter's strength, in place of loads."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Final

from topheavy.errors import BadInputError
from topheavy.services.match import EFFORT, Matching
from topheavy.services.strength import strength_of
from topheavy.units import parse_quantity

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from topheavy.lifter.evidence import Evidence
    from topheavy.services.rig import Place

_STRENGTH: Final = {
    "effort": "--effort",
    "sets": "--set",
    "partial": "--partial",
    "miss": "--miss",
    "isometric": "--isometric",
    "speeds": "--speed",
}


def matching_of(
    place: Place, evidence: Sequence[Evidence], effort: str | None, aims: Mapping[str, Any]
) -> Matching:
    """Take the lifter's strength and the effort that was typed.

    Raises
    ------
    BadInputError
        Loads were typed too, or an effort out of range.
    NotInStockError
        Nothing is known of how strong the lifter is.
    """
    given = [option for option, value in aims.items() if value]
    if given:
        raise BadInputError(
            "A rig is matched to the lifter or to loads, not to both",
            field=f"--match and {given[0]}",
            got=", ".join(["--match", *given]),
            wanted="one of the two; --straight may stand beside --match",
        )
    share = EFFORT if effort is None else parse_quantity(effort, "share", field="--effort")
    try:
        return Matching(strength=strength_of(place, evidence), effort=share)
    except BadInputError as error:
        if error.field == "effort":
            error.field, error.got = "--effort", repr(effort)
        raise


def refuse_without_match(asked: Mapping[str, Any]) -> None:
    """Refuse what says how strong the lifter is where nothing would come of it."""
    given = [option for name, option in _STRENGTH.items() if asked[name]]
    if given and not asked["match"]:
        raise BadInputError(
            "How strong the lifter is counts only when the rig is matched to it",
            field=given[0],
            got=", ".join(given),
            wanted="--match, or loads alone; topheavy strength shows what it says of the lifter",
        )
