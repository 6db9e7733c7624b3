"""The gym that is served: a file, read again when it has changed, or one that is fetched anew."""

from __future__ import annotations

import threading
import time
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Final

from topheavy.errors import FileError
from topheavy.gymfile import demo_gym, read_gym

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from topheavy.gym.gym import Gym

AGAIN_S: Final = 1.0
"""A gym that is fetched is fetched again after so long [s]."""

USABLE: Final = 5.0
"""Until so many times that, it is still given while it is fetched again [-]."""

BEHIND: Final = "topheavy fetches a gym"
"""Name of the thread that fetches a gym while nobody waits."""

Stamp = tuple[float | str, ...]
"""What tells a gym from how it stood before: of a file, when it was changed [ns] and its length."""


@dataclass(slots=True)
class GymSource:
    """Where the gym comes from.

    Parameters
    ----------
    path : Path or None
        The gym file; None for the built-in gym.
    fetch : callable or None
        Fetches the gym from elsewhere, such as a store; `path` then says nothing.
    tag : int
        Tells a gym that is fetched from others that are.
    """

    path: Path | None = None
    fetch: Callable[[], Gym] | None = None
    tag: int = 0
    _stamp: Stamp = ()
    _gym: Gym | None = None
    _next_s: float = 0.0
    _last_s: float = 0.0
    _forgotten: int = 0
    _guard: threading.Lock = field(default_factory=threading.Lock)
    _lock: threading.Lock = field(default_factory=threading.Lock)

    def read(self) -> tuple[Gym, Stamp]:
        """Give the gym as it stands now, and what tells it from how it stood before.

        Raises
        ------
        FileError, BadInputError, NotInStockError
            The file is gone, or something in it is wrong.
        """
        if self.fetch is not None:
            return self._fetched(self.fetch)
        with self._lock:
            stamp = self._looked()
            if self._gym is None or stamp != self._stamp:
                self._gym = demo_gym() if self.path is None else read_gym(self.path)
                self._stamp = stamp
            return self._gym, self._stamp

    def forget(self) -> None:
        """Fetch the gym anew when it is next asked for: it was changed just now."""
        with self._guard:
            self._next_s = self._last_s = 0.0
            self._forgotten += 1

    def _fetched(self, fetch: Callable[[], Gym]) -> tuple[Gym, Stamp]:
        """Fetch it unless that was done just now; the stamp changes when the gym does.

        Where many ask, none of them waits: one that is only a little old is given, and fetched
        meanwhile.
        """
        with self._guard:
            now_s, gym, stamp = time.monotonic(), self._gym, self._stamp
            fresh, usable = now_s < self._next_s, now_s < self._last_s
        if gym is not None and fresh:
            return gym, stamp
        if gym is not None and usable:
            if self._lock.acquire(blocking=False):
                threading.Thread(
                    target=self._behind, args=(fetch,), name=BEHIND, daemon=True
                ).start()
            return gym, stamp
        with self._lock:
            with self._guard:
                known = (self._gym, self._stamp, self._next_s)
            if known[0] is not None and time.monotonic() < known[2]:
                return known[0], known[1]
            return self._renew(fetch)

    def _behind(self, fetch: Callable[[], Gym]) -> None:
        """Fetch it while nobody waits; what goes wrong is told to whoever asks next."""
        try:
            self._renew(fetch)
        except Exception:  # whatever it is, whoever asks next is told
            with self._guard:
                self._last_s = 0.0
        finally:
            self._lock.release()

    def _renew(self, fetch: Callable[[], Gym]) -> tuple[Gym, Stamp]:
        with self._guard:
            forgotten = self._forgotten
        gym = fetch()
        with self._guard:
            now_s = time.monotonic()
            if gym != self._gym:
                self._gym, self._stamp = gym, (self.tag, now_s)
            if forgotten == self._forgotten:  # else it was changed while it was fetched
                self._next_s, self._last_s = now_s + AGAIN_S, now_s + USABLE * AGAIN_S
            return gym, self._stamp

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
