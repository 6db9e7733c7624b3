"""Alembic's entry: run the migrations on the connection that was handed in, in its transaction."""

from __future__ import annotations

from alembic import context

from topheavy.store.tables import TABLES

if hasattr(context, "config"):  # run by alembic; whoever only imports it has none
    context.configure(
        connection=context.config.attributes["connection"],
        target_metadata=TABLES[0].metadata,
        transactional_ddl=False,
    )
    context.run_migrations()
