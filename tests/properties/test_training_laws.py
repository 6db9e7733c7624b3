"""Laws of percentages, plates and ramps that hold for any rig and stock."""

from __future__ import annotations

import itertools
from collections import Counter
from dataclasses import replace
from typing import TYPE_CHECKING, get_args

import pytest
from hypothesis import assume, event, given, settings
from hypothesis import strategies as st

from tests.training.stacks import cheapest_kg, every_stack, moves, plate
from topheavy.errors import BadInputError, NotInStockError
from topheavy.gym.people import Travel
from topheavy.mechanics.curve import LoadCurve
from topheavy.training.bases import (
    LOAD_NAMES,
    BaseName,
    Bases,
    Hung,
    Percent,
    convert,
    percent_of,
    straight_for,
)
from topheavy.training.plate_path import Window, plate_path
from topheavy.training.ramp import plan_ramp
from topheavy.training.ramp_parts import Gear, Hanging, TopSet

if TYPE_CHECKING:
    from topheavy.gym.stock import Plate

AT = st.sampled_from(LOAD_NAMES)
OF = st.sampled_from(get_args(BaseName))
KG = st.floats(0.0, 200.0)


@st.composite
def hungs(draw: st.DrawFn) -> Hung:
    bottom, mean, top = sorted(draw(st.tuples(KG, KG, KG)))
    return Hung(bottom_kg=bottom, mean_kg=mean, top_kg=top)


@given(hungs(), st.floats(20.0, 300.0), st.floats(20.0, 300.0), st.data())
def test_bases_convert_there_and_back(
    hung: Hung, best_kg: float, measure_kg: float, data: st.DataObject
) -> None:
    bases = Bases(best_kg=best_kg, measure=hung.under(measure_kg))
    said = Percent(share=data.draw(st.floats(0.05, 1.5)), at=data.draw(AT), of=data.draw(OF))
    there = convert(said, data.draw(AT), data.draw(OF), hung, bases)
    back = convert(there, said.at, said.of, hung, bases)
    assert back.share == pytest.approx(said.share, rel=1e-9, abs=1e-9)
    straight_kg = straight_for(said, hung, bases)
    assert straight_for(there, hung, bases) == pytest.approx(straight_kg, abs=1e-6)
    loads = hung.under(straight_kg)
    assert percent_of(loads, said.at, said.of, bases).share == pytest.approx(said.share, abs=1e-9)


MASSES = st.sampled_from([20.0, 15.0, 10.0, 5.0, 2.5, 1.25, 20.411656])


@st.composite
def small_stocks(draw: st.DrawFn) -> tuple[Plate, ...]:
    sizes = draw(
        st.lists(st.tuples(MASSES, st.integers(0, 5), st.integers(1, 6)), min_size=1, max_size=3)
    )
    return tuple(plate(kg, count, width_m=wide / 100) for kg, count, wide in sizes)


@settings(max_examples=330)
@given(small_stocks(), st.integers(2, 14), st.sampled_from([0.0, 0.25, 0.5, 2.0]), st.data())
def test_no_run_of_plates_is_cheaper(
    plates: tuple[Plate, ...], room_cm: int, price_kg: float, data: st.DataObject
) -> None:
    """Against every run of every stack."""
    stacks = every_stack(plates, room_cm / 100)
    weights = sorted({20.0 + 2 * sum(p.mass_kg for p in s) for s in stacks})
    windows = []
    for _ in range(data.draw(st.integers(1, 4))):
        wanted_kg = max(0.0, data.draw(st.sampled_from(weights)) + data.draw(st.floats(-3.0, 3.0)))
        by_kg = data.draw(st.floats(1.0, 15.0))
        low_kg = max(0.0, wanted_kg - by_kg)
        windows.append(Window(low_kg=low_kg, wanted_kg=wanted_kg, high_kg=wanted_kg + by_kg))
    sizes = [
        sum(w.low_kg <= 20.0 + 2 * sum(p.mass_kg for p in s) <= w.high_kg for s in stacks)
        for w in windows
    ]
    product = 1
    for size in sizes:
        product *= max(size, 1)
    assume(product <= 20_000)
    event("every set can be loaded" if all(sizes) else "some set can't be loaded")
    least_kg = cheapest_kg(stacks, 20.0, windows, price_kg)
    if least_kg is None:
        with pytest.raises(NotInStockError):
            plate_path(plates, room_cm / 100, 20.0, windows, price_kg=price_kg)
        return
    path = plate_path(plates, room_cm / 100, 20.0, windows, price_kg=price_kg)
    assert path.exact
    assert path.cost_kg == pytest.approx(least_kg, abs=1e-9)
    here: tuple[Plate, ...] = ()
    told_kg = 0.0
    for stop, window in zip(path.stops, windows, strict=True):
        assert stop.stack in stacks
        assert stop.handled == 2 * moves(here, stop.stack)
        kept = here[: len(here) - len(stop.off)]
        assert (*kept, *stop.on) == stop.stack
        assert (*kept, *reversed(stop.off)) == here
        assert window.low_kg - 1e-3 <= stop.straight_kg <= window.high_kg + 1e-3
        told_kg += price_kg * stop.handled + abs(stop.straight_kg - window.wanted_kg)
        here = stop.stack
    assert told_kg == pytest.approx(least_kg, abs=1e-9)


TRAVEL = Travel(bottom_m=0.8, top_m=1.2)
BARN = (
    plate(25, 4, width_m=0.04),
    plate(20, 4, width_m=0.036),
    plate(10, 4, width_m=0.028),
    plate(5, 2, width_m=0.024),
    plate(2.5, 2, width_m=0.018),
    plate(1.25, 2, width_m=0.014),
)
SOMETIMES = st.lists(st.sampled_from(range(len(BARN))), max_size=5)


@settings(max_examples=150)
@given(
    straight=st.integers(0, 60),
    top_kg=st.floats(0.0, 80.0),
    low=st.floats(0.0, 1.0),
    reps=st.integers(1, 10),
    singles=st.booleans(),
    missing=SOMETIMES,
    bar_kg=st.sampled_from([20.0, 25.0, 20.411656]),
)
def test_ramps_rise_and_respect_the_stock(
    *,
    straight: int,
    top_kg: float,
    low: float,
    reps: int,
    singles: bool,
    missing: list[int],
    bar_kg: float,
) -> None:
    plates = tuple(p for place, p in enumerate(BARN) if place not in missing)
    gear = Gear(bar_kg=bar_kg, plates=plates, room_m=0.3)
    chain = LoadCurve.through([0.8, 1.2], [low * top_kg, top_kg])
    half = Hanging(pieces=2, curve=0.5 * chain)
    top = TopSet(
        straight_kg=bar_kg + 2.5 * straight,
        reps=1 if singles else reps,
        hanging=Hanging(pieces=4, curve=chain),
        lighter=(half,),
        singles=singles,
    )
    try:
        ramp = plan_ramp(top, gear, TRAVEL)
    except NotInStockError:
        return
    except BadInputError:
        assert straight == 0
        return
    for before, after in itertools.pairwise(ramp.sets):
        assert after.limit_kg >= before.limit_kg - 1e-9
        assert after.loads.top_kg > before.loads.top_kg - 1e-9
        assert after.loads.straight_kg + after.hanging.pieces > (
            before.loads.straight_kg + before.hanging.pieces
        )
        assert after.rest_before_s >= before.rest_before_s
    warm = [one.reps for one in ramp.sets[:-1]]
    assert warm == sorted(warm, reverse=True)
    for one in ramp.sets:
        counts = Counter(one.plates.stack)
        assert all(2 * count <= owned.count for owned, count in counts.items())
        assert sum(p.width_m for p in one.plates.stack) <= gear.room_m + 1e-9
        weights = [p.mass_kg for p in one.plates.stack]
        assert weights == sorted(weights, reverse=True)
        straight_kg = bar_kg + 2 * sum(weights)
        assert one.loads.straight_kg == pytest.approx(straight_kg, abs=1e-9)
    assert ramp.sets[0].plates.stack == ()
    assert ramp.sets[-1].loads.straight_kg == pytest.approx(top.straight_kg, abs=1e-3)
    assert ramp.exact


@settings(max_examples=60)
@given(chain_from=st.integers(1, 9), top_kg=st.floats(5.0, 60.0))
def test_chain_is_off_before_its_set_and_on_from_it(chain_from: int, top_kg: float) -> None:
    chain = LoadCurve.through([0.8, 1.2], [0.0, top_kg])
    top = TopSet(straight_kg=105.0, reps=3, hanging=Hanging(pieces=4, curve=chain))
    gear = Gear(bar_kg=25.0, plates=BARN, room_m=0.3)
    try:
        ramp = plan_ramp(replace(top, chain_from=chain_from), gear, TRAVEL)
    except BadInputError as error:
        if error.field != "chain_from":
            raise
        return
    if chain_from > 1:
        assert [one.hanging.pieces for one in ramp.sets[: chain_from - 1]] == [0] * (chain_from - 1)
    assert all(one.hanging.pieces == 4 for one in ramp.sets[max(chain_from - 1, 1) :])
