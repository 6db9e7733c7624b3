"""`topheavy serve`: it prints its address, answers, and stops when it is told to."""

from __future__ import annotations

import os
import re
import shlex
import signal
import socket
import subprocess
import sys
import threading
import urllib.request
from typing import TYPE_CHECKING

import pytest

from tests.cli.calling import TINY, call, refused
from tests.cli.test_examples import EXAMPLES, RUN_ON
from topheavy.cli.passphrase import new_passphrase
from topheavy.errors import BadInputError
from topheavy.gymfile import demo_text

if TYPE_CHECKING:
    from pathlib import Path

SERVED = [text for text in EXAMPLES if text.startswith(RUN_ON)]
PATIENCE_S = 60


class Running:
    """A command that runs until it is stopped; it never outlives its test."""

    def __init__(self, words: list[str], folder: Path) -> None:
        self.process = subprocess.Popen(
            [sys.executable, "-m", "topheavy", *words],
            cwd=folder,
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
            text=True,
            # A child of a shell's background job would not hear Ctrl-C.
            preexec_fn=lambda: signal.signal(signal.SIGINT, signal.default_int_handler),  # noqa: PLW1509 - one thread
        )
        self.watch = threading.Timer(PATIENCE_S, self.process.kill)
        self.watch.start()
        self.first = self.read()

    def read(self) -> str:
        """Read one more line of what it prints."""
        assert self.process.stdout
        return self.process.stdout.readline()

    def stop(self) -> tuple[str, str]:
        """Press Ctrl-C and read what is left."""
        self.process.send_signal(signal.SIGINT)
        out, err = self.process.communicate()
        self.watch.cancel()
        return out, err


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "mine.toml").write_text(demo_text(), encoding="utf-8")
    (tmp_path / "p.txt").write_text("four plates and some chain\n", encoding="utf-8")
    return tmp_path


def test_there_are_examples() -> None:
    assert len(SERVED) >= 2


@pytest.mark.parametrize("text", SERVED)
def test_example_serves_and_stops(text: str, folder: Path) -> None:
    words = shlex.split(text)[1:]
    if "--port" in words:
        at = words.index("--port")
        words = [*words[:at], *words[at + 2 :]]
    running = Running([*words, "--port", "0"], folder)
    try:
        head = ""
        while not running.first.startswith("Open "):
            assert running.first, running.stop()
            head += running.first
            running.first = running.read()
        found = re.fullmatch(
            r"Open (http://.*:(\d+)/rig) in a browser. Ctrl-C stops.\n", running.first
        )
        assert found
        while "--host" in words and "Stay on" not in head:
            head += running.read()
        here = f"http://127.0.0.1:{found[2]}/rig"
        with urllib.request.urlopen(here, timeout=PATIENCE_S) as page:
            shown, where = page.read(), page.url
    finally:
        out, err = running.stop()
    assert (running.process.returncode, err) == (0, "")
    assert out.endswith("Stopped.\n")
    if "--host" in words:
        assert "gets a passphrase first" in head
        assert "Nothing is encrypted" in head
        assert f"http://gym.local:{found[2]}/rig" in head
        assert "/sign-in" in where
    elif "--gym" in words:
        assert b"The Tarnfell Barbell Barn" in shown
    else:
        assert where.endswith("/first")


def test_any_free_port_will_do(tmp_path: Path) -> None:
    running = Running(["serve", "--gym", TINY, "--port", "0"], tmp_path)
    try:
        assert re.fullmatch(r"Open http://127\.0\.0\.1:\d{4,5}/rig in .*\n", running.first)
    finally:
        running.stop()


def test_a_stored_gym_is_served_from_its_store(tmp_path: Path) -> None:
    store = str(tmp_path / "gym.sqlite")
    assert call("--store", store, "gym", "load", TINY).code == 0
    running = Running(["--store", store, "serve", "--gym", "store:", "--port", "0"], tmp_path)
    try:
        found = re.search(r"http://\S+", running.first)
        assert found
        with urllib.request.urlopen(found[0], timeout=PATIENCE_S) as page:  # noqa: S310 - ours
            assert b"The Shed" in page.read()
    finally:
        running.stop()


@pytest.mark.parametrize("host", ["0", "gym.example", "", "1.2.3", "127.0.0.1:80"])
def test_addresses_that_are_none(host: str) -> None:
    refused(call("serve", "--host", host), "Not an address", "--host", "127.0.0.1")


@pytest.mark.parametrize("host", ["0.0.0.0", "192.168.1.5", "::"])  # noqa: S104 - refused
def test_nobody_else_is_served_before_somebody_has_a_passphrase(host: str) -> None:
    done = call("serve", "--host", host)
    assert done.code == 2
    assert "nobody is there to type one" in done.err
    assert "Open http" not in done.out


def test_the_passphrase_comes_from_a_file_or_the_environment_and_must_do(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    short = tmp_path / "short.txt"
    short.write_text("short\n", encoding="utf-8")
    for words in (["--passphrase-file", str(short)], ["--passphrase-file", str(tmp_path / "no")]):
        done = call("serve", "--host", "0.0.0.0", *words)  # noqa: S104 - refused
        assert (done.code, "--passphrase-file" in done.err) == (2, True)
    monkeypatch.setenv("TOPHEAVY_PASSPHRASE", "coach coach coach coach")
    done = call("serve", "--host", "0.0.0.0")  # noqa: S104 - refused
    assert done.code == 2
    assert "TOPHEAVY_PASSPHRASE" in done.err
    assert "Nobody has an account" in call("account", "list").out


def test_a_passphrase_is_typed_twice(monkeypatch: pytest.MonkeyPatch) -> None:
    typed = iter(["short", "four plates and chain", "other", "four plates and chain"] * 2)
    monkeypatch.setattr("sys.stdin", type("Terminal", (), {"isatty": lambda _: True})())
    monkeypatch.setattr("getpass.getpass", lambda _: next(typed))
    with pytest.raises(BadInputError):
        new_passphrase(None, [], "Runa")
    typed = iter(["four plates and chain"] * 2)
    assert new_passphrase(None, [], "Runa") == "four plates and chain"


@pytest.mark.parametrize(
    ("words", "said"),
    [(["--tls-cert", "x.pem"], "--tls-key"), (["--tls-key", "x.pem"], "--tls-cert"),
     (["--tls-cert", "x.pem", "--tls-key", "y.pem"], "can't be used"),
     (["--name", "http://gym"], "--name")],
)  # fmt: skip
def test_what_can_not_be_served_is_told_before_anything_is(words: list[str], said: str) -> None:
    refused(call("serve", *words), said)


@pytest.mark.parametrize("port", ["-1", "65536"])
def test_no_such_port(port: str) -> None:
    refused(call("serve", "--port", port), "No such port", "--port")


def test_a_port_that_is_taken_is_told_before_anything_is_promised() -> None:
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        port = str(taken.getsockname()[1])
        refused(call("serve", "--gym", TINY, "--port", port), "Can't listen there", port)


def test_a_gym_file_with_mistakes_is_told_at_once(tmp_path: Path) -> None:
    bad = tmp_path / "bad.toml"
    bad.write_text("[gym]\n", encoding="utf-8")
    refused(call("serve", "--gym", str(bad)), "gym.name")
    refused(call("serve", "--gym", os.devnull + "x"), "no such file")


def test_libraries_that_are_missing_are_named(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "uvicorn", None)
    refused(call("serve", "--gym", TINY), "not installed", "uvicorn", "topheavy[web]")
