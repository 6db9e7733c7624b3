"""Thirty phones at once: how long they wait, and whether anything they logged is lost."""

from __future__ import annotations

import random
import threading
import time
from dataclasses import dataclass, field
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import TYPE_CHECKING, Final

from benchmarks.serving import Phone, logged_ids, served, stock

if TYPE_CHECKING:
    from collections.abc import Callable

PHONES: Final = 30
SECONDS: Final = 30.0
EACH_S: Final = 4.0
"""Each asks every so often [s], as the page does; every fifth time for the whole page, and every
other time it logs a set: some twenty times as often as people do."""

STEPS: Final = 3


@dataclass(slots=True)
class Waits:
    """How long phones waited [s], each time; what was acknowledged; how busy the server was [-]."""

    page: list[float] = field(default_factory=list)
    poll: list[float] = field(default_factory=list)
    log: list[float] = field(default_factory=list)
    acknowledged: list[str] = field(default_factory=list)
    busy: float = 0.0
    lost: int = 0
    doubled: int = 0


def quantile(waits: list[float], share: float) -> float:
    """The wait [s] that this share of all did not exceed."""
    ordered = sorted(waits)
    return ordered[min(int(share * len(ordered)), len(ordered) - 1)]


def run_phones(seconds: float = SECONDS) -> Waits:
    """Let phones ask and log against a server of their own."""
    with TemporaryDirectory() as folder:
        address = str(Path(folder) / "store.sqlite")
        stocked = stock(address, PHONES)
        waits = Waits()
        with served(address) as at:
            phones = [Phone(at, one) for one in stocked]
            for phone in phones:
                phone.page()
            began_s, spent_s = time.monotonic(), at.cpu_s
            until = time.monotonic() + seconds
            threads = [
                threading.Thread(target=_use, args=(phone, number, until, waits))
                for number, phone in enumerate(phones)
            ]
            for thread in threads:
                thread.start()
            for thread in threads:
                thread.join()
            for phone in phones:
                phone.close()
            waits.busy = (at.cpu_s - spent_s) / (time.monotonic() - began_s)
        found = logged_ids(address)
        waits.lost = len(set(waits.acknowledged) - set(found))
        waits.doubled = len(found) - len(set(found))
        return waits


def _use(phone: Phone, number: int, until: float, waits: Waits) -> None:
    rng = random.Random(number)  # noqa: S311  (not for secrets)
    time.sleep(rng.uniform(0, EACH_S))
    turn = 0
    while time.monotonic() < until:
        began = time.monotonic()
        turn += 1
        waits.poll.append(_timed(phone.poll))
        if turn % 5 == number % 5:
            waits.page.append(_timed(phone.page))
        if turn % 2:
            start = time.perf_counter()
            ids = phone.log(1 + turn // 2 % STEPS)
            waits.log.append(time.perf_counter() - start)
            waits.acknowledged += ids
        time.sleep(max(0.0, EACH_S - (time.monotonic() - began)))


def _timed(work: Callable[[], object]) -> float:
    start = time.perf_counter()
    work()
    return time.perf_counter() - start
