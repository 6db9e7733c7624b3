"""The tables of the store, as SQLAlchemy knows them; migrations make them.

Everything is kept by gym. Rows are added and never changed: what a gym owns is kept as rows that
count from a version of the gym on, until a later row of the same key takes their place. Beside
its columns, which are there to be asked for, such a row has the table of the gym file that it
came from, word for word.
"""

from __future__ import annotations

from datetime import UTC, datetime
from typing import TYPE_CHECKING, Any, Final

from sqlalchemy import (
    JSON,
    BigInteger,
    Boolean,
    Column,
    DateTime,
    Float,
    ForeignKey,
    ForeignKeyConstraint,
    Index,
    Integer,
    MetaData,
    String,
    Table,
    Text,
    TypeDecorator,
    UniqueConstraint,
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

_ID: Final = BigInteger().with_variant(Integer, "sqlite")

GYM: Final = Table(
    "gym",
    METADATA,
    Column("id", _ID, primary_key=True, autoincrement=True, doc="number of the gym"),
    Column("name", Text, nullable=False, doc="as in its file"),
    Column("key", Text, nullable=False, unique=True, doc="its name, lower case"),
    Column("made_at", UtcTime, nullable=False, doc="when it was first loaded"),
    info={"says": "gyms"},
)

GYM_VERSION: Final = Table(
    "gym_version",
    METADATA,
    Column("gym_id", ForeignKey("gym.id"), primary_key=True, doc="of which gym"),
    Column("number", Integer, primary_key=True, doc="from 1, without gaps"),
    Column("at", UtcTime, nullable=False, doc="when"),
    Column("author", Text, nullable=False, doc="who"),
    Column("note", Text, nullable=False, doc="why, or where from"),
    Column("units", String(2), nullable=False, doc="what the gym wants to see: kg or lb"),
    Column("written", JSON, nullable=False, doc="[gym] of the file"),
    info={"says": "versions of a gym: one for each change, with author and time"},
)


def _thing(name: str, says: str, *columns: Column[Any]) -> Table:
    """A table of things that a gym has: key and version, whether gone, and its own columns."""
    return Table(
        name,
        METADATA,
        Column("gym_id", _ID, primary_key=True, doc="of which gym"),
        Column("key", Text, primary_key=True, doc="what stays the same over versions"),
        Column("version", Integer, primary_key=True, doc="from which version on it holds"),
        Column("gone", Boolean, nullable=False, doc="true: no longer there from then on"),
        Column("place", Integer, nullable=False, doc="its place in the file, from 0"),
        Column("written", JSON, nullable=False, doc="its table in the file"),
        *columns,
        ForeignKeyConstraint(["gym_id", "version"], ["gym_version.gym_id", "gym_version.number"]),
        info={"says": says},
    )


def _text(name: str, says: str) -> Column[str]:
    return Column(name, Text, nullable=False, doc=says)


def _number(name: str, says: str, *, needed: bool = True) -> Column[float]:
    return Column(name, Float(53), nullable=not needed, doc=says)


def _count(name: str, says: str) -> Column[int]:
    return Column(name, Integer, nullable=False, doc=says)


THINGS: Final[dict[str, Table]] = {
    "chain": _thing("chain_batch", "chain as bought and listed: a piece or a batch"),
    "feeder": _thing(
        "feeder",
        "feeders",
        _text("name", "what it is called"),
        _text("form", "rings, links or strap"),
        _count("count", "how many alike"),
        _number("whole_m", "length of the whole feeder [m]"),
        _number("density_kg_per_m", "mass per length [kg/m]"),
        _number("rating_kg", "working load limit [kg]; empty when unmarked", needed=False),
    ),
    "connector": _thing(
        "connector",
        "connectors",
        _text("name", "what it is called"),
        _count("count", "how many alike"),
        _number("mass_kg", "mass of one [kg]"),
        _number("length_m", "inside length [m]"),
        _number("rating_kg", "working load limit [kg]; empty when unmarked", needed=False),
    ),
    "bar": _thing(
        "bar",
        "bars",
        _text("name", "what it is called"),
        _number("mass_kg", "mass without collars [kg]"),
        _number("sleeve_m", "loadable length of one sleeve [m]"),
    ),
    "collar": _thing(
        "collar",
        "collars",
        _text("name", "what it is called"),
        _count("count", "how many alike"),
        _number("mass_kg", "mass of one [kg]"),
        _number("width_m", "room on the sleeve [m]"),
    ),
    "plate": _thing(
        "plate",
        "plates",
        _count("count", "how many single plates"),
        _number("mass_kg", "mass of one [kg]"),
        _number("width_m", "room on the sleeve [m]"),
        _number("diameter_m", "outside diameter [m]"),
    ),
    "band": _thing(
        "band",
        "bands, each with its readings",
        _text("tag", "the band's own name"),
        _number("rest_m", "length where it begins to pull [m]"),
        _text("measured_on", "day of the readings"),
        _text("retired", "why it must not be used; empty while it is fit"),
    ),
    "station": _thing(
        "station",
        "benches, racks and platforms",
        _text("name", "what it is called"),
        _text("kind", "bench, rack or platform"),
        _number("surface_m", "height of what the chain lies on [m]"),
        _number("pad_m", "height of a bench's pad [m]", needed=False),
        _text("bar", "the bar that lives there; empty: the first"),
    ),
    "lifter": _thing("lifter", "lifters", _text("name", "first name or nickname")),
    "lift": _thing(
        "lift",
        "a lifter's heights and best in one lift",
        _text("lifter", "key of the lifter"),
        _text("name", "the lift"),
        _number("bottom_m", "floor to bar centre where it turns round [m]"),
        _number("top_m", "floor to bar centre at lockout [m]"),
        _number("height_u_m", "standard uncertainty of each height [m]"),
        _text("station", "where it was measured; empty when it does not matter"),
        _number("best_kg", "best single, straight weight [kg]", needed=False),
    ),
    "record": _thing(
        "lift_record",
        "what was written down of a lifter in a lift: evidence on strength",
        _text("lift", "key of the lift"),
        _text("kind", "sets, isometrics, misses, hung or speeds"),
        _text("day", "when; empty when nobody noted it"),
    ),
    "piece": _thing(
        "chain_piece",
        "every piece of chain, worked out of its batch",
        _text("batch", "key of the batch"),
        _text("tag", "the piece's own name"),
        _text("size", "trade size"),
        _text("grade", "as marked"),
        _count("links", "links"),
        _number("wire_m", "wire diameter [m]"),
        _number("pitch_m", "inside length of one link [m]"),
        _number("mass_kg", "mass [kg]"),
        _number("mass_u_kg", "standard uncertainty of the mass [kg]"),
        Column("weighed", Boolean, nullable=False, doc="whether it was on a scale"),
        _text("retired", "why it must not be hung; empty while it is fit"),
    ),
}
"""Tables of what a gym has, by what the gym file calls it."""

LOG_SET: Final = Table(
    "log_set",
    METADATA,
    Column("gym_id", ForeignKey("gym.id"), primary_key=True, doc="of which gym"),
    Column("id", String(36), primary_key=True, doc="UUID that whoever logged it made"),
    Column("entry", _ID, nullable=False, doc="in which order sets came in, from 1 in a gym"),
    Column("at", UtcTime, nullable=False, doc="when it came in"),
    Column("by", Text, nullable=False, doc="who logged it"),
    Column("lifter", Text, nullable=False, doc="who lifted"),
    Column("lift", Text, nullable=False, doc="the lift"),
    Column("station", Text, nullable=False, doc="where; empty when nobody noted it"),
    Column("day", String(10), nullable=False, doc="year-month-day"),
    Column("time", String(5), nullable=False, doc="hour:minute in the gym, or empty"),
    Column("session", Text, nullable=False, doc="what sets of one session share, or empty"),
    Column("number", Integer, nullable=True, doc="which set of the session, from 1"),
    _number("straight_kg", "bar, collars and plates [kg]"),
    _number("bottom_kg", "all on the bar at the bottom [kg]; empty: nothing hung", needed=False),
    _number("mean_kg", "its mean over the way up [kg]", needed=False),
    _number("top_kg", "all on the bar at the top [kg]", needed=False),
    Column("rig", Text, nullable=False, doc="what hung then, in words"),
    Column("curve", JSON(none_as_null=True), nullable=True,
           doc="heights [m] and hung loads [kg]; empty when only the three loads are known"),
    Column("reps", Integer, nullable=False, doc="repetitions done"),
    _number("reps_left", "repetitions that were left", needed=False),
    _number("speed_m_per_s", "mean speed of the bar on the way up [m/s]", needed=False),
    Column("missed", Boolean, nullable=False, doc="whether it ended with a miss"),
    Column("third", String(6), nullable=True, doc="where: lower, middle or top third"),
    Column("note", Text, nullable=False, doc="whatever else"),
    Column("corrects", String(36), nullable=True, doc="id of the set it stands for now"),
    Column("struck", Boolean, nullable=False, doc="true: the set it corrects never happened"),
    ForeignKeyConstraint(
        ["gym_id", "corrects"], ["log_set.gym_id", "log_set.id"], name="fk_log_set_corrected"
    ),
    UniqueConstraint("gym_id", "corrects"),
    UniqueConstraint("gym_id", "entry"),
    Index("ix_log_set_who_what_when", "gym_id", "lifter", "lift", "day"),
    Index("ix_log_set_when", "gym_id", "day"),
    info={"says": "sets as they were logged; a correction is a new row that points to the old one"},
)  # fmt: skip

TABLES: Final = (GYM, GYM_VERSION, *THINGS.values(), LOG_SET)
