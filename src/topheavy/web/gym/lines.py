"""What stands on the stock page: each thing on a line, in the units that are shown."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Final

from topheavy.catalogue.verdict import judge_chain
from topheavy.present.figure import (
    density,
    fine_length,
    fine_mass,
    length,
    mass,
    plate_mark,
    sure_mass,
)
from topheavy.services.stock_check import left_out
from topheavy.web.gym.sheets import STOCK
from topheavy.web.gym.things import keys_in, tags_in

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from topheavy.gym.bands import Band
    from topheavy.gym.gym import Gym
    from topheavy.gym.stock import Bar, ChainPiece, Collar, Connector, Feeder, Plate
    from topheavy.units import UnitSystem

TITLES: Final = {
    "chain": "Chain",
    "feeder": "Feeders",
    "connector": "Connectors",
    "bar": "Bars",
    "collar": "Collars",
    "plate": "Plates",
    "band": "Bands",
}
ADDS: Final[dict[str, tuple[tuple[str, str], ...]]] = {
    "chain": (("", "Add chain"),),
    "feeder": (
        ("rings", "Add a feeder with rings"),
        ("strap", "Add a strap"),
        ("links", "Add light chain as a feeder"),
    ),
    "connector": (("", "Add a connector"),),
    "bar": (("", "Add a bar"),),
    "collar": (("", "Add collars"),),
    "plate": (("", "Add plates"),),
    "band": (("", "Add a band"),),
}
EMPTY: Final = {
    "chain": "No chain yet: two pieces alike are the least, one for each end.",
    "feeder": "No feeder yet: two alike let the chain hang folded, and come off twice as fast.",
    "connector": "No connector yet: two alike, with a rating on the metal.",
    "bar": "No bar yet. The first one is the usual one.",
    "collar": "No collars yet: never lift without.",
    "plate": "No plates yet.",
    "band": "No bands; nobody needs them.",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """A piece of chain: its tag, what it weighs, and why it is retired (empty: it is fit)."""

    tag: str
    mass: str
    retired: str
    inspected: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """One thing: its key, its title, facts of it, what is wrong with it, and pieces of chain."""

    key: str
    title: str
    facts: tuple[str, ...]
    notes: tuple[str, ...] = ()
    pieces: tuple[Piece, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Section:
    """A section of the stock."""

    name: str
    title: str
    lines: tuple[Line, ...]
    total: str
    empty: str
    adds: tuple[tuple[str, str], ...]


def stock_sections(gym: Gym, tables: Mapping[str, Any], units: UnitSystem) -> tuple[Section, ...]:
    """List a gym's stock, section by section.

    Parameters
    ----------
    gym : Gym
        The gym.
    tables : mapping
        The tables that it was made of.
    units : UnitSystem
        What is shown.
    """
    stock, shown = gym.stock, _Shown(units, _refused(gym))
    parts: dict[str, tuple[list[Any], Callable[[Any, str], Line]]] = {
        "chain": (_batches(gym, tables), shown.batch),
        "feeder": (list(stock.feeders), shown.feeder),
        "connector": (list(stock.connectors), shown.connector),
        "bar": (list(stock.bars), shown.bar),
        "collar": (list(stock.collars), shown.collar),
        "plate": (list(stock.plates), shown.plate),
        "band": (list(stock.bands), shown.band),
    }
    found = []
    for name in STOCK:
        things, line = parts[name]
        keys = keys_in(tables, name)
        found.append(
            Section(
                name=name,
                title=TITLES[name],
                lines=tuple(line(one, key) for one, key in zip(things, keys, strict=True)),
                total=_total(gym, name, units),
                empty=EMPTY[name],
                adds=ADDS[name],
            )
        )
    return tuple(found)


def _batches(gym: Gym, tables: Mapping[str, Any]) -> list[tuple[ChainPiece, ...]]:
    pieces = iter(gym.stock.chains)
    counts = [len(tags_in(table)) for table in tables.get("chain", [])]
    return [tuple(next(pieces) for _ in range(count)) for count in counts]


def _refused(gym: Gym) -> dict[str, list[str]]:
    """Why things may not hang, by what the search says of each: "feeder NAME", "chain TAG"."""
    found: dict[str, list[str]] = {}
    for note in left_out(gym):
        what, _, why = note.rpartition(": ")
        found.setdefault(what, []).append(why)
    return found


def _total(gym: Gym, name: str, units: UnitSystem) -> str:
    stock = gym.stock
    if name == "chain" and stock.chains:
        fit = stock.fit_chains
        all_kg = mass(units, sum(piece.chain.mass_kg for piece in fit)).text
        count = f"{len(fit)} pieces" if len(fit) != 1 else "1 piece"
        return f"{count} may hang, {all_kg} together"
    if name == "plate" and stock.plates:
        all_kg = mass(units, sum(plate.count * plate.mass_kg for plate in stock.plates)).text
        return f"{all_kg} together"
    return ""


@dataclass(frozen=True, slots=True)
class _Shown:
    """Things of each section as lines."""

    units: UnitSystem
    refused: Mapping[str, list[str]]

    def batch(self, pieces: tuple[ChainPiece, ...], key: str) -> Line:
        """Pieces of one table."""
        units, first = self.units, pieces[0]
        per_length = density(units, first.chain.density_kg_per_m, first.chain.density_u_kg_per_m)
        verdict = judge_chain(first.chain.density_kg_per_m, wire_diameter_m=first.wire_diameter_m)
        gain = mass(units, verdict.gain_per_piece_kg)
        count = f"{len(pieces)} pieces" if len(pieces) > 1 else "1 piece"
        grade = f"grade {first.grade}" if first.grade else "unmarked, counts as grade 30"
        alone = [why for piece in pieces for why in self.refused.get(f"chain {piece.tag}", [])]
        return Line(
            key=key,
            title=f"{first.size}, {first.chain.links} links",
            facts=(
                f"{count}, {length(units, first.chain.length_m)} long, {grade}",
                f"{per_length} ({first.chain.known_by})",
                f"{verdict.judgement}: a piece a side adds {gain} over a bench press",
            ),
            notes=tuple(dict.fromkeys(why for why in alone if not why.startswith("retired"))),
            pieces=tuple(
                Piece(
                    tag=piece.tag,
                    mass=sure_mass(units, piece.chain.mass_kg, piece.mass_u_kg).text,
                    retired=piece.retired,
                    inspected=piece.inspected_on,
                )
                for piece in pieces
            ),
        )

    def feeder(self, feeder: Feeder, key: str) -> Line:
        """A kind of feeder."""
        first, last = feeder.settings[0], feeder.settings[-1]
        units = self.units
        reach = f"{length(units, first.length_m)} to {length(units, last.length_m)}"
        return Line(
            key=key,
            title=feeder.name,
            facts=(
                f"{feeder.count} of them, {len(feeder.settings)} settings, {reach}",
                self._rated(feeder.rating_kg),
            ),
            notes=tuple(self.refused.get(f"feeder {feeder.name}", ())),
        )

    def connector(self, connector: Connector, key: str) -> Line:
        """A kind of connector."""
        units = self.units
        size = f"{fine_mass(units, connector.mass_kg)}, {fine_length(units, connector.length_m)}"
        return Line(
            key=key,
            title=connector.name,
            facts=(f"{connector.count} of them, {size} inside", self._rated(connector.rating_kg)),
            notes=tuple(self.refused.get(f"connector {connector.name}", ())),
        )

    def bar(self, bar: Bar, key: str) -> Line:
        """A bar."""
        units = self.units
        sleeve = f"sleeve {length(units, bar.sleeve_m)}"
        return Line(key=key, title=bar.name, facts=(f"{mass(units, bar.mass_kg)}, {sleeve}",))

    def collar(self, collar: Collar, key: str) -> Line:
        """A kind of collar."""
        units = self.units
        one = f"{mass(units, collar.mass_kg)} each, {length(units, collar.width_m)} wide"
        return Line(key=key, title=collar.name, facts=(f"{collar.count} of them, {one}",))

    def plate(self, plate: Plate, key: str) -> Line:
        """A size of plate."""
        units = self.units
        across = f"{length(units, plate.diameter_m)} across"
        facts = f"{plate.count} of them, {fine_length(units, plate.width_m)} wide, {across}"
        return Line(key=key, title=plate_mark(plate.mass_kg), facts=(facts,))

    def band(self, band: Band, key: str) -> Line:
        """A band."""
        on = f", read on {band.measured_on}" if band.measured_on else ""
        return Line(
            key=key,
            title=band.tag,
            facts=(f"{length(self.units, band.rest_m)} at rest{on}",),
            notes=tuple(self.refused.get(f"band {band.tag}", ())),
        )

    def _rated(self, rating_kg: float | None) -> str:
        if rating_kg is None:
            return "no rating marked: it will not be hung"
        return f"rated for {self.units.mass(rating_kg, 0)}"
