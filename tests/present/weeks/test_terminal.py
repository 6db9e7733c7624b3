"""Weeks on terminals, wide and narrow."""

from __future__ import annotations

import pytest

from tests.present.printing import printed
from tests.present.weeks.views import view
from topheavy.present.weeks.terminal import render_block, render_week
from topheavy.units import METRIC, POUNDS, UnitSystem

BOTH = pytest.mark.parametrize("units", [METRIC, POUNDS], ids=["kg", "lb"])


@BOTH
@pytest.mark.parametrize("width", [80, 40])
def test_a_week_says_every_load_plate_and_rig(units: UnitSystem, width: int) -> None:
    part = view(week=3, units=units)
    shown = printed(render_week(part), width)
    assert max(len(line.rstrip()) for line in shown.splitlines()) <= width
    text = " ".join(shown.split())
    for row in part.sessions:
        assert row.work in text
        for figure in (row.bottom, row.mean, row.top):
            assert figure is not None
            assert figure.text.removesuffix(f" {units.mass_unit}") in text
        assert row.plates_a_side in text
        assert row.rig in text
        assert row.share is not None
        assert f"{row.lifter}, {row.share} of the top load" in text
    assert "Plan: percent of the best, mean load." in text
    assert "Bo: late" in text
    assert "Never bench alone" in text


@BOTH
@pytest.mark.parametrize("width", [80, 40])
def test_a_block_of_one_lifter_has_every_session(units: UnitSystem, width: int) -> None:
    part = view("Bo", units=units)
    shown = printed(render_block(part), width)
    assert max(len(line.rstrip()) for line in shown.splitlines()) <= width
    words = shown.split()
    for row in part.sessions:
        assert row.top is not None
        assert row.top.text.removesuffix(f" {units.mass_unit}") in words
    if width == 80:
        assert "3 of 3, deload" in shown


def test_a_group_fits_a_screen_of_numbers() -> None:
    text = printed(render_block(view()))
    assert "Ansa" in text
    assert "Bo" in text
    assert "Reps and work, each week" in text


def test_flags_are_told_with_their_weeks_and_sources() -> None:
    shown = " ".join(printed(render_block(view())).split())
    for flag in view().flags[:12]:
        assert flag.text in shown
        assert flag.when in shown
    assert "Rogerson et al. 2024" in shown
    assert "A plan is no promise" in shown


def test_a_week_without_a_session_says_so() -> None:
    bare = view(week=2)
    nothing = type(bare)(
        **{name: getattr(bare, name) for name in bare.__slots__} | {"sessions": ()}
    )
    assert "No session this week" in printed(render_week(nothing))
