"""Blocks of weeks as they were planned."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

from topheavy.store.migrations.appending import only_add

revision = "0005"
down_revision = "0004"

_BIG = sa.BigInteger().with_variant(sa.Integer(), "sqlite")


def upgrade() -> None:
    """Make the table; its rows are only added to."""
    op.create_table(
        "block_plan",
        sa.Column("gym_id", _BIG, nullable=False),
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("by", sa.Text(), nullable=False),
        sa.Column("note", sa.Text(), nullable=False),
        sa.Column("gone", sa.Boolean(), nullable=False),
        sa.Column("written", sa.JSON(), nullable=False),
        sa.PrimaryKeyConstraint("gym_id", "number", name="pk_block_plan"),
        sa.ForeignKeyConstraint(["gym_id"], ["gym.id"], name="fk_block_plan_gym"),
    )
    only_add("block_plan")
