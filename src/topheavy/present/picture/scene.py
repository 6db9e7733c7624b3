"""What a picture shows: one rig at one station, from the bottom of a lift to its top."""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Final, Literal

from topheavy.errors import BadInputError
from topheavy.mechanics.chain import require_positive, require_travel
from topheavy.mechanics.ground import BARE_FLOOR, Ground

if TYPE_CHECKING:
    from topheavy.gym.lifts import StationKind
    from topheavy.mechanics.chain import Chain
    from topheavy.mechanics.rig import End, Rig
    from topheavy.units import UnitSystem

FeederForm = Literal["rings", "links", "strap"]
Layout = Literal["wide", "tall"]
Side = Literal["left", "right"]

BIG_PLATE_M: Final = 0.45
"""Diameter of a big plate [m]: IWF and IPF rules give 450 mm."""

SLEEVE_M: Final = 0.415
"""Loadable length of a sleeve [m]: IWF rules give at least 415 mm (from memory)."""

WIRE_TO_PITCH: Final = 16 / 56
"""Wire diameter over pitch when it is not known: DIN 764, 16 x 56 mm."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Disc:
    """One plate on the sleeve: its width and its diameter [m], both > 0."""

    width_m: float
    diameter_m: float

    def __post_init__(self) -> None:
        require_positive("width_m", self.width_m)
        require_positive("diameter_m", self.diameter_m)


@dataclass(frozen=True, slots=True, kw_only=True)
class HangNote:
    """What the mechanics of a hang does not carry: its names and its looks.

    Parameters
    ----------
    feeder : str
        The setting as it is said at the rack, such as ``"ring 7"``; empty when not known.
    form : {'rings', 'links', 'strap'}
        What the feeder is.
    marks_m : tuple of float
        Every working length the feeder can be set to [m]: rings are drawn there, links are as
        long as the steps between, a strap bears a mark. Empty: rings or links of a usual size.
    pieces : tuple of str
        Tags of the pieces in the order of the hang's chains.
    wire_m : tuple of float
        Wire diameter [m] of each piece in the same order; a missing one is taken from the pitch.
    """

    feeder: str = ""
    form: FeederForm = "rings"
    marks_m: tuple[float, ...] = ()
    pieces: tuple[str, ...] = ()
    wire_m: tuple[float, ...] = ()

    def __post_init__(self) -> None:
        for mark in self.marks_m:
            require_positive("marks_m", mark)
        for wire in self.wire_m:
            require_positive("wire_m", wire)

    def wire_of(self, index: int, chain: Chain) -> float:
        """Wire diameter [m] of piece number `index`; never so thick that the link has no hole."""
        known = self.wire_m[index] if index < len(self.wire_m) else WIRE_TO_PITCH * chain.pitch_m
        return min(known, 0.45 * chain.pitch_m)

    def tag_of(self, index: int) -> str:
        """Tag of piece number `index`; empty when it has none."""
        return self.pieces[index] if index < len(self.pieces) else ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Scene:
    """Everything the picture is drawn from.

    Parameters
    ----------
    rig : Rig
        The rig; one end is drawn, the load is that of both.
    bottom_m, top_m : float
        Height of the bar centre at the bottom and at the top [m].
    units : UnitSystem
        What numbers are printed in.
    station_kind : {'bench', 'rack', 'platform'}
        What stands behind the bar.
    ground : Ground
        What the chain lies on.
    end : {'left', 'right'}
        Which end is drawn.
    notes : tuple of HangNote
        One for each hang of that end, in order; missing ones are drawn plain.
    pegs : tuple of str
        Name of the peg of each band of that end, in order; missing ones are not named.
    pad_m : float or None
        Height of a bench's pad [m].
    discs : tuple of Disc
        The plates of one end from the inside out. Empty, with plates in the rig: one plate of
        `plate_m`.
    plate_m : float
        Diameter of that plate [m].
    sleeve_m : float
        Loadable length of the sleeve [m].
    collar_m : float
        Width of the collar [m]; 0 draws none.
    plates : str
        The plates of one end in words, such as ``"20 + 5 kg"``.
    heading : str
        A line above the picture; empty for none.
    straight : Rig or None
        The same chain hung straight, for a thin line beside the curve.
    layout : {'wide', 'tall'}
        For a page about 180 mm wide, or for a phone.

    Raises
    ------
    BadInputError
        A height that is not finite, a bottom not below the top, or a bar below the surface that
        the chain lies on.
    """

    rig: Rig
    bottom_m: float
    top_m: float
    units: UnitSystem
    station_kind: StationKind
    ground: Ground = BARE_FLOOR
    end: Side = "right"
    notes: tuple[HangNote, ...] = ()
    pegs: tuple[str, ...] = ()
    pad_m: float | None = None
    discs: tuple[Disc, ...] = ()
    plate_m: float = BIG_PLATE_M
    sleeve_m: float = SLEEVE_M
    collar_m: float = 0.05
    plates: str = ""
    heading: str = ""
    straight: Rig | None = field(default=None)
    layout: Layout = "wide"

    def __post_init__(self) -> None:
        for name in ("bottom_m", "top_m", "plate_m", "sleeve_m"):
            require_positive(name, getattr(self, name))
        if self.pad_m is not None:
            require_positive("pad_m", self.pad_m)
        if not 0 <= self.collar_m < math.inf:
            raise BadInputError(
                "A collar's width is not negative",
                field="collar_m",
                got=self.collar_m,
                wanted="0 or more",
            )
        self._check_heights()

    def _check_heights(self) -> None:
        require_travel(self.bottom_m, self.top_m)
        if not -math.inf < self.ground.surface_m < self.bottom_m:
            raise BadInputError(
                "The bar at the bottom must be above what the chain lies on",
                field="surface_m",
                got=f"bar {self.bottom_m:g} m, surface {self.ground.surface_m:g} m",
                wanted="surface below the bar",
            )

    @property
    def drawn_end(self) -> End:
        """The end of the bar that is drawn."""
        return self.rig.left if self.end == "left" else self.rig.right

    @property
    def low_m(self) -> float:
        """Height of the lowest floor [m]: 0, or lower when the chain lies beside a platform."""
        return min(0.0, self.ground.surface_m)

    def note(self, hang: int) -> HangNote:
        """Note of hang number `hang`."""
        return self.notes[hang] if hang < len(self.notes) else HangNote()

    def peg_name(self, band: int) -> str:
        """Name of the peg of band number `band`; empty when it has none."""
        return self.pegs[band] if band < len(self.pegs) else ""

    def drawn_discs(self) -> tuple[Disc, ...]:
        """Plates on the sleeve, from the inside out, none through the floor."""
        discs = self.discs
        if not discs and self.rig.plates_kg > 0:
            discs = (Disc(width_m=0.06, diameter_m=self.plate_m),)
        room_m = 2 * (self.bottom_m - self.low_m)
        return tuple(
            Disc(width_m=disc.width_m, diameter_m=min(disc.diameter_m, room_m)) for disc in discs
        )
