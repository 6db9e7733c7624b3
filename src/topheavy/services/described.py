"""A rig that somebody describes: what is on each end, part by part, and whether it may be."""

from __future__ import annotations

import math
from collections import Counter
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Final

from topheavy.catalogue.verdict import judge_chain
from topheavy.errors import BadInputError, NotInStockError
from topheavy.mechanics.rig import End, Rig
from topheavy.phrase import Amount, Phrase, Remark, literal
from topheavy.rigging.limits import DESIGN_FACTOR, Limits

if TYPE_CHECKING:
    from collections.abc import Iterator

    from topheavy.catalogue.verdict import Job
    from topheavy.gym.stock import ChainPiece, Connector, Feeder, Stock
    from topheavy.mechanics.ground import Ground
    from topheavy.mechanics.hang import Hang
    from topheavy.rigging.fixtures import Fixture
    from topheavy.rigging.hung_band import HungBand, Span

UNNAMED_FEEDER: Final = "the feeder"
UNNAMED_CONNECTOR: Final = "the connector"
"""What parts are called that were described and not named."""

MOST_IMBALANCE_KG: Final = Limits().most_imbalance_kg
"""Difference between the ends [kg] that passes without a word: the search's own limit."""


_LEAST_SPAN_M: Final = 0.001
"""A band that is read at one height alone is hung for a millimetre more [m]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Hanging:
    """Pieces that hang together on one end.

    Parameters
    ----------
    fixture : Fixture
        How they hang, and from what.
    pieces : tuple of ChainPiece
        At least one.
    """

    fixture: Fixture
    pieces: tuple[ChainPiece, ...]

    @property
    def hangs(self) -> tuple[Hang, ...]:
        """The same as the mechanics know it."""
        return self.fixture.hangs([piece.chain for piece in self.pieces])

    @property
    def chain_kg(self) -> float:
        """Mass of the pieces together [kg]."""
        return sum(piece.chain.mass_kg for piece in self.pieces)


@dataclass(frozen=True, slots=True, kw_only=True)
class DescribedRig:
    """A rig as somebody describes it; the ends need not be alike.

    Parameters
    ----------
    bar_kg, plates_kg : float
        Bar with collars, and all plates [kg].
    left, right : tuple of Hanging
        What hangs on each end; empty for nothing.
    left_bands, right_bands : tuple of HungBand
        Bands on each end.
    span_m : tuple of float or None
        Lowest and highest height of the bar [m] that the bands are used at; None while nobody
        has said it.

    Raises
    ------
    BadInputError
        A piece that hangs twice, or a band.
    """

    bar_kg: float
    plates_kg: float
    left: tuple[Hanging, ...] = ()
    right: tuple[Hanging, ...] = ()
    left_bands: tuple[HungBand, ...] = ()
    right_bands: tuple[HungBand, ...] = ()
    span_m: Span | None = None

    def __post_init__(self) -> None:
        tags = [hung.band.tag for hung in self.bands]
        again = next((tag for tag in tags if tags.count(tag) > 1), None)
        if again is not None:
            raise BadInputError(
                "A band is in two places",
                field="bands",
                got=again,
                wanted="each band once, on one end",
            )
        pieces = [piece for hanging in self.hangings for piece in hanging.pieces]
        # The same object: pieces described alike are equal, and still two pieces.
        counts = Counter(id(piece) for piece in pieces)
        twice = [piece.tag for piece in pieces if counts[id(piece)] > 1]
        if twice:
            raise BadInputError(
                "A chain piece hangs in two places",
                field="pieces",
                got=twice[0],
                wanted="each piece once, on one end",
            )

    @property
    def hangings(self) -> tuple[Hanging, ...]:
        """What hangs on both ends, the left first."""
        return (*self.left, *self.right)

    @property
    def bands(self) -> tuple[HungBand, ...]:
        """Bands on both ends, the left first."""
        return (*self.left_bands, *self.right_bands)

    @property
    def rig(self) -> Rig:
        """The same as the mechanics know it.

        Raises
        ------
        BadInputError
            Bands with nothing said of the heights they are used at, or stretched further there
            than they were read.
        """
        left, right = (
            End(
                tuple(hang for hanging in end for hang in hanging.hangs),
                bands=tuple(hung.over(self._span_m()) for hung in bands),
            )
            for end, bands in ((self.left, self.left_bands), (self.right, self.right_bands))
        )
        return Rig(self.bar_kg, self.plates_kg, left, right)

    def over(self, *heights_m: float) -> DescribedRig:
        """Use its bands at these heights of the bar [m], and between them."""
        return replace(self, span_m=(min(heights_m), max(heights_m)))

    def _span_m(self) -> Span:
        if self.span_m is None:
            raise BadInputError(
                "Nothing says at which heights the bands are used",
                field="bands",
                wanted="bottom and top of the lift, or a lifter who was measured",
            )
        low_m, high_m = self.span_m
        return low_m, max(high_m, low_m + _LEAST_SPAN_M)

    @property
    def left_pieces(self) -> tuple[ChainPiece, ...]:
        """Pieces on the left, in the order of the rig's hangs."""
        return tuple(piece for hanging in self.left for piece in hanging.pieces)

    @property
    def right_pieces(self) -> tuple[ChainPiece, ...]:
        """Pieces on the right, in the order of the rig's hangs."""
        return tuple(piece for hanging in self.right for piece in hanging.pieces)


def check_counts(described: DescribedRig, stock: Stock) -> None:
    """Refuse a rig that takes more feeders or connectors of the stock than there are.

    Raises
    ------
    NotInStockError
        Says what is short.
    """
    taken: Counter[Feeder | Connector] = Counter()
    for hanging in described.hangings:
        held = hanging.fixture
        taken.update(part for part in (held.feeder, held.connector) if part is not None)
    for part, count in taken.items():
        if part in (*stock.feeders, *stock.connectors) and count > part.count:
            raise NotInStockError(
                f"The rig takes more of {part.name!r} than the gym has",
                field="stock",
                got=f"{count} of them",
                wanted=f"at most {part.count}",
            )


def dangers(described: DescribedRig, *, design_factor: float = DESIGN_FACTOR) -> tuple[Remark, ...]:
    """Find what must come down: what is retired, parts without a rating, parts overloaded.

    A search refuses such a rig. A described one may hang already, so it is read all the same, and
    this is said first.

    Parameters
    ----------
    described : DescribedRig
        What hangs.
    design_factor : float
        A part is used up to its rating over this factor [-], >= 1.

    Raises
    ------
    BadInputError
        A design factor below one.
    """
    if not 1 <= design_factor < math.inf:
        raise BadInputError(
            "A part is not used beyond its rating",
            field="design factor",
            got=design_factor,
            wanted="1 or more; 4 is common practice",
        )
    found = [*_retired(described)]
    for hanging in described.hangings:
        found += _unsafe(hanging, design_factor)
    return tuple(dict.fromkeys(found))


def doubts(
    described: DescribedRig,
    heights_m: tuple[float, float],
    ground: Ground,
    job: Job | None = None,
) -> tuple[Remark, ...]:
    """Find what makes a rig poor: ends that differ, chain too thin to matter, ratings unstated.

    Parameters
    ----------
    described : DescribedRig
        What hangs.
    heights_m : tuple of float
        Lowest and highest height of interest [m].
    ground : Ground
        Where the chain lies.
    job : Job, optional
        What the chain is to do; without it thin chain is not looked for.
    """
    thin = () if job is None else _thin(described, job)
    return (*_lopsided(described, heights_m, ground), *thin, *_unstated(described))


def _retired(described: DescribedRig) -> Iterator[Remark]:
    pieces = (*described.left_pieces, *described.right_pieces)
    parts = [(piece.tag, piece.retired) for piece in pieces]
    parts += [(hung.band.tag, hung.band.retired) for hung in described.bands]
    for tag, retired in parts:
        if retired:
            why = f"{literal(tag)} is retired ({literal(retired)}): take it down."
            yield Remark("retired", Phrase(why))


def _unsafe(hanging: Hanging, design_factor: float) -> Iterator[Remark]:
    """What hangs from each part against its rating; a feeder carries the connector too."""
    feeder, connector = hanging.fixture.feeder, hanging.fixture.connector
    if feeder is None or connector is None:
        return
    for part, hung_kg in (
        (connector, hanging.chain_kg),
        (feeder, hanging.chain_kg + connector.mass_kg),
    ):
        if part.rating_kg is None:
            if part.name in (UNNAMED_FEEDER, UNNAMED_CONNECTOR):
                continue
            text = (
                f"No rating is known for {literal(part.name)}: read it off the metal. Unmarked, "
                "it must not hang; a part that fails drops its chain and tips the bar."
            )
            yield Remark("unrated", Phrase(text))
        elif hung_kg > part.rating_kg / design_factor:
            yield _overload(part, part.rating_kg, hung_kg, design_factor)


def _overload(
    part: Feeder | Connector, rating_kg: float, hung_kg: float, design_factor: float
) -> Remark:
    amounts = (hung_kg, rating_kg, rating_kg / design_factor)
    text = (
        f"{literal(part.name)} carries {{}} and is rated {{}}: with a design factor of "
        f"{design_factor:g} no more than {{}} may hang from it. Take it down."
    )
    return Remark("overloaded", Phrase(text, tuple(Amount(kg, "mass") for kg in amounts)))


def _lopsided(
    described: DescribedRig, heights_m: tuple[float, float], ground: Ground
) -> Iterator[Remark]:
    rig = described.rig
    left, right = (end.curve(ground).at(heights_m) for end in (rig.left, rig.right))
    low_kg, high_kg = (float(kg) for kg in left - right)
    if max(abs(low_kg), abs(high_kg)) <= MOST_IMBALANCE_KG:
        yield from _unequal(rig)
        return
    heavier = "left" if high_kg + low_kg > 0 else "right"
    yield Remark(
        "lopsided",
        Phrase(
            f"The ends differ by {{}} at the top and {{}} at the bottom; the {heavier} is the "
            "heavier. The bar will tip and turn: hang both ends alike, count links and settings.",
            (Amount(abs(high_kg), "mass"), Amount(abs(low_kg), "mass")),
        ),
    )


def _unequal(rig: Rig) -> Iterator[Remark]:
    """Ends that weigh alike at these heights, and would not if all of it hung."""
    off_kg = rig.left.mass_kg - rig.right.mass_kg
    if abs(off_kg) > MOST_IMBALANCE_KG:
        side = "left" if off_kg > 0 else "right"
        text = f"{{}} more lies ready on the {side} end than on the other: hang both ends alike."
        yield Remark("unequal", Phrase(text, (Amount(abs(off_kg), "mass"),)))


def _thin(described: DescribedRig, job: Job) -> Iterator[Remark]:
    kinds = {p.size: p for p in (*described.left_pieces, *described.right_pieces)}
    for size, piece in kinds.items():
        density_kg_per_m, wire_m = piece.chain.density_kg_per_m, piece.wire_diameter_m
        verdict = judge_chain(density_kg_per_m, job, wire_diameter_m=wire_m)
        if verdict.judgement == "too thin":
            gain = Amount(verdict.gain_per_piece_kg, "mass")
            text = (
                f"{literal(size)} chain is too thin to matter: a piece a side adds {{}} over the "
                "lift. Common practice is 5/8 in (16 mm) or heavier."
            )
            yield Remark("too thin", Phrase(text, (gain,)))


def _unstated(described: DescribedRig) -> Iterator[Remark]:
    """Parts without a name whose rating nobody stated."""
    parts = [
        part
        for hanging in described.hangings
        for part in (hanging.fixture.feeder, hanging.fixture.connector)
        if part is not None and part.rating_kg is None
    ]
    names = dict.fromkeys(part.name for part in parts)
    said = " and ".join(name for name in names if name in (UNNAMED_FEEDER, UNNAMED_CONNECTOR))
    if said:
        text = f"No rating was stated for {said}: read it off the metal before anything hangs."
        yield Remark("rating not stated", Phrase(text))
