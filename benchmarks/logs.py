"""A log of many sets: imported from CSV, exported, imported again, against bare csv and sqlite3."""

from __future__ import annotations

import csv
import random
import sqlite3
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import TYPE_CHECKING

from benchmarks.measure import timed
from topheavy.gymfile import demo_gym
from topheavy.gymfile.demo import demo_text
from topheavy.gymfile.read import toml_of
from topheavy.logfile.mapping import Said, map_file
from topheavy.logfile.read import read_sets
from topheavy.logfile.table import read_table
from topheavy.logfile.write import csv_text, json_lines
from topheavy.store.gyms import Change, load_gym, save_gym
from topheavy.store.opening import opened
from topheavy.store.sets import Added, add_sets, list_sets

if TYPE_CHECKING:
    from collections.abc import Iterable

    from topheavy.gym.log import LoggedSet
    from topheavy.store.opening import Store

SETS = 200_000
_NOW = datetime(2026, 11, 25, tzinfo=UTC)


@dataclass(frozen=True)
class LogTimes:
    """Times [s] of each step with `SETS` sets, and of the bare libraries on the same file."""

    bare_s: float
    read_s: float
    write_s: float
    again_s: float
    csv_s: float
    json_s: float
    megabytes: float


def run_logs() -> LogTimes:
    """Import, import again, export; every set must be there once, and come back the same."""
    with TemporaryDirectory() as name:
        folder = Path(name)
        source = _file(folder / "sets.csv")
        bare_s, _ = timed(lambda: _bare(source, folder / "bare.sqlite"))
        with opened(str(folder / "store.sqlite")) as store:
            tables = toml_of(demo_text(), "demo")
            save_gym(store, tables, demo_gym(), Change(author="bench", at=_NOW))
            gym_id = load_gym(store).id
            read_s, sets = timed(lambda: _read(source))
            write_s, first = timed(lambda: add_sets(store, gym_id, sets, at=_NOW))
            again_s, second = timed(lambda: add_sets(store, gym_id, _read(source), at=_NOW))
            assert first == Added(new=SETS, known=0)
            assert second == Added(new=0, known=SETS)
            out = folder / "out.csv"
            csv_s, _ = timed(lambda: _write(out, csv_text(_sets(store, gym_id))))
            json_s, _ = timed(
                lambda: _write(folder / "out.jsonl", json_lines(_sets(store, gym_id)))
            )
            back = _read(out)
        assert {one.id: one for one in back} == {one.id: one for one in sets}
        return LogTimes(
            bare_s=bare_s,
            read_s=read_s,
            write_s=write_s,
            again_s=again_s,
            csv_s=csv_s,
            json_s=json_s,
            megabytes=source.stat().st_size / 1e6,
        )


def _file(path: Path) -> Path:
    """Sets of four lifters over years, half with chain on, the day first, decimal commas."""
    rng = random.Random(4)  # noqa: S311 - no secret
    first = date(2020, 1, 1)
    with path.open("w", encoding="utf-8", newline="") as file:
        rows = csv.writer(file, delimiter=";")
        rows.writerow(
            ["day", "lifter", "lift", "set", "straight (kg)", "bottom (kg)",
             "mean (kg)", "top (kg)", "rig", "reps", "reps left", "bar speed (m/s)", "note"]
        )  # fmt: skip
        for number in range(SETS):
            day = first + timedelta(days=number * 2_000 // SETS)
            straight = 2.5 * rng.randint(16, 80)
            hung = [straight, straight + 12.5, straight + 27.3] if number % 2 else ["", "", ""]
            rig = "A1 + A2 on ring 7" if number % 2 else ""
            speed, left = round(rng.uniform(0.1, 0.9), 2), rng.choice(["", 0, 1, 1.5, 3])
            row = [
                day.strftime("%d.%m.%Y"), rng.choice(["Runa", "Pip", "Osric", "Wren"]),
                rng.choice(["bench press", "squat", "deadlift"]), number % 20 + 1, straight, *hung,
                rig, rng.randint(1, 12), left, speed, rng.choice(["", "", "slow", "good"]),
            ]  # fmt: skip
            rows.writerow([str(cell).replace(".", ",") if isinstance(cell, float) else cell
                           for cell in row])  # fmt: skip
    return path


def _bare(source: Path, path: Path) -> None:
    """What reading the cells and inserting them as text takes, unchecked."""
    with source.open(encoding="utf-8", newline="") as file:
        rows = list(csv.reader(file, delimiter=";"))[1:]
    base = sqlite3.connect(path)
    base.execute(f"CREATE TABLE sets ({', '.join(f'c{n}' for n in range(13))})")
    marks = ", ".join("?" * 13)
    base.executemany(f"INSERT INTO sets VALUES ({marks})", rows)  # noqa: S608
    base.execute("CREATE INDEX who ON sets (c1, c2, c0)")
    base.commit()
    base.close()


def _read(path: Path) -> list[LoggedSet]:
    table = read_table(path)
    return read_sets(table, map_file(table, Said()), demo_gym())


def _sets(store: Store, gym_id: int) -> Iterable[LoggedSet]:
    return (entry.logged for entry in list_sets(store, gym_id))


def _write(path: Path, pieces: Iterable[str]) -> None:
    with path.open("w", encoding="utf-8", newline="") as file:
        file.writelines(pieces)
