"""A session: view, text and words."""
