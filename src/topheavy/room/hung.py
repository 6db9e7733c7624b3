"""What can hang on a bar for a whole group: feeder, setting, connector, and pairs of chain."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from topheavy.errors import NotInStockError
from topheavy.rigging.fixtures import Fixture, fixtures_of

if TYPE_CHECKING:
    from collections.abc import Collection, Iterable

    from topheavy.gym.stock import ChainPiece, Stock
    from topheavy.rigging.limits import Limits


@dataclass(frozen=True, slots=True, kw_only=True)
class Pair:
    """Two matched pieces that stay together: one for the left end, one for the right."""

    left: ChainPiece
    right: ChainPiece

    @property
    def lean_kg(self) -> float:
        """How much heavier the left one is [kg]."""
        return self.left.chain.mass_kg - self.right.chain.mass_kg

    @property
    def tags(self) -> tuple[str, str]:
        """Left and right."""
        return self.left.tag, self.right.tag


@dataclass(frozen=True, slots=True, kw_only=True)
class PairKind:
    """Pairs that are interchangeable: same size, links and pitch; lightest first."""

    size: str
    links: int
    pairs: tuple[Pair, ...]

    @property
    def name(self) -> str:
        """As a coach says it."""
        return f"{self.size}, {self.links} links"


def pair_kinds(pieces: Iterable[ChainPiece], broken: Collection[str] = ()) -> tuple[PairKind, ...]:
    """Match pieces in pairs: of one kind, neighbours by weight. An odd one is left over.

    A pair stays a pair when another piece is out of use today: only those that lost their partner
    are matched anew.

    Parameters
    ----------
    pieces : iterable of ChainPiece
        Pieces fit to hang.
    broken : collection of str
        Tags of those that must not be hung today.
    """
    groups: dict[tuple[str, int, float], list[ChainPiece]] = {}
    for piece in sorted(pieces, key=_weight):
        groups.setdefault(piece.kind, []).append(piece)
    kinds = []
    for (size, links, _), group in groups.items():
        pairs = _pairs(group, set(broken))
        if pairs:
            kinds.append(PairKind(size=size, links=links, pairs=pairs))
    return tuple(sorted(kinds, key=lambda kind: -kind.pairs[0].left.chain.mass_kg))


def _weight(piece: ChainPiece) -> tuple[float, str]:
    return piece.chain.density_kg_per_m, piece.tag


def _pairs(group: list[ChainPiece], broken: set[str]) -> tuple[Pair, ...]:
    usual = [(one, other) for one, other in zip(group[::2], group[1::2], strict=False)]
    whole = [pair for pair in usual if not {piece.tag for piece in pair} & broken]
    paired = {piece.tag for pair in whole for piece in pair}
    alone = [piece for piece in group if piece.tag not in paired and piece.tag not in broken]
    found = [*whole, *zip(alone[::2], alone[1::2], strict=False)]
    ordered = sorted(found, key=lambda pair: _weight(pair[0]))
    return tuple(Pair(left=one, right=other) for one, other in ordered)


@dataclass(frozen=True, slots=True, kw_only=True)
class TiedBands:
    """A pair of bands that goes on together, one on each end, alike.

    Parameters
    ----------
    left, right : str
        Tags of the bands.
    peg : str
        Name of the peg, on both sides of the station.
    doubled : bool
        Whether both ends of a band are on the peg and its middle over the sleeve.
    """

    left: str
    right: str
    peg: str
    doubled: bool = False

    @property
    def way(self) -> str:
        """How they hang: ``single`` or ``doubled``."""
        return "doubled" if self.doubled else "single"


@dataclass(frozen=True, slots=True, kw_only=True)
class Hung:
    """What hangs on both ends, for all lifters of a group; plates come on top.

    Parameters
    ----------
    fixture : Fixture
        Style, and for doubled chain feeder, setting, connector.
    counts : tuple of int
        Pairs of each kind of the room; none where only bands are on.
    bands : tuple of TiedBands
        Bands beside the chain, or instead of it.
    """

    fixture: Fixture
    counts: tuple[int, ...]
    bands: tuple[TiedBands, ...] = ()

    @property
    def band_tags(self) -> tuple[str, ...]:
        """Tags of every band on both ends."""
        return tuple(tag for pair in self.bands for tag in (pair.left, pair.right))

    @property
    def style(self) -> str:
        """``doubled``, ``straight``, ``draped``, or ``bands`` without any chain."""
        return self.fixture.style if sum(self.counts) else "bands"

    @property
    def setting(self) -> tuple[str, str, str]:
        """Feeder, its setting, and connector, by name; empty where chain hangs without."""
        held = self.fixture
        if held.feeder is None or held.setting is None or held.connector is None:
            return "", "", ""
        return held.feeder.name, held.setting.label, held.connector.name


def counts_of(
    kinds: tuple[PairKind, ...], most_each_end: int, *, bare: bool = False
) -> tuple[tuple[int, ...], ...]:
    """List every choice of pairs, one of each on an end, fewest first.

    Parameters
    ----------
    kinds : tuple of PairKind
        What there is.
    most_each_end : int
        Pieces on one end at most.
    bare : bool
        Whether no chain at all is a choice too, for bands alone.
    """
    found: list[tuple[int, ...]] = [()]
    for kind in kinds:
        found = [
            (*counts, more)
            for counts in found
            for more in range(min(len(kind.pairs), most_each_end - sum(counts)) + 1)
        ]
    kept = [counts for counts in found if bare or any(counts)]
    return tuple(sorted(kept, key=_how_many))


def _how_many(counts: tuple[int, ...]) -> int:
    return sum(counts)


BARE: Final = Fixture(style="straight")
"""Where no chain hangs, only bands."""


def room_fixtures(stock: Stock, limits: Limits) -> tuple[Fixture, ...]:
    """List the fixtures that may hold chain, or say what is missing.

    Raises
    ------
    NotInStockError
        Nothing rated to hang doubled chain from, and no other way to hang is allowed.
    """
    found = fixtures_of(stock, limits)
    if not found and not limits.most_bands:
        raise NotInStockError(
            "Nothing to hang doubled chain from",
            field="stock.feeder",
            wanted="two feeders alike and two connectors alike, each with its rating",
        )
    return found
