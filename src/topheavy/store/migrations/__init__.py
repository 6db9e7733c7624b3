"""How the tables came to be: alembic's folder."""
