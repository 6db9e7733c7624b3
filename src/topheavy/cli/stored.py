"""The store as commands see it: where it is, which gym in it, and who is at work."""

from __future__ import annotations

import getpass
from datetime import UTC, datetime
from typing import TYPE_CHECKING, Annotated, Final

import typer

from topheavy.errors import BadInputError

if TYPE_CHECKING:
    from contextlib import AbstractContextManager

    from topheavy.gym.gym import Gym
    from topheavy.store.opening import Store

PREFIX: Final = "store:"
_MOST_NAME: Final = 60

StoredGymOption = Annotated[
    str,
    typer.Option(
        "--gym", metavar="store:NAME", help="Which gym in the store; not needed for the only one."
    ),
]
ByOption = Annotated[
    str | None, typer.Option("--by", metavar="NAME", help="Who writes; else your login's name.")
]


def the_store() -> AbstractContextManager[Store]:
    """Open the store that was asked for; closed at the end of the with block."""
    from topheavy.cli.app import STORE
    from topheavy.store.opening import opened

    return opened(STORE.get())


def name_of(gym: str) -> str:
    """The name behind ``store:``; empty for the only gym there is.

    >>> name_of("store:The Barn"), name_of("store:")
    ('The Barn', '')
    """
    name = gym.strip()
    if name and not name.startswith(PREFIX):
        raise BadInputError(
            "A log belongs to a gym in the store",
            field="--gym",
            got=repr(gym),
            wanted="store:NAME; topheavy gym stored lists them, gym load FILE brings one in",
        )
    return name.removeprefix(PREFIX).strip()


def gym_with_log(gym: str) -> Gym:
    """Fetch a gym as it stands in the store, with what its log tells of strength."""
    from topheavy.cli.today import the_day
    from topheavy.services.logged import with_log
    from topheavy.store.gyms import load_gym
    from topheavy.store.sets import telling_sets

    today = the_day()
    with the_store() as store:
        found = load_gym(store, name_of(gym))
        sets = telling_sets(store, found.id, today)
    return with_log(found.gym, sets, today)


def who(by: str | None) -> str:
    """Who writes: as typed, else the name of the login."""
    if by is not None:
        name = by.strip()
        if not name or len(name) > _MOST_NAME or not name.isprintable():
            raise BadInputError(
                "Not a name",
                field="--by",
                got=repr(by[:_MOST_NAME]),
                wanted=f"1 to {_MOST_NAME} characters",
            )
        return name
    try:
        return getpass.getuser()[:_MOST_NAME]
    except (OSError, KeyError, ImportError):
        return "unknown"


def now() -> datetime:
    """The moment it is."""
    return datetime.now(UTC)
