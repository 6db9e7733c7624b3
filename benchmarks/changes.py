"""A change on the rig page: from the tap to all that the picture is drawn anew from."""

from __future__ import annotations

import time
from contextlib import closing
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import TYPE_CHECKING, Final
from urllib.parse import urlencode

from benchmarks.serving import Phone, served, stock

if TYPE_CHECKING:
    from collections.abc import Iterator

_RIG: Final = {
    "bottom": "85kg", "top": "115kg", "lift": "bench press", "station": "bench 1",
    "feeder": "ring strap", "connector": "10 mm screw link",
}  # fmt: skip
_BANDS: Final = {"left_band": "red-1 on low", "right_band": "red-3 on low"}


def run_changes() -> dict[str, list[float]]:
    """Ask for the stage after each of many changes; how long each took [s], by kind of rig."""
    with TemporaryDirectory() as folder:
        address = str(Path(folder) / "store.sqlite")
        (who,) = stock(address, 1)
        with served(address) as at, closing(Phone(at, who)) as phone:
            return {
                "chain": [_timed(phone, words) for words in _changes({})][1:],
                "chain and bands": [_timed(phone, words) for words in _changes(_BANDS)][1:],
            }


def _changes(more: dict[str, str]) -> Iterator[str]:
    """Another setting, pieces or plates each time; nothing is asked twice."""
    for setting in range(1, 8):
        for pieces in (1, 2):
            for plates in (("20",), ("20", "5"), ("25", "2.5")):
                parts = {
                    "left": [f"A{number}" for number in range(1, 1 + pieces)],
                    "right": [f"A{number}" for number in range(3, 3 + pieces)],
                    "setting": str(setting),
                    "plate": list(plates),
                }
                yield urlencode({**_RIG, **more, **parts}, doseq=True)


def _timed(phone: Phone, words: str) -> float:
    start = time.perf_counter()
    phone.get(f"/api/rig/stage?{words}")
    return time.perf_counter() - start
