"""Alembic's entry: run the migrations on the connection that was handed in, in one transaction."""

from __future__ import annotations

from alembic import context

from topheavy.store.tables import METADATA

connection = context.config.attributes["connection"]
context.configure(connection=connection, target_metadata=METADATA, transactional_ddl=False)
context.run_migrations()
