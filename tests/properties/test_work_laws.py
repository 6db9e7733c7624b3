"""Laws of the day's work: a change leads where it says, and what is written reads back."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from topheavy.gym.log import RigThen
from topheavy.gym.records import BandsUsed, HungThen
from topheavy.phrase import Amount, Phrase, Remark
from topheavy.store.work_rows import decode_work, encode_work
from topheavy.training.bar_changes import apply, changes, plates_handled
from topheavy.training.on_bar import BARE, OnBar
from topheavy.training.work import Step, Work

PLATES = (25.0, 20.0, 10.0, 5.0, 2.5, 20.41165665)
TAGS = ("A1", "A2", "A3", "A4", "B1", "B2")
BANDS = ("red 1", "red 2", "black 1", "black 2")


@st.composite
def hung(draw: st.DrawFn) -> HungThen | None:
    """Chain, bands, both or nothing; ends may be uneven."""
    tags = draw(st.permutations(TAGS))
    count = draw(st.integers(0, len(tags)))
    split = draw(st.integers(0, count))
    left, right = tuple(sorted(tags[:split])), tuple(sorted(tags[split:count]))
    names = draw(st.permutations(BANDS))
    pairs = tuple(
        BandsUsed(left=names[2 * n], right=names[2 * n + 1], peg="low", second_peg=second)
        for n, second in enumerate(draw(st.lists(st.sampled_from(["", "low"]), max_size=2)))
    )
    if not (left or right or pairs):
        return None
    style = draw(st.sampled_from(["doubled", "straight", "draped"]))
    words: dict[str, Any] = {"style": style}
    if style == "doubled" and (left or right):
        words |= {
            "feeder": draw(st.sampled_from(["strap", "rings"])),
            "setting": draw(st.sampled_from(["5", "7", "link 9"])),
            "connector": draw(st.sampled_from(["", "screw link"])),
        }
    if not (left or right):
        words = {}
    return HungThen(left=left, right=right, bands=pairs, **words)


BARS = st.builds(
    OnBar,
    plates_kg=st.lists(st.sampled_from(PLATES), max_size=6).map(tuple),
    hung=hung(),
) | st.just(BARE)


def in_order(bar: OnBar) -> OnBar:
    """The same with the pieces on a connector in one order: on a connector there is none."""
    if bar.hung is None or bar.hung.style != "doubled":
        return bar
    left, right = tuple(sorted(bar.hung.left)), tuple(sorted(bar.hung.right))
    return replace(bar, hung=replace(bar.hung, left=left, right=right))


@given(BARS, BARS)
def test_a_change_leads_where_it_says(before: OnBar, after: OnBar) -> None:
    moves = changes(before, after)
    assert in_order(apply(before, moves)) == in_order(after)
    assert bool(moves) == (in_order(before) != in_order(after))


@given(BARS, BARS)
def test_there_and_back_handles_as_many_plates(before: OnBar, after: OnBar) -> None:
    there, back = plates_handled(changes(before, after)), plates_handled(changes(after, before))
    assert there == back
    kept = 0
    for one, other in zip(before.plates_kg, after.plates_kg, strict=False):
        if one != other:
            break
        kept += 1
    # Whatever lies outside of the first difference must move, and nothing else needs to.
    assert there == 2 * (len(before.plates_kg) + len(after.plates_kg) - 2 * kept)


@given(BARS, BARS, BARS)
def test_a_stop_on_the_way_never_saves_a_plate(one: OnBar, two: OnBar, three: OnBar) -> None:
    direct = plates_handled(changes(one, three))
    assert direct <= plates_handled(changes(one, two)) + plates_handled(changes(two, three))


AMOUNTS = st.builds(
    Amount, st.floats(0, 500), st.sampled_from(["mass", "length"]), st.none() | st.integers(0, 3)
)


@st.composite
def steps(draw: st.DrawFn, number: int) -> Step:
    """A set with anything on the bar."""
    straight_kg = draw(st.floats(10, 400))
    bar = draw(BARS.filter(lambda bar: bar.collars))
    more = sorted(draw(st.lists(st.floats(0, 200), min_size=3, max_size=3)))
    rig = RigThen(
        bottom_kg=straight_kg + more[0],
        mean_kg=straight_kg + more[1],
        top_kg=straight_kg + more[2],
        words="as hung",
        curve=((0.5, more[0]), (1.0, more[2])),
    )
    return Step(
        number=number,
        kind=draw(st.sampled_from(["warm-up", "attempt", "top set", "work set"])),
        bar=bar,
        straight_kg=straight_kg,
        rig=rig if bar.hung else None,
        reps=draw(st.integers(1, 20)),
        reps_left=draw(st.none() | st.tuples(st.integers(0, 3), st.integers(3, 9))),
        speed_m_per_s=draw(st.none() | st.floats(0.1, 2)),
        loss=draw(st.none() | st.floats(0.05, 0.4)),
        rest_s=draw(st.floats(0, 600)),
    )


@given(st.data())
def test_what_is_written_reads_back(data: st.DataObject) -> None:
    count = data.draw(st.integers(1, 5))
    work = Work(
        id=str(data.draw(st.uuids())),
        day="2026-11-25",
        lifter="Osric",
        lift="bench press",
        station="bench 1",
        kind="heavy",
        steps=tuple(data.draw(steps(number)) for number in range(1, count + 1)),
        limit_hung_kg=data.draw(st.none() | st.floats(0, 100)),
        cautions=(Remark("code", Phrase("{} more", (data.draw(AMOUNTS),))),),
    )
    assert decode_work(encode_work(work)) == work
