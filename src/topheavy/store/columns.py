"""What the store's tables are made of: moments, numbers of rows, and columns with their words."""

from __future__ import annotations

from datetime import UTC, datetime
from typing import TYPE_CHECKING, Any, Final

from sqlalchemy import (
    BigInteger,
    Column,
    DateTime,
    Float,
    Integer,
    MetaData,
    Text,
    TypeDecorator,
)

if TYPE_CHECKING:
    from sqlalchemy.engine import Dialect


class UtcTime(TypeDecorator[datetime]):
    """A moment, always in UTC; SQLite has no zone to keep beside it."""

    impl = DateTime(timezone=True)
    cache_ok = True

    def process_bind_param(self, value: datetime | None, dialect: Dialect) -> datetime | None:  # noqa: ARG002 - the hook's shape
        """Turn a moment into UTC."""
        return None if value is None else value.astimezone(UTC)

    def process_result_value(self, value: Any | None, dialect: Dialect) -> datetime | None:  # noqa: ARG002  - the hook's shape
        """Give back a moment that knows it is UTC."""
        if not isinstance(value, datetime):
            return None
        return value.replace(tzinfo=UTC) if value.tzinfo is None else value.astimezone(UTC)


METADATA: Final = MetaData(
    naming_convention={
        "ix": "ix_%(table_name)s_%(column_0_N_name)s",
        "uq": "uq_%(table_name)s_%(column_0_N_name)s",
        "fk": "fk_%(table_name)s_%(referred_table_name)s",
        "pk": "pk_%(table_name)s",
    }
)

ID: Final = BigInteger().with_variant(Integer, "sqlite")
"""Numbers of rows; SQLite counts them on its own only in its plain integers."""


def text_column(name: str, says: str) -> Column[str]:
    """Make a column of text that is never empty of a value."""
    return Column(name, Text, nullable=False, doc=says)


def number_column(name: str, says: str, *, needed: bool = True) -> Column[float]:
    """Make a column of numbers."""
    return Column(name, Float(53), nullable=not needed, doc=says)


def count_column(name: str, says: str) -> Column[int]:
    """Make a column of whole numbers."""
    return Column(name, Integer, nullable=False, doc=says)
