"""Published protocols for a 1RM, to stand beside a ramp of singles."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final


@dataclass(frozen=True, slots=True, kw_only=True)
class ProtocolSet:
    """One set of a protocol.

    Parameters
    ----------
    what : str
        What the protocol says of its load.
    reps : tuple of (int, int)
        Fewest and most.
    rest_s : tuple of (float, float) or None
        Rest after it [s], shortest and longest; None when it says nothing.
    """

    what: str
    reps: tuple[int, int]
    rest_s: tuple[float, float] | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Protocol:
    """A published protocol.

    Parameters
    ----------
    name : str
        Who published it.
    seen : str
        How its numbers were seen.
    sets : tuple of ProtocolSet
        In order; the singles stand last, as one row.
    attempts : tuple of (int, int) or None
        Within how many singles the 1RM should be found.
    """

    name: str
    seen: str
    sets: tuple[ProtocolSet, ...]
    attempts: tuple[int, int] | None = None


PROTOCOLS: Final = (
    Protocol(
        name="Baechle & Earle, Essentials of Strength Training and Conditioning",
        seen="in a college textbook's appendix with the same steps; the book itself from memory",
        sets=(
            ProtocolSet(what="light, easily", reps=(5, 10), rest_s=(60.0, 60.0)),
            ProtocolSet(what="a load good for", reps=(3, 5), rest_s=(120.0, 120.0)),
            ProtocolSet(what="near the max, carefully", reps=(2, 3), rest_s=(120.0, 240.0)),
            ProtocolSet(what="attempts", reps=(1, 1), rest_s=(120.0, 240.0)),
        ),
        attempts=(3, 5),
    ),
    Protocol(
        name="Brown & Weir, JEPonline 4(3), 1-21, 2001",
        seen="abstract, in part; 70 % and the rests from memory",
        sets=(
            ProtocolSet(what="about 50 % of the guessed 1RM", reps=(8, 8)),
            ProtocolSet(what="70 % of it", reps=(3, 3)),
            ProtocolSet(what="singles, heavier and heavier", reps=(1, 1), rest_s=(60.0, 300.0)),
        ),
    ),
)
"""The two that a ramp of singles is laid out after."""
