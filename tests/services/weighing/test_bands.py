"""Weighing a rig with bands: what is off with them, told from readings of the true law.

The scale reads the law that the bands of `tests.mechanics.bands` are read from, with noise, so
it shares nothing with the fit but the chain.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np
import pytest

from tests.mechanics.bands import pull_kg, read
from topheavy.gym.bands import Band
from topheavy.gym.people import StationPeg
from topheavy.mechanics.banded import Banded, Peg
from topheavy.mechanics.chain import Chain
from topheavy.mechanics.ground import BARE_FLOOR
from topheavy.mechanics.hang import Straight
from topheavy.mechanics.rig import End, Rig
from topheavy.services.weighing.weigh import Scale, ScaleReading, Suspects, Weighing, weigh

if TYPE_CHECKING:
    from collections.abc import Callable

LOW, HIGH = Peg(height_m=0.1, offset_m=0.05), Peg(height_m=0.3, offset_m=0.05)
TRAVEL_M = (0.65, 1.1)
PEGS = (StationPeg(name="low", peg=LOW), StationPeg(name="middle", peg=HIGH))
SPARE = Band(readings=read("spare", rest_m=0.52))
FIRM = Chain(links=30, pitch_m=0.05, density_kg_per_m=5.0, density_u_kg_per_m=0.05, known_by="s")


def hung(tag: str, peg: Peg = LOW, *, second: Peg | None = None) -> Banded:
    fit = Band(readings=read(tag)).fit()
    return Banded(band=fit, peg=peg, travel_m=TRAVEL_M, second=second, beyond=True)


def pull(height_m: float, *, peg: Peg = LOW, rest_m: float = 0.45, strands: int = 1) -> float:
    """What one band really adds to the bar [kg]."""
    rise_m = height_m - peg.height_m
    strand_m = float(np.hypot(rise_m, peg.offset_m))
    tension = float(pull_kg(np.array(strands * strand_m), rest_m))
    return strands * tension * rise_m / strand_m


def weighed(
    left: Callable[[float], float],
    right: Callable[[float], float] = pull,
    *,
    chain: bool = False,
    seed: int = 1,
    peg: Peg = LOW,
    travel_m: tuple[float, float] = TRAVEL_M,
) -> Weighing:
    dice = np.random.default_rng(seed)
    hangs = (Straight(chain=FIRM),) if chain else ()
    rig = Rig(20.0, 40.0, End(hangs, (hung("a", peg),)), End(hangs, (hung("b", peg),)))
    bare = replace(rig, left=End(hangs), right=End(hangs)).curve(BARE_FLOOR, "raising")
    readings = [
        ScaleReading(
            height_m=height_m,
            mass_kg=float(bare.at(height_m)) + left(height_m) + right(height_m)
            + float(dice.normal(0, 0.08)),
            way="raising",
        )
        for height_m in map(float, np.linspace(*travel_m, 8))
    ]  # fmt: skip
    return weigh(rig, BARE_FLOOR, readings, suspects=Suspects(pegs=PEGS, bands=(SPARE,)))


@pytest.mark.parametrize("chain", [False, True])
@pytest.mark.parametrize("seed", range(4))
def test_bands_as_stated_agree(seed: int, *, chain: bool) -> None:
    answer = weighed(pull, chain=chain, seed=seed)
    assert answer.outcome == "agrees"
    bands = answer.fit.number("bands")
    assert bands is not None
    assert bands.value == pytest.approx(1.0, abs=3 * bands.u)


def test_a_band_on_another_peg_is_named() -> None:
    answer = weighed(lambda h: pull(h, peg=HIGH), lambda h: pull(h, peg=HIGH))
    assert answer.likely[0].kind == "peg"
    assert "on peg middle instead of low, on both ends" in answer.likely[0].what.say()


def test_a_doubled_band_is_named() -> None:
    answer = weighed(
        lambda h: pull(h, peg=HIGH, strands=2),
        lambda h: pull(h, peg=HIGH),
        peg=HIGH,
        travel_m=(0.56, 0.86),
    )
    assert answer.likely[0].kind == "doubled"
    assert "doubled instead of single" in answer.likely[0].what.say()


def test_a_band_not_hooked_on_is_named() -> None:
    answer = weighed(lambda _: 0.0, chain=True)
    assert answer.likely[0].kind == "band"
    assert "not hooked on" in answer.likely[0].what.say()


def test_another_band_of_the_gym_is_named() -> None:
    answer = weighed(lambda h: pull(h, rest_m=0.52))
    assert "spare hangs in its place" in " ".join(c.what.say() for c in answer.likely)


def test_soft_bands_are_among_what_explains_it() -> None:
    answer = weighed(lambda h: 0.8 * pull(h), lambda h: 0.8 * pull(h), chain=True)
    soft = next(cause for cause in answer.likely if cause.kind == "soft")
    assert "pull 2" in soft.what.say() or "pull 19" in soft.what.say()
    assert "less than their readings say" in soft.what.say()
    assert "Read each band again" in soft.todo.say()


def test_a_scale_under_the_slack_sees_no_bands() -> None:
    rig = Rig(20.0, 40.0, *(End((Straight(chain=FIRM),), (hung(tag),)) for tag in "ab"))
    bare = Rig(20.0, 40.0, End((Straight(chain=FIRM),)), End((Straight(chain=FIRM),)))
    readings = [
        ScaleReading(height_m=h, mass_kg=m, way="raising")
        for h, m in ((0.7, 8.2), (0.9, 6.2), (1.1, 4.2))
    ]
    scale = Scale(carries="floor")
    both = [weigh(one, BARE_FLOOR, readings, scale) for one in (rig, bare)]
    assert both[0].misfit == pytest.approx(both[1].misfit)
    assert both[0].fit.number("bands") is None
