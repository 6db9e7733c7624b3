"""What a gym has, what of it can't be used and why, and what it lacks for its own lifters."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from topheavy.catalogue.verdict import judge_chain
from topheavy.errors import TopheavyError
from topheavy.gym.lifts import LIFTS
from topheavy.phrase import Amount, Phrase, literal

if TYPE_CHECKING:
    from collections.abc import Iterator

    from topheavy.gym.gym import Gym
    from topheavy.gym.stock import ChainPiece

_USABLE_TWICE = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class ChainKind:
    """Pieces that are alike: same size, links and pitch.

    Parameters
    ----------
    pieces : tuple of ChainPiece
        At least one; retired ones are among them.
    """

    pieces: tuple[ChainPiece, ...]

    @property
    def fit(self) -> tuple[ChainPiece, ...]:
        """Those that may hang."""
        return tuple(piece for piece in self.pieces if not piece.retired)

    @property
    def counted(self) -> tuple[ChainPiece, ...]:
        """Those whose mass counts: what may hang, or all when nothing may."""
        return self.fit or self.pieces

    @property
    def mass_kg(self) -> float:
        """Mean mass of a piece that counts [kg]."""
        return sum(piece.chain.mass_kg for piece in self.counted) / len(self.counted)

    @property
    def mass_u_kg(self) -> float:
        """Standard uncertainty of one piece's mass [kg]: the largest of them."""
        return max(piece.mass_u_kg for piece in self.counted)


@dataclass(frozen=True, slots=True, kw_only=True)
class GymCheck:
    """A gym looked over.

    Parameters
    ----------
    gym : Gym
        What was read.
    kinds : tuple of ChainKind
        Its chain, alike pieces together.
    left_out : tuple of str
        Parts that no rig may use, and why.
    remarks : tuple of Phrase
        What is poor or missing, though the file is right.
    """

    gym: Gym
    kinds: tuple[ChainKind, ...]
    left_out: tuple[str, ...]
    remarks: tuple[Phrase, ...]


def check_gym(gym: Gym) -> GymCheck:
    """Look a gym over.

    Examples
    --------
    >>> from topheavy.gym.gym import Gym
    >>> [remark.say() for remark in check_gym(Gym(name="The Barn")).remarks][0]
    'No two chain pieces alike that may hang: nothing can be hung on both ends.'
    """
    kinds: dict[object, list[ChainPiece]] = {}
    for piece in gym.stock.chains:
        kinds.setdefault(piece.kind, []).append(piece)
    return GymCheck(
        gym=gym,
        kinds=tuple(ChainKind(pieces=tuple(pieces)) for pieces in kinds.values()),
        left_out=left_out(gym),
        remarks=(*_missing(gym), *_thin(gym), *_short_feeders(gym), *_heights(gym)),
    )


def left_out(gym: Gym) -> tuple[str, ...]:
    """List the parts that a search refuses, and why."""
    stock = gym.stock
    notes = [f"chain {p.tag}: retired ({p.retired})" for p in stock.chains if p.retired]
    notes += [f"band {band.tag}: retired ({band.retired})" for band in stock.bands if band.retired]
    for what, things in (("feeder", stock.feeders), ("connector", stock.connectors)):
        notes += [f"{what} {t.name}: no rating marked" for t in things if t.rating_kg is None]
        notes += [
            f"{what} {t.name}: only one, two alike are needed"
            for t in things
            if t.count < _USABLE_TWICE
        ]
    tags: dict[object, list[str]] = {}
    for piece in stock.fit_chains:
        tags.setdefault(piece.kind, []).append(piece.tag)
    notes += [f"chain {t[0]}: no other piece is like it" for t in tags.values() if len(t) == 1]
    return tuple(notes)


def _missing(gym: Gym) -> Iterator[Phrase]:
    """Whatever a rig can't do without."""
    stock = gym.stock
    kinds = [piece.kind for piece in stock.fit_chains]
    if not any(kinds.count(kind) >= _USABLE_TWICE for kind in kinds):
        yield Phrase("No two chain pieces alike that may hang: nothing can be hung on both ends.")
    for what, things in (("feeders", stock.feeders), ("connectors", stock.connectors)):
        if not any(t.rating_kg is not None and t.count >= _USABLE_TWICE for t in things):
            yield Phrase(f"No two rated {what} alike: chain can't be hung folded.")
    if not stock.bars:
        yield Phrase("No bar.")
    if not any(collar.count >= _USABLE_TWICE for collar in stock.collars):
        yield Phrase("No pair of collars: never lift without.")
    if not stock.plates:
        yield Phrase("No plates.")
    if not gym.stations:
        yield Phrase("No station: a bench, rack or platform is needed for a lift.")
    if not gym.lifters:
        yield Phrase("No lifter: bottom and top heights decide the feeder.")


def _thin(gym: Gym) -> Iterator[Phrase]:
    seen: set[str] = set()
    for piece in gym.stock.fit_chains:
        density_kg_per_m, wire_m = piece.chain.density_kg_per_m, piece.wire_diameter_m
        verdict = judge_chain(density_kg_per_m, wire_diameter_m=wire_m)
        if verdict.judgement == "too thin" and piece.size not in seen:
            seen.add(piece.size)
            gain = Amount(verdict.gain_per_piece_kg, "mass")
            yield Phrase(
                f"{literal(piece.size)} chain is too thin to matter: a piece a side adds {{}} "
                "over a bench press.",
                (gain,),
            )


def _short_feeders(gym: Gym) -> Iterator[Phrase]:
    """Lifts whose fold no feeder lowers to the floor at the bottom."""
    stock = gym.stock
    feeders = [f for f in stock.feeders if f.count >= _USABLE_TWICE and f.rating_kg is not None]
    connectors = [
        c for c in stock.connectors if c.count >= _USABLE_TWICE and c.rating_kg is not None
    ]
    if not feeders or not connectors:
        return
    longest_m = max(f.settings[-1].length_m for f in feeders)
    longest_m += max(c.length_m for c in connectors)
    for lifter in gym.lifters:
        for name, measured in lifter.lifts.items():
            try:
                station = gym.station(measured.station or gym.station_for(LIFTS[name]).name)
            except TopheavyError:
                continue
            above_m = measured.travel.bottom_m - station.surface_m
            if above_m > longest_m:
                yield Phrase(
                    f"{literal(lifter.name)}, {name}: at the bottom the fold hangs {{}} above "
                    "the floor on the longest feeder, so the chain never comes off whole.",
                    (Amount(above_m - longest_m, "length"),),
                )


def _heights(gym: Gym) -> Iterator[Phrase]:
    """Lifts that are measured but can't be done here."""
    kinds = {station.kind for station in gym.stations}
    for lifter in gym.lifters:
        for name in lifter.lifts:
            kind = LIFTS[name].station
            if kind not in kinds:
                yield Phrase(
                    f"{literal(lifter.name)}, {name}: needs a {kind}, and this gym lists none."
                )
