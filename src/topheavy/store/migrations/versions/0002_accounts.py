"""Accounts, who is signed in, and what cookies are signed with."""

from __future__ import annotations

from typing import Any

import sqlalchemy as sa
from alembic import op

from topheavy.store.migrations.appending import only_add

revision = "0002"
down_revision = "0001"

_BIG = sa.BigInteger().with_variant(sa.Integer(), "sqlite")


def upgrade() -> None:
    """Make the tables; what was done to accounts is only added to."""
    _accounts()
    _doors()
    only_add("account_change")


def _column(name: str, kind: Any, *, empty: bool = False) -> sa.Column[Any]:
    return sa.Column(name, kind, nullable=empty)


def _texts(*names: str) -> list[sa.Column[Any]]:
    return [_column(name, sa.Text()) for name in names]


def _when(name: str) -> sa.Column[Any]:
    return _column(name, sa.DateTime(timezone=True))


def _own(table: str, name: str = "id") -> list[Any]:
    return [
        sa.Column(name, _BIG, autoincrement=True, nullable=False),
        sa.PrimaryKeyConstraint(name, name=f"pk_{table}"),
    ]


def _accounts() -> None:
    op.create_table(
        "account",
        *_own("account"),
        *_texts("name", "key"),
        _column("role", sa.String(6)),
        _column("gym_id", _BIG, empty=True),
        *_texts("lifter"),
        _column("units", sa.String(2)),
        *_texts("passphrase"),
        _when("made_at"),
        sa.UniqueConstraint("key", name="uq_account_key"),
        sa.ForeignKeyConstraint(["gym_id"], ["gym.id"], name="fk_account_gym"),
        sqlite_autoincrement=True,
    )
    op.create_table(
        "account_change",
        *_own("account_change"),
        _when("at"),
        *_texts("by"),
        _column("account_id", _BIG),
        *_texts("name", "what"),
    )


def _token(table: str, *columns: sa.Column[Any]) -> None:
    op.create_table(
        table,
        _column("token", sa.String(64)),
        _column("account_id", _BIG),
        *columns,
        sa.PrimaryKeyConstraint("token", name=f"pk_{table}"),
        sa.ForeignKeyConstraint(["account_id"], ["account.id"], name=f"fk_{table}_account"),
    )
    op.create_index(f"ix_{table}_account_id", table, ["account_id"])


def _doors() -> None:
    _token("sign_in", _when("made_at"), _when("seen_at"))
    _token("account_invite", _when("ends_at"))
    op.create_table("sign_in_try", *_own("sign_in_try"), *_texts("key"), _when("at"))
    op.create_index("ix_sign_in_try_key", "sign_in_try", ["key", "at"])
    op.create_table(
        "server_secret",
        _column("id", sa.Integer()),
        _column("value", sa.String(64)),
        sa.PrimaryKeyConstraint("id", name="pk_server_secret"),
    )
