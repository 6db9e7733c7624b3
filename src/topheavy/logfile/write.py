"""Writing sets: as CSV for spreadsheets, as JSON lines for scripts, as Parquet for analysis."""

from __future__ import annotations

import csv
import io
import json
from decimal import Decimal
from itertools import islice
from typing import IO, TYPE_CHECKING, Any, Final

from topheavy.errors import BadInputError
from topheavy.logfile.meanings import MEANINGS

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from topheavy.gym.log import LoggedSet

_AT_ONCE: Final = 5_000
_FORMULAS: Final = tuple("=+-@\t\r")


def csv_text(sets: Iterable[LoggedSet]) -> Iterator[str]:
    r"""Write sets as CSV, in pieces of some thousand rows, the header first.

    A text that a spreadsheet would take for a formula begins with a single quote; importing takes
    it off again.

    Examples
    --------
    >>> from topheavy.gym.log import LoggedSet
    >>> logged = LoggedSet(
    ...     id="5d5a2c8e-0000-4000-8000-000000000001", lifter="Wren", lift="squat",
    ...     day="2026-11-25", straight_kg=60.0, reps=5, note="=1+1",
    ... )
    >>> header, rows = csv_text([logged])
    >>> header.split(",")[7], rows.split(",")[17]
    ('straight (kg)', "'=1+1")
    """
    yield _lines([[_header(word) for word in MEANINGS]])
    source = iter(sets)
    while batch := list(islice(source, _AT_ONCE)):
        yield _lines([_cells(flat(one)) for one in batch])


def json_lines(sets: Iterable[LoggedSet]) -> Iterator[str]:
    """Write sets as JSON, one a line, SI values by name; what is not known is null."""
    for one in sets:
        yield json.dumps(structured(one), ensure_ascii=False, allow_nan=False) + "\n"


def write_parquet(sets: Iterable[LoggedSet], file: IO[bytes]) -> None:
    """Write sets as Parquet, the columns of the CSV under names with their units.

    Raises
    ------
    BadInputError
        The library for it is not installed.
    """
    try:
        import pyarrow as pa  # noqa: PLC0415 - large, and wanted by few
        import pyarrow.parquet as pq  # noqa: PLC0415
    except ImportError:
        raise BadInputError(
            "What writes Parquet is not installed",
            field="FILE",
            wanted='pip install "topheavy[parquet]", or a name that ends in .csv or .jsonl',
        ) from None
    kinds = {"count": pa.int32(), "mass": pa.float64(), "speed": pa.float64()}
    kinds |= {"number": pa.float64(), "yes": pa.bool_()}
    schema = pa.schema(
        [
            (_column(word), kinds.get(meaning.kind, pa.string()))
            for word, meaning in MEANINGS.items()
        ]
    )
    with pq.ParquetWriter(file, schema) as writer:
        source = iter(sets)
        while batch := list(islice(source, 10 * _AT_ONCE)):
            rows = [dict(zip(schema.names, flat(one), strict=True)) for one in batch]
            writer.write_table(pa.Table.from_pylist(rows, schema=schema))


def structured(logged: LoggedSet) -> dict[str, Any]:
    """A set as plain values, its rig by itself.

    Parameters
    ----------
    logged : LoggedSet
        Any.
    """
    found: dict[str, Any] = {
        name: getattr(logged, name) for name in type(logged).__dataclass_fields__ if name != "rig"
    }
    rig = logged.rig
    found["rig"] = rig and {
        "bottom_kg": rig.bottom_kg,
        "mean_kg": rig.mean_kg,
        "top_kg": rig.top_kg,
        "words": rig.words,
        "curve": [{"height_m": height_m, "hung_kg": load_kg} for height_m, load_kg in rig.curve],
    }
    return found


def flat(logged: LoggedSet) -> list[Any]:
    """A set as the values of the columns of `MEANINGS`, None where there is none."""
    rig = logged.rig
    loads = [rig.bottom_kg, rig.mean_kg, rig.top_kg, rig.words] if rig else [None, None, None, ""]
    curve = " ".join(f"{height_m!r}={load_kg!r}" for height_m, load_kg in rig.curve) if rig else ""
    return [
        logged.day,
        logged.time,
        logged.lifter,
        logged.lift,
        logged.station,
        logged.session,
        logged.number,
        logged.straight_kg,
        *loads,
        logged.reps,
        logged.reps_left,
        logged.speed_m_per_s,
        logged.missed,
        logged.third,
        logged.note,
        logged.by,
        logged.id,
        logged.corrects,
        logged.struck,
        curve,
    ]


def _header(word: str) -> str:
    unit = MEANINGS[word].unit
    return f"{word} ({unit})" if unit else word


def _column(word: str) -> str:
    unit = MEANINGS[word].unit.replace("/", "_per_")
    return "_".join([*word.split(), *([unit] if unit else [])])


def _lines(rows: list[list[str]]) -> str:
    text = io.StringIO(newline="")
    csv.writer(text, lineterminator="\r\n").writerows(rows)
    return text.getvalue()


def _cells(values: list[Any]) -> list[str]:
    return [_cell(value) for value in values]


def _cell(value: Any) -> str:
    if value is None or value == "":
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, str):
        return f"'{value}" if value.lstrip("'").startswith(_FORMULAS) else value
    return f"{Decimal(repr(value)):f}" if isinstance(value, float) else str(value)
