"""`topheavy log import` and `export`: the log from and to files."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from topheavy.cli.options import JsonOption, UnitsOption, unit_system
from topheavy.cli.stored import ByOption, StoredGymOption
from topheavy.errors import BadInputError

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator
    from typing import IO

    from topheavy.gym.log import LoggedSet
    from topheavy.logfile.mapping import FileMapping, Said
    from topheavy.logfile.table import TextTable
    from topheavy.present.store.import_view import ColumnRow

_READ = "How the file is read, where it leaves it open"
_EVERY = "What holds for every row, when the file does not say"
_FIRST_SHOWN = 5
_LONGEST_CELL = 24

FileArgument = Annotated[Path, typer.Argument(metavar="FILE", help="CSV file, with a header.")]
OutArgument = Annotated[
    Path, typer.Argument(metavar="FILE", help="Where to: .csv, .jsonl or .parquet.")
]
MapOption = Annotated[
    list[str] | None,
    typer.Option(
        "--map",
        metavar="HEADER=WORD",
        help="What a column is: day, straight, reps, ...; - for nothing; several.",
        rich_help_panel=_READ,
    ),
]
UnitOption = Annotated[
    list[str] | None,
    typer.Option(
        "--unit",
        metavar="[WORD=]UNIT",
        help="kg or lb for every load, or straight=lb for one; several.",
        rich_help_panel=_READ,
    ),
]
DecimalOption = Annotated[
    str,
    typer.Option(
        "--decimal", metavar=".|,", help="The mark before decimals.", rich_help_panel=_READ
    ),
]
DayOrderOption = Annotated[
    str,
    typer.Option(
        "--day-order", metavar="ymd|dmy|mdy", help="How days are written.", rich_help_panel=_READ
    ),
]
LifterOption = Annotated[
    str, typer.Option("--lifter", metavar="NAME", help="Who lifted.", rich_help_panel=_EVERY)
]
LiftOption = Annotated[
    str, typer.Option("--lift", metavar="LIFT", help="The lift.", rich_help_panel=_EVERY)
]
StationOption = Annotated[
    str, typer.Option("--station", metavar="NAME", help="Where.", rich_help_panel=_EVERY)
]
YesOption = Annotated[
    bool, typer.Option("--yes", help="It is right like that: import it, all or nothing.")
]
AllOption = Annotated[
    bool, typer.Option("--all", help="Corrected and struck out sets too, as they came in.")
]


def import_file(
    file: FileArgument,
    column: MapOption = None,
    unit: UnitOption = None,
    decimal: DecimalOption = "",
    day_order: DayOrderOption = "",
    lifter: LifterOption = "",
    lift: LiftOption = "",
    station: StationOption = "",
    yes: YesOption = False,
    gym: StoredGymOption = "",
    by: ByOption = None,
    units: UnitsOption = None,
    as_json: JsonOption = False,
) -> None:
    """Read sets from a CSV file: look first, then say --yes.

    The columns may stand in any order. What the file leaves open (units, the
    decimal mark, day or month first) you have to say. A file with one bad row
    is refused whole, each mistake told by line. The same file again adds
    nothing.

    \b
    Examples
      topheavy log import sets.csv --unit kg
      topheavy log import sets.csv --unit kg --map "Weight=straight" --yes
    """
    from topheavy.cli.show import print_json, print_view
    from topheavy.cli.stored import name_of, now, the_store, who
    from topheavy.cli.waiting import progress
    from topheavy.logfile.mapping import map_file
    from topheavy.logfile.read import read_sets
    from topheavy.logfile.table import read_table
    from topheavy.present.store.import_view import ImportView, render_import
    from topheavy.present.store.log_view import set_row
    from topheavy.store.gyms import load_gym
    from topheavy.store.sets import add_sets, count_known

    with the_store() as store:
        house = load_gym(store, name_of(gym))
        table = read_table(file)
        always = {"lifter": lifter, "lift": lift, "station": station}
        mapping = map_file(table, _said(column or [], unit or [], decimal, day_order, always))
        with progress("Reading", len(table.rows)) as done:
            sets = read_sets(table, mapping, house.gym, by=who(by), done=done)
        if yes:
            with progress("Writing", len(sets)) as done:
                known = add_sets(store, house.id, sets, at=now(), done=done).known
        else:
            known = count_known(store, house.id, sets)
    shown = unit_system(units, house.gym)
    view = ImportView(
        gym=house.gym.name,
        file=file.name,
        columns=tuple(_columns(table, mapping)),
        always=tuple(mapping.always.items()),
        decimal=mapping.decimal,
        day_order=mapping.day_order,
        count=len(sets),
        known=known,
        first_day=min(one.day for one in sets),
        last_day=max(one.day for one in sets),
        first=tuple(set_row(one, shown) for one in sets[:_FIRST_SHOWN]),
        done=yes,
    )
    if as_json:
        print_json(view)
    else:
        print_view(view, render_import)


def export(
    file: OutArgument,
    everything: AllOption = False,
    gym: StoredGymOption = "",
) -> None:
    """Write the log to a file: .csv, .jsonl (a set a line), .parquet.

    Loads are in kg. In CSV a text that a spreadsheet would take for a formula
    begins with a single quote; import takes it off again.

    \b
    Examples
      topheavy log export sets.csv
      topheavy log export all.jsonl --all
    """
    from topheavy.cli.files import check_output, writing_whole
    from topheavy.cli.stored import name_of, the_store
    from topheavy.cli.waiting import progress
    from topheavy.store.gyms import load_gym
    from topheavy.store.sets import Wanted, count_sets, list_sets

    kind = check_output(file, "FILE", kinds=(".csv", ".jsonl", ".parquet"))
    with the_store() as store:
        house = load_gym(store, name_of(gym))
        total = count_sets(store, house.id)
        entries = list_sets(store, house.id, Wanted(everything=everything))
        count = 0
        with writing_whole(file) as out, progress("Writing", total) as done:

            def sets() -> Iterator[LoggedSet]:
                nonlocal count
                for entry in entries:
                    count += 1
                    if count % 2_000 == 0:
                        done(count)
                    yield entry.logged

            _write(kind, sets(), out)
    print(f"{count:,} sets of {house.gym.name} are in {file}.")


def _write(kind: str, sets: Iterable[LoggedSet], out: IO[bytes]) -> None:
    from topheavy.logfile.write import csv_text, json_lines, write_parquet

    if kind == ".parquet":
        write_parquet(sets, out)
        return
    for text in csv_text(sets) if kind == ".csv" else json_lines(sets):
        out.write(text.encode())


def _said(
    columns: list[str], units: list[str], decimal: str, day_order: str, always: dict[str, str]
) -> Said:
    from topheavy.logfile.mapping import Said

    return Said(
        columns=dict(_pair(text, "--map", "HEADER=WORD") for text in columns),
        units=dict(_unit(text) for text in units),
        decimal=decimal.strip(),
        day_order=day_order.strip().lower(),
        always=always,
    )


def _unit(text: str) -> tuple[str, str]:
    """A unit for one meaning, or for every load."""
    word, unit = _pair(text, "--unit", "straight=kg") if "=" in text else ("", text)
    return word.lower(), unit.strip().lower()


def _pair(text: str, option: str, wanted: str) -> tuple[str, str]:
    left, equals, right = text.rpartition("=")
    if not equals or not left.strip() or not right.strip():
        raise BadInputError("Two things are needed", field=option, got=repr(text), wanted=wanted)
    return left.strip(), right.strip()


def _columns(table: TextTable, mapping: FileMapping) -> Iterator[ColumnRow]:
    from topheavy.present.store.import_view import ColumnRow

    for column in mapping.columns:
        cells = table.column(column.index)
        yield ColumnRow(
            header=column.header,
            taken_for=column.meaning.word if column.meaning else "",
            unit=column.unit,
            first=cells[0][1][:_LONGEST_CELL] if cells else "",
        )
