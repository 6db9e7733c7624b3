"""From what a coach wrote down of a hung rig to the load it put on the bar at each height."""

from __future__ import annotations

from typing import TYPE_CHECKING

from topheavy.errors import BadInputError
from topheavy.gym.records import HungLoads
from topheavy.gym.stock import Connector
from topheavy.mechanics.banded import Banded
from topheavy.mechanics.ground import Ground
from topheavy.mechanics.rig import End
from topheavy.rigging.fixtures import Fixture

if TYPE_CHECKING:
    from collections.abc import Sequence

    from topheavy.gym.people import Station, Travel
    from topheavy.gym.records import HungThen
    from topheavy.gym.stock import Stock
    from topheavy.mechanics.curve import LoadCurve


def hung_curve_then(
    hung: HungThen | HungLoads, stock: Stock, station: Station, travel: Travel
) -> LoadCurve:
    """Work out the load of what hung, by height of the bar.

    Parts that were retired since still count: they hung then.

    Parameters
    ----------
    hung : HungThen or HungLoads
        By the names in the stock, or by its loads alone.
    stock : Stock
        The gym's.
    station : Station
        Where it hung.
    travel : Travel
        Heights of the lift there [m].

    Raises
    ------
    NotInStockError
        No such piece, feeder, setting, connector, band or peg.
    BadInputError
        A piece or band listed twice, or a band stretched beyond its readings.
    """
    if isinstance(hung, HungLoads):
        return hung.curve
    _once((*hung.left, *hung.right), "left and right")
    _once([tag for pair in hung.bands for tag in (pair.left, pair.right)], "bands")
    ground = Ground(surface_m=station.surface_m)
    fixture = _fixture(hung, stock)
    left, right = (
        End(
            hangs=fixture.hangs([stock.piece(tag).chain for tag in tags]),
            bands=tuple(bands),
        )
        for tags, bands in (
            (hung.left, _bands(hung, stock, station, travel, "left")),
            (hung.right, _bands(hung, stock, station, travel, "right")),
        )
    )
    return left.curve(ground) + right.curve(ground)


def _fixture(hung: HungThen, stock: Stock) -> Fixture:
    if hung.style != "doubled" or not (hung.left or hung.right):
        return Fixture(style=hung.style)
    feeder = stock.feeder(hung.feeder)
    connector = stock.connector(hung.connector) if hung.connector else _NO_CONNECTOR
    return Fixture(
        style="doubled", feeder=feeder, setting=feeder.setting(hung.setting), connector=connector
    )


def _bands(
    hung: HungThen, stock: Stock, station: Station, travel: Travel, end: str
) -> list[Banded]:
    return [
        Banded(
            band=stock.band(getattr(pair, end)).fit(),
            peg=station.peg(pair.peg),
            second=station.peg(pair.second_peg) if pair.second_peg else None,
            travel_m=(travel.bottom_m, travel.top_m),
        )
        for pair in hung.bands
    ]


def _once(tags: Sequence[str], field: str) -> None:
    twice = sorted({tag for tag in tags if list(tags).count(tag) > 1})
    if twice:
        raise BadInputError(
            "The same one can't hang in two places",
            field=field,
            got=", ".join(twice),
            wanted="each piece or band once",
        )


_NO_CONNECTOR = Connector(name="the connector", mass_kg=0.0, length_m=0.0, rating_kg=None, count=2)
