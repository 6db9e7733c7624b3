"""How quickly a command starts and answers, against an interpreter that does nothing."""

from __future__ import annotations

import sys
from tempfile import TemporaryDirectory

from benchmarks.measure import command_s

_TOPHEAVY = (sys.executable, "-m", "topheavy")
_QUESTION = ("rig", "--lifter", "Osric", "--bottom", "85kg", "--top", "115kg")


def commands_s() -> list[tuple[str, float]]:
    """Median time [s] of a bare interpreter, of help, and of whole answers on the built-in gym."""
    with TemporaryDirectory() as out:
        demo = ("demo", "--out", out)
        return [
            ("a bare interpreter", command_s((sys.executable, "-c", "pass"), 21)),
            ("`topheavy --help`", command_s((*_TOPHEAVY, "--help"), 21)),
            ("`topheavy rig --help`", command_s((*_TOPHEAVY, "rig", "--help"), 11)),
            ("`topheavy rig`", command_s((*_TOPHEAVY, *_QUESTION), 5)),
            ("`topheavy demo`, card and picture too", command_s((*_TOPHEAVY, *demo), 5)),
        ]
