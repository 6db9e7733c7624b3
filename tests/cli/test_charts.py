"""`--chart FILE`, as a coach calls it."""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING

import pytest

from tests.cli.calling import RIG, TINY, call, refused
from topheavy.present.charts import render

if TYPE_CHECKING:
    from pathlib import Path

ANSA = ("strength", "--gym", TINY, "--lifter", "Ansa")
HEADS = {"svg": b"<svg ", "png": b"\x89PNG", "pdf": b"%PDF-"}


@pytest.mark.parametrize("kind", HEADS)
def test_the_ending_says_what_is_written(kind: str, tmp_path: Path) -> None:
    file = tmp_path / f"strength.{kind}"
    plain = call(*ANSA)
    done = call(*ANSA, "--chart", str(file))
    assert (done.code, done.err, done.out) == (0, "", plain.out)
    assert file.read_bytes().startswith(HEADS[kind])
    assert [one.name for one in tmp_path.iterdir()] == [file.name]


def test_loads_of_a_described_rig(tmp_path: Path) -> None:
    file = tmp_path / "loads.svg"
    done = call("curve", *RIG, "--bottom", "66cm", "--top", "107cm", "--chart", str(file))
    assert (done.code, done.err) == (0, "")
    svg = file.read_text()
    assert "hung straight" in svg
    assert "load on the bar (kg)" in svg


def test_weeks_are_one_picture_or_several_on_paper(tmp_path: Path) -> None:
    file = tmp_path / "loads.pdf"
    done = call("weeks", "show", "--lifter", "Osric", "--week", "3", "--chart", str(file))
    assert done.code == 0
    assert f"Wrote {file}" in done.out
    assert file.read_bytes().startswith(HEADS["pdf"])
    picture = tmp_path / "loads.png"
    done = call("weeks", "show", "--lifter", "Osric", "--week", "3", "--chart", str(picture))
    refused(done, "A picture holds one chart")
    assert not picture.exists()


def test_other_endings_and_no_curve_are_refused(tmp_path: Path) -> None:
    done = call(*ANSA, "--chart", str(tmp_path / "strength.gif"))
    refused(done, "a name that ends in .svg or .png or .pdf")
    done = call("curve", *RIG, "--at", "80cm", "--chart", str(tmp_path / "loads.svg"))
    refused(done, "there is no curve to draw")
    assert not list(tmp_path.iterdir())


def test_without_the_library_nothing_is_written(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setitem(sys.modules, "vl_convert", None)
    render._library.cache_clear()
    try:
        done = call(*ANSA, "--units", "lb", "--best", "101kg", "--chart", str(tmp_path / "s.png"))
    finally:
        render._library.cache_clear()
    refused(done, "pip install 'topheavy[charts]'")
    assert not list(tmp_path.iterdir())
