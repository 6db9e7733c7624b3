"""Who is turned away at the door, with the status of HTTP that says so."""

from __future__ import annotations

from http import HTTPStatus

from topheavy.errors import TopheavyError


class RefusedError(TopheavyError):
    """A request that is turned away before its work begins.

    Parameters
    ----------
    status : HTTPStatus
        Of the answer.
    headers : dict
        That go with it.
    """

    def __init__(
        self,
        message: str,
        status: HTTPStatus,
        *,
        field: str | None = None,
        got: object | None = None,
        wanted: str | None = None,
    ) -> None:
        super().__init__(message, field=field, got=got, wanted=wanted)
        self.status = status
        self.headers: dict[str, str] = {}


def not_signed_in() -> RefusedError:
    """401, with the header that RFC 9110, section 15.5.2 asks for."""
    told = RefusedError("Sign in first", HTTPStatus.UNAUTHORIZED, wanted="a session: /sign-in")
    told.headers["WWW-Authenticate"] = 'Session realm="topheavy"'
    return told


def forbidden(message: str, *, wanted: str | None = None) -> RefusedError:
    """403: signed in or not, this one may not."""
    return RefusedError(message, HTTPStatus.FORBIDDEN, wanted=wanted)


def forged() -> RefusedError:
    """403 for a write whose page was not ours, or is too old."""
    return forbidden(
        "The page that sent this is too old, or is not of this program",
        wanted="load the page again and send it once more",
    )


def no_form(why: str) -> RefusedError:
    """400 for a form that can't be taken apart."""
    return RefusedError(
        "What was sent is no form that can be read", HTTPStatus.BAD_REQUEST, got=why
    )


def store_away() -> RefusedError:
    """503 for whoever asks while nobody can tell who it is; where the store is stays unsaid."""
    return RefusedError(
        "The store can't be reached just now",
        HTTPStatus.SERVICE_UNAVAILABLE,
        wanted="try again in a moment; nothing was changed",
    )


def too_large(most_bytes: int) -> RefusedError:
    """413 for more than is read."""
    return RefusedError(
        "That is too much to send at once",
        HTTPStatus.REQUEST_ENTITY_TOO_LARGE,
        wanted=f"at most {most_bytes / 1e6:g} MB",
    )


def too_often(wait_s: int) -> RefusedError:
    """429 for sign-in tried too often; says after how many seconds to come again."""
    told = RefusedError(
        "Too many tries to sign in",
        HTTPStatus.TOO_MANY_REQUESTS,
        wanted=f"wait {_wait(wait_s)}, or ask the coach for a new link",
    )
    told.headers["Retry-After"] = str(wait_s)
    return told


def _wait(wait_s: int) -> str:
    return f"{wait_s} s" if wait_s < 90 else f"{-(-wait_s // 60)} minutes"
