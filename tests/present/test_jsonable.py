"""JSON holds the same facts as the view."""

from __future__ import annotations

import json
from dataclasses import dataclass, fields
from typing import TYPE_CHECKING, Any

import pytest

from tests.present.answers import ANSWERS, BENCH
from tests.present.figures import figures
from topheavy.present.figure import Figure, mass
from topheavy.present.jsonable import plain, to_json
from topheavy.present.rig.view import view_rig
from topheavy.units import METRIC, POUNDS

if TYPE_CHECKING:
    from collections.abc import Iterator

    from topheavy.services.rig import RigAnswer


def _shown(value: Any) -> Iterator[dict[str, Any]]:
    """Every figure in read JSON: whatever has a text of its own."""
    if isinstance(value, dict):
        if "shown" in value:
            yield value
        else:
            for item in value.values():
                yield from _shown(item)
    elif isinstance(value, list):
        for item in value:
            yield from _shown(item)


@pytest.mark.parametrize("answer", ANSWERS.values(), ids=ANSWERS)
def test_every_figure_comes_back_with_text_value_and_uncertainty(answer: RigAnswer) -> None:
    view = view_rig(answer, POUNDS)
    read = list(_shown(json.loads(to_json(view))))
    there = list(figures(view))
    assert [found["shown"] for found in read] == [figure.text for figure in there]
    for found, figure in zip(read, there, strict=True):
        assert found[figure.unit or "fraction"] == pytest.approx(figure.value, abs=1e-9)
        assert ("standard_uncertainty" in found) == (figure.u is not None)


def test_every_field_is_there_in_order_with_its_words() -> None:
    view = view_rig(BENCH, METRIC)
    read = json.loads(to_json(view))
    assert list(read) == [field.name for field in fields(view)]
    for name in ("title", "steps", "signs", "cautions", "meets", "wanted", "left_out"):
        value = getattr(view, name)
        assert read[name] == (list(value) if isinstance(value, tuple) else value)
    assert read["side_pull"] is None


@dataclass(frozen=True)
class _Words:
    name: str
    more: dict[str, Figure]


def test_other_alphabets_stay_or_are_escaped() -> None:
    words = _Words("Jörn ± 山", {"load": mass(METRIC, 20.0)})
    assert "Jörn ± 山" in to_json(words)
    escaped = to_json(words, ascii_only=True)
    assert escaped.isascii()
    assert json.loads(escaped) == json.loads(to_json(words)) == plain(words)


def test_no_number_is_not_json() -> None:
    with pytest.raises(ValueError, match="not JSON compliant"):
        to_json(_Words("nothing", {"load": Figure(float("nan"), "kg", "?")}))
