"""Blocks of weeks as they were planned."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

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
    if op.get_bind().dialect.name == "sqlite":
        for what in ("UPDATE", "DELETE"):
            op.execute(
                f"CREATE TRIGGER block_plan_no_{what.lower()} BEFORE {what} ON block_plan "
                "BEGIN SELECT RAISE(ABORT, 'append-only'); END"
            )
        return
    op.execute(
        "CREATE TRIGGER block_plan_only_add BEFORE UPDATE OR DELETE OR TRUNCATE ON block_plan "
        "FOR EACH STATEMENT EXECUTE FUNCTION topheavy_only_add()"
    )
