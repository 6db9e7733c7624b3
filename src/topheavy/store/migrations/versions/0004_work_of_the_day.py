"""Work of the day: what each lifter does, given out, replaced and taken away."""

from __future__ import annotations

from typing import Any

import sqlalchemy as sa
from alembic import op

from topheavy.store.migrations.appending import only_add

revision = "0004"
down_revision = "0003"

_BIG = sa.BigInteger().with_variant(sa.Integer(), "sqlite")


def upgrade() -> None:
    """Make the table; its rows are only added to."""
    op.create_table(
        "work",
        _column("gym_id", _BIG),
        _column("id", sa.String(36)),
        _column("entry", _BIG),
        _column("at", sa.DateTime(timezone=True)),
        _column("by", sa.Text()),
        _column("day", sa.String(10)),
        *[_column(name, sa.Text()) for name in ("lifter", "lift", "source")],
        _column("replaces", sa.String(36), empty=True),
        _column("gone", sa.Boolean()),
        _column("written", sa.JSON()),
        sa.PrimaryKeyConstraint("gym_id", "id", name="pk_work"),
        sa.ForeignKeyConstraint(["gym_id"], ["gym.id"], name="fk_work_gym"),
        sa.ForeignKeyConstraint(
            ["gym_id", "replaces"], ["work.gym_id", "work.id"], name="fk_work_replaced"
        ),
        sa.UniqueConstraint("gym_id", "replaces", name="uq_work_gym_id_replaces"),
        sa.UniqueConstraint("gym_id", "entry", name="uq_work_gym_id_entry"),
    )
    op.create_index("ix_work_gym_id_day", "work", ["gym_id", "day"])
    only_add("work")


def _column(name: str, kind: Any, *, empty: bool = False) -> sa.Column[Any]:
    return sa.Column(name, kind, nullable=empty)
