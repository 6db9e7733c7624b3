"""The ways chain goes on one end of the bar, each a set of strands below the bar centre."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from topheavy.errors import BadInputError
from topheavy.mechanics.chain import Chain, require_not_negative, require_positive

Way = Literal["still", "raising", "lowering"]
"""Whether the pile is left out, or taken as found on the way up or on the way down."""


@dataclass(frozen=True, slots=True)
class Strand:
    """A vertical run of something that hangs.

    Parameters
    ----------
    density_kg_per_m : float
        Mass per length [kg/m].
    length_m : float
        Length [m].
    offset_m : float
        Where it begins, below the bar centre [m].
    chain : Chain or None
        The chain piece it belongs to; None for a feeder or a connector, which make no pile.
    """

    density_kg_per_m: float
    length_m: float
    offset_m: float
    chain: Chain | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Suspension:
    """Feeder and connector: what the fold of a doubled hang hangs from.

    Parameters
    ----------
    feeder_m : float
        Working length [m], bar centre to where the connector bears, > 0.
    feeder_density_kg_per_m : float
        Mass per length of the feeder [kg/m], >= 0.
    feeder_whole_m : float or None
        Length of the whole feeder [m], its tail below the connector counted; the tail hangs
        down beside the chain. None: no tail.
    connector_m : float
        Length of the connector between its bearing points [m], >= 0.
    connector_kg : float
        Mass of the connector [kg], >= 0.
    feeder_u_m : float
        Standard uncertainty of the working length [m].
    """

    feeder_m: float
    feeder_density_kg_per_m: float = 0.0
    feeder_whole_m: float | None = None
    connector_m: float = 0.0
    connector_kg: float = 0.0
    feeder_u_m: float = 0.0

    def __post_init__(self) -> None:
        require_positive("feeder_m", self.feeder_m)
        for name in ("feeder_density_kg_per_m", "connector_m", "connector_kg", "feeder_u_m"):
            require_not_negative(name, getattr(self, name))
        if self.feeder_whole_m is not None and self.feeder_whole_m < self.feeder_m - 1e-9:
            raise BadInputError(
                "A feeder can't work longer than it is",
                field="feeder_m",
                got=f"{self.feeder_m:g} m of {self.feeder_whole_m:g} m",
                wanted="a working length up to the whole length",
            )

    @property
    def fold_m(self) -> float:
        """How far below the bar centre the fold hangs [m]."""
        return self.feeder_m + self.connector_m

    def strands(self) -> list[Strand]:
        """Feeder and connector as strands.

        With the connector on the floor the bar carries the taut part of the feeder only. The
        connector leaves the floor over its own length; without length it is a lump.
        """
        whole_m = self.feeder_m if self.feeder_whole_m is None else self.feeder_whole_m
        feeder = Strand(self.feeder_density_kg_per_m, whole_m, 0.0)
        if self.connector_m == 0:
            return [feeder]
        return [
            feeder,
            Strand(self.connector_kg / self.connector_m, self.connector_m, self.feeder_m),
        ]


@dataclass(frozen=True, slots=True, kw_only=True)
class Straight:
    """One strand from the sleeve down.

    Parameters
    ----------
    chain : Chain
        The piece.
    drop_m : float
        From the bar centre to the first link [m], >= 0.
    """

    chain: Chain
    drop_m: float = 0.0

    def __post_init__(self) -> None:
        require_not_negative("drop_m", self.drop_m)

    @property
    def chains(self) -> tuple[Chain, ...]:
        """The pieces of this hang."""
        return (self.chain,)

    def strands_of(self, chain: Chain) -> list[Strand]:
        """Strands of one piece: its whole length as one."""
        return [Strand(chain.density_kg_per_m, chain.length_m, self.drop_m, chain)]

    def strands(self) -> list[Strand]:
        """The whole chain as one strand."""
        return self.strands_of(self.chain)

    @property
    def lump(self) -> tuple[float, float]:
        """No lump: mass [kg] and offset [m] are zero."""
        return 0.0, 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Doubled:
    """Pieces folded in half on one connector, lowered by a feeder.

    An even number of links puts the two middle ones on the connector: two strands of half the
    length. An odd number puts the middle link there alone: one strand of one pitch, and two of
    (links - 1)/2 pitches below it. So an odd piece loads the bar at half the rate until its
    middle link hangs, and reaches half a pitch lower than half its length; `count_doubled`
    counts the same links in steps. Slack dragged to one side is reckoned strand by strand, the
    middle link as one by itself.

    Parameters
    ----------
    chains : tuple of Chain
        The pieces, at least one.
    suspension : Suspension
        What the fold hangs from.

    Examples
    --------
    Seven links of 5 cm, the fold 0.5 m down:

    >>> chain = Chain(links=7, pitch_m=0.05, density_kg_per_m=5.0)
    >>> hang = Doubled(chains=(chain,), suspension=Suspension(feeder_m=0.5))
    >>> [(round(s.length_m, 3), round(s.offset_m, 3)) for s in hang.strands_of(chain)]
    [(0.05, 0.5), (0.15, 0.55), (0.15, 0.55)]
    """

    chains: tuple[Chain, ...]
    suspension: Suspension

    def __post_init__(self) -> None:
        _require_pieces(self.chains)

    def strands_of(self, chain: Chain) -> list[Strand]:
        """Strands of one piece from the fold down, the middle link of an odd one first."""
        fold_m = self.suspension.fold_m
        if chain.links % 2 == 0:
            return _pair(chain, chain.length_m / 2, fold_m)
        middle = Strand(chain.density_kg_per_m, chain.pitch_m, fold_m, chain)
        if chain.links == 1:
            return [middle]
        below_m = (chain.links - 1) / 2 * chain.pitch_m
        return [middle, *_pair(chain, below_m, fold_m + chain.pitch_m)]

    def strands(self) -> list[Strand]:
        """The suspension's own strands, then those of every piece."""
        pieces = [strand for chain in self.chains for strand in self.strands_of(chain)]
        return [*self.suspension.strands(), *pieces]

    @property
    def lump(self) -> tuple[float, float]:
        """Mass [kg] and offset [m] of a connector that has no length."""
        held = self.suspension
        return (held.connector_kg if held.connector_m == 0 else 0.0), held.feeder_m


@dataclass(frozen=True, slots=True, kw_only=True)
class Draped:
    """Pieces laid across the bar, both tails down: no feeder, as for a deadlift.

    Two strands of half the length, also for an odd number of links: a bar is thick, so several
    links lie over it and no single one holds both tails. `count_doubled` knows no bar, so for
    an odd number it may be half a link a strand further from this curve than for an even one.

    Parameters
    ----------
    chains : tuple of Chain
        The pieces, at least one.
    drop_m : float
        From the bar centre to where the tails begin [m]; 0 when laid straight over the bar.
    """

    chains: tuple[Chain, ...]
    drop_m: float = 0.0

    def __post_init__(self) -> None:
        _require_pieces(self.chains)
        require_not_negative("drop_m", self.drop_m)

    def strands_of(self, chain: Chain) -> list[Strand]:
        """Strands of one piece: two of half its length."""
        return _pair(chain, chain.length_m / 2, self.drop_m)

    def strands(self) -> list[Strand]:
        """Two strands a piece from the bar down."""
        return [strand for chain in self.chains for strand in self.strands_of(chain)]

    @property
    def lump(self) -> tuple[float, float]:
        """No lump: mass [kg] and offset [m] are zero."""
        return 0.0, 0.0


Hang = Straight | Doubled | Draped


def _require_pieces(chains: tuple[Chain, ...]) -> None:
    if not chains:
        raise BadInputError(
            "A hang needs at least one chain piece", field="chains", wanted="one piece or more"
        )


def _pair(chain: Chain, length_m: float, offset_m: float) -> list[Strand]:
    return [Strand(chain.density_kg_per_m, length_m, offset_m, chain) for _ in range(2)]
