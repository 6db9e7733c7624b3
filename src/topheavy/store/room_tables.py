"""The table of room plans, as SQLAlchemy knows it; a migration makes it."""

from __future__ import annotations

from typing import Final

from sqlalchemy import (
    JSON,
    Boolean,
    Column,
    ForeignKeyConstraint,
    Index,
    Integer,
    String,
    Table,
    Text,
)

from topheavy.store.columns import ID, METADATA, UtcTime

ROOM_PLAN: Final = Table(
    "room_plan",
    METADATA,
    Column("gym_id", ID, primary_key=True, doc="of which gym"),
    Column("number", Integer, primary_key=True, doc="from 1 in a gym; the last one of a day holds"),
    Column("at", UtcTime, nullable=False, doc="when it was put up"),
    Column("by", Text, nullable=False, doc="who put it up"),
    Column("note", Text, nullable=False, doc="why"),
    Column("day", String(10), nullable=False, doc="year-month-day that it is for"),
    Column("version", Integer, nullable=False, doc="of the gym that it was made from"),
    Column("gone", Boolean, nullable=False, doc="true: taken down, no plan for that day"),
    Column("asked", JSON, nullable=False, doc="the tables of a room file"),
    Column("plan", JSON, nullable=False, doc="groups by station and time, with pieces and plates"),
    ForeignKeyConstraint(["gym_id", "version"], ["gym_version.gym_id", "gym_version.number"]),
    Index("ix_room_plan_gym_id_day", "gym_id", "day"),
    info={"says": "plans of the room that were put up; changes are new rows"},
)
