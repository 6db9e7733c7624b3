"""Write the generated pages of the docs anew, or check that they are fresh.

``python -m docs.generate`` writes; ``python -m docs.generate --check`` only looks and fails when a
page is stale. To add a page, write a maker and list it in PAGES: it gets the page's text as it
stands and returns it as it should be, so a page may be generated whole or between markers.
"""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING, Final

from docs.makers import cli, demo, gym_file, plan_file, rep_model, room_file, store

if TYPE_CHECKING:
    from collections.abc import Callable

HERE: Final = Path(__file__).parent

PAGES: Final[dict[str, Callable[[str], str]]] = {
    "../README.md": demo.readme,
    "images/rig.svg": demo.picture,
    "reference/cli.md": cli.reference_page,
    "reference/gym.schema.json": gym_file.schema_page,
    "reference/gym-file.md": gym_file.reference_page,
    "reference/plan.schema.json": plan_file.schema_page,
    "reference/plan-file.md": plan_file.reference_page,
    "reference/room.schema.json": room_file.schema_page,
    "reference/room-file.md": room_file.reference_page,
    "reference/rep-model.md": rep_model.reference_page,
    "reference/store.md": store.reference_page,
}
"""Every generated page, by its path in the docs, and what makes it."""


def fresh(page: str) -> str:
    """Make the text of a page as it should be."""
    return PAGES[page](standing(page))


def standing(page: str) -> str:
    """Read the text of a page as it stands; empty when there is none yet."""
    path = HERE / page
    return path.read_text(encoding="utf-8") if path.exists() else ""


def main(arguments: list[str]) -> int:
    """Write stale pages, or with ``--check`` name them; return the exit code."""
    check = arguments == ["--check"]
    if arguments and not check:
        print("usage: python -m docs.generate [--check]", file=sys.stderr)
        return 2
    stale = [page for page in PAGES if fresh(page) != standing(page)]
    for page in stale:
        if not check:
            (HERE / page).write_text(fresh(page), encoding="utf-8", newline="\n")
        print(f"{'stale' if check else 'written'}: docs/{page}")
    return 1 if check and stale else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
