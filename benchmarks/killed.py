"""Killed in the middle: every set that was acknowledged must be there after the next start."""

from __future__ import annotations

import itertools
import os
import threading
import time
from contextlib import closing, contextmanager
from dataclasses import dataclass
from http.client import HTTPException
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import TYPE_CHECKING, Final

from sqlalchemy import create_engine, make_url, text

from benchmarks.serving import Phone, Served, SignedIn, logged_ids, served, stock

if TYPE_CHECKING:
    from collections.abc import Iterator

SETS: Final = 10_000
KILLS: Final = 3
PHONES: Final = 4
AT_ONCE: Final = 10
"""How often it is killed, how many phones send their queues, how many sets go in a request."""

POSTGRES: Final = "TOPHEAVY_TEST_POSTGRES"
_NUMBERS: Final = itertools.count()


@dataclass(frozen=True, slots=True, kw_only=True)
class Killed:
    """What became of the sets.

    Parameters
    ----------
    sent, acknowledged, found : int
        Sets sent in all; acknowledged before and after the kills; in the log at the end.
    kills : int
        How often the server was killed while phones were sending.
    lost, doubled : int
        Acknowledged and not there; there more than once.
    seconds : float
        How long it took [s].
    """

    sent: int
    acknowledged: int
    found: int
    kills: int
    lost: int
    doubled: int
    seconds: float


def run_killed(address: str, sets: int = SETS, kills: int = KILLS) -> Killed:
    """Log sets into an empty store while the server is killed again and again.

    Parameters
    ----------
    address : str
        Of the store.
    sets : int
        How many are to be acknowledged in all.
    kills : int
        How often the server is killed on the way, with SIGKILL.
    """
    start = time.perf_counter()
    stocked = stock(address, PHONES)
    acknowledged: list[str] = []
    sent = itertools.count()
    for turn in range(kills + 1):
        wanted = sets * (turn + 1) // (kills + 1)
        with served(address) as at:
            _send(at, stocked, acknowledged, wanted, sent, kill=turn < kills)
    found = logged_ids(address)
    return Killed(
        sent=next(sent) * AT_ONCE,
        acknowledged=len(acknowledged),
        found=len(found),
        kills=kills,
        lost=len(set(acknowledged) - set(found)),
        doubled=len(found) - len(set(found)),
        seconds=time.perf_counter() - start,
    )


def _send(
    at: Served,
    stocked: tuple[SignedIn, ...],
    acknowledged: list[str],
    wanted: int,
    sent: itertools.count[int],
    *,
    kill: bool,
) -> None:
    """Send until so many are acknowledged; then kill the server while the others still send."""
    enough = threading.Event()

    def use(who: SignedIn) -> None:
        with closing(Phone(at, who)) as phone:
            while not enough.is_set() or kill:
                next(sent)
                try:
                    acknowledged.extend(phone.log(1, AT_ONCE))
                except (OSError, HTTPException):
                    return
                if len(acknowledged) >= wanted:
                    enough.set()

    threads = [threading.Thread(target=use, args=(who,)) for who in stocked]
    for thread in threads:
        thread.start()
    enough.wait(600)
    if kill:
        at.kill()
    for thread in threads:
        thread.join()


@contextmanager
def fresh_sqlite() -> Iterator[str]:
    """Address of a store that is not there yet."""
    with TemporaryDirectory() as folder:
        yield str(Path(folder) / "store.sqlite")


@contextmanager
def fresh_postgres() -> Iterator[str]:
    """Address of an empty database on the server that the tests know; empty where there is none."""
    where = os.environ.get(POSTGRES, "")
    if not where:
        yield ""
        return
    url = make_url(where).set(drivername="postgresql+psycopg")
    name = f"topheavy_bench_{os.getpid()}_{next(_NUMBERS)}"
    engine = create_engine(url, isolation_level="AUTOCOMMIT")
    with engine.connect() as connection:
        connection.execute(text(f"CREATE DATABASE {name}"))
    try:
        own = make_url(where).set(database=name)
        yield own.render_as_string(hide_password=False)
    finally:
        with engine.connect() as connection:
            connection.execute(text(f"DROP DATABASE {name} WITH (FORCE)"))
        engine.dispose()
