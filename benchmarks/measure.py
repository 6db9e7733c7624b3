"""Time, memory and the machine they were taken on."""

from __future__ import annotations

import os
import platform
import statistics
import subprocess
import sys
import time
from datetime import date
from importlib.metadata import version
from typing import TYPE_CHECKING, TypeVar

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

T = TypeVar("T")

_PEAK = """
import pathlib, resource, sys
status = pathlib.Path("/proc/self/status")
if status.exists():
    (line,) = [l for l in status.read_text().splitlines() if l.startswith("VmHWM")]
    print(int(line.split()[1]) / 1024)
else:
    unit = 1024**2 if sys.platform == "darwin" else 1024
    print(resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / unit)
"""
"""Largest resident size of this very process [MiB]. Where it can, it reads the kernel's own
figure: the one of getrusage starts from the parent's."""


def timed(work: Callable[[], T]) -> tuple[float, T]:
    """Do something once; return how long it took [s], and what came of it."""
    start = time.perf_counter()
    result = work()
    return time.perf_counter() - start, result


def median_s(work: Callable[[], object], times: int) -> float:
    """Median time [s] of doing something several times."""
    return statistics.median(timed(work)[0] for _ in range(times))


def median_cpu_s(work: Callable[[], object], times: int) -> float:
    """Median time of the processor [s] for doing something several times, whoever else is busy."""
    taken = []
    for _ in range(times):
        start = time.process_time()
        work()
        taken.append(time.process_time() - start)
    return statistics.median(taken)


def command_s(command: Sequence[str], times: int) -> float:
    """Median time [s] of a command in a process of its own."""

    def run() -> None:
        subprocess.run(command, check=True, stdout=subprocess.DEVNULL)  # noqa: S603  (our own)

    run()
    return median_s(run, times)


def peak_mib(code: str) -> float:
    """Peak memory [MiB] of a fresh interpreter that runs some code."""
    done = subprocess.run(  # noqa: S603  (our own)
        [sys.executable, "-c", code + _PEAK], check=True, capture_output=True, text=True
    )
    return float(done.stdout.split()[-1])


def machine() -> str:
    """Describe machine and day in general words."""
    cores = len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count()
    packages = ", ".join(f"{name} {version(name)}" for name in ("numpy", "ortools"))
    return (
        f"{cores} cores ({platform.machine()}, {platform.system()}), "
        f"Python {platform.python_version()}, {packages}; {date.today().isoformat()}"
    )
