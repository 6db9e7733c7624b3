"""Who may sign in, as one frozen view, and on the terminal."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from rich.text import Text

from topheavy.present.terminal import ACCENT, ruled

if TYPE_CHECKING:
    from collections.abc import Iterable

    from rich.console import RenderableType


@dataclass(frozen=True, slots=True, kw_only=True)
class AccountRow:
    """An account: name, role, whose lifter and of which gym, empty where neither matters."""

    name: str
    role: str
    lifter: str
    gym: str
    passphrase_chosen: bool
    browsers: int


@dataclass(frozen=True, slots=True, kw_only=True)
class AccountsView:
    """Everybody who may sign in."""

    accounts: tuple[AccountRow, ...]


def view_accounts(rows: Iterable[tuple[str, str, str, str, bool, int]]) -> AccountsView:
    """Put accounts into a view.

    Parameters
    ----------
    rows : iterable of (name, role, lifter, gym, passphrase chosen, browsers)
        By name.

    Examples
    --------
    >>> view_accounts([("Runa", "coach", "", "", True, 2)]).accounts[0].browsers
    2
    """
    return AccountsView(
        accounts=tuple(
            AccountRow(
                name=name,
                role=role,
                lifter=lifter,
                gym=gym,
                passphrase_chosen=chosen,
                browsers=browsers,
            )
            for name, role, lifter, gym, chosen, browsers in rows
        )
    )


def render_accounts(view: AccountsView) -> RenderableType:
    """Lay the accounts out as a table."""
    if not view.accounts:
        return Text(
            "Nobody has an account, so the pages answer this machine alone: topheavy account add",
            style=ACCENT,
        )
    table = ruled("name", "as", "of", "signed in on")
    for column in table.columns[1:]:
        column.justify, column.overflow = "left", "fold"
    for row in view.accounts:
        what = f"{row.role}, {row.lifter}" if row.lifter else row.role
        count = f"{row.browsers} browser{'' if row.browsers == 1 else 's'}"
        where = count if row.passphrase_chosen else "no passphrase yet"
        table.add_row(row.name, what, row.gym or "all gyms", where)
    return table
