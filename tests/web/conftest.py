"""The store's fixtures for the pages: the same tests on SQLite and PostgreSQL."""

from tests.store.conftest import address, store, template

__all__ = ["address", "store", "template"]
