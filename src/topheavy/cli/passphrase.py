"""A new passphrase, as it comes to a command: typed twice, from a file, or from the environment."""

from __future__ import annotations

import getpass
import os
import sys
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Final

import typer

from topheavy.errors import BadInputError, FileError, NotInStockError

if TYPE_CHECKING:
    from collections.abc import Iterable

VARIABLE: Final = "TOPHEAVY_PASSPHRASE"
"""The environment variable that a passphrase is taken from where nobody can type one."""

_TRIES: Final = 3
_LARGEST_BYTES: Final = 10_000

PassphraseFileOption = Annotated[
    Path | None,
    typer.Option(
        "--passphrase-file",
        metavar="FILE",
        help=f"Take the passphrase from its first line; else ${VARIABLE}, else you are asked.",
    ),
]


def new_passphrase(file: Path | None, known: Iterable[str], whose: str) -> str:
    """Take a new passphrase: from a file, from the environment, or typed twice.

    Parameters
    ----------
    file : Path or None
        Whose first line it is.
    known : iterable of str
        Words that it may not consist of, such as names.
    whose : str
        For whom, as the question says it.

    Raises
    ------
    BadInputError
        It is none that is taken, or nobody is there to type one.
    """
    from topheavy.web.access.passphrases import check_passphrase

    if file is not None:
        return check_passphrase(_first_line(file), known, "--passphrase-file")
    if VARIABLE in os.environ:
        return check_passphrase(os.environ[VARIABLE], known, VARIABLE)
    if not sys.stdin.isatty():
        raise BadInputError(
            "A passphrase is wanted, and nobody is there to type one",
            field="--passphrase-file",
            wanted=f"a terminal, --passphrase-file FILE, or {VARIABLE}",
        )
    return _typed(list(known), whose)


def _typed(known: list[str], whose: str) -> str:
    from topheavy.web.access.passphrases import LEAST, check_passphrase

    print(f"A passphrase for {whose}: {LEAST} characters or more; four or five words will do.")
    for left in range(_TRIES - 1, -1, -1):
        try:
            chosen = check_passphrase(getpass.getpass("Passphrase: "), known)
            if getpass.getpass("Once more: ") == chosen:
                return chosen
            told = BadInputError("The two are not alike", wanted="the same passphrase twice")
        except BadInputError as error:
            told = error
        if left:
            print(*told.lines(), sep="\n  ")
    raise told


def _first_line(file: Path) -> str:
    try:
        with file.open("rb") as opened:
            content = opened.read(_LARGEST_BYTES)
        return content.decode("utf-8-sig").partition("\n")[0].removesuffix("\r")
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or "it is no UTF-8 text"
        raise FileError(
            f"The passphrase can't be read: {reason}",
            field="--passphrase-file",
            got=str(file),
            wanted="a text file that only you can read",
        ) from error


def wants_pages() -> None:
    """Say which library is missing, where the pages' own are not installed."""
    try:
        import argon2  # noqa: F401 - only asked whether it is there
        import itsdangerous  # noqa: F401
        import jinja2  # noqa: F401
        import python_multipart  # noqa: F401
        import uvicorn  # noqa: F401
        from fastapi import FastAPI  # noqa: F401
    except ImportError as error:
        raise NotInStockError(
            "The pages need libraries that are not installed",
            field="serve",
            got=f"no {error.name}",
            wanted="pip install 'topheavy[web]'",
        ) from error
