"""What a ramp is made of: what hangs, the gear, the top set, and the sets that lead to it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final, Literal

from topheavy.errors import BadInputError
from topheavy.mechanics.chain import require_positive
from topheavy.mechanics.curve import LoadCurve

if TYPE_CHECKING:
    from topheavy.gym.stock import Plate
    from topheavy.phrase import Remark
    from topheavy.training.bases import Loads
    from topheavy.training.plate_path import PlateStop

Kind = Literal["warm-up", "attempt", "top set"]
LimitedBy = Literal["strength curve", "bottom"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Hanging:
    """What hangs in some of the sets.

    Parameters
    ----------
    pieces : int
        Chain pieces on both ends together; 0 with nothing hung.
    curve : LoadCurve
        Load [kg] by height on the way up, chain and bands.
    name : str
        ``"chain"``, ``"bands"`` or both.
    """

    pieces: int
    curve: LoadCurve
    name: str = "chain"


NOTHING: Final = Hanging(pieces=0, curve=LoadCurve.constant(0.0), name="nothing")
"""Straight weight."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Gear:
    """What the ramp is loaded with.

    Parameters
    ----------
    bar_kg : float
        Bar and collars [kg].
    plates : tuple of Plate
        Owned plates.
    room_m : float
        Sleeve room of one end for plates [m], collar and loop taken off.
    """

    bar_kg: float
    plates: tuple[Plate, ...]
    room_m: float


@dataclass(frozen=True, slots=True, kw_only=True)
class TopSet:
    """The day's top set.

    Parameters
    ----------
    straight_kg : float
        Bar, collars and plates [kg].
    reps : int
        Its reps, >= 1.
    hanging : Hanging
        What hangs.
    lighter : tuple of Hanging
        Other hangings to begin with when all of it is too much, most pieces first.
    singles : bool
        The top set is the goal of singles up to a max.
    chain_from : int
        Set from which the chain is on: 1 is the first, as it should be.
    from_floor : bool
        The bar starts on its plates, so that small ones start it low.
    """

    straight_kg: float
    reps: int
    hanging: Hanging
    lighter: tuple[Hanging, ...] = ()
    singles: bool = False
    chain_from: int = 1
    from_floor: bool = False

    def __post_init__(self) -> None:
        require_positive("straight_kg", self.straight_kg)
        check_top_set(self.reps, singles=self.singles, chain_from=self.chain_from)


def check_top_set(reps: int, *, singles: bool, chain_from: int) -> None:
    """Refuse reps of a top set, or a first set with chain on, that make no sense."""
    if reps < 1 or reps % 1:
        raise BadInputError(
            "A top set has a whole number of reps", field="reps", got=reps, wanted="1 or more"
        )
    if singles and reps != 1:
        raise BadInputError("Singles have one rep", field="reps", got=reps, wanted="1 with singles")
    if chain_from < 1:
        raise BadInputError(
            "Sets count from one", field="chain_from", got=chain_from, wanted="1 or more"
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class RampSet:
    """One set of a ramp.

    Parameters
    ----------
    number : int
        From 1.
    kind : {'warm-up', 'attempt', 'top set'}
        What it is for.
    hanging : Hanging
        What hangs.
    plates : PlateStop
        Plates, and what to change for them.
    loads : Loads
        Straight weight, bottom, mean, top [kg].
    limit_kg : float
        Load at the limiting height [kg].
    share, top_share : float
        Of the top set's load at the limiting height, and of its load at the top [-].
    reps : int
        Reps.
    rest_before_s : float
        Rest before it [s]; 0 before the first.
    """

    number: int
    kind: Kind
    hanging: Hanging
    plates: PlateStop
    loads: Loads
    limit_kg: float
    share: float
    top_share: float
    reps: int
    rest_before_s: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Ramp:
    """A ramp.

    Parameters
    ----------
    sets : tuple of RampSet
        In order; the top set is the last.
    limit_m : float
        Height that shares speak of [m]: where the top set uses the lifter hardest.
    limited_by : {'strength curve', 'bottom'}
        How that height was found; the bottom when strength is not known.
    handled : int
        Plates taken off and put on, both ends together.
    exact : bool
        Whether less handling for weights as near is proven impossible.
    remarks : tuple of Remark
        What to know of it.
    """

    sets: tuple[RampSet, ...]
    limit_m: float
    limited_by: LimitedBy
    handled: int
    exact: bool
    remarks: tuple[Remark, ...]
