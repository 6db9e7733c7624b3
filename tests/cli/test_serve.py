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
        assert self.process.stdout
        self.first = self.process.stdout.readline()

    def stop(self) -> tuple[str, str]:
        """Press Ctrl-C and read what is left."""
        self.process.send_signal(signal.SIGINT)
        out, err = self.process.communicate()
        self.watch.cancel()
        return out, err


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "mine.toml").write_text(demo_text(), encoding="utf-8")
    return tmp_path


def test_there_are_examples() -> None:
    assert len(SERVED) >= 2


@pytest.mark.parametrize("text", SERVED)
def test_example_serves_and_stops(text: str, folder: Path) -> None:
    words = shlex.split(text)[1:]
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port = free.getsockname()[1]
    words = words[: words.index("--port")] if "--port" in words else words
    running = Running([*words, "--port", str(port)], folder)
    try:
        assert running.first == (f"Open http://127.0.0.1:{port}/rig in a browser. Ctrl-C stops.\n")
        with urllib.request.urlopen(f"http://127.0.0.1:{port}/rig", timeout=PATIENCE_S) as page:
            assert b"The Tarnfell Barbell Barn" in page.read()
    finally:
        out, err = running.stop()
    assert (running.process.returncode, out, err) == (0, "Stopped.\n", "")


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


@pytest.mark.parametrize("host", ["0", "0.0.0.0", "192.168.1.5", "::", "gym.example", ""])  # noqa: S104 - refused
def test_nobody_but_this_machine_is_served_while_there_are_no_accounts(host: str) -> None:
    refused(call("serve", "--host", host), "There are no accounts yet", "--host", "127.0.0.1")


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
