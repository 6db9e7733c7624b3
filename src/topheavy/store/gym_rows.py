"""A gym as rows, and rows as the tables of a gym file."""

from __future__ import annotations

import hashlib
import json
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any, Final

from topheavy.gym.lifts import lift_named
from topheavy.gymfile.write import SECTIONS

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from topheavy.gym.gym import Gym
    from topheavy.gym.people import Measured
    from topheavy.gym.stock import ChainPiece

RECORDS: Final = ("sets", "isometrics", "misses", "hung", "speeds")
"""What a lift of the gym file has of records."""


@dataclass(frozen=True, slots=True)
class Row:
    """A row of a thing: its key, its place, its table as written, and its columns."""

    kind: str
    key: str
    place: int
    written: dict[str, Any]
    columns: dict[str, Any] = field(default_factory=dict)


def rows_of(tables: Mapping[str, Any], gym: Gym) -> list[Row]:
    """Take a gym apart.

    Parameters
    ----------
    tables : mapping
        As parsed from its file.
    gym : Gym
        Made of the same tables; the columns come from it.
    """
    rows = [*_chain(tables, gym), *_people(tables, gym)]
    stock = gym.stock
    for kind, things in (
        ("feeder", stock.feeders),
        ("connector", stock.connectors),
        ("bar", stock.bars),
        ("collar", stock.collars),
        ("band", stock.bands),
        ("station", gym.stations),
    ):
        for place, (table, thing) in enumerate(zip(tables.get(kind, []), things, strict=True)):
            key = str(getattr(thing, "tag", None) or getattr(thing, "name", "")).casefold()
            rows.append(Row(kind, key, place, table, _columns(thing, _COLUMNS[kind])))
    rows += [*_plates(tables, gym), *_care(tables)]
    return rows


def tables_of(head: dict[str, Any], rows: Sequence[Row]) -> dict[str, Any]:
    """Put the tables of a gym file together again, everything in its place."""
    found: dict[str, Any] = {"gym": head}
    by_kind: dict[str, list[Row]] = {}
    for row in sorted(rows, key=lambda row: row.place):
        by_kind.setdefault(row.kind, []).append(row)
    for section in SECTIONS:
        if section != "lifter" and section in by_kind:
            found[section] = [row.written for row in by_kind[section]]
    lifts: dict[str, dict[str, Any]] = {}
    lift_tables: dict[str, dict[str, Any]] = {}
    for row in by_kind.get("lift", []):
        lift_tables[row.key] = {**row.written}
        lifts.setdefault(row.columns["lifter"], {})[row.columns["name"]] = lift_tables[row.key]
    for row in by_kind.get("record", []):
        lift_tables[row.columns["lift"]].setdefault(row.columns["kind"], []).append(row.written)
    if "lifter" in by_kind:
        found["lifter"] = [
            {**row.written, **({"lifts": lifts[row.key]} if row.key in lifts else {})}
            for row in by_kind["lifter"]
        ]
    return found


_COLUMNS: Final[dict[str, tuple[str, ...]]] = {
    "feeder": ("name", "form", "count", "whole_m", "density_kg_per_m", "rating_kg"),
    "connector": ("name", "count", "mass_kg", "length_m", "rating_kg"),
    "bar": ("name", "mass_kg", "sleeve_m"),
    "collar": ("name", "count", "mass_kg", "width_m"),
    "plate": ("count", "mass_kg", "width_m", "diameter_m"),
    "band": ("tag", "rest_m", "measured_on", "retired"),
    "station": ("name", "kind", "surface_m", "pad_m", "bar"),
}


def _columns(thing: object, names: Sequence[str]) -> dict[str, Any]:
    return {name: _stored(getattr(thing, name)) for name in names}


def _stored(value: Any) -> Any:
    """A value as every database takes it; the file's own is kept whole in its table."""
    return value.replace("\x00", "") if isinstance(value, str) else value


def _chain(tables: Mapping[str, Any], gym: Gym) -> Iterator[Row]:
    """Batches by the tag of their first piece, and every piece."""
    pieces = enumerate(gym.stock.chains)
    for place, table in enumerate(tables.get("chain", [])):
        batch = [next(pieces) for _ in range(_count(table))]
        key = batch[0][1].tag.casefold()
        yield Row("chain", key, place, table)
        yield from (_piece(key, number, piece) for number, piece in batch)


def _count(table: Mapping[str, Any]) -> int:
    return len(table["tags"]) if "tags" in table else int(table.get("count", 1))


def _piece(batch: str, place: int, piece: ChainPiece) -> Row:
    chain = piece.chain
    columns = {
        **_columns(piece, ("tag", "size", "grade", "weighed", "retired", "mass_u_kg")),
        "batch": batch,
        "links": chain.links,
        "wire_m": piece.wire_diameter_m,
        "pitch_m": chain.pitch_m,
        "mass_kg": chain.mass_kg,
    }
    return Row("piece", piece.tag.casefold(), place, {}, columns)


def _care(tables: Mapping[str, Any]) -> Iterator[Row]:
    """Inspections and weighings, each known by what it says."""
    for kind in ("inspection", "weighing"):
        seen: dict[str, int] = {}
        for place, table in enumerate(tables.get(kind, [])):
            digest = _digest(table)
            seen[digest] = seen.get(digest, 0) + 1
            columns = {
                "day": table["day"],
                "tags": ", ".join(table["tags"]),
                "by": _stored(table.get("by", "")),
            }
            yield Row(kind, f"{digest}#{seen[digest]}", place, table, columns)


def _digest(table: Mapping[str, Any]) -> str:
    text = json.dumps(table, sort_keys=True).encode()
    return hashlib.sha256(text).hexdigest()[:16]


def _plates(tables: Mapping[str, Any], gym: Gym) -> Iterator[Row]:
    """Plates have no names: their mass as written, and which of them it is."""
    seen: dict[str, int] = {}
    plates = zip(tables.get("plate", []), gym.stock.plates, strict=True)
    for place, (table, plate) in enumerate(plates):
        mass = str(table["mass"])
        seen[mass] = seen.get(mass, 0) + 1
        columns = _columns(plate, _COLUMNS["plate"])
        yield Row("plate", f"{_stored(mass)}#{seen[mass]}", place, table, columns)


def _people(tables: Mapping[str, Any], gym: Gym) -> Iterator[Row]:
    number = 0
    for place, table in enumerate(tables.get("lifter", [])):
        lifter = gym.lifters[place]
        who = lifter.name.casefold()
        head = {key: value for key, value in table.items() if key != "lifts"}
        yield Row("lifter", who, place, head, {"name": lifter.name})
        for name, lift in table.get("lifts", {}).items():
            known = lift_named(name).name
            yield from _lift(who, f"{who}/{known}", name, number, lift, lifter.lifts[known])
            number += 1


def _lift(
    who: str, key: str, name: str, place: int, table: Mapping[str, Any], measured: Measured
) -> Iterator[Row]:
    head = {name: value for name, value in table.items() if name not in RECORDS}
    travel = measured.travel
    columns = {
        "lifter": who,
        "name": name,
        "bottom_m": travel.bottom_m,
        "top_m": travel.top_m,
        "height_u_m": travel.height_u_m,
        "station": measured.station,
        "best_kg": measured.best_kg,
    }
    yield Row("lift", key, place, head, columns)
    seen: dict[str, int] = {}
    for kind in RECORDS:
        for index, record in enumerate(table.get(kind, [])):
            digest = f"{kind}/{_digest(record)}"
            seen[digest] = seen.get(digest, 0) + 1
            about = {"lift": key, "kind": kind, "day": str(record.get("day", ""))}
            yield Row("record", f"{key}/{digest}#{seen[digest]}", index, record, about)
