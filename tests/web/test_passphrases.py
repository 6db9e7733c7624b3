"""Which passphrases are taken, and how they are kept.

National Institute of Standards and Technology: SP 800-63B-4, Digital Identity Guidelines,
Authentication and Authenticator Management (2025), section 3.1.1.2, as quoted in summaries of it:
at least 15 characters where nothing else is asked, at least 64 allowed, every printing character
and the space taken, each code point counted once, no rules of composition, nothing cut off.
"""

from __future__ import annotations

import pytest
from argon2 import PasswordHasher, extract_parameters
from argon2.profiles import RFC_9106_LOW_MEMORY

from tests.web.people import QUICK, hash_quickly
from topheavy.errors import BadInputError
from topheavy.web.access import passphrases
from topheavy.web.access.passphrases import MOST, check_passphrase, hash_passphrase, verify


@pytest.mark.parametrize(
    "text",
    ["one two three f", "".join(chr(0x4E00 + 37 * n) for n in range(15)),
     "\U0001f600 abcdefgh ijklm", "#$%&/()=*+~<>|@^{",
     "x7 " * 5 + "qwerty", "correct horse" + " z" * 100],
)  # fmt: skip
def test_long_enough_is_enough(text: str) -> None:
    assert check_passphrase(text) == text


@pytest.mark.parametrize("text", ["", "fourteen chars", "Tr0ub4dor&3", "x" * 15, "ab" * 20,
                                  "a" * (MOST + 1), "passwordpassword", "Topheavy Topheavy",
                                  "123456789012345", "qwertyuiop 1234567890"])  # fmt: skip
def test_too_short_or_what_anyone_tries_first(text: str) -> None:
    with pytest.raises(BadInputError) as told:
        check_passphrase(text)
    assert text not in str(told.value) or not text


def test_names_that_everybody_knows_do_not_count() -> None:
    with pytest.raises(BadInputError, match="Anyone"):
        check_passphrase("Runa at The Barn", ["Runa", "The Barn"])
    assert check_passphrase("Runa at The Barn on Tuesdays", ["Runa", "The Barn"])


def test_letters_are_the_same_however_they_are_typed(monkeypatch: pytest.MonkeyPatch) -> None:
    """An accent may come as one character or as two; Unicode Standard Annex 15, form NFC."""
    hash_quickly(monkeypatch)
    kept = hash_passphrase(check_passphrase("caf\u00e9 caf\u00e9 und kreide"))
    assert verify(kept, "cafe\u0301 cafe\u0301 und kreide").right
    assert not verify(kept, "cafe cafe und kreide").right


def test_nothing_is_cut_off(monkeypatch: pytest.MonkeyPatch) -> None:
    hash_quickly(monkeypatch)
    long = "abc def " * 30
    kept = hash_passphrase(long)
    assert verify(kept, long).right
    assert not verify(kept, long[:-1]).right


def test_hashes_are_argon2id_as_the_rfc_recommends() -> None:
    """RFC 9106, section 4, second recommendation: argon2id, t=3, p=4, m=2^16 KiB, 128-bit salt."""
    found = extract_parameters(hash_passphrase("four plates and some chain"))
    assert found == RFC_9106_LOW_MEMORY
    assert (found.time_cost, found.parallelism, found.memory_cost, found.salt_len) == (
        3,
        4,
        2**16,
        16,
    )


def test_an_old_hash_is_made_anew_when_the_passphrase_is_right(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    hash_quickly(monkeypatch)
    old = PasswordHasher(time_cost=2, memory_cost=8, parallelism=1).hash("four plates and chain")
    found = verify(old, "four plates and chain")
    assert found.right
    assert extract_parameters(found.better).time_cost == 1
    assert verify(old, "wrong").better == ""
    assert verify(QUICK.hash("same"), "same").better == ""


@pytest.mark.parametrize("hashed", ["", "nonsense", "$argon2id$v=19$m=8,t=1,p=1$x$y"])
def test_no_hash_or_a_broken_one_is_never_right(
    hashed: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    hash_quickly(monkeypatch)
    assert not verify(hashed, "").right
    assert not verify(hashed, "four plates and some chain").right


def test_without_an_account_the_work_is_the_same(monkeypatch: pytest.MonkeyPatch) -> None:
    done = []

    class Counting:
        def verify(self, hashed: str, text: str) -> bool:
            done.append(extract_parameters(hashed))
            return QUICK.verify(hashed, text)

        def hash(self, text: str) -> str:
            return QUICK.hash(text)

        def check_needs_rehash(self, hashed: str) -> bool:
            return QUICK.check_needs_rehash(hashed)

    passphrases._nobody.cache_clear()
    monkeypatch.setattr(passphrases, "_hasher", Counting)
    verify("", "words")
    verify(QUICK.hash("other"), "words")
    passphrases._nobody.cache_clear()
    assert done[0] == done[1]
