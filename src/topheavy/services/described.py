"""A rig that somebody describes: what hangs on each end, part by part, and whether it may hang."""

from __future__ import annotations

import math
from collections import Counter
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from topheavy.catalogue.verdict import judge_chain
from topheavy.errors import BadInputError, NotInStockError
from topheavy.mechanics.rig import End, Rig
from topheavy.phrase import Amount, Phrase, Remark
from topheavy.rigging.limits import DESIGN_FACTOR, Limits

if TYPE_CHECKING:
    from collections.abc import Iterator

    from topheavy.catalogue.verdict import Job
    from topheavy.gym.stock import ChainPiece, Connector, Feeder, Stock
    from topheavy.mechanics.ground import Ground
    from topheavy.mechanics.hang import Hang
    from topheavy.rigging.fixtures import Fixture

UNNAMED_FEEDER: Final = "the feeder"
UNNAMED_CONNECTOR: Final = "the connector"
"""What parts are called that were described and not named."""

MOST_IMBALANCE_KG: Final = Limits().most_imbalance_kg
"""Difference between the ends [kg] that passes without a word: the search's own limit."""


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

    Raises
    ------
    BadInputError
        A piece that hangs twice.
    """

    bar_kg: float
    plates_kg: float
    left: tuple[Hanging, ...] = ()
    right: tuple[Hanging, ...] = ()

    def __post_init__(self) -> None:
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
    def rig(self) -> Rig:
        """The same as the mechanics know it."""
        left, right = (
            End(tuple(hang for hanging in end for hang in hanging.hangs))
            for end in (self.left, self.right)
        )
        return Rig(self.bar_kg, self.plates_kg, left, right)

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
    """Find what must come down: retired pieces, parts without a rating, parts overloaded.

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
    for piece in (*described.left_pieces, *described.right_pieces):
        if piece.retired:
            why = f"{literal(piece.tag)} is retired ({literal(piece.retired)}): take it down."
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


def literal(text: str) -> str:
    """Keep braces in a name from being taken for places of amounts."""
    return text.replace("{", "{{").replace("}", "}}")
