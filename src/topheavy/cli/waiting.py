"""Something to look at on stderr while an answer takes its second or two."""

from __future__ import annotations

from contextlib import contextmanager
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator


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


@contextmanager
def progress(what: str, total: int | None) -> Iterator[Callable[[int], None]]:
    """Show how far something is; nothing where nobody watches.

    Parameters
    ----------
    what : str
        What is being done.
    total : int or None
        How many there are; None when nobody knows.

    Returns
    -------
    callable
        To be told how many are done.

    Examples
    --------
    >>> with progress("Reading", 2) as done:
    ...     done(2)
    """
    from topheavy.present.terminal import screen

    console = screen(stderr=True)
    if not console.is_terminal:
        yield lambda _: None
        return
    from rich.progress import BarColumn, MofNCompleteColumn, Progress, TextColumn

    bar = Progress(
        TextColumn("{task.description}"), BarColumn(), MofNCompleteColumn(), console=console,
        transient=True,
    )  # fmt: skip
    with bar:
        task = bar.add_task(what, total=total)
        yield lambda count: bar.update(task, completed=count)


@contextmanager
def timed_bar(what: str, seconds_s: float) -> Iterator[Callable[[str], None]]:
    """Show how much of a set time is over; nothing where nobody watches.

    Parameters
    ----------
    what : str
        What is being done.
    seconds_s : float
        How long it may take [s].

    Returns
    -------
    callable
        To be told what to say from now on.

    Examples
    --------
    >>> with timed_bar("Planning", 2.0) as say:
    ...     say("A first plan is there")
    """
    from topheavy.present.terminal import screen

    console = screen(stderr=True)
    if not console.is_terminal:
        yield lambda _: None
        return
    from rich.progress import BarColumn, Progress, Task, TextColumn, TimeElapsedColumn

    class TimeBar(BarColumn):
        """Fills as time goes by, whatever is found."""

        def render(self, task: Task) -> Any:
            task.completed = min(seconds_s, task.elapsed or 0.0)
            return super().render(task)

    bar = Progress(
        TextColumn("{task.description}"), TimeBar(bar_width=12), TimeElapsedColumn(),
        console=console, transient=True,
    )  # fmt: skip
    with bar:
        task = bar.add_task(what, total=seconds_s)
        yield lambda words: bar.update(task, description=words)
