"""Each answer is worked out once, also when many ask at the same time."""

from __future__ import annotations

import threading
from concurrent.futures import ThreadPoolExecutor

import pytest

from topheavy.web.answers import Answers


def test_many_who_ask_the_same_wait_for_one_answer() -> None:
    answers, begun, calls = Answers(), threading.Event(), []

    def work() -> str:
        calls.append(1)
        begun.wait(5)
        return "a rig"

    with ThreadPoolExecutor(8) as pool:
        asked = [pool.submit(answers.get, "the same", work) for _ in range(8)]
        begun.set()
        assert {one.result(timeout=10) for one in asked} == {"a rig"}
    assert len(calls) == 1


def test_a_mistake_is_not_kept() -> None:
    answers = Answers()

    def broken() -> int:
        raise ValueError("no")

    with pytest.raises(ValueError, match="no"):
        answers.get("key", broken)
    assert answers.get("key", lambda: 7) == 7


def test_the_oldest_are_forgotten() -> None:
    answers = Answers()
    for number in range(100):
        answers.get(number, lambda number=number: number)  # type: ignore[misc]  # bound now
    assert answers.get(99, lambda: -1) == 99
    assert answers.get(0, lambda: -1) == -1
