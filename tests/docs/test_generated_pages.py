"""Generated pages are fresh, and the generator says so when they are not."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from docs import generate
from docs.makers.markers import fill

if TYPE_CHECKING:
    from pathlib import Path


@pytest.mark.parametrize("page", list(generate.PAGES))
def test_the_page_is_fresh(page: str) -> None:
    assert generate.standing(page) == generate.fresh(page), "run: python -m docs.generate"


def test_a_stale_page_is_found_and_written(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(generate, "HERE", tmp_path)
    monkeypatch.setattr(generate, "PAGES", {"page.md": lambda _: "fresh\n"})
    (tmp_path / "page.md").write_text("stale\n")
    assert generate.main(["--check"]) == 1
    assert (tmp_path / "page.md").read_text() == "stale\n"
    assert generate.main([]) == 0
    assert (tmp_path / "page.md").read_text() == "fresh\n"
    assert generate.main(["--check"]) == 0
    assert capsys.readouterr().out == "stale: docs/page.md\nwritten: docs/page.md\n"


def test_unknown_words_are_refused(capsys: pytest.CaptureFixture[str]) -> None:
    assert generate.main(["--chekc"]) == 2
    assert "usage" in capsys.readouterr().err


def test_markers_must_stand_once() -> None:
    assert fill("a <!-- made: x -->b<!-- end: x --> c", "x", r"\1") == (
        "a <!-- made: x -->\n\\1\n<!-- end: x --> c"
    )
    with pytest.raises(ValueError, match="0 times"):
        fill("nothing", "x", "y")
