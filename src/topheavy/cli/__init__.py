"""The terminal: parse, one service call, show a view."""
