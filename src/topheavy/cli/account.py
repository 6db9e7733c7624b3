"""`topheavy account`: who may come in to the pages, as a coach or as a lifter."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

import typer

from topheavy.cli.options import JsonOption
from topheavy.cli.panels import PanelCommand
from topheavy.cli.passphrase import PassphraseFileOption
from topheavy.cli.stored import ByOption, StoredGymOption

if TYPE_CHECKING:
    from topheavy.store.accounts import Account
    from topheavy.store.opening import Store

account = typer.Typer(
    help="Say who may sign in to the pages: add, list, change, remove.",
    no_args_is_help=True,
    rich_markup_mode=None,
    add_completion=False,
    pretty_exceptions_enable=False,
)

NameArgument = Annotated[str, typer.Argument(metavar="NAME", help="What is typed to sign in.")]
LifterOption = Annotated[
    str, typer.Option("--lifter", metavar="NAME", help="The lifter it is; without it: a coach.")
]
LinkOption = Annotated[
    bool, typer.Option("--link", help="No passphrase yet: print a one-time link to choose one.")
]


@account.command("add", cls=PanelCommand)
def add(
    name: NameArgument,
    lifter: LifterOption = "",
    gym: StoredGymOption = "",
    link: LinkOption = False,
    passphrase_file: PassphraseFileOption = None,
    by: ByOption = None,
) -> None:
    """Let somebody sign in: a lifter sees and logs only their own, a coach everything.

    A lifter is of one gym. A coach is of every gym in the store, or of one
    with --gym. Once anybody has an account, everybody must sign in.

    \b
    Examples
      topheavy account add Runa --passphrase-file passphrase.txt
      topheavy account add wren --lifter Wren --link
    """
    from topheavy.cli.passphrase import new_passphrase, wants_pages
    from topheavy.cli.stored import name_of, now, the_store, who
    from topheavy.store.accounts import NewAccount, add_account, any_account
    from topheavy.store.gyms import load_gym

    wants_pages()
    from topheavy.web.access.passphrases import hash_passphrase

    author = who(by)
    with the_store() as store:
        first = not any_account(store)
        found = load_gym(store, name_of(gym)) if lifter or gym else None
        known = found.gym.lifter(lifter).name if found and lifter else ""
        chosen = ""
        if not link:
            words = [name, known, found.gym.name if found else ""]
            chosen = hash_passphrase(new_passphrase(passphrase_file, words, name))
        new = NewAccount(
            name=name,
            role="lifter" if known else "coach",
            gym_id=found.id if found else None,
            lifter=known,
            passphrase=chosen,
        )
        made = add_account(store, new, by=author, at=now())
        print(f"{made.name} may sign in as a {made.role}{f', {known}' if known else ''}.")
        if first:
            print("From now on everybody signs in, on this machine too.")
        if link:
            _print_link(store, made, author)


@account.command("list", cls=PanelCommand)
def list_accounts(as_json: JsonOption = False) -> None:
    """List who may sign in, as what, and on how many browsers they are now.

    \b
    Examples
      topheavy account list
      topheavy account list --json
    """
    from topheavy.cli.show import print_json, print_view
    from topheavy.cli.stored import now, the_store
    from topheavy.present.store.account_view import render_accounts, view_accounts
    from topheavy.store import accounts
    from topheavy.store.gyms import list_gyms
    from topheavy.store.sign_ins import count_sign_ins

    with the_store() as store:
        gyms = {one.id: one.name for one in list_gyms(store)}
        browsers = count_sign_ins(store, now())
        rows = [
            (
                one.name,
                one.role,
                one.lifter,
                "" if one.gym_id is None else gyms[one.gym_id],
                bool(one.passphrase),
                browsers.get(one.id, 0),
            )
            for one in accounts.list_accounts(store)
        ]
    view = view_accounts(rows)
    if as_json:
        print_json(view)
    else:
        print_view(view, render_accounts)


@account.command("passphrase", cls=PanelCommand)
def passphrase(
    name: NameArgument,
    link: LinkOption = False,
    passphrase_file: PassphraseFileOption = None,
    by: ByOption = None,
) -> None:
    """Give an account another passphrase; it is signed out everywhere.

    With --link the old one is taken away, and the link chooses the next.

    \b
    Examples
      topheavy account passphrase Runa --passphrase-file passphrase.txt
      topheavy account passphrase Runa --link
    """
    from topheavy.cli.passphrase import new_passphrase, wants_pages
    from topheavy.cli.stored import now, the_store, who
    from topheavy.store.accounts import find_account, set_passphrase

    wants_pages()
    from topheavy.web.access.passphrases import hash_passphrase

    author = who(by)
    with the_store() as store:
        found = find_account(store, name)
        chosen = ""
        if not link:
            words = [found.name, found.lifter]
            chosen = hash_passphrase(new_passphrase(passphrase_file, words, found.name))
        what = "passphrase taken away" if link else "passphrase set on the terminal"
        set_passphrase(store, found, chosen, what=what, by=author, at=now())
        if link:
            _print_link(store, found, author)
        else:
            print(f"{found.name} has a new passphrase, and is signed out everywhere.")


@account.command("sign-out", cls=PanelCommand)
def sign_out(name: NameArgument, by: ByOption = None) -> None:
    """Sign an account out of every browser, when a phone was lost for instance.

    \b
    Examples
      topheavy account sign-out Runa
    """
    from topheavy.cli.stored import now, the_store, who
    from topheavy.store.accounts import find_account
    from topheavy.store.sign_ins import end_everywhere

    with the_store() as store:
        found = find_account(store, name)
        count = end_everywhere(store, found, by=who(by), at=now())
    print(f"{found.name} is signed out of {count} browser{'' if count == 1 else 's'}.")


@account.command("remove", cls=PanelCommand)
def remove(name: NameArgument, by: ByOption = None) -> None:
    """Remove an account; what it logged stays.

    The last coach of all gyms stays while there are other accounts.

    \b
    Examples
      topheavy account remove Pip
    """
    from topheavy.cli.stored import now, the_store, who
    from topheavy.store.accounts import find_account, remove_account

    with the_store() as store:
        found = find_account(store, name)
        remove_account(store, found, by=who(by), at=now())
    print(f"{found.name} may no longer sign in.")


def _print_link(store: Store, made: Account, author: str) -> None:
    from topheavy.cli.stored import now
    from topheavy.store.sign_ins import invite
    from topheavy.web.access.keys import hashed, new_token

    token = new_token()
    ends_at = invite(store, made, hashed(token), by=author, at=now())
    print(f"Good once, until {ends_at:%Y-%m-%d %H:%M} UTC, for whoever has it. Behind the")
    print("address that topheavy serve prints:")
    print(f"/welcome/{token}")
