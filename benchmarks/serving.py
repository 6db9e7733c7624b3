"""A real `topheavy serve` on a store of its own, and phones that ask it over HTTP."""

from __future__ import annotations

import json
import os
import re
import signal
import subprocess
import sys
import tomllib
import uuid
from contextlib import contextmanager
from dataclasses import dataclass, replace
from http.client import HTTPConnection
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final

from topheavy.gym.lifts import lift_named
from topheavy.gymfile import demo_gym, demo_text, gym_of_tables
from topheavy.rigging.target import Ask
from topheavy.services.cautions import cautions_when_testing
from topheavy.services.rig import Place, RigQuestion, answer_rig
from topheavy.services.work import WorkAsk, work_with
from topheavy.store.accounts import NewAccount, add_account, server_secret
from topheavy.store.gyms import Change, load_gym, save_gym
from topheavy.store.opening import VARIABLE, opened
from topheavy.store.sets import Wanted, list_sets
from topheavy.store.sign_ins import begin_sign_in
from topheavy.store.work import give_work
from topheavy.training.days import day_named
from topheavy.training.session import Plan
from topheavy.web.access.keys import Keys, hashed, new_token
from topheavy.web.desk import now, today

if TYPE_CHECKING:
    from collections.abc import Iterator

    from topheavy.store.opening import Store

LIFTER: Final = "Osric"
_NONE: Final = "-"
"""No hash of any passphrase: these accounts are signed in already."""

_ADDRESS: Final = re.compile(r"http://([\d.]+):(\d+)")


@dataclass(frozen=True, slots=True, kw_only=True)
class SignedIn:
    """A lifter with a phone.

    Parameters
    ----------
    cookie : str
        What says who it is.
    work : str
        Id of the lifter's work of today.
    """

    cookie: str
    work: str


def stock(address: str, phones: int) -> tuple[SignedIn, ...]:
    """Put a gym into an empty store, with so many lifters, work for each, and a phone each.

    The gym is the built-in one; lifters are built as one of it is.
    """
    with opened(address) as store:
        tables = tomllib.loads(demo_text())
        (like,) = [one for one in tables["lifter"] if one["name"] == LIFTER]
        names = [f"lifter {number}" for number in range(phones)]
        tables["lifter"] += [{**like, "name": name} for name in names]
        gym = gym_of_tables(tables, "the built-in gym")
        save_gym(store, tables, gym, Change(author="bench", at=now()))
        gym_id = load_gym(store, gym.name).id
        lift, station = lift_named("bench press"), gym.station("bench 1")
        place = Place(gym=gym, lifter=gym.lifter(LIFTER), lift=lift, station=station)
        built = answer_rig(RigQuestion(place=place, ask=Ask(bottom_kg=85.0, top_kg=115.0))).best
        cautions = tuple(cautions_when_testing(lift))
        found = []
        for name in names:
            ask = WorkAsk(id=str(uuid.uuid4()), day=today(), plan=Plan.of(day_named("heavy")))
            own = replace(place, lifter=gym.lifter(name))
            work = work_with(own, built, built.rig.straight_weight_kg, ask, cautions)
            give_work(store, gym_id, work, Change(author="bench", at=now()))
            found.append(SignedIn(cookie=_cookie(store, name, gym_id), work=work.id))
        return tuple(found)


def _cookie(store: Store, lifter: str, gym_id: int) -> str:
    new = NewAccount(name=lifter, role="lifter", lifter=lifter, gym_id=gym_id, passphrase=_NONE)
    account, token = add_account(store, new, by="bench", at=now()), new_token()
    begin_sign_in(store, account, hashed(token), now())
    keys = Keys(server_secret(store), secure=False)
    return f"{keys.name()}={keys.sign(token)}"


def logged_ids(address: str) -> list[str]:
    """Ids of every set in the log of a store, each as often as it is there."""
    with opened(address) as store:
        gym_id = load_gym(store, demo_gym().name).id
        return [entry.logged.id for entry in list_sets(store, gym_id, Wanted())]


@dataclass(slots=True)
class Served:
    """A process that serves.

    Parameters
    ----------
    process : Popen
        Of `topheavy serve`.
    host, port : str, int
        Where it listens.
    """

    process: subprocess.Popen[str]
    host: str
    port: int

    @property
    def cpu_s(self) -> float:
        """Time of the processor that it took so far [s]; 0 where the system does not tell."""
        told = Path(f"/proc/{self.process.pid}/stat")
        if not told.exists():
            return 0.0
        ticks = told.read_text(encoding="utf-8").rpartition(")")[2].split()[11:13]
        return sum(map(int, ticks)) / os.sysconf("SC_CLK_TCK")

    def kill(self) -> None:
        """End it as a power cut does: no signal that it could hear."""
        self.process.send_signal(signal.SIGKILL)
        self.process.wait()


@contextmanager
def served(address: str) -> Iterator[Served]:
    """Serve a store on a free port of this machine."""
    process = subprocess.Popen(
        [sys.executable, "-u", "-m", "topheavy", "serve", "--port", "0"],
        stdout=subprocess.PIPE,
        stderr=subprocess.DEVNULL,
        text=True,
        env={**os.environ, VARIABLE: address},
    )
    try:
        yield Served(process, *_listening(process))
    finally:
        process.kill()
        process.wait()
        if process.stdout:
            process.stdout.close()


def _listening(process: subprocess.Popen[str]) -> tuple[str, int]:
    for line in process.stdout or ():
        found = _ADDRESS.search(line)
        if found:
            return found[1], int(found[2])
    raise RuntimeError("topheavy serve ended before it listened")


class Phone:
    """A phone at the rack: signed in, with one connection that it keeps."""

    def __init__(self, at: Served, who: SignedIn) -> None:
        self.link = HTTPConnection(at.host, at.port, timeout=60)
        self.headers = {"Cookie": who.cookie}
        self.work, self.etag = who.work, ""
        me = json.loads(self._ask("GET", "/api/me")[1])
        self.writes = {"X-Csrf-Token": me["csrf"], "Content-Type": "application/json"}

    def close(self) -> None:
        """Put it away."""
        self.link.close()

    def get(self, path: str) -> bytes:
        """Ask for anything."""
        return self._ask("GET", path)[1]

    def page(self) -> None:
        """Load the whole page."""
        self._ask("GET", "/rack")

    def poll(self) -> None:
        """Ask whether the work has changed, as the page does every few seconds."""
        known = {"If-None-Match": self.etag} if self.etag else {}
        headers, _ = self._ask("GET", "/part/rack", known)
        self.etag = headers.get("ETag", self.etag)

    def log(self, step: int, count: int = 1) -> list[str]:
        """Log sets; the ids that were acknowledged."""
        sets: list[dict[str, Any]] = [
            {"id": str(uuid.uuid4()), "work": self.work, "step": step, "reps": 3, "reps_left": 2}
            for _ in range(count)
        ]
        _, body = self._ask("POST", "/api/sets", self.writes, json.dumps({"sets": sets}))
        answers = json.loads(body)["answers"]
        refused = [one for one in answers if one["outcome"] == "refused"]
        if refused:
            raise RuntimeError(f"refused: {refused[0]}")
        return [str(one["id"]) for one in answers]

    def _ask(
        self, method: str, path: str, headers: dict[str, str] | None = None, body: str | None = None
    ) -> tuple[Any, bytes]:
        self.link.request(method, path, body, {**self.headers, **(headers or {})})
        answer = self.link.getresponse()
        found = answer.read()
        if answer.status not in {200, 304}:
            raise RuntimeError(f"{method} {path}: {answer.status} {found[:200]!r}")
        return answer.headers, found
