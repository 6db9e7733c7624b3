"""What a slip is: a plain word for it, and the weighing as it would have been."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from topheavy.errors import BadInputError
from topheavy.mechanics.chain import require_positive

if TYPE_CHECKING:
    from topheavy.gym.bands import Band
    from topheavy.gym.people import StationPeg
    from topheavy.gym.stock import FeederSetting
    from topheavy.phrase import Phrase
    from topheavy.services.weighing.case import Case, Side

Kind = Literal[
    "ring", "link", "piece", "mat", "lay", "plate", "units", "way",
    "reading", "pile", "peg", "doubled", "band", "chain", "length", "weight", "soft",
]  # fmt: skip
"""Sorts of slip. ``pile`` is none: the heap just stands otherwise than its rule says. The last
four are a stated number that is off by any amount."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Suspects:
    """What the gym has that could have been taken by mistake.

    Parameters
    ----------
    settings : tuple of FeederSetting
        Every setting of the feeder in use; the forty nearest either way are tried.
    plates_kg : tuple of float
        Mass of each plate size that the gym has [kg], > 0.
    surfaces_m : tuple of float
        Other surfaces the chain may lie on, as `Ground.surface_m` [m]: the station's own mat,
        the bare floor. The usual mats (10 to 25 mm) are tried anyway.

    pegs : tuple of StationPeg
        Pegs of the station that a band may hang from.
    bands : tuple of Band
        Bands of the gym, retired ones too.

    Raises
    ------
    BadInputError
        A plate without mass, or a surface more than a metre from the floor.
    """

    settings: tuple[FeederSetting, ...] = ()
    plates_kg: tuple[float, ...] = ()
    surfaces_m: tuple[float, ...] = ()
    pegs: tuple[StationPeg, ...] = ()
    bands: tuple[Band, ...] = ()

    def __post_init__(self) -> None:
        for plate_kg in self.plates_kg:
            require_positive("plates_kg", plate_kg)
        for surface_m in self.surfaces_m:
            if not -1.0 <= surface_m <= 1.0:
                raise BadInputError(
                    "No chain lies that far from the floor",
                    field="surfaces_m",
                    got=f"{surface_m:g} m",
                    wanted="-1 to 1 m",
                )


@dataclass(frozen=True, slots=True, kw_only=True)
class Slip:
    """One slip.

    Parameters
    ----------
    kind : str
        What sort of slip.
    family : str
        Slips of one family share one prior chance.
    what, todo : Phrase
        The slip in plain words, and what to do about it.
    case : Case
        The weighing as it would have been.
    side : {'left', 'right'} or None
        The one end that it sits on; None for both, or where the ends are alike.
    charge : float or None
        Misfit charged for how seldom it happens; None: that of one of its family.
    """

    kind: Kind
    family: str
    what: Phrase
    todo: Phrase
    case: Case
    side: Side | None = None
    charge: float | None = None
