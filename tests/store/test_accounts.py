"""Accounts, sign-ins, links and tries in the store, on every kind of database."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor
from datetime import timedelta
from typing import TYPE_CHECKING

import pytest
from sqlalchemy import text

from tests.store.samples import START, put
from topheavy.errors import BadInputError, NotInStockError
from topheavy.store.accounts import (
    Account,
    NewAccount,
    add_account,
    any_account,
    deeds,
    find_account,
    list_accounts,
    remove_account,
    server_secret,
    set_passphrase,
    set_units,
)
from topheavy.store.gyms import load_gym
from topheavy.store.problems import StoreError
from topheavy.store.sign_ins import (
    IDLE,
    INVITED,
    LASTS,
    Limit,
    accept,
    begin_sign_in,
    begin_try,
    count_sign_ins,
    end_everywhere,
    end_sign_in,
    forget_tries,
    invite,
    invited,
    signed_in,
)

if TYPE_CHECKING:
    from topheavy.store.opening import Store

SECOND = timedelta(seconds=1)
OLD, NEW = "old hash", "new hash"


def coach(store: Store, name: str = "Runa") -> Account:
    return add_account(store, NewAccount(name=name, passphrase=OLD), by="me", at=START)


def lifter(store: Store) -> Account:
    put(store)
    gym = load_gym(store).id
    new = NewAccount(name="pip", role="lifter", gym_id=gym, lifter="Pip")
    return add_account(store, new, by="Runa", at=START)


def test_an_account_is_found_by_its_name_in_upper_or_lower_case(store: Store) -> None:
    assert not any_account(store)
    made = coach(store, "Runa  B.")
    assert any_account(store)
    assert find_account(store, "runa b.") == made
    assert made.name == "Runa B."
    with pytest.raises(NotInStockError):
        find_account(store, "Wren")


def test_a_name_is_given_once(store: Store) -> None:
    coach(store)
    for name in ("RUNA", " runa ", "\uff32una"):  # the last begins with a full-width letter
        with pytest.raises(BadInputError, match="already"):
            coach(store, name)


@pytest.mark.parametrize("name", ["", "  ", "a" * 61, "\x00", "a\u202eb"])
def test_names_that_are_none(store: Store, name: str) -> None:
    with pytest.raises(BadInputError, match="Not a name"):
        coach(store, name)
    assert not any_account(store)


def test_many_who_take_the_same_name_make_one_account(store: Store) -> None:
    def make(_: int) -> bool:
        try:
            coach(store)
        except BadInputError:
            return False
        return True

    with ThreadPoolExecutor(6) as pool:
        assert sum(pool.map(make, range(6))) == 1
    assert len(list_accounts(store)) == 1


def test_a_lifter_is_of_one_gym(store: Store) -> None:
    made = lifter(store)
    assert [one.name for one in list_accounts(store, made.gym_id)] == ["pip"]
    with pytest.raises(BadInputError, match="one lifter in one gym"):
        add_account(store, NewAccount(name="x", role="lifter", lifter="Pip"), by="me", at=START)
    with pytest.raises(BadInputError, match="one lifter in one gym"):
        add_account(store, NewAccount(name="x", lifter="Pip"), by="me", at=START)


def test_a_sign_in_ends_when_it_is_not_used_and_in_the_end_anyway(store: Store) -> None:
    made = coach(store)
    begin_sign_in(store, made, "a" * 64, START)
    assert signed_in(store, "b" * 64, START) is None
    assert signed_in(store, "a" * 64, START + IDLE + SECOND) is None
    at = START
    while at < START + LASTS - IDLE:
        at += IDLE - SECOND
        assert signed_in(store, "a" * 64, at) == made
    assert signed_in(store, "a" * 64, START + LASTS + SECOND) is None


def test_signing_out_here_and_everywhere(store: Store) -> None:
    made = coach(store)
    for letter in "abc":
        begin_sign_in(store, made, letter * 64, START)
    end_sign_in(store, "a" * 64)
    assert signed_in(store, "a" * 64, START) is None
    assert count_sign_ins(store, START) == {made.id: 2}
    assert end_everywhere(store, made, by="Runa", at=START) == 2
    assert signed_in(store, "b" * 64, START) is None
    assert count_sign_ins(store, START) == {}


def test_another_passphrase_ends_sign_ins_and_links(store: Store) -> None:
    made = coach(store)
    begin_sign_in(store, made, "a" * 64, START)
    invite(store, made, "i" * 64, by="Runa", at=START)
    set_passphrase(store, made, NEW, what="changed", by="Runa", at=START)
    assert find_account(store, "Runa").passphrase == NEW
    assert signed_in(store, "a" * 64, START) is None
    assert invited(store, "i" * 64, START) is None


def test_a_link_works_once_and_not_for_ever(store: Store) -> None:
    made = coach(store)
    ends_at = invite(store, made, "i" * 64, by="Runa", at=START)
    assert ends_at == START + INVITED
    assert invited(store, "i" * 64, START + INVITED + SECOND) is None
    found = invited(store, "i" * 64, START)
    assert found is not None

    def use(number: int) -> bool:
        try:
            accept(store, found, "i" * 64, f"hash {number}", START)
        except BadInputError:
            return False
        return True

    with ThreadPoolExecutor(4) as pool:
        assert sum(pool.map(use, range(4))) == 1
    assert invited(store, "i" * 64, START) is None


def test_a_new_link_takes_the_place_of_the_old(store: Store) -> None:
    made = coach(store)
    invite(store, made, "i" * 64, by="Runa", at=START)
    invite(store, made, "j" * 64, by="Runa", at=START)
    assert invited(store, "i" * 64, START) is None
    assert invited(store, "j" * 64, START) == made


def test_tries_are_counted_before_they_are_made(store: Store) -> None:
    """However many come at once, no more than the limit get through."""
    limits = [Limit(key="runa", most=5, within=timedelta(minutes=15))]
    with ThreadPoolExecutor(8) as pool:
        waits = list(pool.map(lambda _: begin_try(store, limits, START), range(20)))
    assert waits.count(0) == 5
    assert all(wait in {0, 901} for wait in waits)
    later = START + timedelta(minutes=10)
    assert begin_try(store, limits, later) == 301
    assert begin_try(store, limits, START + timedelta(minutes=15, seconds=1)) == 0


def test_every_limit_holds_and_a_right_passphrase_clears_its_own(store: Store) -> None:
    account = Limit(key="a", most=2, within=timedelta(minutes=1))
    address = Limit(key="b", most=3, within=timedelta(minutes=1))
    assert [begin_try(store, [account, address], START) for _ in range(2)] == [0, 0]
    assert begin_try(store, [account, address], START) > 0
    forget_tries(store, ["a"])
    assert begin_try(store, [account, address], START) == 0
    assert begin_try(store, [Limit(key="c", most=2, within=SECOND * 60), address], START) > 0


def test_the_last_coach_of_all_gyms_stays_while_there_are_others(store: Store) -> None:
    runa, pip = coach(store), lifter(store)
    with pytest.raises(BadInputError, match="last coach"):
        remove_account(store, runa, by="Runa", at=START)
    other = coach(store, "Wren")
    begin_sign_in(store, runa, "a" * 64, START)
    remove_account(store, runa, by="Wren", at=START)
    assert signed_in(store, "a" * 64, START) is None
    remove_account(store, pip, by="Wren", at=START)
    with pytest.raises(NotInStockError):
        remove_account(store, pip, by="Wren", at=START)
    remove_account(store, other, by="Wren", at=START)
    assert not any_account(store)


def test_what_was_done_is_written_down_and_stays(store: Store) -> None:
    made = coach(store)
    set_passphrase(store, made, NEW, what="passphrase changed", by="Wren", at=START)
    told = [(one.by, one.name, one.what) for one in deeds(store)]
    assert told == [("Wren", "Runa", "passphrase changed"), ("me", "Runa", "made, coach")]
    for words in ("UPDATE account_change SET what = ''", "DELETE FROM account_change"):
        with pytest.raises(StoreError, match="never changed"), store.writing() as connection:
            connection.execute(text(words))


def test_no_hash_or_token_is_among_what_was_done(store: Store) -> None:
    made = coach(store)
    invite(store, made, "i" * 64, by="Runa", at=START)
    with store.reading() as connection:
        rows = connection.execute(text("SELECT * FROM account_change")).all()
    assert not [row for row in rows if "i" * 64 in str(row) or "hash" in str(row)]


def test_units_are_remembered(store: Store) -> None:
    made = coach(store)
    set_units(store, made.id, "lb")
    assert find_account(store, "Runa").units == "lb"


def test_everybody_who_serves_a_store_signs_with_the_same_secret(store: Store) -> None:
    with ThreadPoolExecutor(4) as pool:
        found = set(pool.map(lambda _: server_secret(store), range(4)))
    assert len(found) == 1
    assert len(found.pop()) >= 43  # 32 bytes in base64
