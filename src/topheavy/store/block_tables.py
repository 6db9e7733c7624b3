"""The table of planned blocks of weeks, as SQLAlchemy knows it; a migration makes it."""

from __future__ import annotations

from typing import Final

from sqlalchemy import JSON, Boolean, Column, ForeignKeyConstraint, Integer, Table, Text

from topheavy.store.columns import ID, METADATA, UtcTime

BLOCK_PLAN: Final = Table(
    "block_plan",
    METADATA,
    Column("gym_id", ID, primary_key=True, doc="of which gym"),
    Column("number", Integer, primary_key=True, doc="from 1 in a gym; the last one holds"),
    Column("at", UtcTime, nullable=False, doc="when it was written"),
    Column("by", Text, nullable=False, doc="who wrote it"),
    Column("note", Text, nullable=False, doc="what was changed"),
    Column("gone", Boolean, nullable=False, doc="true: put away, no block is planned"),
    Column("written", JSON, nullable=False, doc="the tables of a plan file"),
    ForeignKeyConstraint(["gym_id"], ["gym.id"]),
    info={"says": "blocks of weeks as they were planned; changes are new rows"},
)
