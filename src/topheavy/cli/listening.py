"""Where the pages are served: addresses, names they are asked for by, and encryption."""

from __future__ import annotations

import contextlib
import ipaddress
import socket
import ssl
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from topheavy.errors import BadInputError

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

PORT: Final = 8477
_HIGHEST: Final = 65_535
_MOST_NAME: Final = 253
_NOWHERE: Final = (("192.0.2.1", socket.AF_INET), ("2001:db8::1", socket.AF_INET6))
"""Addresses of examples (RFC 5737, RFC 3849): nothing is sent there, only the way is asked for."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Listening:
    """Where is listened.

    Parameters
    ----------
    host : str
        Address of a network card of this machine, or all of them: ``0.0.0.0``, ``::``.
    port : int
        0 to 65535; 0 takes one that is free.
    names : tuple of str
        More names that the server answers to, such as ``gym.local``.
    cert, key : Path or None
        For TLS: certificate and key, both or neither.
    """

    host: str
    port: int
    names: tuple[str, ...] = ()
    cert: Path | None = None
    key: Path | None = None

    @property
    def beyond(self) -> bool:
        """Whether others than this machine can reach it."""
        return self.host != "localhost" and not ipaddress.ip_address(self.host).is_loopback

    @property
    def everywhere(self) -> bool:
        """Whether every network card is listened on."""
        return self.host != "localhost" and ipaddress.ip_address(self.host).is_unspecified

    @property
    def scheme(self) -> str:
        """What an address begins with."""
        return "https" if self.cert else "http"

    def addresses(self) -> tuple[str, ...]:
        """Where it can be asked for, without scheme and port; the best for a phone first."""
        if not self.everywhere:
            return (self.host,)
        return own_addresses()

    def answered(self) -> tuple[str, ...]:
        """Names and addresses that requests may ask for."""
        own = socket.gethostname() if self.beyond else ""
        hosts = [*self.names, *self.addresses(), own, f"{own}.local" if own else ""]
        return tuple(f"[{one}]" if ":" in one else one for one in hosts if one)

    def url(self, host: str, port: int) -> str:
        """Write an address to open.

        >>> Listening(host="::1", port=0).url("::1", 8477)
        'http://[::1]:8477/rig'
        """
        return f"{self.scheme}://{f'[{host}]' if ':' in host else host}:{port}/rig"


def listening(
    host: str, port: int, names: Sequence[str], cert: Path | None, key: Path | None
) -> Listening:
    """Check where is to be listened.

    Raises
    ------
    BadInputError
        No such address or port, no name of a host, or certificate and key that do not go together.
    """
    if host != "localhost":
        try:
            ipaddress.ip_address(host)
        except ValueError:
            raise BadInputError(
                "Not an address to listen on",
                field="--host",
                got=repr(host),
                wanted="127.0.0.1 for this machine alone, 0.0.0.0 for all that reach it, or the "
                "address of one of its network cards",
            ) from None
    if not 0 <= port <= _HIGHEST:
        raise BadInputError(
            "No such port", field="--port", got=port, wanted=f"0 to {_HIGHEST}; {PORT} is usual"
        )
    for name in names:
        plain = name.replace("-", "").replace(".", "")
        if not (plain.isascii() and plain.isalnum() and len(name) <= _MOST_NAME):
            raise BadInputError(
                "Not the name of a machine",
                field="--name",
                got=repr(name),
                wanted="letters, digits, - and . as in gym.local",
            )
    _check_pair(cert, key)
    return Listening(
        host=host, port=port, names=tuple(one.lower() for one in names), cert=cert, key=key
    )


def _check_pair(cert: Path | None, key: Path | None) -> None:
    if (cert is None) != (key is None):
        raise BadInputError(
            "A certificate and its key go together",
            field="--tls-key" if key is None else "--tls-cert",
            wanted="both, or neither",
        )
    if cert is None or key is None:
        return
    try:
        # No key with a passphrase of its own: nobody may be there to type it.
        ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER).load_cert_chain(cert, key, password=lambda: b"")
    except (OSError, ssl.SSLError, ValueError) as error:
        raise BadInputError(
            f"Certificate and key can't be used: {getattr(error, 'strerror', None) or error}",
            field="--tls-cert",
            got=f"{cert}, {key}",
            wanted="a certificate (PEM) and its own key without a passphrase (PEM)",
        ) from error


def own_addresses() -> tuple[str, ...]:
    """Give this machine's addresses on its networks, the one for the usual way first."""
    found: list[str] = []
    for far, family in _NOWHERE:
        with contextlib.suppress(OSError), socket.socket(family, socket.SOCK_DGRAM) as asking:
            asking.connect((far, 9))
            found.append(str(asking.getsockname()[0]))
    with contextlib.suppress(OSError):
        found += [
            str(one[4][0]).partition("%")[0] for one in socket.getaddrinfo(socket.gethostname(), 0)
        ]
    unique = dict.fromkeys(one for one in found if not ipaddress.ip_address(one).is_loopback)
    return tuple(unique)


def open_door(at: Listening) -> socket.socket:
    """Open the port before anything is promised."""
    family = socket.AF_INET6 if ":" in at.host else socket.AF_INET
    # Named as TCP, asyncio sends each part of an answer at once; else every body waits some 40 ms
    # for the other side to say that it has the head.
    door = socket.socket(family, socket.SOCK_STREAM, socket.IPPROTO_TCP)
    door.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        door.bind((at.host, at.port))
        # Whoever comes before the pages are ready waits instead of being turned away.
        door.listen(128)
    except OSError as error:
        door.close()
        raise BadInputError(
            f"Can't listen there: {error.strerror or error}",
            field="--port",
            got=f"{at.host}, port {at.port}",
            wanted="another port, or 0 for one that is free",
        ) from error
    return door
