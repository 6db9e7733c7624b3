"""Options that match a rig to the lifter's strength, in place of loads."""

from __future__ import annotations

from typing import Annotated, Final

import typer

_MATCH: Final = "Or match the lifter's strength"

MatchOption = Annotated[
    bool,
    typer.Option(
        "--match",
        help="Find the rig that uses the lifter's strength most evenly; no loads needed.",
        rich_help_panel=_MATCH,
    ),
]
EffortOption = Annotated[
    str | None,
    typer.Option(
        "--effort",
        metavar="SHARE",
        help="Share of strength to use, nowhere more; else 90%.",
        rich_help_panel=_MATCH,
    ),
]
