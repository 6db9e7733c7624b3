"""The gym that is served: its file, read again when it has changed."""

from __future__ import annotations

import threading
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from topheavy.errors import FileError
from topheavy.gymfile import demo_gym, read_gym

if TYPE_CHECKING:
    from pathlib import Path

    from topheavy.gym.gym import Gym

Stamp = tuple[int, int]
"""When the file was changed [ns] and how long it is [bytes]."""


@dataclass(slots=True)
class GymSource:
    """Where the gym comes from.

    Parameters
    ----------
    path : Path or None
        The gym file; None for the built-in gym.
    """

    path: Path | None = None
    _stamp: Stamp = (0, 0)
    _gym: Gym | None = None
    _lock: threading.Lock = field(default_factory=threading.Lock)

    def read(self) -> tuple[Gym, Stamp]:
        """Give the gym as it stands now, and what tells it from how it stood before.

        Raises
        ------
        FileError, BadInputError, NotInStockError
            The file is gone, or something in it is wrong.
        """
        with self._lock:
            stamp = self._looked()
            if self._gym is None or stamp != self._stamp:
                self._gym = demo_gym() if self.path is None else read_gym(self.path)
                self._stamp = stamp
            return self._gym, self._stamp

    def _looked(self) -> Stamp:
        if self.path is None:
            return (0, 0)
        try:
            found = self.path.stat()
        except OSError as error:
            raise FileError(
                "The gym file can't be read",
                field=str(self.path),
                got=error.strerror,
                wanted="the file that was named when serving began",
            ) from error
        return found.st_mtime_ns, found.st_size
