"""What a weighing offers to the gym: kg/m of chain nobody weighed, and lengths of feeders."""

from __future__ import annotations

import copy
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Final

from topheavy.present.figure import density, length
from topheavy.services.described import UNNAMED_FEEDER
from topheavy.web.gym.things import called, keys_in, place_of_thing, tags_in, thing

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from topheavy.asked.described import Told
    from topheavy.services.weighing.weigh import Weighing
    from topheavy.units import UnitSystem
    from topheavy.web.gym.things import Tables

_TOLD: Final = {"scale", "both"}
"""A number is offered when the readings say at least as much of it as was known before."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Offer:
    """One number that the gym may take over.

    Parameters
    ----------
    key : str
        Its name in the form.
    section, thing : str
        Whose number it is.
    table_key : str
        Where it is written: ``"density"`` or ``"rings"``.
    place : int
        Which ring, from 0; 0 for a density.
    text : str
        What is written.
    now, then : str
        In words: as it stands, and as the scale has it.
    note : str
        For the history.
    """

    key: str
    section: str
    thing: str
    table_key: str
    place: int
    text: str
    now: str
    then: str
    note: str


@dataclass(frozen=True, slots=True)
class TakeOver:
    """Write offered numbers into the gym."""

    offers: tuple[Offer, ...]

    def look(self, tables: Mapping[str, Any]) -> Any:
        """The things whose numbers change."""
        return [
            tables[one.section][keys_in(tables, one.section).index(one.thing)]
            for one in self.offers
            if one.thing in keys_in(tables, one.section)
        ]

    def make(self, tables: Mapping[str, Any]) -> Tables:
        """Make the change."""
        found = copy.deepcopy(dict(tables))
        for one in self.offers:
            table = found[one.section][place_of_thing(found, one.section, one.thing)]
            if one.table_key == "density":
                table["density"] = one.text
            else:
                table[one.table_key][one.place] = one.text
        return found


def offers_of(
    answer: Weighing, told: Told, tables: Mapping[str, Any], units: UnitSystem
) -> tuple[Offer, ...]:
    """List what a weighing tells better than the gym knew; nothing while readings can't be trusted.

    Parameters
    ----------
    answer : Weighing
        What the scale said.
    told : Told
        The rig that hung.
    tables : mapping
        The gym's.
    units : UnitSystem
        What is shown.
    """
    if answer.outcome in {"unexplained", "causes", "cause"}:
        return ()
    return (*_chain(answer, told, tables, units), *_feeder(answer, told, tables, units))


def _chain(
    answer: Weighing, told: Told, tables: Mapping[str, Any], units: UnitSystem
) -> Iterator[Offer]:
    """Chain that was on no scale: its mass per length."""
    number = answer.fit.number("chain")
    if number is None or number.known_from not in _TOLD:
        return
    pieces = (*told.described.left_pieces, *told.described.right_pieces)
    hung = {piece.tag: piece for piece in pieces}
    for table in tables.get("chain", []):
        own = [hung[tag] for tag in tags_in(table) if tag in hung]
        if not own or any(piece.weighed for piece in own) or table.get("weighed"):
            continue
        key, now = called("chain", table), own[0].chain.density_kg_per_m
        then, then_u = number.scaled(now)
        words = density(units, then, then_u).text
        yield Offer(
            key=f"chain.{key}",
            section="chain",
            thing=key,
            table_key="density",
            place=0,
            text=f"{then:.3f} kg/m",
            now=f"{own[0].size} chain, {key} and its like: {density(units, now)}",
            then=words,
            note=f"{key} and its like weigh {words}",
        )


def _feeder(
    answer: Weighing, told: Told, tables: Mapping[str, Any], units: UnitSystem
) -> Iterator[Offer]:
    """A ring whose working length the readings tell apart from the pile."""
    number = answer.fit.number("feeder")
    if number is None or number.known_from not in _TOLD or not answer.fit.separable:
        return
    fixtures = {hanging.fixture for hanging in told.described.hangings}
    if len(fixtures) != 1:
        return
    held = fixtures.pop()
    if held.feeder is None or held.setting is None or held.feeder.name == UNNAMED_FEEDER:
        return
    key = held.feeder.name
    table = thing(tables, "feeder", key)
    if table is None or table.get("form") != "rings":
        return
    labels = table.get("labels") or [f"ring {n + 1}" for n in range(len(table["rings"]))]
    place = labels.index(held.setting.label)
    then_m = held.setting.length_m + number.value - number.stated
    words = length(units, then_m, number.u).text
    yield Offer(
        key=f"feeder.{key}",
        section="feeder",
        thing=key,
        table_key="rings",
        place=place,
        text=f"{100 * then_m:.1f} cm",
        now=f"{key}, {held.setting.label}: {length(units, held.setting.length_m)}",
        then=words,
        note=f"{key}, {held.setting.label} is {words}",
    )
