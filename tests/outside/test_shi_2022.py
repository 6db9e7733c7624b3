"""Shi, L., Cai, Z., Chen, S. and Han, D. (2022). Acute effects of variable resistance training.

A review and meta-analysis of variable resistance; its table of protocols states each study's
straight weight and chain as percentages of 1RM at bottom and top. Seen: part of the table, as
quoted. The linear mean of a protocol is the plain mean of bottom and top.
"""

from __future__ import annotations

import pytest

from topheavy.rigging.target import Ask, share_of
from topheavy.training.bases import Bases, Hung, Percent, chain_share, convert
from topheavy.training.weeks_checks import USED

BEST_KG = 100.0
ROWS = {
    "Baker and Newton 2009": (0.60, 0.14, 67.0),
    "Galpin 2015": (0.55, 0.09, 59.5),
    "Andersen 2020": (0.74, 0.48, 98.0),
}


@pytest.mark.parametrize("study", ROWS)
def test_mean_load_of_the_protocols(study: str) -> None:
    """Table of protocols: linear mean in percent of 1RM, stated to half a point."""
    straight, chain, mean = ROWS[study]
    ask = Ask(straight_kg=straight * BEST_KG, chain_share=chain, base="best", best_kg=BEST_KG)
    bottom_kg, top_kg = ask.ends_kg()
    assert (bottom_kg + top_kg) / 2 == pytest.approx(mean, abs=0.5)


@pytest.mark.parametrize("study", ROWS)
def test_the_mean_leads_back_to_the_protocol(study: str) -> None:
    """Mean and chain, both of 1RM, are the same protocol said in other words."""
    straight, chain, mean = ROWS[study]
    ask = Ask(mean_kg=mean, chain_share=chain, base="best", best_kg=BEST_KG)
    bottom_kg, top_kg = ask.ends_kg()
    assert bottom_kg == pytest.approx(straight * BEST_KG, abs=0.5)
    assert top_kg == pytest.approx((straight + chain) * BEST_KG, abs=0.5)


def test_bases_of_one_protocol_differ_by_up_to_two_times() -> None:
    """74 % + 48 % of 1RM is 39 % of the top load and 65 % of the bottom load."""
    shares = {base: share_of(74.0, 122.0, base, BEST_KG) for base in ("top", "bottom", "best")}
    assert shares["best"] == pytest.approx(0.48)
    assert shares["top"] == pytest.approx(0.393, abs=0.001)
    assert shares["bottom"] == pytest.approx(0.649, abs=0.001)


@pytest.mark.parametrize("study", ROWS)
def test_the_protocol_said_in_every_base_and_back(study: str) -> None:
    """Straight weight of 1RM is the bottom of 1RM; top and linear mean follow, to half a point."""
    straight, chain, mean = ROWS[study]
    hung = Hung(bottom_kg=0.0, mean_kg=chain * BEST_KG / 2, top_kg=chain * BEST_KG)
    bases = Bases(best_kg=BEST_KG)
    said = Percent(share=straight, at="bottom", of="best")
    assert convert(said, "mean", "best", hung, bases).share == pytest.approx(mean / 100, abs=0.005)
    top = convert(said, "top", "best", hung, bases)
    assert top.share == pytest.approx(straight + chain, abs=0.005)
    assert convert(top, "bottom", "best", hung, bases).share == pytest.approx(straight, abs=0.005)


def test_accommodating_share_of_the_mean_lies_between_those_of_bottom_and_top() -> None:
    """74 % + 48 %: 48/98 of the linear mean, 49 %."""
    loads = Hung(bottom_kg=0.0, mean_kg=24.0, top_kg=48.0).under(74.0)
    of_mean = chain_share(loads, "mean")
    assert of_mean == pytest.approx(0.48 / 0.98, abs=0.001)
    assert chain_share(loads, "top") < of_mean < chain_share(loads, "bottom")


def test_shares_outside_of_their_protocols_are_flagged() -> None:
    """The table's least and largest: 5 % (clean and snatch with chain) and 48 % of 1RM."""
    assert USED == (0.05, 0.48)
    assert all(USED[0] <= share <= USED[1] for _, share, _ in ROWS.values())
