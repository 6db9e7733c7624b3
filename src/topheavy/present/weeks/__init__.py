"""A block of weeks made visible: views, terminal, calendar and printed sheet."""
