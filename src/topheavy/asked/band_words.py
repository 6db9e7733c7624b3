"""Bands in a coach's words: "red-1 on low", "red-1+red-2 doubled on low"."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Final

from topheavy.errors import BadInputError, NotInStockError, TopheavyError
from topheavy.rigging.hung_band import HungBand

if TYPE_CHECKING:
    from collections.abc import Iterator

    from topheavy.gym.people import Station, StationPeg
    from topheavy.gym.stock import Stock

WANTED: Final = 'a band and a peg, such as "red-1 on low", or "red-1 doubled on low"'
_BANDS: Final = re.compile(
    r"(?:bands?\s+)?(?P<tags>.+?)(?:\s+(?P<way>single|doubled))?"
    r"(?:\s+on\s+(?:peg\s+)?(?P<peg>.+?))?(?:,?\s+(?P<late>single|doubled))?",
    re.IGNORECASE | re.DOTALL,
)


def read_bands(
    texts: tuple[str, ...], option: str, stock: Stock, station: Station | None, *, beyond: bool
) -> tuple[HungBand, ...]:
    """Read the bands of one end.

    Parameters
    ----------
    texts : tuple of str
        Each ``TAGS [single|doubled] [on PEG]``, tags joined by ``+``; the peg may be left out
        where the station has one.
    option : str
        How they were typed, for mistakes.
    stock : Stock
        The gym's.
    station : Station or None
        Where; its pegs hold the bands.
    beyond : bool
        Whether bands may be stretched further than they were read.

    Raises
    ------
    BadInputError, NotInStockError
        Words not understood; no such band, or no such peg.
    """
    return tuple(
        hung for text in texts for hung in _read(text, option, stock, station, beyond=beyond)
    )


def _read(
    text: str, option: str, stock: Stock, station: Station | None, *, beyond: bool
) -> Iterator[HungBand]:

    said = _BANDS.fullmatch(text.strip())
    if said is None:
        raise BadInputError("No band in it", field=option, got=repr(text), wanted=WANTED)
    way = (said["way"] or said["late"] or "single").lower()
    peg = _peg(said["peg"], text, option, station)
    for tag in said["tags"].split("+"):
        try:
            band = stock.band(tag.strip())
        except TopheavyError as error:
            raise _at(error, option, text) from error
        yield HungBand(band=band, peg=peg, doubled=way == "doubled", beyond=beyond)


def _peg(name: str | None, text: str, option: str, station: Station | None) -> StationPeg:
    if station is None:
        raise BadInputError(
            "Bands are held by the pegs of a station, and none was named",
            field=option,
            got=repr(text),
            wanted="--station, or a lifter who was measured on one",
        )
    if name is None and len(station.pegs) == 1:
        return station.pegs[0]
    if name is None and station.pegs:
        raise NotInStockError(
            "Which peg holds the band?",
            field=option,
            got=repr(text),
            wanted=f"one of {', '.join(peg.name for peg in station.pegs)}",
        )
    try:
        peg = station.peg(name or "")
    except TopheavyError as error:
        raise _at(error, option, text) from error
    return next(one for one in station.pegs if one.peg is peg)


def _at(error: TopheavyError, option: str, text: str) -> NotInStockError:
    return NotInStockError(error.message, field=option, got=repr(text), wanted=error.wanted)
