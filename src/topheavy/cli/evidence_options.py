"""Options that say how strong a lifter is, for every command that needs to know.

One spelling for all: what stands left of ``=`` is where or with what, right of it what was read; a
set is ``REPSxLOAD``, with ``@N`` when N repetitions were left. Every option may be given again.
"""

from __future__ import annotations

from functools import partial
from typing import Annotated, Final

from topheavy.cli.panels import option

_KNOWN: Final = "How strong the lifter is, beside the gym file; most may be given again"


_known = partial(option, panel=_KNOWN)
BestOption = Annotated[
    str | None,
    _known("--best", "LOAD", "Best single, straight weight, full range; else the file's."),
]
SetOption = Annotated[
    list[str] | None, _known("--set", "REPSxLOAD", "A set: 5x100kg, or 5x100kg@2 with 2 reps left.")
]
PartialOption = Annotated[
    list[str] | None,
    _known(
        "--partial", "HEIGHT=LOAD", "Best from pins, boards or blocks: 95cm=120kg, 95cm=3x110kg."
    ),
]
MissOption = Annotated[
    list[str] | None,
    _known("--miss", "WHERE=LOAD", "Missed where the bar stopped: 90cm=105kg, or middle=105kg."),
]
IsometricOption = Annotated[
    list[str] | None,
    _known(
        "--isometric",
        "HEIGHT=MASS-MASS",
        "Effort on fixed pins, scale at effort less at rest: 60cm=280kg-90kg.",
    ),
]
SpeedOption = Annotated[
    list[str] | None,
    _known(
        "--speed", "LOAD=M/S", "Mean bar speed: 100kg=0.45, or 60kg=0.8:propulsive as some say it."
    ),
]
