"""Whatever hangs, the picture holds it: on the sheet, above the floor, link by link."""

from __future__ import annotations

from typing import TYPE_CHECKING

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from tests.present.picture.reading import (
    boxes,
    figure,
    floor_y,
    links,
    parse,
    viewbox,
)
from topheavy.mechanics.chain import Chain
from topheavy.mechanics.ground import Ground
from topheavy.mechanics.hang import Doubled, Draped, Hang, Straight, Suspension
from topheavy.mechanics.rig import End, Rig
from topheavy.present.picture import Disc, HangNote, Scene, draw_rig
from topheavy.units import METRIC, POUNDS

if TYPE_CHECKING:
    from topheavy.gym.lifts import StationKind

STATIONS: tuple[StationKind, ...] = ("bench", "rack", "platform")


def lengths(low_m: float, high_m: float) -> st.SearchStrategy[float]:
    return st.floats(low_m, high_m, allow_nan=False)


chains = st.builds(
    Chain,
    links=st.integers(1, 70),
    pitch_m=lengths(0.012, 0.15),
    density_kg_per_m=lengths(0.1, 20.0),
)
several = st.lists(chains, min_size=1, max_size=3).map(tuple)


@st.composite
def suspensions(draw: st.DrawFn) -> Suspension:
    feeder_m = draw(lengths(0.01, 2.5))
    return Suspension(
        feeder_m=feeder_m,
        feeder_whole_m=draw(st.none() | lengths(0.0, 1.0).map(lambda more: feeder_m + more)),
        connector_m=draw(st.just(0.0) | lengths(0.01, 0.2)),
        connector_kg=draw(lengths(0.0, 1.0)),
    )


hangs: st.SearchStrategy[Hang] = st.one_of(
    st.builds(Straight, chain=chains, drop_m=lengths(0.0, 0.3)),
    st.builds(Draped, chains=several, drop_m=lengths(0.0, 0.2)),
    st.builds(Doubled, chains=several, suspension=suspensions()),
)
notes = st.builds(
    HangNote,
    feeder=st.text(max_size=30),
    form=st.sampled_from(["rings", "links", "strap"]),
    marks_m=st.lists(lengths(0.02, 3.0), max_size=8).map(tuple),
    pieces=st.lists(st.text(max_size=20), max_size=3).map(tuple),
    wire_m=st.lists(lengths(0.003, 0.03), max_size=3).map(tuple),
)
discs = st.builds(Disc, width_m=lengths(0.005, 0.1), diameter_m=lengths(0.1, 0.5))


@st.composite
def scenes(draw: st.DrawFn) -> Scene:
    bottom_m = draw(lengths(0.05, 2.0))
    end = End(tuple(draw(st.lists(hangs, max_size=3))))
    kind = draw(st.sampled_from(STATIONS))
    return Scene(
        rig=Rig(draw(lengths(0.0, 30.0)), draw(lengths(0.0, 400.0)), end, end),
        ground=Ground(
            surface_m=draw(lengths(-0.3, 0.9 * bottom_m)),
            lay=draw(st.sampled_from(["piled", "dragged"])),
            friction=draw(lengths(0.0, 1.2)),
        ),
        bottom_m=bottom_m,
        top_m=bottom_m + draw(lengths(0.02, 1.0)),
        units=draw(st.sampled_from([METRIC, POUNDS])),
        station_kind=kind,
        pad_m=draw(st.none() | lengths(0.1, 0.6)) if kind == "bench" else None,
        notes=tuple(draw(st.lists(notes, max_size=3))),
        discs=tuple(draw(st.lists(discs, max_size=4))),
        plates=draw(st.text(max_size=40)),
        heading=draw(st.text(max_size=80)),
        straight=draw(st.none() | st.just(Rig(20.0, 50.0, end, end))),
        layout=draw(st.sampled_from(["wide", "tall"])),
    )


@given(scene=scenes())
@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow])
def test_any_rig_is_drawn_on_the_sheet_above_the_floor_link_by_link(scene: Scene) -> None:
    root = parse(draw_rig(scene))
    sheet, floor = viewbox(root), floor_y(root)
    for element, box in boxes(root):
        assert box.left >= sheet.left - 0.1, element.attrib
        assert box.right <= sheet.right + 0.1, element.attrib
        assert box.top >= sheet.top - 0.1, element.attrib
        assert box.low <= sheet.low + 0.1, element.attrib
    whole = sum(chain.links for hang in scene.drawn_end.hangs for chain in hang.chains)
    for pose in ("bottom", "top"):
        part = figure(root, pose)
        assert len(links(part, "off")) + len(links(part, "down")) == whole
        for element, box in boxes(part):
            assert box.low <= floor + 0.1, element.attrib
