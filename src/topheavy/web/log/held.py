"""Files that were sent to be imported, kept until somebody says that they are right."""

from __future__ import annotations

import secrets
import tempfile
import threading
import time
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING, Final

from topheavy.errors import NotInStockError
from topheavy.logfile.mapping import Said, map_file
from topheavy.logfile.read import read_sets
from topheavy.logfile.table import read_table

if TYPE_CHECKING:
    from topheavy.gym.gym import Gym
    from topheavy.gym.log import LoggedSet
    from topheavy.logfile.mapping import FileMapping
    from topheavy.logfile.table import TextTable

MOST_HELD: Final = 4
LONGEST_S: Final = 3600.0
"""How many files are kept at once, the newest, and for how long [s]."""


@dataclass(slots=True)
class HeldFile:
    """A file under way.

    Parameters
    ----------
    key : str
        Its place in addresses; nobody guesses it.
    owner : tuple
        Account and gym that it was sent for; nobody else sees it.
    name : str
        What it is called where it came from.
    table : TextTable
        Its rows.
    at_s : float
        When it came [s].
    """

    key: str
    owner: tuple[int | None, int]
    name: str
    table: TextTable
    at_s: float
    _read: tuple[object, FileMapping, list[LoggedSet]] | None = None

    def read(self, said: Said, gym: Gym, by: str) -> tuple[FileMapping, list[LoggedSet]]:
        """Read its sets as was said; asked the same again, it remembers.

        Raises
        ------
        BadInputError
            What the file leaves open, or every mistake in it by line.
        """
        asked = (said, id(gym), by)
        if self._read is None or self._read[0] != asked:
            mapping = map_file(self.table, said)
            sets = read_sets(self.table, mapping, gym, by=by)
            self._read = (asked, mapping, sets)
        return self._read[1], self._read[2]


@dataclass(slots=True)
class Held:
    """All files under way."""

    files: dict[str, HeldFile] = field(default_factory=dict)
    lock: threading.Lock = field(default_factory=threading.Lock)

    def take(self, content: bytes, name: str, owner: tuple[int | None, int]) -> HeldFile:
        """Read a file that was sent into rows, and keep them.

        Raises
        ------
        FileError
            It is too large, is no text in UTF-8, or is no CSV.
        LogFileError
            Rows with other than the header's number of cells.
        """
        with tempfile.TemporaryDirectory() as folder:
            path = Path(folder) / "sent.csv"
            path.write_bytes(content)
            table = read_table(path, name)
        found = HeldFile(secrets.token_urlsafe(16), owner, name, table, time.monotonic())
        with self.lock:
            self._forget_old()
            while len(self.files) >= MOST_HELD:
                self.files.pop(next(iter(self.files)))
            self.files[found.key] = found
        return found

    def get(self, key: str, owner: tuple[int | None, int]) -> HeldFile:
        """Find a file again.

        Raises
        ------
        NotInStockError
            It is gone, or somebody else's.
        """
        with self.lock:
            self._forget_old()
            found = self.files.get(key)
        if found is None or found.owner != owner:
            raise NotInStockError(
                "That file is no longer here",
                field="file",
                wanted="the same file once more; it is kept for an hour, until it is imported",
            )
        return found

    def drop(self, key: str) -> None:
        """Let go of a file."""
        with self.lock:
            self.files.pop(key, None)

    def _forget_old(self) -> None:
        since = time.monotonic() - LONGEST_S
        for key in [key for key, one in self.files.items() if one.at_s < since]:
            del self.files[key]
