"""Passphrases: which are taken, how they are kept, and checking one in even time."""

from __future__ import annotations

import re
import secrets
import threading
import unicodedata
from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING, Final

from argon2 import PasswordHasher
from argon2.exceptions import Argon2Error, InvalidHashError

from topheavy.errors import BadInputError

if TYPE_CHECKING:
    from collections.abc import Iterable

LEAST: Final = 15
"""Fewest characters where nothing but a passphrase is asked: NIST SP 800-63B-4, 3.1.1.2."""

MOST: Final = 500
"""Most characters; the same section asks that at least 64 are taken (from memory)."""

_DIFFERENT: Final = 6
"""Fewest characters that differ: own judgement; it stops ``aaaaaaaaaaaaaaa`` and ``121212...``."""

_KNOWN: Final = ("topheavy", "passphrase", "password", "barbell", "qwertyuiop", "1234567890")
_AT_ONCE: Final = threading.BoundedSemaphore(2)
"""Each check takes 64 MB and a core for a moment; more at once would only starve the pages."""


@dataclass(frozen=True, slots=True)
class Checked:
    """Whether a passphrase was right, and a stronger hash of it where the kept one is old."""

    right: bool
    better: str = ""


def check_passphrase(text: str, known: Iterable[str] = (), field: str = "passphrase") -> str:
    """Take a new passphrase, or say why not: long enough, and no name or row of keys.

    Every character is taken and no mixture of kinds is asked for.

    Parameters
    ----------
    text : str
        As typed; nothing is cut off or trimmed.
    known : iterable of str
        Words that everybody there knows, such as the names of account and gym.
    field : str
        What it is called in an error.

    Raises
    ------
    BadInputError
        Too short, too long, or made of what anyone would try first.

    Examples
    --------
    >>> check_passphrase("four plates and some chain")
    'four plates and some chain'
    """
    found = unicodedata.normalize("NFC", text)
    if not LEAST <= len(found) <= MOST:
        raise BadInputError(
            "The passphrase is too short" if len(found) < LEAST else "The passphrase is too long",
            field=field,
            got=f"{len(found)} characters",
            wanted=f"{LEAST} to {MOST}: four or five words that do not belong together",
        )
    rest = _close(found)
    for word in sorted({_close(one) for one in (*known, *_KNOWN)} - {""}, key=len, reverse=True):
        rest = rest.replace(word, "") if len(word) > 2 else rest
    if len(set(found.casefold())) < _DIFFERENT or len(set(rest)) < _DIFFERENT:
        raise BadInputError(
            "Anyone would try this passphrase first",
            field=field,
            got="names, rows of keys, or the same few characters again and again",
            wanted="four or five words that do not belong together",
        )
    return found


def hash_passphrase(text: str) -> str:
    """Hash a passphrase with argon2id at the library's defaults (RFC 9106, 4, from memory).

    >>> hash_passphrase("four plates and some chain").split("$")[1]
    'argon2id'
    """
    with _AT_ONCE:
        return _hasher().hash(unicodedata.normalize("NFC", text))


def verify(hashed: str, text: str) -> Checked:
    """Check a passphrase against its hash.

    An empty hash is an account without passphrase, or none at all: it takes the same time, and is
    never right.
    """
    typed = unicodedata.normalize("NFC", text[: MOST + 1])
    with _AT_ONCE:
        try:
            right = _hasher().verify(hashed or _nobody(), typed)
        except (Argon2Error, InvalidHashError):
            return Checked(right=False)
        if not hashed or not right:
            return Checked(right=False)
        old = _hasher().check_needs_rehash(hashed)
        return Checked(right=True, better=_hasher().hash(typed) if old else "")


@cache
def _hasher() -> PasswordHasher:
    return PasswordHasher()


@cache
def _nobody() -> str:
    """The hash of what nobody types: random, and forgotten at once."""
    return _hasher().hash(secrets.token_urlsafe(32))


def _close(text: str) -> str:
    return re.sub(r"[\s_.,;:!?'-]+", "", text.casefold())
