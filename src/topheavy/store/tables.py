"""The tables of the store, as SQLAlchemy knows them; migrations make them.

Gyms and logs are kept by gym. Their rows are added and never changed: what a gym owns is kept as
rows that count from a version of the gym on, until a later row of the same key takes their place.
Beside its columns, which are there to be asked for, such a row has the table of the gym file that
it came from, word for word. Accounts stand as they are now, and what was done to them is added.
"""

from __future__ import annotations

from typing import Any, Final

from sqlalchemy import (
    JSON,
    Boolean,
    Column,
    ForeignKey,
    ForeignKeyConstraint,
    Index,
    Integer,
    String,
    Table,
    Text,
    UniqueConstraint,
)

from topheavy.store.account_tables import ACCOUNTS
from topheavy.store.block_tables import BLOCK_PLAN
from topheavy.store.columns import (
    ID,
    METADATA,
    UtcTime,
    count_column,
    number_column,
    text_column,
)
from topheavy.store.room_tables import ROOM_PLAN
from topheavy.store.work_tables import WORK

GYM: Final = Table(
    "gym",
    METADATA,
    Column("id", ID, primary_key=True, autoincrement=True, doc="number of the gym"),
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
        Column("gym_id", ID, primary_key=True, doc="of which gym"),
        Column("key", Text, primary_key=True, doc="what stays the same over versions"),
        Column("version", Integer, primary_key=True, doc="from which version on it holds"),
        Column("gone", Boolean, nullable=False, doc="true: no longer there from then on"),
        Column("place", Integer, nullable=False, doc="its place in the file, from 0"),
        Column("written", JSON, nullable=False, doc="its table in the file"),
        *columns,
        ForeignKeyConstraint(["gym_id", "version"], ["gym_version.gym_id", "gym_version.number"]),
        info={"says": says},
    )


THINGS: Final[dict[str, Table]] = {
    "chain": _thing("chain_batch", "chain as bought and listed: a piece or a batch"),
    "inspection": _thing(
        "chain_inspection",
        "inspections of chain",
        text_column("day", "when"),
        text_column("tags", "which pieces"),
        text_column("by", "who looked"),
    ),
    "weighing": _thing(
        "chain_weighing",
        "later weighings of chain",
        text_column("day", "when"),
        text_column("tags", "which pieces"),
        text_column("by", "who weighed"),
    ),
    "feeder": _thing(
        "feeder",
        "feeders",
        text_column("name", "what it is called"),
        text_column("form", "rings, links or strap"),
        count_column("count", "how many alike"),
        number_column("whole_m", "length of the whole feeder [m]"),
        number_column("density_kg_per_m", "mass per length [kg/m]"),
        number_column("rating_kg", "working load limit [kg]; empty when unmarked", needed=False),
    ),
    "connector": _thing(
        "connector",
        "connectors",
        text_column("name", "what it is called"),
        count_column("count", "how many alike"),
        number_column("mass_kg", "mass of one [kg]"),
        number_column("length_m", "inside length [m]"),
        number_column("rating_kg", "working load limit [kg]; empty when unmarked", needed=False),
    ),
    "bar": _thing(
        "bar",
        "bars",
        text_column("name", "what it is called"),
        number_column("mass_kg", "mass without collars [kg]"),
        number_column("sleeve_m", "loadable length of one sleeve [m]"),
    ),
    "collar": _thing(
        "collar",
        "collars",
        text_column("name", "what it is called"),
        count_column("count", "how many alike"),
        number_column("mass_kg", "mass of one [kg]"),
        number_column("width_m", "room on the sleeve [m]"),
    ),
    "plate": _thing(
        "plate",
        "plates",
        count_column("count", "how many single plates"),
        number_column("mass_kg", "mass of one [kg]"),
        number_column("width_m", "room on the sleeve [m]"),
        number_column("diameter_m", "outside diameter [m]"),
    ),
    "band": _thing(
        "band",
        "bands, each with its readings",
        text_column("tag", "the band's own name"),
        number_column("rest_m", "length where it begins to pull [m]"),
        text_column("measured_on", "day of the readings"),
        text_column("retired", "why it must not be used; empty while it is fit"),
    ),
    "station": _thing(
        "station",
        "benches, racks and platforms",
        text_column("name", "what it is called"),
        text_column("kind", "bench, rack or platform"),
        number_column("surface_m", "height of what the chain lies on [m]"),
        number_column("pad_m", "height of a bench's pad [m]", needed=False),
        text_column("bar", "the bar that lives there; empty: the first"),
    ),
    "lifter": _thing("lifter", "lifters", text_column("name", "first name or nickname")),
    "lift": _thing(
        "lift",
        "a lifter's heights and best in one lift",
        text_column("lifter", "key of the lifter"),
        text_column("name", "the lift"),
        number_column("bottom_m", "floor to bar centre where it turns round [m]"),
        number_column("top_m", "floor to bar centre at lockout [m]"),
        number_column("height_u_m", "standard uncertainty of each height [m]"),
        text_column("station", "where it was measured; empty when it does not matter"),
        number_column("best_kg", "best single, straight weight [kg]", needed=False),
    ),
    "record": _thing(
        "lift_record",
        "what was written down of a lifter in a lift: evidence on strength",
        text_column("lift", "key of the lift"),
        text_column("kind", "sets, isometrics, misses, hung or speeds"),
        text_column("day", "when; empty when nobody noted it"),
    ),
    "piece": _thing(
        "chain_piece",
        "every piece of chain, worked out of its batch",
        text_column("batch", "key of the batch"),
        text_column("tag", "the piece's own name"),
        text_column("size", "trade size"),
        text_column("grade", "as marked"),
        count_column("links", "links"),
        number_column("wire_m", "wire diameter [m]"),
        number_column("pitch_m", "inside length of one link [m]"),
        number_column("mass_kg", "mass [kg]"),
        number_column("mass_u_kg", "standard uncertainty of the mass [kg]"),
        Column("weighed", Boolean, nullable=False, doc="whether it was on a scale"),
        text_column("retired", "why it must not be hung; empty while it is fit"),
    ),
}
"""Tables of what a gym has, by what the gym file calls it."""

LOG_SET: Final = Table(
    "log_set",
    METADATA,
    Column("gym_id", ForeignKey("gym.id"), primary_key=True, doc="of which gym"),
    Column("id", String(36), primary_key=True, doc="UUID that whoever logged it made"),
    Column("entry", ID, nullable=False, doc="in which order sets came in, from 1 in a gym"),
    Column("at", UtcTime, nullable=False, doc="when it came in"),
    Column("by", Text, nullable=False, doc="who logged it"),
    Column("lifter", Text, nullable=False, doc="who lifted"),
    Column("lift", Text, nullable=False, doc="the lift"),
    Column("station", Text, nullable=False, doc="where; empty when nobody noted it"),
    Column("day", String(10), nullable=False, doc="year-month-day"),
    Column("time", String(5), nullable=False, doc="hour:minute in the gym, or empty"),
    Column("session", Text, nullable=False, doc="what sets of one session share, or empty"),
    Column("number", Integer, nullable=True, doc="which set of the session, from 1"),
    number_column("straight_kg", "bar, collars and plates [kg]"),
    number_column("bottom_kg", "all on the bar at the bottom [kg]; empty: nothing hung",
                  needed=False),
    number_column("mean_kg", "its mean over the way up [kg]", needed=False),
    number_column("top_kg", "all on the bar at the top [kg]", needed=False),
    Column("rig", Text, nullable=False, doc="what hung then, in words"),
    Column("curve", JSON(none_as_null=True), nullable=True,
           doc="heights [m] and hung loads [kg]; empty when only the three loads are known"),
    Column("reps", Integer, nullable=False, doc="repetitions done"),
    number_column("reps_left", "repetitions that were left", needed=False),
    number_column("speed_m_per_s", "mean speed of the bar on the way up [m/s]", needed=False),
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

PLANS: Final = (WORK, ROOM_PLAN, BLOCK_PLAN)
TABLES: Final = (GYM, GYM_VERSION, *THINGS.values(), LOG_SET, *PLANS, *ACCOUNTS)
