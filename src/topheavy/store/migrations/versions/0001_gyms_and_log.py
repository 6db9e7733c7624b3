"""Gyms with their history, and the log of sets; rows that were written stay as they are."""

from __future__ import annotations

from typing import Any

import sqlalchemy as sa
from alembic import op

from topheavy.store.migrations.appending import only_add

revision = "0001"
down_revision = None

_BIG = sa.BigInteger().with_variant(sa.Integer(), "sqlite")
_TABLES: list[str] = []


def upgrade() -> None:
    """Make every table, and refuse changes of rows in all of them."""
    _gyms()
    _stock()
    _people()
    _log()
    _refuse()
    for name in _TABLES:
        only_add(name)


def _table(name: str, *columns: Any) -> None:
    op.create_table(name, *columns)
    _TABLES.append(name)


def _column(name: str, kind: Any, *, empty: bool = False) -> sa.Column[Any]:
    return sa.Column(name, kind, nullable=empty)


def _texts(*names: str) -> list[sa.Column[Any]]:
    return [_column(name, sa.Text()) for name in names]


def _numbers(*names: str, empty: bool = False) -> list[sa.Column[Any]]:
    return [_column(name, sa.Float(53), empty=empty) for name in names]


def _key(table: str, *names: str) -> sa.PrimaryKeyConstraint:
    return sa.PrimaryKeyConstraint(*names, name=f"pk_{table}")


def _gyms() -> None:
    when = sa.DateTime(timezone=True)
    _table(
        "gym",
        sa.Column("id", _BIG, autoincrement=True, nullable=False),
        *_texts("name", "key"),
        _column("made_at", when),
        _key("gym", "id"),
        sa.UniqueConstraint("key", name="uq_gym_key"),
    )
    _table(
        "gym_version",
        _column("gym_id", _BIG),
        _column("number", sa.Integer()),
        _column("at", when),
        *_texts("author", "note"),
        _column("units", sa.String(2)),
        _column("written", sa.JSON()),
        _key("gym_version", "gym_id", "number"),
        sa.ForeignKeyConstraint(["gym_id"], ["gym.id"], name="fk_gym_version_gym"),
    )


def _thing(name: str, *columns: sa.Column[Any]) -> None:
    _table(
        name,
        _column("gym_id", _BIG),
        _column("key", sa.Text()),
        _column("version", sa.Integer()),
        _column("gone", sa.Boolean()),
        _column("place", sa.Integer()),
        _column("written", sa.JSON()),
        *columns,
        _key(name, "gym_id", "key", "version"),
        sa.ForeignKeyConstraint(
            ["gym_id", "version"],
            ["gym_version.gym_id", "gym_version.number"],
            name=f"fk_{name}_gym_version",
        ),
    )


def _stock() -> None:
    count = sa.Integer()
    _thing("chain_batch")
    _thing(
        "chain_piece",
        *_texts("batch", "tag", "size", "grade"),
        _column("links", count),
        *_numbers("wire_m", "pitch_m", "mass_kg", "mass_u_kg"),
        _column("weighed", sa.Boolean()),
        *_texts("retired"),
    )
    _thing(
        "feeder",
        *_texts("name", "form"),
        _column("count", count),
        *_numbers("whole_m", "density_kg_per_m"),
        *_numbers("rating_kg", empty=True),
    )
    _thing(
        "connector",
        *_texts("name"),
        _column("count", count),
        *_numbers("mass_kg", "length_m"),
        *_numbers("rating_kg", empty=True),
    )
    _thing("bar", *_texts("name"), *_numbers("mass_kg", "sleeve_m"))
    _thing("collar", *_texts("name"), _column("count", count), *_numbers("mass_kg", "width_m"))
    _thing("plate", _column("count", count), *_numbers("mass_kg", "width_m", "diameter_m"))
    _thing("band", *_texts("tag"), *_numbers("rest_m"), *_texts("measured_on", "retired"))


def _people() -> None:
    _thing(
        "station",
        *_texts("name", "kind"),
        *_numbers("surface_m"),
        *_numbers("pad_m", empty=True),
        *_texts("bar"),
    )
    _thing("lifter", *_texts("name"))
    _thing(
        "lift",
        *_texts("lifter", "name"),
        *_numbers("bottom_m", "top_m", "height_u_m"),
        *_texts("station"),
        *_numbers("best_kg", empty=True),
    )
    _thing("lift_record", *_texts("lift", "kind", "day"))


def _log() -> None:
    _table(
        "log_set",
        _column("gym_id", _BIG),
        _column("id", sa.String(36)),
        _column("entry", _BIG),
        _column("at", sa.DateTime(timezone=True)),
        *_texts("by", "lifter", "lift", "station"),
        _column("day", sa.String(10)),
        _column("time", sa.String(5)),
        *_texts("session"),
        _column("number", sa.Integer(), empty=True),
        *_numbers("straight_kg"),
        *_numbers("bottom_kg", "mean_kg", "top_kg", empty=True),
        *_texts("rig"),
        _column("curve", sa.JSON(), empty=True),
        _column("reps", sa.Integer()),
        *_numbers("reps_left", "speed_m_per_s", empty=True),
        _column("missed", sa.Boolean()),
        _column("third", sa.String(6), empty=True),
        *_texts("note"),
        _column("corrects", sa.String(36), empty=True),
        _column("struck", sa.Boolean()),
        _key("log_set", "gym_id", "id"),
        sa.ForeignKeyConstraint(["gym_id"], ["gym.id"], name="fk_log_set_gym"),
        sa.ForeignKeyConstraint(
            ["gym_id", "corrects"], ["log_set.gym_id", "log_set.id"], name="fk_log_set_corrected"
        ),
        sa.UniqueConstraint("gym_id", "corrects", name="uq_log_set_gym_id_corrects"),
        sa.UniqueConstraint("gym_id", "entry", name="uq_log_set_gym_id_entry"),
    )
    op.create_index("ix_log_set_who_what_when", "log_set", ["gym_id", "lifter", "lift", "day"])
    op.create_index("ix_log_set_when", "log_set", ["gym_id", "day"])


def _refuse() -> None:
    """Make the function that refuses changes on PostgreSQL."""
    if op.get_bind().dialect.name != "sqlite":
        op.execute(
            "CREATE OR REPLACE FUNCTION topheavy_only_add() RETURNS trigger LANGUAGE plpgsql AS "
            "$$ BEGIN RAISE EXCEPTION 'append-only'; END $$"
        )
