"""The table of the work of the day: given, replaced, taken away; rows are only added."""

from __future__ import annotations

from typing import Final

from sqlalchemy import (
    JSON,
    Boolean,
    Column,
    ForeignKey,
    ForeignKeyConstraint,
    Index,
    String,
    Table,
    UniqueConstraint,
)

from topheavy.store.columns import ID, METADATA, UtcTime, text_column

WORK: Final = Table(
    "work",
    METADATA,
    Column("gym_id", ForeignKey("gym.id"), primary_key=True, doc="of which gym"),
    Column("id", String(36), primary_key=True, doc="UUID that whoever gave it made"),
    Column("entry", ID, nullable=False, doc="in which order work was given, from 1 in a gym"),
    Column("at", UtcTime, nullable=False, doc="when it was given"),
    text_column("by", "who gave it"),
    Column("day", String(10), nullable=False, doc="for which day, year-month-day"),
    text_column("lifter", "who lifts"),
    text_column("lift", "the lift"),
    text_column("source", "what it was made from: coach, weeks or room"),
    Column("replaces", String(36), nullable=True, doc="id of the work it stands for now"),
    Column("gone", Boolean, nullable=False, doc="true: the work it replaces was taken away"),
    Column("written", JSON, nullable=False, doc="sets with loads and parts, frozen"),
    ForeignKeyConstraint(
        ["gym_id", "replaces"], ["work.gym_id", "work.id"], name="fk_work_replaced"
    ),
    UniqueConstraint("gym_id", "replaces"),
    UniqueConstraint("gym_id", "entry"),
    Index("ix_work_gym_id_day", "gym_id", "day"),
    info={"says": "work of the day as it was given out; what replaces it points to it"},
)
