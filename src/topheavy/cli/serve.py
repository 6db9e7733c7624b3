"""`topheavy serve`: the pages, for this machine, or for phones at the rack."""

from __future__ import annotations

import contextlib
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from topheavy.cli.listening import PORT
from topheavy.cli.passphrase import PassphraseFileOption

if TYPE_CHECKING:
    import socket

    from fastapi import FastAPI

    from topheavy.cli.listening import Listening
    from topheavy.store.opening import Store

_WHERE = "Beyond this machine"
_KEPT_S = 30
"""How long a connection is kept that nothing is asked on [s]."""
_OPEN = """Nothing is encrypted: whoever listens on this network reads along, passphrases too.
Stay on a network that you trust, or give --tls-cert and --tls-key."""

ServedGymOption = Annotated[
    Path | None,
    typer.Option(
        "--gym",
        metavar="FILE",
        help="Only this gym: store:NAME, or a gym file, which is then only read.",
    ),
]
PortOption = Annotated[
    int, typer.Option("--port", metavar="N", help="Which port; 0 takes one that is free.")
]
HostOption = Annotated[
    str,
    typer.Option(
        "--host",
        metavar="ADDRESS",
        help="Where to listen; 0.0.0.0 lets others in, who sign in.",
        rich_help_panel=_WHERE,
    ),
]
NamesOption = Annotated[
    list[str] | None,
    typer.Option(
        "--name",
        metavar="NAME",
        help="A name the machine is asked for by, such as gym.local; may be said again.",
        rich_help_panel=_WHERE,
    ),
]
CoachOption = Annotated[
    str,
    typer.Option(
        "--coach",
        metavar="NAME",
        help="Name of the first account, made when others are let in.",
        rich_help_panel=_WHERE,
    ),
]
CertOption = Annotated[
    Path | None,
    typer.Option("--tls-cert", metavar="FILE", help="Certificate (PEM).", rich_help_panel=_WHERE),
]
KeyOption = Annotated[
    Path | None,
    typer.Option("--tls-key", metavar="FILE", help="Its key (PEM).", rich_help_panel=_WHERE),
]


def serve(
    gym: ServedGymOption = None,
    port: PortOption = PORT,
    host: HostOption = "127.0.0.1",
    name: NamesOption = None,
    coach: CoachOption = "coach",
    passphrase_file: PassphraseFileOption = None,
    tls_cert: CertOption = None,
    tls_key: KeyOption = None,
) -> None:
    """Serve the pages: the rig that moves, the gym, the work of the day, on a phone too.

    Prints the address to open in a browser, and runs until Ctrl-C. Gyms and
    logs come from the store, which is made when it is not there; the first page
    then helps to begin. Without accounts only this machine is answered. With
    --host 0.0.0.0 others are too: a passphrase is asked for first, and everybody
    signs in. Without a certificate a network can listen in.

    \b
    Examples
      topheavy serve
      topheavy serve --gym mine.toml --port 8500
      topheavy serve --host 0.0.0.0 --name gym.local --passphrase-file p.txt
    """
    from topheavy.cli.listening import listening, open_door
    from topheavy.cli.passphrase import wants_pages

    at = listening(host, port, name or [], tls_cert, tls_key)
    wants_pages()
    with contextlib.ExitStack() as closing:
        app = _made(gym, at, coach, passphrase_file, closing)
        door = open_door(at)
        closing.callback(door.close)
        _say(at, door.getsockname()[1])
        _run(app, at, door)
    print("Stopped.")


def _made(
    gym: Path | None,
    at: Listening,
    coach: str,
    passphrase_file: Path | None,
    closing: contextlib.ExitStack,
) -> FastAPI:
    """Put the application together; nothing is listened to yet."""
    from topheavy.cli.options import load_gym
    from topheavy.cli.stored import PREFIX, name_of, the_store, who
    from topheavy.store.gyms import find_gym
    from topheavy.web.app import Serving, make_app
    from topheavy.web.desk import Shelf
    from topheavy.web.gyms import GymSource

    named = str(gym or "")
    from_file = gym is not None and not named.startswith(PREFIX)
    if from_file:
        load_gym(gym)
        if not at.beyond:
            return make_app(GymSource(gym), Serving(secure=bool(at.cert), names=at.answered()))
    store = closing.enter_context(the_store())
    only = None
    if named and not from_file:
        with store.reading() as connection:
            only = find_gym(connection, name_of(named))[0]
    if at.beyond:
        _first_account(store, coach, passphrase_file)
    serving = Serving(
        names=at.answered(),
        beyond=at.beyond,
        secure=bool(at.cert),
        coach=who(None),
        shelf=Shelf(store, only),
    )
    return make_app(GymSource(gym) if from_file else None, serving)


def _first_account(store: Store, name: str, passphrase_file: Path | None) -> None:
    """Make the coach's account before anybody else can reach the pages."""
    from topheavy.cli.passphrase import new_passphrase
    from topheavy.cli.stored import now, who
    from topheavy.store.accounts import NewAccount, add_account, any_account
    from topheavy.store.gyms import list_gyms

    if any_account(store):
        return
    from topheavy.web.access.passphrases import hash_passphrase

    print(f"Others will be able to reach these pages, so {name!r} gets a passphrase first.")
    words = [name, *(one.name for one in list_gyms(store))]
    chosen = hash_passphrase(new_passphrase(passphrase_file, words, repr(name)))
    made = add_account(store, NewAccount(name=name, passphrase=chosen), by=who(None), at=now())
    print(f"Sign in as {made.name}. topheavy account changes it.")


def _say(at: Listening, port: int) -> None:
    addresses = at.addresses() or (at.host,)
    print(f"Open {at.url(addresses[0], port)} in a browser. Ctrl-C stops.", flush=True)
    for other in (*addresses[1:], *at.names):
        print(f"  or {at.url(other, port)}", flush=True)
    if at.beyond and at.cert is None:
        print(_OPEN, flush=True)


def _run(app: FastAPI, at: Listening, door: socket.socket) -> None:
    import uvicorn

    config = uvicorn.Config(
        app,
        log_level="warning",
        access_log=False,
        server_header=False,
        # Whoever asks is who the connection says, not what a header claims.
        proxy_headers=False,
        ssl_certfile=at.cert,
        ssl_keyfile=at.key,
        # Phones ask every few seconds: the connection they have is still there then.
        timeout_keep_alive=_KEPT_S,
    )
    with contextlib.suppress(KeyboardInterrupt):
        uvicorn.Server(config).run(sockets=[door])
