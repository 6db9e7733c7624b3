"""The gym that is served is the gym as it stands."""

from __future__ import annotations

import threading
from dataclasses import replace
from typing import TYPE_CHECKING

import pytest

from tests.cli.calling import TINY
from topheavy.errors import FileError
from topheavy.gymfile import read_gym
from topheavy.web import gyms
from topheavy.web.gyms import GymSource

if TYPE_CHECKING:
    from topheavy.gym.gym import Gym


def test_a_fetched_gym_has_a_new_stamp_just_when_it_has_changed(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(gyms, "AGAIN_S", 0.0)
    stands = [read_gym(TINY)]
    source = GymSource(fetch=lambda: stands[0])
    first = source.read()
    stands[0] = read_gym(TINY)
    assert source.read()[1] == first[1]
    stands[0] = replace(stands[0], name="The New Shed")
    gym, stamp = source.read()
    assert gym.name == "The New Shed"
    assert stamp != first[1]


def test_it_is_not_fetched_for_every_request() -> None:
    fetched = []

    def fetch() -> Gym:
        fetched.append(1)
        return read_gym(TINY)

    source = GymSource(fetch=fetch)
    for _ in range(5):
        source.read()
    assert len(fetched) == 1


def test_a_mistake_in_fetching_is_told_and_not_kept() -> None:
    stands: list[Gym] = []

    def fetch() -> Gym:
        if not stands:
            raise FileError("The store is away")
        return stands[0]

    source = GymSource(fetch=fetch)
    with pytest.raises(FileError):
        source.read()
    stands.append(read_gym(TINY))
    assert source.read()[0].name == "The Shed"


def test_whoever_asks_often_never_waits_and_sees_a_change_at_the_latest_when_it_is_old(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    clock = [100.0]
    monkeypatch.setattr("topheavy.web.gyms.time.monotonic", lambda: clock[0])
    stands, fetched, hold = [read_gym(TINY)], threading.Event(), threading.Event()

    def fetch() -> Gym:
        assert hold.wait(20)
        fetched.set()
        return stands[0]

    source = GymSource(fetch=fetch)
    hold.set()
    first = source.read()[0]
    hold.clear()
    fetched.clear()
    stands[0] = replace(first, name="The New Shed")
    clock[0] += 2 * gyms.AGAIN_S
    assert source.read()[0].name == "The Shed"  # the fetch is held: nobody waits for it
    hold.set()
    assert fetched.wait(20)
    with source._lock:
        pass
    assert source.read()[0].name == "The New Shed"
    stands[0] = first
    clock[0] += 100 * gyms.AGAIN_S
    assert source.read()[0].name == "The Shed"  # too old to be given once more


def test_what_was_just_saved_is_seen_at_once() -> None:
    stands = [read_gym(TINY)]
    source = GymSource(fetch=lambda: stands[0])
    source.read()
    stands[0] = replace(stands[0], name="The New Shed")
    source.forget()
    assert source.read()[0].name == "The New Shed"
