"""What a rig is set beside."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from tests.services.reps.cases import HIGH, LOW, band, found, place_for, with_bands
from topheavy.mechanics.rig import End, Rig
from topheavy.services.reps.sides import beside, nearest_band, style_of


def names(name: str) -> list[str]:
    return [one.name for one in beside(place_for(name), found(name).best.rig)]


def test_plain_straight_doubled_and_band_stand_side_by_side() -> None:
    sides = beside(place_for("bench"), found("bench").best.rig)
    assert [one.name for one in sides] == [
        "plain weight", "chain straight", "chain doubled", "band",
    ]  # fmt: skip
    assert [one.found for one in sides] == [False, False, True, False]


def test_a_draped_rig_stands_where_doubled_would() -> None:
    assert names("deadlift") == ["plain weight", "chain straight", "chain draped", "band"]


def test_a_straight_rig_is_folded_for_comparison_with_its_fold_on_the_floor() -> None:
    place, rig = place_for("straight"), found("straight").best.rig
    plain, straight, doubled, _ = beside(place, rig)
    assert straight.found
    assert not doubled.found
    assert float(plain.on_bar.load_at(1.0)) == 0.0
    hung = doubled.on_bar.hung.at([place.travel.bottom_m, place.travel.top_m])
    assert float(hung[0]) == pytest.approx(0.0, abs=1e-9)
    mine = straight.on_bar.hung.at([place.travel.bottom_m, place.travel.top_m])
    assert float(hung[1] - hung[0]) == pytest.approx(2.0 * float(mine[1] - mine[0]), rel=0.06)


def test_styles_are_told_by_what_hangs() -> None:
    assert style_of(found("bench").best.rig) == "doubled"
    assert style_of(found("deadlift").best.rig) == "draped"
    assert style_of(found("straight").best.rig) == "straight"
    assert style_of(Rig(20.0, 0.0, End(), End())) == ""


def test_the_pair_whose_change_is_nearest_is_taken() -> None:
    base = found("bench").question.place
    weak, strong = (band("w1", 0.5), band("w2", 0.5)), (band("s1", 1.2), band("s2", 1.2))
    place = with_bands(base, weak[0], strong[0], weak[1], strong[1])

    def change(one: object) -> float:
        pull = one.on_bar.band.at([place.travel.bottom_m, place.travel.top_m])  # type: ignore[attr-defined]
        return float(pull[1] - pull[0])

    light, heavy = nearest_band(place, 8.0), nearest_band(place, 25.0)
    assert light is not None
    assert heavy is not None
    assert {one.band.tag for one in light.bands} == {"w1", "w2"}
    assert {one.band.tag for one in heavy.bands} == {"s1", "s2"}
    assert change(light) < change(heavy)
    assert float(np.max(np.abs(light.on_bar.hung.at([0.7, 1.0])))) == 0.0


def test_no_pair_no_band() -> None:
    base = found("bench").question.place
    assert nearest_band(base, 20.0) is None
    assert nearest_band(with_bands(base, band("one")), 20.0) is None
    unlike = with_bands(base, band("soft", 0.5), band("hard", 1.2))
    assert nearest_band(unlike, 20.0) is None


def test_bands_too_short_retired_or_from_above_are_left_out() -> None:
    base = found("bench").question.place
    pair = (band("a"), band("b"))
    assert nearest_band(with_bands(base, *pair, pegs=(HIGH,)), 20.0) is None
    deep = replace(LOW, peg=replace(LOW.peg, height_m=-0.5))
    assert nearest_band(with_bands(base, *pair, pegs=(deep,)), 20.0) is None
    gone = tuple(replace(one, retired="nick") for one in pair)
    assert nearest_band(with_bands(base, *gone), 20.0) is None


def test_bands_alone_stand_beside_plain_weight_only() -> None:
    place = place_for("bench")
    pair = nearest_band(place, 20.0)
    assert pair is not None
    span = (place.travel.bottom_m, place.travel.top_m)
    left, right = (End(bands=(one.over(span),)) for one in pair.bands)
    sides = beside(place, Rig(25.0, 60.0, left, right))
    assert [one.name for one in sides] == ["plain weight", "band"]
    assert sides[1].found
