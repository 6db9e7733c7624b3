"""What cookies are made of: random tokens, their signature, and what a form must send back."""

from __future__ import annotations

import hashlib
import hmac
import secrets
from typing import Any, Final

from itsdangerous import BadData, Signer, URLSafeTimedSerializer

TOKEN_BYTES: Final = 32
"""Random bytes of a token: 256 bits; the OWASP Session Management Cheat Sheet asks for 64 bits of
entropy at least."""

_SAID_S: Final = 120


class Keys:
    """Signs cookies with a secret of the server.

    Parameters
    ----------
    secret : str
        Random; the same for every process that serves the same store.
    secure : bool
        Whether the pages are served over TLS: cookies then never travel without.

    Examples
    --------
    >>> keys = Keys("not very secret", secure=False)
    >>> keys.read(keys.sign("token")), keys.read("token.forged")
    ('token', '')
    """

    def __init__(self, secret: str, *, secure: bool) -> None:
        self._secret = secret.encode()
        self._said = URLSafeTimedSerializer(secret, salt="topheavy.said")
        self.secure = secure

    def name(self, cookie: str = "visit") -> str:
        """Name a cookie; over TLS its prefix ties it to this host.

        RFC 6265bis, section 4.1.3.2; the section's number is from memory.
        """
        return f"{'__Host-' if self.secure else ''}topheavy-{cookie}"

    def sign(self, text: str, cookie: str = "visit") -> str:
        """Sign what a cookie holds, so that it is good for that cookie alone."""
        return self._signer(cookie).sign(text).decode()

    def read(self, value: str, cookie: str = "visit") -> str:
        """Give back what was signed for a cookie; empty for anything else."""
        try:
            return self._signer(cookie).unsign(value).decode()
        except (BadData, UnicodeError):
            return ""

    def csrf(self, token: str) -> str:
        """What forms of a visit send back: nobody without its cookie can know it."""
        return hmac.new(self._secret, f"csrf {token}".encode(), hashlib.sha256).hexdigest()

    def same_csrf(self, token: str, sent: str) -> bool:
        """Compare in a time that tells nothing."""
        return bool(token) and hmac.compare_digest(self.csrf(token).encode(), sent.encode())

    def pack(self, value: Any) -> str:
        """Write something small that the next page is to say."""
        return str(self._said.dumps(value))

    def unpack(self, cookie: str) -> Any:
        """Read it back; None when it is old or not ours."""
        try:
            return self._said.loads(cookie, max_age=_SAID_S)
        except BadData:
            return None

    def cookie(self, name: str, value: str, max_age_s: int | None = None) -> str:
        """Write a ``Set-Cookie`` header: out of scripts' reach, sent with no write from elsewhere.

        ``Strict`` would keep it back when a link in a message is followed: the page to sign in that
        is shown then sets a cookie of its own, and whoever was signed in is so no longer.
        """
        parts = [f"{self.name(name)}={value}", "Path=/", "HttpOnly", "SameSite=Lax"]
        if max_age_s is not None:
            parts.append(f"Max-Age={max_age_s}")
        if self.secure:
            parts.append("Secure")
        return "; ".join(parts)

    def _signer(self, cookie: str) -> Signer:
        return Signer(self._secret, salt=f"topheavy.{cookie}", digest_method=hashlib.sha256)


def new_token() -> str:
    """Draw a token: random, and fit for an address."""
    return secrets.token_urlsafe(TOKEN_BYTES)


def hashed(token: str) -> str:
    """What the store keeps of a token; a token is random enough to need no salt.

    >>> len(hashed("token"))
    64
    """
    return hashlib.sha256(token.encode()).hexdigest()
