"""Files that are written: read back the same, and safe to open in a spreadsheet."""

from __future__ import annotations

import csv
import io
import json
import sys
from dataclasses import replace
from datetime import date
from typing import TYPE_CHECKING

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.logfile.files import GYM
from tests.store.samples import RIG, a_set
from topheavy.errors import BadInputError
from topheavy.logfile.mapping import Said, map_file
from topheavy.logfile.meanings import MEANINGS
from topheavy.logfile.read import read_sets
from topheavy.logfile.table import read_table
from topheavy.logfile.write import csv_text, flat, json_lines, write_parquet

if TYPE_CHECKING:
    from pathlib import Path

    from topheavy.gym.log import LoggedSet

texts = st.text(
    st.characters(exclude_categories=["Cc", "Cs"]) | st.sampled_from(list("=+-@'\"\n\t,;")),
    max_size=20,
).map(str.strip)
masses = st.floats(1.0, 300.0)


@st.composite
def logged(draw: st.DrawFn) -> LoggedSet:
    straight_kg = draw(masses)
    more = sorted(draw(st.lists(st.floats(0, 100), min_size=3, max_size=3)))
    low, mean, high = (straight_kg + one for one in more)
    curve = draw(st.sampled_from([(), RIG.curve]))
    rig = replace(RIG, bottom_kg=low, mean_kg=mean, top_kg=high, words=draw(texts), curve=curve)
    missed = draw(st.booleans())
    return a_set(
        id=str(draw(st.uuids(version=4))),
        day=draw(st.dates(min_value=date(1900, 1, 1))).isoformat(),
        time=draw(st.sampled_from(["", "08:05", "23:59"])),
        straight_kg=straight_kg,
        rig=draw(st.sampled_from([None, rig])),
        session=draw(texts),
        number=draw(st.none() | st.integers(1, 500)),
        reps=draw(st.integers(1, 200)),
        reps_left=None if missed else draw(st.none() | st.floats(0, 10) | st.just(1e-7)),
        speed_m_per_s=draw(st.none() | st.floats(0.01, 5.0)),
        missed=missed,
        third=draw(st.sampled_from([None, "lower", "middle", "top"])) if missed else None,
        note=draw(texts),
        by=draw(texts),
    )


@given(st.lists(logged(), min_size=1, max_size=5))
def test_csv_is_read_back_the_same(
    tmp_path_factory: pytest.TempPathFactory, sets: list[LoggedSet]
) -> None:
    path = tmp_path_factory.getbasetemp() / "out.csv"
    path.write_bytes("".join(csv_text(sets)).encode())
    table = read_table(path)
    assert read_sets(table, map_file(table, Said(decimal=".")), GYM) == sets


@given(st.lists(logged(), max_size=3))
def test_no_cell_of_a_csv_is_a_formula(sets: list[LoggedSet]) -> None:
    """A cell that begins with = + - @ or a tab is run as a formula (OWASP, CSV Injection)."""
    for row in csv.reader(io.StringIO("".join(csv_text(sets)), newline="")):
        assert not [cell for cell in row if cell[:1] in set("=+-@\t\r") and cell]


def test_json_lines_have_every_value_with_its_unit() -> None:
    one = a_set(rig=RIG, straight_kg=85.0)
    (line,) = json_lines([one])
    found = json.loads(line)
    assert (found["straight_kg"], found["rig"]["top_kg"], found["reps_left"]) == (85.0, 115.0, None)
    assert found["rig"]["curve"][2] == {"height_m": 1.07, "hung_kg": 30.0}


def test_flat_values_stand_under_their_meanings() -> None:
    values = dict(zip(MEANINGS, flat(a_set(rig=RIG, straight_kg=85.0, note="n")), strict=True))
    assert (values["bottom"], values["note"], values["struck"]) == (85.0, "n", False)


def test_parquet_is_read_back_the_same(tmp_path: Path) -> None:
    parquet = pytest.importorskip("pyarrow.parquet", reason="no pyarrow: the parquet extra")
    sets = [a_set(rig=RIG, straight_kg=85.0, note="½"), a_set(reps=0, missed=True, third="top")]
    with (tmp_path / "x.parquet").open("wb") as file:
        write_parquet(sets, file)
    rows = parquet.read_table(tmp_path / "x.parquet").to_pylist()
    assert [list(row.values()) for row in rows] == [flat(one) for one in sets]
    assert list(rows[0])[7:9] == ["straight_kg", "bottom_kg"]
    assert "bar_speed_m_per_s" in rows[0]


def test_without_its_library_parquet_is_refused_plainly(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "pyarrow", None)
    with pytest.raises(BadInputError, match="Parquet is not installed"):
        write_parquet([], io.BytesIO())
