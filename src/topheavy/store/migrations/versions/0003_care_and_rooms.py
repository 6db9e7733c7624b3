"""Inspections and weighings of chain, and plans of the room."""

from __future__ import annotations

from typing import Any

import sqlalchemy as sa
from alembic import op

from topheavy.store.migrations.appending import only_add

revision = "0003"
down_revision = "0002"

_BIG = sa.BigInteger().with_variant(sa.Integer(), "sqlite")


def upgrade() -> None:
    """Make the tables; their rows are only added to."""
    for name in ("chain_inspection", "chain_weighing"):
        _care(name)
        only_add(name)
    _plans()
    only_add("room_plan")


def _column(name: str, kind: Any, *, empty: bool = False) -> sa.Column[Any]:
    return sa.Column(name, kind, nullable=empty)


def _care(name: str) -> None:
    op.create_table(
        name,
        _column("gym_id", _BIG),
        _column("key", sa.Text()),
        _column("version", sa.Integer()),
        _column("gone", sa.Boolean()),
        _column("place", sa.Integer()),
        _column("written", sa.JSON()),
        *[_column(one, sa.Text()) for one in ("day", "tags", "by")],
        sa.PrimaryKeyConstraint("gym_id", "key", "version", name=f"pk_{name}"),
        sa.ForeignKeyConstraint(
            ["gym_id", "version"],
            ["gym_version.gym_id", "gym_version.number"],
            name=f"fk_{name}_gym_version",
        ),
    )


def _plans() -> None:
    op.create_table(
        "room_plan",
        _column("gym_id", _BIG),
        _column("number", sa.Integer()),
        _column("at", sa.DateTime(timezone=True)),
        *[_column(one, sa.Text()) for one in ("by", "note")],
        _column("day", sa.String(10)),
        _column("version", sa.Integer()),
        _column("gone", sa.Boolean()),
        *[_column(one, sa.JSON()) for one in ("asked", "plan")],
        sa.PrimaryKeyConstraint("gym_id", "number", name="pk_room_plan"),
        sa.ForeignKeyConstraint(
            ["gym_id", "version"],
            ["gym_version.gym_id", "gym_version.number"],
            name="fk_room_plan_gym_version",
        ),
    )
    op.create_index("ix_room_plan_gym_id_day", "room_plan", ["gym_id", "day"])
