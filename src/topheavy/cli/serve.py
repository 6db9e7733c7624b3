"""`topheavy serve`: the pages, for browsers on this machine."""

from __future__ import annotations

import contextlib
import contextvars
from typing import TYPE_CHECKING, Annotated, Final

import typer

from topheavy.cli.options import GymOption, load_gym
from topheavy.errors import BadInputError, NotInStockError

if TYPE_CHECKING:
    import socket

PortOption = Annotated[
    int, typer.Option("--port", metavar="N", help="Which port; 0 takes one that is free.")
]
HostOption = Annotated[
    str, typer.Option("--host", metavar="ADDRESS", help="Where to listen: this machine alone.")
]
_PORT: Final = 8477
_HIGHEST: Final = 65_535


def serve(gym: GymOption = None, port: PortOption = _PORT, host: HostOption = "127.0.0.1") -> None:
    """Serve the pages on this machine: see the rig move, change it, print its card.

    Prints the address to open in a browser, and runs until Ctrl-C. The gym is read again when it
    changes. There are no accounts yet, so nobody but this machine is served.

    \b
    Examples
      topheavy serve
      topheavy serve --gym mine.toml --port 8500
    """
    _check(host, port)
    try:
        import jinja2  # noqa: F401 - only asked whether it is there
        import uvicorn
        from fastapi import FastAPI  # noqa: F401
    except ImportError as error:
        raise NotInStockError(
            "The pages need libraries that are not installed",
            field="serve",
            got=f"no {error.name}",
            wanted="pip install 'topheavy[web]'",
        ) from error
    load_gym(gym)
    from topheavy.web.app import make_app
    from topheavy.web.gyms import GymSource

    door = _door(host, port)
    name = f"[{host}]" if ":" in host else host
    print(f"Open http://{name}:{door.getsockname()[1]}/rig in a browser. Ctrl-C stops.", flush=True)
    stored = gym is not None and str(gym).startswith("store:")
    # Routes run in threads of their own; the store they ask is the one that was named here.
    here = contextvars.copy_context()
    source = GymSource(fetch=lambda: here.copy().run(load_gym, gym)) if stored else GymSource(gym)
    app = make_app(source)
    config = uvicorn.Config(app, log_level="warning", access_log=False, server_header=False)
    try:
        with contextlib.suppress(KeyboardInterrupt):
            uvicorn.Server(config).run(sockets=[door])
    finally:
        door.close()
    print("Stopped.")


def _check(host: str, port: int) -> None:
    import ipaddress

    try:
        here = host == "localhost" or ipaddress.ip_address(host).is_loopback
    except ValueError:
        here = False
    if not here:
        raise BadInputError(
            "There are no accounts yet, so only this machine is served",
            field="--host",
            got=repr(host),
            wanted="127.0.0.1, ::1 or localhost",
        )
    if not 0 <= port <= _HIGHEST:
        raise BadInputError(
            "No such port", field="--port", got=port, wanted=f"0 to {_HIGHEST}; {_PORT} is usual"
        )


def _door(host: str, port: int) -> socket.socket:
    """Open the port before anything is promised."""
    import socket

    family = socket.AF_INET6 if ":" in host else socket.AF_INET
    door = socket.socket(family, socket.SOCK_STREAM)
    door.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        door.bind((host, port))
        # Whoever comes before the pages are ready waits instead of being turned away.
        door.listen()
    except OSError as error:
        door.close()
        raise BadInputError(
            f"Can't listen there: {error.strerror or error}",
            field="--port",
            got=f"{host}, port {port}",
            wanted="another port, or 0 for one that is free",
        ) from error
    return door
