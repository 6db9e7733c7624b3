"""What several migrations do alike. Stores were made with it: add to it, never change it."""

from __future__ import annotations

from alembic import op


def only_add(table: str) -> None:
    """Let the database itself refuse to change or drop a row of a table.

    Parameters
    ----------
    table : str
        Its name. On PostgreSQL the function that refuses is there since the first migration.
    """
    if op.get_bind().dialect.name == "sqlite":
        for what in ("UPDATE", "DELETE"):
            op.execute(
                f"CREATE TRIGGER {table}_no_{what.lower()} BEFORE {what} ON {table} "
                "BEGIN SELECT RAISE(ABORT, 'append-only'); END"
            )
        return
    op.execute(
        f"CREATE TRIGGER {table}_only_add BEFORE UPDATE OR DELETE OR TRUNCATE ON {table} "
        "FOR EACH STATEMENT EXECUTE FUNCTION topheavy_only_add()"
    )
