"""The command line: one thin command for each thing a coach asks for."""

from __future__ import annotations


def main() -> None:
    """Run the command line."""
