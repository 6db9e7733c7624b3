"""Whatever stands in a plan file: a plan, or a clear mistake."""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st

from topheavy.errors import TopheavyError
from topheavy.gymfile import demo_gym
from topheavy.planfile import demo_plan_text, parse_plan
from topheavy.training.weeks import Block

GYM = demo_gym()
LINES = [line for line in demo_plan_text().splitlines() if line and not line.startswith("#")]
VALUES = ('"20 %"', '"monday"', "3", "-1", "true", "[]", "{}", '""', "1e999", "2026-11-30", '["x"]')


@given(st.data())
@settings(max_examples=150, deadline=None)
def test_a_spoiled_plan_is_read_or_told(data: st.DataObject) -> None:
    lines = list(LINES)
    for _ in range(data.draw(st.integers(1, 3))):
        at = data.draw(st.integers(0, len(lines) - 1))
        how = data.draw(st.sampled_from(("drop", "twice", "value", "letters")))
        if how == "drop":
            del lines[at]
        elif how == "twice":
            lines.insert(at, lines[data.draw(st.integers(0, len(lines) - 1))])
        elif how == "value":
            lines[at] = f"{lines[at].partition('=')[0]}= {data.draw(st.sampled_from(VALUES))}"
        else:
            lines[at] += data.draw(st.text(max_size=3))
    _read_or_told("\n".join(lines))


@given(st.text(max_size=60))
def test_any_text_is_read_or_told(text: str) -> None:
    _read_or_told(text)


def _read_or_told(text: str) -> None:
    try:
        block = parse_plan(text, GYM)
    except TopheavyError as error:
        told = "\n".join(error.lines())
        assert told
        assert all(letter.isprintable() or letter == "\n" for letter in told)
        return
    assert isinstance(block, Block)
