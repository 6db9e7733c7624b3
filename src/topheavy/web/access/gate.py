"""The door of every request: who asks, of which gym, and whether a write came from our own page."""

from __future__ import annotations

from dataclasses import dataclass
from http import HTTPStatus
from typing import TYPE_CHECKING, Final
from urllib.parse import quote

from anyio.to_thread import run_sync
from starlette.datastructures import Headers, MutableHeaders
from starlette.exceptions import HTTPException
from starlette.formparsers import MultiPartException
from starlette.requests import Request
from starlette.responses import RedirectResponse

from topheavy.errors import TopheavyError
from topheavy.logfile.table import LARGEST_BYTES
from topheavy.store.accounts import any_account
from topheavy.store.sign_ins import signed_in
from topheavy.web.access.keys import hashed
from topheavy.web.access.refusals import (
    RefusedError,
    forged,
    no_form,
    not_signed_in,
    store_away,
    too_large,
)
from topheavy.web.access.visit import VISIT, Visit, Visitor, liked
from topheavy.web.desk import now
from topheavy.web.problems import answer_mistake

if TYPE_CHECKING:
    from starlette.types import ASGIApp, Message, Receive, Scope, Send

    from topheavy.store.accounts import Account
    from topheavy.web.access.keys import Keys
    from topheavy.web.access.nav import Place
    from topheavy.web.desk import Desk, Shelf

MOST_BYTES: Final = 8_000_000
"""Most that is read of one request [bytes]."""

STRANGER_BYTES: Final = 64_000
"""Most that is read of somebody who is not signed in: a name and a passphrase [bytes]."""

MOST_FIELDS: Final = 5_000
"""Most fields of a form, as the longest form of the gym's pages has them."""

LARGER: Final = {"/log/import": LARGEST_BYTES + 100_000}
"""Pages that take more from a coach: a whole log as a file."""

SAFE: Final = frozenset({"GET", "HEAD", "OPTIONS"})
"""Methods that change nothing (RFC 9110, section 9.2.1)."""

OPEN: Final = ("/sign-in", "/welcome/")
"""Pages for those who are not signed in yet."""

ANYWHERE: Final = (
    *OPEN,
    "/sign-out",
    "/first",
    "/gyms",
    "/people",
    "/units",
    "/account",
    "/api/me",
)
"""Pages that need no gym."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Rules:
    """How the door works.

    Parameters
    ----------
    keys : Keys
        What signs cookies.
    shelf : Shelf or None
        The store; None when a gym file is served to this machine alone.
    stocked : bool
        Whether the gyms come from the store too, and not from a file.
    open_without_accounts : bool
        Whether whoever asks is the coach while there is no account: on this machine alone.
    coach : str
        What that coach is called.
    places : tuple of Place
        Links in the head of every page.
    """

    keys: Keys
    shelf: Shelf | None = None
    stocked: bool = False
    open_without_accounts: bool = True
    coach: str = "coach"
    places: tuple[Place, ...] = ()


class Gate:
    """Finds out who asks before anything else is done, and turns away who may not."""

    def __init__(self, app: ASGIApp, rules: Rules) -> None:
        self.app, self.rules = app, rules

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer a request, or turn it away."""
        if scope["type"] != "http" or scope["path"].startswith("/static/"):
            await self.app(scope, receive, send)
            return
        request = Request(scope, receive)
        try:
            visit = await run_sync(self._visit, request)
        except TopheavyError:  # the store is away: nobody knows who asks, so no more is told
            await answer_mistake(request, store_away())(scope, receive, send)
            return
        mark = VISIT.set(visit)
        try:
            await self._let_in(request, visit, send)
        finally:
            VISIT.reset(mark)

    async def _let_in(self, request: Request, visit: Visit, send: Send) -> None:
        with_cookies = _with_cookies(visit, send)
        try:
            elsewhere = self._turned(request, visit)
            if elsewhere:
                answer = RedirectResponse(elsewhere, 303)
                await answer(request.scope, request.receive, with_cookies)
                return
            receive = request.receive
            if request.method not in SAFE:
                receive = await _checked(request, visit)
        except TopheavyError as error:
            answered = answer_mistake(request, error)
            # A write from another site comes without our cookie: one that is begun for its answer
            # would take the place of the one that is there, and sign its owner out.
            visit.begun = False
            await answered(request.scope, request.receive, with_cookies)
            return
        await self.app(request.scope, receive, with_cookies)

    def _visit(self, request: Request) -> Visit:
        rules, cookies = self.rules, request.cookies
        keys = rules.keys
        visit = Visit(
            keys=keys,
            token=keys.read(cookies.get(keys.name(), "")),
            path=request.url.path,
            whole=_whole(request),
            units=cookies.get(keys.name("units"), ""),
        )
        told = keys.unpack(cookies.get(keys.name("said"), ""))
        visit.said = told if isinstance(told, dict) else {}
        visit.visitor = self._who(visit)
        if rules.shelf is not None and rules.stocked and visit.visitor is not None:
            chosen = keys.read(cookies.get(keys.name("gym"), ""), "gym")
            visit.desk, visit.gyms = _desk(rules.shelf, visit.visitor, chosen)
        visit.nav = _nav(rules, visit)
        return visit

    def _who(self, visit: Visit) -> Visitor | None:
        shelf = self.rules.shelf
        if shelf is not None and visit.token:
            account = signed_in(shelf.store, hashed(visit.token), now())
            if account is not None:
                return _visitor(account)
        if not self.rules.open_without_accounts or (shelf is not None and any_account(shelf.store)):
            return None
        return Visitor(name=self.rules.coach, units=liked(visit.units))

    def _turned(self, request: Request, visit: Visit) -> str:
        """Say where a page leads instead; raise for programs; empty: come in."""
        path = request.url.path
        page = request.method in SAFE and not path.startswith(("/api/", "/part/"))
        if visit.visitor is None and not path.startswith(OPEN):
            if not page:
                raise not_signed_in()
            asked = "" if visit.whole == "/" else f"?next={quote(visit.whole, safe='')}"
            return f"/sign-in{asked}"
        wants_gym = self.rules.stocked and visit.visitor is not None and visit.desk is None
        if wants_gym and not path.startswith(ANYWHERE) and path != "/api/openapi.json":
            if not page:
                raise _no_gym(visit)
            return "/gyms" if visit.gyms else "/first"
        return ""


def _whole(request: Request) -> str:
    return request.url.path + (f"?{request.url.query}" if request.url.query else "")


def _no_gym(visit: Visit) -> RefusedError:
    return RefusedError(
        "There are several gyms, and none was chosen" if visit.gyms else "There is no gym yet",
        HTTPStatus.CONFLICT,
        field="gym",
        wanted="one chosen on the page /gyms" if visit.gyms else "one begun on the page /first",
    )


def _visitor(account: Account) -> Visitor:
    return Visitor(
        name=account.name,
        role=account.role,
        lifter=account.lifter,
        units=liked(account.units),
        account=account.id,
        gym_id=account.gym_id,
    )


def _desk(shelf: Shelf, visitor: Visitor, chosen: str) -> tuple[Desk | None, int]:
    """The desk of the visitor's gym, of the only one, or of the one that was chosen."""
    gyms = [one for one in shelf.gyms() if visitor.gym_id in {None, one.id}]
    found = gyms if len(gyms) == 1 else [one for one in gyms if str(one.id) == chosen]
    return (shelf.desk(found[0]) if found else None), len(gyms)


def _nav(rules: Rules, visit: Visit) -> tuple[tuple[str, str], ...]:
    if visit.visitor is None:
        return ()
    no_gym = rules.stocked and visit.desk is None
    return tuple(
        (one.label, one.path)
        for one in rules.places
        if one.shown(visit) and (not no_gym or one.path.startswith(ANYWHERE))
    )


async def _checked(request: Request, visit: Visit) -> Receive:
    """Read a write whole, within bounds, and make sure that it came from a page of ours."""
    site = request.headers.get("sec-fetch-site", "same-origin")
    if site not in {"same-origin", "none"}:
        raise forged()
    body = await _body(request, _most(request.url.path, visit))
    sent = request.headers.get("x-csrf-token") or await _field(request.scope, body)
    if not visit.keys.same_csrf(visit.token, sent):
        raise forged()
    return _again(body, request.receive)


def _most(path: str, visit: Visit) -> int:
    if visit.visitor is None:
        return STRANGER_BYTES
    return LARGER.get(path, MOST_BYTES) if visit.visitor.coach else MOST_BYTES


async def _body(request: Request, most: int) -> bytes:
    said = request.headers.get("content-length", "0")
    if said.isdecimal() and int(said) > most:
        raise too_large(most)
    parts, size = [], 0
    async for part in request.stream():
        size += len(part)
        if size > most:
            raise too_large(most)
        parts.append(part)
    return b"".join(parts)


async def _field(scope: Scope, body: bytes) -> str:
    kind = Headers(scope=scope).get("content-type", "").partition(";")[0].strip().lower()
    if kind not in {"application/x-www-form-urlencoded", "multipart/form-data"}:
        return ""
    asked = Request(scope, _again(body, _nothing))
    try:
        async with asked.form(max_files=20, max_fields=MOST_FIELDS) as form:
            sent = form.get("csrf", "")
            return sent if isinstance(sent, str) else ""
    except (HTTPException, MultiPartException) as error:
        told = error.detail if isinstance(error, HTTPException) else error.message
        raise no_form(told) from None


def _again(body: bytes, then: Receive) -> Receive:
    """Give a body that was read once more, and then whatever comes."""
    waiting: list[Message] = [{"type": "http.request", "body": body, "more_body": False}]

    async def receive() -> Message:
        return waiting.pop() if waiting else await then()

    return receive


async def _nothing() -> Message:
    return {"type": "http.disconnect"}


def _with_cookies(visit: Visit, send: Send) -> Send:
    async def sending(message: Message) -> None:
        if message["type"] == "http.response.start":
            headers = MutableHeaders(scope=message)
            if visit.begun:
                keys = visit.keys
                headers.append("Set-Cookie", keys.cookie("visit", keys.sign(visit.token)))
            for one in visit.out:
                headers.append("Set-Cookie", one)
        await send(message)

    return sending
