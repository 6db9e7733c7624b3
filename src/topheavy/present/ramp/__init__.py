"""The way up to the top set: view, text and words."""
