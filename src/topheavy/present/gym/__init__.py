"""The gym's stock and people: view and text."""
