"""From connector, bar, collar and plate tables to the parts of the stock."""

from __future__ import annotations

from typing import TYPE_CHECKING

from topheavy.errors import BadInputError
from topheavy.gym.stock import Bar, Collar, Connector, Plate

if TYPE_CHECKING:
    from topheavy.gymfile.tables_stock import BarTable, CollarTable, ConnectorTable, PlateTable


def connector_from(table: ConnectorTable) -> Connector:
    """Make a connector of its table."""
    return Connector(
        name=table.name,
        mass_kg=table.mass,
        length_m=table.length,
        rating_kg=table.rating,
        count=table.count,
    )


def bar_from(table: BarTable) -> Bar:
    """Make a bar of its table."""
    return Bar(name=table.name, mass_kg=table.mass, sleeve_m=table.sleeve)


def collar_from(table: CollarTable) -> Collar:
    """Make a collar of its table."""
    return Collar(name=table.name, mass_kg=table.mass, width_m=table.width, count=table.count)


def plate_from(table: PlateTable) -> Plate:
    """Make a plate size of its table.

    Raises
    ------
    BadInputError
        Neither or both of count and pairs.
    """
    if (table.count is None) == (table.pairs is None):
        raise BadInputError(
            "Plates are counted once",
            field="count",
            got="neither count nor pairs" if table.count is None else "both count and pairs",
            wanted="either count = 4 (single plates) or pairs = 2",
        )
    return Plate(
        mass_kg=table.mass,
        width_m=table.width,
        diameter_m=table.diameter,
        count=table.count if table.count is not None else 2 * (table.pairs or 0),
    )
