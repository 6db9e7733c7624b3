"""Run every benchmark: ``python -m benchmarks``; with ``--write`` into the reference too."""

from __future__ import annotations

import sys
from pathlib import Path

from benchmarks.report import page

PAGE = Path(__file__).parent.parent / "docs" / "reference" / "speed.md"


def main(arguments: list[str]) -> int:
    """Measure and print; return the exit code."""
    if arguments not in ([], ["--write"]):
        print("usage: python -m benchmarks [--write]", file=sys.stderr)
        return 2
    parts = []
    for part in page():
        print(part, flush=True)
        parts.append(part)
    if arguments:
        PAGE.write_text("\n".join(parts), encoding="utf-8", newline="\n")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
