"""`topheavy log example`: an invented log of the built-in gym."""

from __future__ import annotations

import sys


def example() -> None:
    """Print an invented log of the built-in gym, as a file to import.

    Eighteen weeks of four lifters, so that a review can be seen before there is
    a log of your own. Nobody lifted it.

    \b
    Examples
      topheavy log example
      topheavy log example > sets.csv
    """
    from topheavy.logfile.example import example_log
    from topheavy.logfile.write import csv_text

    # Lines end as the platform's text does: the rows' own ends are taken off.
    for text in csv_text(example_log()):
        sys.stdout.write(text.replace("\r\n", "\n"))
