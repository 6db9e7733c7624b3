"""Links counted in their hang: against heights and against the load curve."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from topheavy.mechanics.chain import Chain
from topheavy.mechanics.ground import Ground
from topheavy.mechanics.hang import Doubled, Draped, Hang, Straight, Suspension
from topheavy.mechanics.links import count_doubled, count_straight
from topheavy.mechanics.rig import End
from topheavy.services.counting import length_off_m, links_of

HELD = Suspension(feeder_m=0.4, connector_m=0.1)


def _hang(style: str, chain: Chain) -> Hang:
    if style == "straight":
        return Straight(chain=chain, drop_m=0.05)
    if style == "draped":
        return Draped(chains=(chain,))
    return Doubled(chains=(chain,), suspension=HELD)


def _chain(links: int) -> Chain:
    return Chain(links=links, pitch_m=0.05, density_kg_per_m=5.0)


STYLE = st.sampled_from(["straight", "draped", "doubled"])
LAY = st.sampled_from(["piled", "dragged"])


@given(style=STYLE, links=st.integers(1, 60), bar_m=st.floats(0, 3), up_m=st.floats(-0.1, 1))
def test_piled_links_are_counted_by_the_height_of_the_head(
    style: str, links: int, bar_m: float, up_m: float
) -> None:
    """The head of the chain hangs 0.05, 0 and 0.5 m below the bar."""
    chain = _chain(links)
    above_m = bar_m - {"straight": 0.05, "draped": 0.0, "doubled": 0.5}[style] - up_m
    count = count_straight if style == "straight" else count_doubled
    found = links_of(_hang(style, chain), chain, bar_m, Ground(surface_m=up_m))
    assert found == count(chain, above_m)


@given(
    style=st.sampled_from(["straight", "doubled"]),
    lay=LAY,
    links=st.integers(1, 60),
    bar_m=st.floats(0, 3),
)
def test_links_in_steps_weigh_what_the_curve_says(
    style: str, lay: str, links: int, bar_m: float
) -> None:
    """A link that stands weighs half, so each strand is within half a link of the curve."""
    chain = _chain(links)
    ground = Ground(lay="piled" if lay == "piled" else "dragged", raising_pitches=0.0, friction=0.7)
    hang = _hang(style, chain)
    count = links_of(hang, chain, bar_m, ground)
    strands = 1 if style == "straight" else 3
    curve_kg = float(End((hang,)).curve(ground, "raising").at(bar_m))
    near_kg = strands * (0.5 * chain.link_mass_kg + 0.001 * chain.mass_kg)
    assert count.mass_kg(chain) == pytest.approx(curve_kg, abs=near_kg)
    assert count.off + count.down == links


@given(style=STYLE, links=st.integers(1, 60), bar_m=st.floats(0, 3))
def test_dragging_lifts_no_fewer_links(style: str, links: int, bar_m: float) -> None:
    chain = _chain(links)
    hang = _hang(style, chain)
    piled, dragged = (links_of(hang, chain, bar_m, Ground(lay=lay)) for lay in ("piled", "dragged"))
    assert dragged.off >= piled.off


def test_by_hand() -> None:
    """Fold 0.5 m below a bar at 0.8 m: 0.3 m is six pitches, so six tops a strand are off."""
    chain = _chain(40)
    assert links_of(_hang("doubled", chain), chain, 0.8, Ground()).off == 12
    assert links_of(_hang("doubled", chain), chain, 0.8, Ground(surface_m=0.1)).off == 8
    assert length_off_m(_hang("doubled", chain), chain, 0.4, Ground()) == pytest.approx(-0.1)


def test_a_catenary_by_hand() -> None:
    """Height 0.3 m, strand 1 m, friction 0.7: s = -0.21 + sqrt(0.21^2 + 0.3^2 + 0.42) = 0.534 m."""
    chain = _chain(20)
    hang = Straight(chain=chain)
    assert length_off_m(hang, chain, 0.3, Ground(lay="dragged")) == pytest.approx(0.534, abs=5e-4)
    assert links_of(hang, chain, 0.3, Ground(lay="dragged")).off == 11
