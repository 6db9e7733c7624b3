"""Something to look at on stderr while an answer takes its second or two."""

from __future__ import annotations

from contextlib import contextmanager
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator


@contextmanager
def waiting(what: str) -> Iterator[None]:
    """Say what is being done for as long as it takes; nothing where nobody watches.

    Examples
    --------
    >>> with waiting("Finding the rig"):
    ...     print(2 + 2)
    4
    """
    from topheavy.present.terminal import screen

    console = screen(stderr=True)
    if not console.is_terminal:
        yield
        return
    with console.status(f"{what} ..."):
        yield
