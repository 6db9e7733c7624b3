"""A store with a gym and accounts, and browsers of those who have them."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from argon2 import PasswordHasher

from tests.store.samples import START, put
from tests.web.serving import store_client, written
from topheavy.store.accounts import Account, NewAccount, add_account
from topheavy.store.gyms import load_gym
from topheavy.store.opening import Store, open_store
from topheavy.web.access import passphrases

if TYPE_CHECKING:
    from pathlib import Path

    import pytest
    from httpx2 import Response
    from starlette.testclient import TestClient

COACH_WORDS: Final = "four plates and some chain"
PIP_WORDS: Final = "rubber floor and dusty chalk"
QUICK: Final = PasswordHasher(time_cost=1, memory_cost=8, parallelism=1)


def hash_quickly(monkeypatch: pytest.MonkeyPatch) -> None:
    """Hash with next to no work: what is tested is what is done with hashes."""
    monkeypatch.setattr(passphrases, "_hasher", lambda: QUICK)


def barn(folder: Path) -> Store:
    """A store with the demo gym in it."""
    store = open_store(str(folder / "barn.sqlite"))
    put(store)
    return store


def with_coach(store: Store, *, gym_id: int | None = None, name: str = "Runa") -> Account:
    """Give a coach an account."""
    new = NewAccount(name=name, gym_id=gym_id, passphrase=QUICK.hash(COACH_WORDS))
    return add_account(store, new, by="me", at=START)


def with_pip(store: Store) -> Account:
    """Give Pip, who lifts, an account."""
    gym_id = load_gym(store, "the tarnfell barbell barn").id
    new = NewAccount(
        name="pip", role="lifter", gym_id=gym_id, lifter="Pip", passphrase=QUICK.hash(PIP_WORDS)
    )
    return add_account(store, new, by="me", at=START)


def enter(asking: TestClient, name: str, words: str, then: str = "/") -> Response:
    """Sign in."""
    token = _token(asking)
    values = {"csrf": token, "name": name, "passphrase": words, "then": then}
    return asking.post("/sign-in", data=values, follow_redirects=False)


def post(asking: TestClient, path: str, **values: str) -> Response:
    """Send a form as its page would."""
    return asking.post(path, data=values, headers=written(asking), follow_redirects=False)


def signed_in(store: Store, name: str = "Runa", words: str = COACH_WORDS) -> TestClient:
    """A browser that has signed in."""
    asking = store_client(store, beyond=True)
    assert enter(asking, name, words).status_code == 303
    return asking


def _token(asking: TestClient) -> str:
    answer = asking.get("/sign-in")
    assert answer.status_code == 200, answer.text
    return answer.text.partition('name="csrf-token" content="')[2].partition('"')[0]
