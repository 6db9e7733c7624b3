"""The things in a gym's tables: what each is called, and tables with one of them changed."""

from __future__ import annotations

import copy
from typing import TYPE_CHECKING, Any, Final

from topheavy.errors import NotInStockError

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from topheavy.web.gym.sheets import Sheet

Tables = dict[str, Any]
"""The tables of a gym file."""


def called(section: str, table: Mapping[str, Any]) -> str:
    """What a thing is called: the first tag of a batch, a plate's mass, else its name.

    >>> called("chain", {"tags": ["A1", "A2"]}), called("chain", {"prefix": "B", "count": 2})
    ('A1', 'B1')
    """
    if section == "chain":
        tags = table.get("tags")
        first = tags[0] if isinstance(tags, list) and tags else f"{table.get('prefix')}1"
        return str(table.get("tag") or first)
    return str(table.get({"band": "tag", "plate": "mass"}.get(section, "name"), ""))


def keys_in(tables: Mapping[str, Any], section: str) -> list[str]:
    """What each thing of a section is called; alike ones are numbered from the second on."""
    seen: dict[str, int] = {}
    found = []
    for table in tables.get(section, []):
        name = called(section, table)
        seen[name] = seen.get(name, 0) + 1
        found.append(name if seen[name] == 1 else f"{name} #{seen[name]}")
    return found


def place_of_thing(tables: Mapping[str, Any], section: str, key: str) -> int:
    """Find a thing's place among its section's tables, or raise NotInStockError."""
    known = keys_in(tables, section)
    if key not in known:
        raise NotInStockError(
            f"There is no such {section} here any more",
            field=section,
            got=repr(key),
            wanted=f"one of {', '.join(known)}" if known else f"a {section}, added first",
        )
    return known.index(key)


def thing(tables: Mapping[str, Any], section: str, key: str) -> dict[str, Any] | None:
    """A thing's table, or None when there is none."""
    known = keys_in(tables, section)
    return tables[section][known.index(key)] if key in known else None


def with_thing(
    tables: Mapping[str, Any], section: str, key: str, table: dict[str, Any]
) -> tuple[Tables, int]:
    """Put a thing in: in the place of the one that is called `key`, or at the end when empty.

    Where it was renamed, what spoke of it by its name follows.

    Returns
    -------
    tables, place : dict, int
        New tables, and where the thing is.
    """
    found = copy.deepcopy(dict(tables))
    if not key:
        found[section] = [*found.get(section, []), table]
        return found, len(found[section]) - 1
    place = place_of_thing(tables, section, key)
    found[section][place] = table
    if section == "chain":
        _follow_tags(found, _moves(tags_in(tables[section][place]), tags_in(table)))
    old, new = called(section, tables[section][place]), called(section, table)
    if old != new and section in _FOLLOW:
        _FOLLOW[section](found, old, new)
    return found, place


def without_thing(tables: Mapping[str, Any], section: str, key: str) -> Tables:
    """Take a thing out; what was written down of pieces that go, goes with them."""
    found = copy.deepcopy(dict(tables))
    place = place_of_thing(tables, section, key)
    if section == "chain":
        _follow_tags(found, _moves(tags_in(found[section][place]), []))
    del found[section][place]
    if not found[section]:
        del found[section]
    return found


def lift_of(tables: Mapping[str, Any], lifter: str, lift: str) -> dict[str, Any] | None:
    """A lifter's lift as written, or None when it was not measured."""
    table = thing(tables, "lifter", lifter) or {}
    found: dict[str, Any] | None = table.get("lifts", {}).get(lift)
    return found


def with_lift(
    tables: Mapping[str, Any], lifter: str, lift: str, table: dict[str, Any] | None
) -> tuple[Tables, int]:
    """Put a lift of a lifter in, or take it out when there is no table."""
    place = place_of_thing(tables, "lifter", lifter)
    found = copy.deepcopy(dict(tables))
    who = found["lifter"][place]
    lifts = {**who.get("lifts", {})}
    if table is None:
        lifts.pop(lift, None)
    else:
        lifts[lift] = table
    found["lifter"][place] = {key: value for key, value in who.items() if key != "lifts"}
    if lifts:
        found["lifter"][place]["lifts"] = lifts
    return found, place


def with_piece_apart(
    tables: Mapping[str, Any], tag: str, changes: Mapping[str, Any]
) -> tuple[Tables, int]:
    """Take a piece of chain out of its batch and write something on it alone.

    Parameters
    ----------
    tables : mapping
        The gym's.
    tag : str
        The piece's.
    changes : mapping
        What to write on it; None takes a key away.

    Returns
    -------
    tables, place : dict, int
        New tables, and where the piece's own table is.
    """
    chains = tables.get("chain", [])
    place = next((at for at, table in enumerate(chains) if tag in tags_in(table)), None)
    if place is None:
        raise NotInStockError("There is no such piece here any more", field="tag", got=repr(tag))
    table, tags = chains[place], tags_in(chains[place])
    found = copy.deepcopy(dict(tables))
    own = _alone(table, tags, tag)
    own |= {key: value for key, value in changes.items() if value is not None}
    own = {key: value for key, value in own.items() if changes.get(key, "") is not None}
    if len(tags) == 1:
        found["chain"][place] = own
        return found, place
    found["chain"][place] = _rest(table, tags, tag)
    found["chain"].insert(place + 1, own)
    return found, place + 1


def tags_in(table: Mapping[str, Any]) -> list[str]:
    """Tags of the pieces of a chain table, counted ones too.

    >>> tags_in({"prefix": "B", "count": 2}), tags_in({"tag": "A9"})
    (['B1', 'B2'], ['A9'])
    """
    if "tag" in table:
        return [str(table["tag"])]
    if "tags" in table:
        return [str(tag) for tag in table["tags"]]
    return [f"{table.get('prefix')}{number + 1}" for number in range(int(table.get("count", 0)))]


def _alone(table: Mapping[str, Any], tags: list[str], tag: str) -> dict[str, Any]:
    own = {k: v for k, v in table.items() if k not in {"tags", "count", "prefix", "tag"}}
    weighed = table.get("weighed")
    if isinstance(weighed, list):
        own["weighed"] = weighed[tags.index(tag)]
    if len(tags) > 1:
        # One piece can't split equally.
        own.pop("matched", None)
    return {"tag": tag, **own}


def _rest(table: Mapping[str, Any], tags: list[str], tag: str) -> dict[str, Any]:
    left = [one for one in tags if one != tag]
    rest = {k: v for k, v in table.items() if k not in {"tags", "count", "prefix"}}
    weighed = table.get("weighed")
    if isinstance(weighed, list):
        rest["weighed"] = [one for name, one in zip(tags, weighed, strict=True) if name != tag]
    if len(left) % 2:
        # An odd batch can't split equally; its pieces are matched one by one all the same.
        rest.pop("matched", None)
    return {"tags": left, **rest}


def _moves(old: list[str], new: list[str]) -> dict[str, str]:
    """What became of each tag of a batch: another name, or nothing (empty)."""
    renamed = len(old) == len(new) and not set(old) & set(new)
    if renamed:
        return dict(zip(old, new, strict=True))
    gone, come = (
        [one for one in own if one not in other] for own, other in ((old, new), (new, old))
    )
    if len(old) == len(new) and len(gone) == len(come):
        return dict(zip(gone, come, strict=True))
    return dict.fromkeys(gone, "")


def _follow_tags(tables: Tables, moves: Mapping[str, str]) -> None:
    """Carry renamed and removed tags into what was written down of the pieces."""
    if not moves:
        return
    for section in ("inspection", "weighing"):
        entries = [_moved(entry, moves) for entry in tables.get(section, [])]
        kept = [entry for entry in entries if entry["tags"]]
        if section in tables:
            tables[section] = kept
        if not kept:
            tables.pop(section, None)
    for lifter in tables.get("lifter", []):
        for lift in lifter.get("lifts", {}).values():
            for hung in _hung_in(lift):
                for side in ("left", "right"):
                    if side in hung:
                        hung[side] = [moves.get(tag) or tag for tag in hung[side]]


def _moved(entry: dict[str, Any], moves: Mapping[str, str]) -> dict[str, Any]:
    tags = [moves.get(tag, tag) for tag in entry["tags"]]
    moved = {**entry, "tags": [tag for tag in tags if tag]}
    masses = entry.get("masses")
    if isinstance(masses, list):
        moved["masses"] = [one for tag, one in zip(tags, masses, strict=True) if tag]
    return moved


def _hung_in(lift: Mapping[str, Any]) -> list[dict[str, Any]]:
    """What hung, in every record of a lift that says so."""
    found = [record["hung"] for record in lift.get("misses", []) if "hung" in record]
    return [*found, *lift.get("hung", [])]


def _follow_bar(tables: Tables, old: str, new: str) -> None:
    for station in tables.get("station", []):
        if station.get("bar") == old:
            station["bar"] = new


def _follow_station(tables: Tables, old: str, new: str) -> None:
    for lifter in tables.get("lifter", []):
        for lift in lifter.get("lifts", {}).values():
            if str(lift.get("station", "")).casefold() == old.casefold():
                lift["station"] = new


def _follow_part(word: str) -> Callable[[Tables, str, str], None]:
    def follow(tables: Tables, old: str, new: str) -> None:
        for lifter in tables.get("lifter", []):
            for lift in lifter.get("lifts", {}).values():
                for hung in _hung_in(lift):
                    if hung.get(word) == old:
                        hung[word] = new

    return follow


_FOLLOW: Final[dict[str, Callable[[Tables, str, str], None]]] = {
    "bar": _follow_bar,
    "station": _follow_station,
    "feeder": _follow_part("feeder"),
    "connector": _follow_part("connector"),
}


def of_sheet(sheet: Sheet, tables: Mapping[str, Any], key: str) -> dict[str, Any]:
    """The table that a form is filled from: the thing's own, or nothing yet."""
    if sheet.section == "gym":
        return dict(tables["gym"])
    return dict(thing(tables, sheet.section, key) or {}) if key else {}
