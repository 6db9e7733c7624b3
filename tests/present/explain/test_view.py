"""The words for the lifter: plain, in the chosen units, never a promise."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import TYPE_CHECKING

import pytest

from tests.present.answers import BENCH, DEADLIFT, SQUAT
from tests.present.explain.test_page import GIVEN, _explained
from tests.services.test_explain import known
from topheavy.gym.lifts import LIFTS
from topheavy.lifter.evidence import FullRange, Partial
from topheavy.present.explain import ExplainView, view_explained
from topheavy.present.explain.names import at_the_bottom, off_the_bottom
from topheavy.services.explain import explain_rig
from topheavy.units import METRIC, POUNDS

if TYPE_CHECKING:
    from topheavy.gym.lifts import Lift
    from topheavy.lifter.strength import StrengthCurve

EACH = pytest.mark.parametrize("name", GIVEN)


def _view(name: str) -> ExplainView:
    return view_explained(_explained(name), METRIC)


def _sentences(view: ExplainView) -> list[str]:
    lines = [view.warning, view.why_head, view.drawn_from, *view.why, *view.sureness, *view.feel]
    return [line for line in (*lines, *view.fold, *view.down, *view.promise) if line]


@EACH
def test_every_line_is_a_sentence(name: str) -> None:
    for line in _sentences(_view(name)):
        assert re.fullmatch(r"[A-Z0-9].*[.)]", line, re.DOTALL), line
        assert not re.search(r"[\u2013\u2014{}]|  |None|nan", line), line
    assert max(len(line.split(". ")[0].split()) for line in _view(name).feel) <= 25


def test_pounds_and_inches_and_nothing_else_for_those_who_lift_them() -> None:
    for given in (BENCH, SQUAT, DEADLIFT):
        view = view_explained(explain_rig(given), POUNDS)
        rig_aside = [line for line in _sentences(view) if line != view.rig]
        assert not any(re.search(r"\d (kg|cm)\b|kilogram", line) for line in rig_aside)
        assert any(re.search(r"\d lb\b", line) for line in rig_aside)


def test_the_weakest_height_is_one_of_the_bar() -> None:
    explained = explain_rig(BENCH)
    assert explained.strength is not None
    at = METRIC.length(explained.strength.weakest_m)
    assert f"weakest with the bar at {at}" in view_explained(explained, METRIC).why_head


@EACH
def test_no_promise_and_every_caution(name: str) -> None:
    view = _view(name)
    assert view.cautions == tuple(caution.text for caution in GIVEN[name].cautions)
    assert all(line.startswith("Not ") for line in view.promise)
    for line in _sentences(view):
        assert not re.search(r"will (make|get) you|guarante|\bgains?\b|increase your", line), line


def test_loads_are_those_of_the_card() -> None:
    for name, given in GIVEN.items():
        bottom, _, top = _view(name).stands
        assert bottom.raising.value == pytest.approx(given.reading.bottom.load_kg)
        assert top.raising.value == pytest.approx(given.reading.top.load_kg)
        assert top.lowering is None


def test_noise_is_a_share_of_the_load_at_the_top() -> None:
    """McCurdy et al. 2008 (abstract): 1.4 % in men, 3.5 % in women, a shift of 2.57 kg."""
    top_kg = BENCH.reading.top.load_kg
    said = " ".join(_view("bench").promise)
    assert f"{0.014 * top_kg:.1f} kg and {0.035 * top_kg:.1f} kg" in said
    assert "1.4 % in men and 3.5 % in women" in said
    assert "2.6 kg" in said
    assert "no such study" not in said
    assert "For the squat no such study was found" in " ".join(_view("squat").promise)


def test_one_number_is_not_said_as_if_the_lifter_had_been_measured() -> None:
    assert _view("bench").why_head.startswith("You are taken for a typical lifter")
    pins = [Partial(height_m=0.9, load_kg=165.0), Partial(height_m=1.0, load_kg=190.0)]
    view = view_explained(explain_rig(known(BENCH, *pins)), METRIC)
    assert view.why_head.startswith("You are weakest ")
    assert "165.0 kg" in view.drawn_from


def test_a_lifter_who_is_hardly_stronger_at_lockout_is_told() -> None:
    found = explain_rig(known(BENCH, Partial(height_m=1.0, load_kg=141.0, load_u_kg=0.5)))
    view = view_explained(found, METRIC)
    assert found.hardly_stronger == ("hardly stronger" in view.why_head)
    flat = replace(found, strength=_flat(found.strength))
    assert flat.hardly_stronger
    assert "hardly stronger at lockout" in view_explained(flat, METRIC).why_head
    assert "before you build on chain" in " ".join(view_explained(flat, METRIC).why)


def _flat(strength: StrengthCurve | None) -> StrengthCurve:
    assert strength is not None
    return replace(strength, best_kg=0 * strength.best_kg + strength.full_range_kg)


def test_nothing_known_says_what_to_bring_and_shows_no_share_of_strength() -> None:
    view = _view("unknown")
    assert not view.known
    assert "nobody has written down yet" in view.why_head
    assert "a best single" in " ".join(view.why)
    assert view.weakest is None
    assert view.drawn_from == ""
    assert all(row.of_strength is None for row in view.stands)
    assert "your strength" not in " ".join(view.feel)


def test_too_heavy_and_perhaps_too_heavy() -> None:
    weak = _view("weak")
    assert weak.warning.startswith("Too heavy:")
    assert "Take weight off" in weak.warning
    maybe = view_explained(explain_rig(known(GIVEN["unknown"], FullRange(load_kg=88.0))), METRIC)
    assert maybe.warning.startswith("It may be too heavy")
    assert _view("bench").warning == ""


def test_a_band_is_told_apart_from_chain_on_the_way_down() -> None:
    chain, both = _view("bench"), _view("bands")
    assert "no numbers for one" in " ".join(chain.down)
    assert re.search(r"Bands \S+ and \S+ would pull it down with", " ".join(both.down))
    for view in (chain, both):
        assert "never pulls the bar down faster than it falls" in " ".join(view.down)
        assert view.down[-1].endswith("Never let go of a bar to try it.")
    falls = [row for row in both.sides if row.falls]
    assert [row.short for row in falls] == ["plain weight", "this rig", "a pair of bands"]


def test_bands_on_the_rig_itself_are_told() -> None:
    below, above, both = map(_view, ("on bands", "under bands", "chain and bands"))
    assert [view.why_title for view in (below, above, both)] == [
        "Why bands",
        "Why bands",
        "Why chain and bands",
    ]
    assert below.hang_title == "How the bands pull"
    assert "pulls harder the longer" in below.fold[0]
    assert "The bands of this rig pull it down with" in " ".join(below.down)
    assert "The bands of this rig pull it down with" in " ".join(both.down)
    assert above.fold[0].startswith("Bands from above carry part of the bar")
    assert "for the bands above carry" in above.feel[0]
    assert "pull it down" not in " ".join(above.down)
    assert "hold the bar back" in above.down[0]
    for view in (below, above):
        assert "chain" not in " ".join((*view.feel, *view.fold, *view.down)).lower()


def test_folding_is_explained_for_every_way_to_hang() -> None:
    assert _view("bench").fold[0].startswith("Folded in half, two strands")
    assert _view("deadlift").fold[0].startswith("Laid across the bar, two strands")
    assert _view("straight").fold[0].startswith("Hung straight")
    assert "On the chest, " in _view("bench").fold[-1]


@pytest.mark.parametrize("lift", LIFTS.values(), ids=lambda lift: lift.name)
def test_every_lift_has_words_for_its_bottom(lift: Lift) -> None:
    assert off_the_bottom(lift) not in ("", "off the bottom")
    assert at_the_bottom(lift) not in ("", "at the bottom")
