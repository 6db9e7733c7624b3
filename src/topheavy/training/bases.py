"""Percent of what, and which load: conversions between every base, there and back.

A rig has several loads, and a percentage of "the load" says nothing until it names two things:
which load of the rig it speaks of (`at`: straight weight, bottom, mean, top), and what it is a
percentage of (`of`: the straight-weight best, or one of the loads of a rig that is taken as the
measure, such as that of the day's top set). What hangs does not depend on the plates, so each such
pair fixes the straight weight, and each converts into each other.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final, Literal, get_args

from topheavy.errors import BadInputError
from topheavy.rigging.target import share_of

if TYPE_CHECKING:
    from topheavy.gym.people import Travel
    from topheavy.mechanics.curve import LoadCurve

LoadName = Literal["straight", "bottom", "mean", "top"]
"""Which load of a rig: straight weight, or the whole load at bottom, mean over the lift, top."""

BaseName = Literal["best", "straight", "bottom", "mean", "top"]
"""Percent of what: the straight-weight best, or a load of the rig taken as the measure."""

LOAD_NAMES: Final[tuple[LoadName, ...]] = get_args(LoadName)
_SHARE_BASES: Final = ("best", "bottom", "mean", "top")


@dataclass(frozen=True, slots=True, kw_only=True)
class Loads:
    """The loads of one rig over one lift.

    Parameters
    ----------
    straight_kg : float
        Bar, collars and plates [kg].
    bottom_kg, mean_kg, top_kg : float
        Whole load at the bottom, mean over the travel, at the top [kg].
    """

    straight_kg: float
    bottom_kg: float
    mean_kg: float
    top_kg: float

    def at(self, name: LoadName) -> float:
        """One of them [kg] by its name."""
        return float(getattr(self, f"{name}_kg"))


@dataclass(frozen=True, slots=True, kw_only=True)
class Hung:
    """What hangs, as loads: chain and bands at bottom, mean over the travel, and top [kg].

    Examples
    --------
    >>> Hung(bottom_kg=0.0, mean_kg=15.0, top_kg=30.0).under(80.0)
    Loads(straight_kg=80.0, bottom_kg=80.0, mean_kg=95.0, top_kg=110.0)
    """

    bottom_kg: float
    mean_kg: float
    top_kg: float

    @classmethod
    def of(cls, curve: LoadCurve, travel: Travel) -> Hung:
        """Read a curve of hung load over a travel [m]."""
        bottom_kg, top_kg = (float(kg) for kg in curve.at((travel.bottom_m, travel.top_m)))
        mean_kg = curve.mean(travel.bottom_m, travel.top_m)
        return cls(bottom_kg=bottom_kg, mean_kg=mean_kg, top_kg=top_kg)

    def at(self, name: LoadName) -> float:
        """What hangs [kg] at a load's place; none of it belongs to the straight weight."""
        return 0.0 if name == "straight" else float(getattr(self, f"{name}_kg"))

    def under(self, straight_kg: float) -> Loads:
        """Loads with this straight weight [kg]."""
        return Loads(
            straight_kg=straight_kg,
            bottom_kg=straight_kg + self.bottom_kg,
            mean_kg=straight_kg + self.mean_kg,
            top_kg=straight_kg + self.top_kg,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Bases:
    """What percentages may be of, for one lifter and one rig.

    Parameters
    ----------
    best_kg : float or None
        Straight-weight best [kg], full range.
    measure : Loads or None
        Loads of the rig that is taken as the measure.
    """

    best_kg: float | None = None
    measure: Loads | None = None

    def kg(self, of: BaseName) -> float:
        """A base [kg] by its name.

        Raises
        ------
        BadInputError
            The base is not known, or not above zero.
        """
        if of == "best":
            found = self.best_kg
        else:
            found = None if self.measure is None else self.measure.at(of)
        if found is None:
            raise BadInputError(
                f"A percentage of the {of} needs the {of}, and it is not known",
                field="of",
                got=of,
                wanted="a best in the gym file or --best"
                if of == "best"
                else "a rig to measure by",
            )
        if found <= 0:
            raise BadInputError(
                f"No percentage of the {of}: it is not above zero", field="of", got=found
            )
        return found


@dataclass(frozen=True, slots=True, kw_only=True)
class Percent:
    """A percentage that says which load it speaks of, and of what.

    Parameters
    ----------
    share : float
        As a fraction of the base [-].
    at : {'straight', 'bottom', 'mean', 'top'}
        Which load of the rig.
    of : {'best', 'straight', 'bottom', 'mean', 'top'}
        Percent of what.
    """

    share: float
    at: LoadName
    of: BaseName = "best"


def percent_of(loads: Loads, at: LoadName, of: BaseName, bases: Bases) -> Percent:
    """Say a load of a rig as a percentage.

    Parameters
    ----------
    loads : Loads
        Of the rig [kg].
    at : str
        Which of them.
    of : str
        Percent of what.
    bases : Bases
        The bases [kg].

    Raises
    ------
    BadInputError
        The base is not known, or not above zero.

    Examples
    --------
    >>> hung = Hung(bottom_kg=0.0, mean_kg=15.0, top_kg=30.0)
    >>> percent_of(hung.under(80.0), "top", "best", Bases(best_kg=137.5)).share
    0.8
    """
    return Percent(share=loads.at(at) / bases.kg(of), at=at, of=of)


def straight_for(percent: Percent, hung: Hung, bases: Bases) -> float:
    """Straight weight [kg] that makes a percentage true; below zero when what hangs is too much.

    Parameters
    ----------
    percent : Percent
        What is wanted.
    hung : Hung
        What hangs [kg].
    bases : Bases
        The bases [kg].

    Raises
    ------
    BadInputError
        The base is not known, or not above zero.

    Examples
    --------
    >>> hung = Hung(bottom_kg=0.0, mean_kg=15.0, top_kg=30.0)
    >>> round(straight_for(Percent(share=0.8, at="top"), hung, Bases(best_kg=137.5)), 6)
    80.0
    """
    return percent.share * bases.kg(percent.of) - hung.at(percent.at)


def convert(percent: Percent, at: LoadName, of: BaseName, hung: Hung, bases: Bases) -> Percent:
    """Say the same set in the percentage of another load, or of another base.

    Parameters
    ----------
    percent : Percent
        As it was said.
    at : str
        Which load to speak of.
    of : str
        Percent of what.
    hung : Hung
        What hangs [kg].
    bases : Bases
        The bases [kg].

    Raises
    ------
    BadInputError
        A base is not known, or not above zero.

    Examples
    --------
    Sixty percent of the best at the bottom, with 21 kg at lockout and a best of 142.5 kg:

    >>> hung, bases = Hung(bottom_kg=0.0, mean_kg=10.0, top_kg=21.375), Bases(best_kg=142.5)
    >>> said = convert(Percent(share=0.6, at="bottom"), "top", "best", hung, bases)
    >>> round(said.share, 6)
    0.75
    """
    return percent_of(hung.under(straight_for(percent, hung, bases)), at, of, bases)


def chain_share(loads: Loads, of: BaseName, best_kg: float | None = None) -> float:
    """Accommodating share of a rig's loads [-]: (top - bottom) / base, any base.

    Parameters
    ----------
    loads : Loads
        Of the rig [kg].
    of : {'best', 'bottom', 'mean', 'top'}
        Percent of what.
    best_kg : float or None
        Straight-weight best [kg], needed for base ``"best"``.

    Raises
    ------
    BadInputError
        The base is not known, or not above zero.

    Examples
    --------
    >>> hung = Hung(bottom_kg=0.0, mean_kg=15.0, top_kg=30.0)
    >>> round(chain_share(hung.under(80.0), "mean"), 3)
    0.316
    """
    if of not in _SHARE_BASES:
        raise BadInputError(
            "No such base of an accommodating share",
            field="of",
            got=of,
            wanted=" or ".join(_SHARE_BASES),
        )
    if of == "mean":
        return (loads.top_kg - loads.bottom_kg) / Bases(measure=loads).kg("mean")
    return share_of(loads.bottom_kg, loads.top_kg, of, best_kg)
