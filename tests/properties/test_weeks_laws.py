"""Laws of waves and weeks that hold for any plan."""

from __future__ import annotations

from collections import Counter
from functools import cache

from hypothesis import given, settings
from hypothesis import strategies as st

from tests.services.training import TINY, place
from tests.training.blocks import block
from topheavy.services.weeks import Laid, WeeksQuestion, answer_weeks
from topheavy.services.weeks_rigs import straight_hanger
from topheavy.training.bases import LOAD_NAMES
from topheavy.training.days import DAY_NAMES
from topheavy.training.weeks import Block, Change, HangName, TrainingDay, Wave
from topheavy.training.weeks_loads import loads_of_wave
from topheavy.training.weeks_slots import slots_of

LIFTS = ("bench press", "squat")
HANGS: tuple[HangName, ...] = ("straight", "chain", "bands", "mixed")
SHARES = st.sampled_from((0.1, 0.15, 0.2))


@st.composite
def waves(draw: st.DrawFn) -> Wave:
    weeks = draw(st.integers(1, 4))
    return Wave(
        hang=draw(st.sampled_from(HANGS)),
        weeks=weeks,
        share=(draw(SHARES),),
        of=draw(st.sampled_from(("top", "bottom", "best"))),
        at=draw(st.sampled_from(LOAD_NAMES)),
        match=draw(st.integers(0, 3)) == 0,
        deload=weeks > 1 and draw(st.booleans()),
    )


@st.composite
def blocks(draw: st.DrawFn) -> Block:
    days = draw(
        st.lists(
            st.builds(
                TrainingDay,
                weekday=st.integers(0, 6),
                lifts=st.lists(st.sampled_from(LIFTS), min_size=1, max_size=2).map(tuple),
                kind=st.sampled_from(DAY_NAMES),
            ),
            min_size=1,
            max_size=4,
        )
    )
    changes = draw(
        st.lists(
            st.builds(
                Change,
                week=st.integers(1, 9),
                weekday=st.none() | st.integers(0, 6),
                load=st.none() | st.floats(0.1, 1.4),
                off=st.booleans(),
            ),
            max_size=3,
        )
    )
    return block(
        *days,
        waves=tuple(draw(st.lists(waves(), min_size=1, max_size=3))),
        changes=tuple(changes),
        test_week=draw(st.booleans()),
        first_weekday=draw(st.integers(0, 6)),
    )


@given(waves(), st.sampled_from(DAY_NAMES))
def test_waves_rise_and_a_deload_is_the_lightest(wave: Wave, kind: str) -> None:
    loads = loads_of_wave(wave, kind)  # type: ignore[arg-type]
    assert len(loads) == wave.weeks
    hard = loads[:-1] if wave.deload else loads
    assert list(hard) == sorted(hard)
    if wave.deload:
        assert loads[-1] < min(hard)


@given(blocks())
def test_sessions_follow_the_calendar_and_each_is_of_the_plan(plan: Block) -> None:
    slots, idle = slots_of(plan, ("Pip", "Osric"))
    order = [(slot.week, slot.weekday) for slot in slots]
    assert order == sorted(order)
    assert len(set(slots)) == len(slots)
    for slot in slots:
        assert 1 <= slot.week <= plan.weeks
        assert slot.weekday == plan.days[slot.day].weekday
        assert slot.lift in plan.days[slot.day].lifts
        assert (slot.week, slot.weekday) >= (1, plan.first_weekday)
    assert set(idle) <= set(plan.changes)
    assert slots_of(plan, ("Pip", "Osric")) == (slots, idle)


@given(st.floats(0.0, 150.0), st.floats(0.0, 150.0))
def test_more_wanted_is_never_less_on_the_bar(one_kg: float, other_kg: float) -> None:
    low_kg, high_kg = sorted((one_kg, other_kg))
    for above in (True, False):
        light, heavy = (_bench().loading_for(kg, above=above).total_kg for kg in (low_kg, high_kg))
        assert light <= heavy


@cache
def _bench():  # type: ignore[no-untyped-def]
    return straight_hanger(place())


@given(blocks())
@settings(max_examples=12, deadline=None)
def test_everything_is_in_stock_and_the_answer_is_always_the_same(plan: Block) -> None:
    answer = answer_weeks(WeeksQuestion(gym=TINY, block=plan))
    again = answer_weeks(WeeksQuestion(gym=TINY, block=plan))
    assert [one.planned for one in answer.sessions] == [one.planned for one in again.sessions]
    assert answer.flags == again.flags
    for one in answer.sessions:
        _in_stock(one)
    assert sum(row.sessions for row in answer.numbers) == len(answer.sessions)
    total_j = sum(one.planned.work_j for one in answer.sessions)
    assert abs(sum(row.work_j for row in answer.numbers) - total_j) < 1e-6 * max(total_j, 1.0)


def _in_stock(one: Laid) -> None:
    """No more plates or pieces than the gym has, none retired, none twice."""
    stock = one.place.gym.stock
    if one.loading is not None:
        for plate, count in one.loading.per_side:
            assert 2 * count <= plate.count
    if one.built is None:
        return
    tags = Counter(piece.tag for piece in (*one.built.left, *one.built.right))
    assert set(tags.values()) <= {1}
    assert set(tags) <= {piece.tag for piece in stock.fit_chains}
    assert one.planned.loads is not None
    assert one.planned.loads.bottom_kg <= one.planned.loads.mean_kg <= one.planned.loads.top_kg
