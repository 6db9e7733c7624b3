"""What to buy as one frozen view, for terminal and JSON."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from topheavy.catalogue.verdict import Job, judge_chain
from topheavy.present.figure import Figure, mass
from topheavy.room.hung import pair_kinds

if TYPE_CHECKING:
    from collections.abc import Sequence

    from topheavy.room.ask import Room
    from topheavy.room.basket import Basket
    from topheavy.room.buying import Bought
    from topheavy.room.shelf import Shelf
    from topheavy.units import UnitSystem


_HUNDRED: Final = 10_000
_BANDS: Final = (
    "Bands that are called alike pull unalike: read each that you get, over the whole stretch, and "
    "plan with what you read."
)
_RATINGS: Final = (
    "Read the rating off each part. Grades 30, 43 and 70 are not for overhead lifting (ASTM A413)."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """One line of the shopping list."""

    what: str
    how_many: int
    each: Figure | None


@dataclass(frozen=True, slots=True, kw_only=True)
class CutLine:
    """One length as sold: what is cut from it, and links left over."""

    name: str
    cut: str
    left_over: int


@dataclass(frozen=True, slots=True, kw_only=True)
class StepLine:
    """What a sum of money makes possible beyond the sums before: up to how much, how much of it."""

    up_to: str
    money: str
    lifts: int
    what: str
    more: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnedLine:
    """Chain already owned, and what it is good for in the lifts asked for."""

    chain: str
    pieces: int
    verdict: str


@dataclass(frozen=True, slots=True, kw_only=True)
class BuyView:
    """Everything a coach sees of what to buy."""

    title: str
    verdict: str
    cost: str
    proven: bool
    lines: tuple[Line, ...]
    cuts: tuple[CutLine, ...]
    steps: tuple[StepLine, ...]
    now: tuple[str, ...]
    then: tuple[str, ...]
    hopeless: tuple[str, ...]
    owned: tuple[OwnedLine, ...]
    left_out: tuple[str, ...]
    notes: tuple[str, ...]


def view_buying(room: Room, shelf: Shelf, bought: Bought, units: UnitSystem) -> BuyView:
    """Put what to buy into words and figures.

    Parameters
    ----------
    room, shelf : Room, Shelf
        What was asked.
    bought : Bought
        From `topheavy.room.buying.buy`.
    units : UnitSystem
        What the user wants to see.
    """
    basket = bought.basket
    names = [booking.name for booking in room.bookings]
    return BuyView(
        title=f"{room.gym.name}: what {room.name} needs",
        verdict=_verdict(room, shelf, bought),
        cost=money(shelf, basket.cost) if basket else "",
        proven=bought.proven,
        lines=_lines(shelf, basket, units) if basket else (),
        cuts=_cuts(basket) if basket else (),
        steps=_steps(room, shelf, bought),
        now=tuple(names[n] for n in bought.now),
        then=tuple(names[n] for n in basket.possible if n not in bought.now) if basket else (),
        hopeless=tuple(names[n] for n in bought.hopeless),
        owned=_owned(room),
        left_out=tuple(
            f"{name}, {links} links: a piece of it is heavier than "
            f"{units.mass(shelf.most_carried_kg)}."
            for name, links in bought.too_heavy
        ),
        notes=(
            "Each lift by itself: whether all can lift at the same time, topheavy room says.",
            "Loads of chain that nobody weighed are uncertain by 5 % or so: weigh what you buy.",
            _RATINGS,
            *((_BANDS,) if basket and basket.bands else ()),
        ),
    )


def money(shelf: Shelf, hundredths: int) -> str:
    """Say a sum, such as ``84.00 EUR``."""
    return f"{hundredths / 100:.2f} {shelf.currency}"


def _verdict(room: Room, shelf: Shelf, bought: Bought) -> str:
    number, basket = len(room.bookings), bought.basket
    if basket is None and len(bought.now) == number:
        lifts = "the lift" if number == 1 else f"all {number} lifts"
        return f"Nothing: {lifts} can be rigged with what you own."
    if basket is None:
        return f"{len(bought.now)} of {number} lifts can be rigged; nothing on offer adds to them."
    proven = "proven cheapest" if bought.proven else "the cheapest found, not proven"
    return (
        f"{money(shelf, basket.cost)} make {len(basket.possible)} of {number} lifts possible "
        f"({len(bought.now)} now): {proven}."
    )


def _lines(shelf: Shelf, basket: Basket, units: UnitSystem) -> tuple[Line, ...]:
    offers = {offer.name: offer for offer in shelf.chains}
    chain = [
        Line(
            what=f"pieces of {links} links, {offers[name].size} chain ({name})",
            how_many=count,
            each=mass(units, offers[name].chain(links).mass_kg),
        )
        for name, links, count in basket.pieces
    ]
    parts = [
        Line(what=name, how_many=count, each=None)
        for name, count in (*basket.feeders, *basket.connectors)
    ]
    bands = [
        Line(what=f"bands ({name})", how_many=count, each=None) for name, count in basket.bands
    ]
    return (*chain, *parts, *bands)


def _cuts(basket: Basket) -> tuple[CutLine, ...]:
    return tuple(
        CutLine(
            name=one.name,
            cut=" + ".join(
                f"{count} x {links} links" for links, count in Counter(one.pieces).items()
            ),
            left_over=one.left_over,
        )
        for one in basket.lengths
    )


def _steps(room: Room, shelf: Shelf, bought: Bought) -> tuple[StepLine, ...]:
    """What each hundred more buys: the best for so much money, where that is more than before."""
    before: Sequence[int] = bought.now
    hundreds: dict[int, Basket] = {}
    for one in bought.steps:
        hundreds[-(-one.cost // _HUNDRED)] = one
    found = []
    for hundred, step in hundreds.items():
        more = [room.bookings[n].name for n in step.possible if n not in before]
        pieces = [f"{count} x {links} links ({name})" for name, links, count in step.pieces]
        parts = [
            f"{count} {name}" for name, count in (*step.feeders, *step.connectors, *step.bands)
        ]
        found.append(
            StepLine(
                up_to=f"{100 * hundred} {shelf.currency}",
                money=money(shelf, step.cost),
                lifts=len(step.possible),
                what=", ".join([*pieces, *parts]),
                more=tuple(more),
            )
        )
        before = step.possible
    return tuple(found)


def _owned(room: Room) -> tuple[OwnedLine, ...]:
    """The plain verdict on chain already owned, for the longest travel and the best asked of it."""
    travels = [booking.lifter.measured(booking.lift).travel.travel_m for booking in room.bookings]
    bests = [booking.lifter.measured(booking.lift).best_kg for booking in room.bookings]
    job = Job(travel_m=max(travels), best_kg=max((b for b in bests if b), default=None))
    return tuple(
        OwnedLine(
            chain=kind.name,
            pieces=2 * len(kind.pairs),
            verdict=judge_chain(
                kind.pairs[0].left.chain.density_kg_per_m,
                job,
                wire_diameter_m=kind.pairs[0].left.wire_diameter_m,
            ).judgement,
        )
        for kind in pair_kinds(room.in_use.stock.chains)
    )
