"""What a gym owns: chain pieces, feeders, connectors, bars, collars, plates and bands."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, TypeVar

from topheavy.errors import BadInputError, NotInStockError
from topheavy.gym.day import day_number
from topheavy.mechanics.chain import require_not_negative, require_positive

if TYPE_CHECKING:
    from topheavy.gym.bands import Band
    from topheavy.gym.care import Inspection, Weighing
    from topheavy.mechanics.chain import Chain


@dataclass(frozen=True, slots=True, kw_only=True)
class ChainPiece:
    """One piece of chain with its tag.

    Parameters
    ----------
    tag : str
        The piece's own name in the gym, such as ``"A3"``.
    size : str
        Trade size as the coach says it, such as ``"5/8 in"``; pieces that are interchangeable
        (same size, same number of links) make one kind.
    wire_diameter_m : float
        Wire diameter [m], > 0.
    chain : Chain
        Links, pitch and density.
    weighed : bool
        Whether this very piece was on a scale: then it is matched one by one.
    scale_u_kg : float or None
        Standard uncertainty of the scale it was weighed on [kg]; None when it was not.
    grade : str
        Grade as marked, such as ``"30"``; empty when unmarked (counts as Grade 30).
    retired : str
        Why the piece must not be hung; empty while it is fit.
    inspected_on : str
        Day of the last inspection, as ``"2026-09-01"``; empty when nobody noted one.
    inspections, weighings : tuple of Inspection, tuple of Weighing
        All that was written down, the oldest first; `retired` and `chain` already follow them.
    """

    tag: str
    size: str
    wire_diameter_m: float
    chain: Chain
    weighed: bool = False
    scale_u_kg: float | None = None
    grade: str = ""
    retired: str = ""
    inspected_on: str = ""
    inspections: tuple[Inspection, ...] = ()
    weighings: tuple[Weighing, ...] = ()

    def __post_init__(self) -> None:
        require_positive("wire_diameter_m", self.wire_diameter_m)
        if self.inspected_on:
            day_number(self.inspected_on, "inspected")

    @property
    def mass_u_kg(self) -> float:
        """Standard uncertainty of the mass [kg]: the scale's alone when the piece was weighed.

        The pitch makes mass per length uncertain, not what a scale shows.
        """
        if self.weighed and self.scale_u_kg is not None:
            return self.scale_u_kg
        return self.chain.density_u_kg_per_m * self.chain.length_m

    @property
    def kind(self) -> tuple[str, int, float]:
        """What makes pieces interchangeable: size, links and pitch [m]."""
        return self.size, self.chain.links, round(self.chain.pitch_m, 6)


@dataclass(frozen=True, slots=True, kw_only=True)
class FeederSetting:
    """One way to set a feeder: its name at the rack and the working length [m] it gives."""

    label: str
    length_m: float

    def __post_init__(self) -> None:
        require_positive("length_m", self.length_m)


@dataclass(frozen=True, slots=True, kw_only=True)
class Feeder:
    """A feeder model and how many the gym has.

    Parameters
    ----------
    name : str
        As the coach calls it.
    form : str
        ``"rings"`` (fixed rings), ``"links"`` (any link of a light chain) or ``"strap"``
        (continuous, to its marks).
    settings : tuple of FeederSetting
        Every working length it can be set to, shortest first.
    whole_m : float
        Length of the whole feeder [m].
    density_kg_per_m : float
        Mass per length [kg/m].
    rating_kg : float or None
        Working load limit [kg]; None when unmarked.
    count : int
        How many alike.
    setting_u_m : float
        Standard uncertainty of a working length [m].
    """

    name: str
    form: str
    settings: tuple[FeederSetting, ...]
    whole_m: float
    density_kg_per_m: float
    rating_kg: float | None
    count: int
    setting_u_m: float

    def setting(self, label: str) -> FeederSetting:
        """Find a setting by its label.

        Raises
        ------
        NotInStockError
            The feeder has no such setting; the error lists those it has.
        """
        for setting in self.settings:
            if setting.label == label:
                return setting
        raise NotInStockError(
            f"Feeder {self.name!r} has no setting {label!r}",
            field="feeder setting",
            got=repr(label),
            wanted="one of " + _few([s.label for s in self.settings]),
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Connector:
    """A connector model: carabiner, screw link or shackle.

    Parameters
    ----------
    name : str
        As the coach calls it.
    mass_kg, length_m : float
        Mass [kg] and inside length between bearing points [m].
    rating_kg : float or None
        Working load limit [kg] along its long axis; None when unmarked, and then refused.
    count : int
        How many alike.
    """

    name: str
    mass_kg: float
    length_m: float
    rating_kg: float | None
    count: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Bar:
    """A bar: mass [kg] and loadable length of one sleeve [m]."""

    name: str
    mass_kg: float
    sleeve_m: float

    def __post_init__(self) -> None:
        require_positive("mass_kg", self.mass_kg)
        require_positive("sleeve_m", self.sleeve_m)


@dataclass(frozen=True, slots=True, kw_only=True)
class Collar:
    """A collar: mass of one [kg], width on the sleeve [m], how many."""

    name: str
    mass_kg: float
    width_m: float
    count: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Plate:
    """A plate size: mass of one [kg], width on the sleeve [m], diameter [m], how many."""

    mass_kg: float
    width_m: float
    diameter_m: float
    count: int

    def __post_init__(self) -> None:
        require_positive("mass_kg", self.mass_kg)
        require_positive("width_m", self.width_m)
        require_positive("diameter_m", self.diameter_m)
        require_not_negative("count", self.count)


@dataclass(frozen=True, slots=True, kw_only=True)
class Stock:
    """Everything that can be hung or loaded.

    Raises
    ------
    BadInputError
        A tag or name that stands twice.
    """

    chains: tuple[ChainPiece, ...] = ()
    feeders: tuple[Feeder, ...] = ()
    connectors: tuple[Connector, ...] = ()
    bars: tuple[Bar, ...] = ()
    collars: tuple[Collar, ...] = ()
    plates: tuple[Plate, ...] = ()
    bands: tuple[Band, ...] = ()

    def __post_init__(self) -> None:
        _once("chain piece", [piece.tag for piece in self.chains])
        _once("band", [band.tag for band in self.bands])
        for word in ("feeders", "connectors", "bars", "collars"):
            _once(word.removesuffix("s"), [thing.name for thing in getattr(self, word)])

    @property
    def fit_chains(self) -> tuple[ChainPiece, ...]:
        """Pieces that are not retired."""
        return tuple(piece for piece in self.chains if not piece.retired)

    @property
    def fit_bands(self) -> tuple[Band, ...]:
        """Bands that are not retired."""
        return tuple(band for band in self.bands if not band.retired)

    def band(self, tag: str) -> Band:
        """Find a band by its tag, or raise NotInStockError."""
        found = {band.tag: band for band in self.bands}.get(tag)
        if found is None:
            raise _not_found("band", tag, [band.tag for band in self.bands])
        return found

    def piece(self, tag: str) -> ChainPiece:
        """Find a chain piece by its tag, or raise NotInStockError."""
        found = {piece.tag: piece for piece in self.chains}.get(tag)
        if found is None:
            raise _not_found("chain piece", tag, [piece.tag for piece in self.chains])
        return found

    def feeder(self, name: str) -> Feeder:
        """Find a feeder by name, or raise NotInStockError."""
        return _named("feeder", name, self.feeders)

    def connector(self, name: str) -> Connector:
        """Find a connector by name, or raise NotInStockError."""
        return _named("connector", name, self.connectors)

    def bar(self, name: str) -> Bar:
        """Find a bar by name, or raise NotInStockError."""
        return _named("bar", name, self.bars)


def _once(what: str, names: list[str]) -> None:
    twice = sorted({name for name in names if names.count(name) > 1})
    if twice:
        raise BadInputError(
            f"A {what} is listed twice",
            field="stock",
            got=", ".join(twice),
            wanted="each tag or name once; use count for several alike",
        )


_T = TypeVar("_T", Feeder, Connector, Bar)


def _named(what: str, name: str, things: tuple[_T, ...]) -> _T:
    for thing in things:
        if thing.name == name:
            return thing
    raise _not_found(what, name, [thing.name for thing in things])


def _not_found(what: str, name: str, known: list[str]) -> NotInStockError:
    return NotInStockError(
        f"No {what} {name!r} in stock",
        field=what,
        got=repr(name),
        wanted=f"one of {_few(known)}" if known else f"a gym with at least one {what}",
    )


def _few(names: list[str], most: int = 12) -> str:
    shown = ", ".join(names[:most])
    return shown if len(names) <= most else f"{shown} and {len(names) - most} more"
