"""Answers that were worked out already, and the rule that each is worked out once at a time."""

from __future__ import annotations

import threading
from collections import OrderedDict
from typing import TYPE_CHECKING, Any, Final, TypeVar

if TYPE_CHECKING:
    from collections.abc import Callable, Hashable

    T = TypeVar("T")

_KEPT: Final = 64
_AT_ONCE: Final = 2
"""How many answers are kept, and how many long ones are worked out at the same time."""


class Answers:
    """Keeps answers by what was asked; whoever asks the same meanwhile waits for the first.

    Examples
    --------
    >>> answers = Answers()
    >>> answers.get("2 + 2", lambda: 4), answers.get("2 + 2", lambda: 5)
    (4, 4)
    """

    def __init__(self) -> None:
        self._kept: OrderedDict[Hashable, Any] = OrderedDict()
        self._busy: dict[Hashable, threading.Lock] = {}
        self._guard = threading.Lock()
        self._room = threading.BoundedSemaphore(_AT_ONCE)

    def get(self, key: Hashable, work: Callable[[], T]) -> T:
        """Give the answer to `key`, worked out by `work` unless it is known; errors aren't kept."""
        with self._guard:
            lock = self._busy.setdefault(key, threading.Lock())
        with lock:
            found = self._look(key)
            if found:
                return found[0]  # type: ignore[no-any-return]
            try:
                with self._room:
                    answer = work()
                self._keep(key, answer)
            finally:
                with self._guard:
                    self._busy.pop(key, None)
            return answer

    def _look(self, key: Hashable) -> list[Any]:
        with self._guard:
            if key not in self._kept:
                return []
            self._kept.move_to_end(key)
            self._busy.pop(key, None)
            return [self._kept[key]]

    def _keep(self, key: Hashable, answer: object) -> None:
        with self._guard:
            self._kept[key] = answer
            while len(self._kept) > _KEPT:
                self._kept.popitem(last=False)
