"""The store: gyms with their history and the log of sets, in SQLite or PostgreSQL."""
