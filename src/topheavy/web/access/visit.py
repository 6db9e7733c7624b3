"""One request's visit: whose it is, at which desk, and what goes back in cookies."""

from __future__ import annotations

from contextvars import ContextVar
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Annotated, Any, Final, Literal

from fastapi import Depends

from topheavy.web.access.keys import new_token
from topheavy.web.access.refusals import forbidden, not_signed_in

if TYPE_CHECKING:
    from topheavy.web.access.keys import Keys
    from topheavy.web.desk import Desk

Role = Literal["coach", "lifter"]
Liked = Literal["", "kg", "lb"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Visitor:
    """Who asks.

    Parameters
    ----------
    name : str
        The account's name; of whoever sits at this machine while there are no accounts: coach.
    role : str
        ``"coach"`` or ``"lifter"``.
    lifter : str
        Name of the lifter it is, as the gym has it; empty for a coach.
    units : str
        ``"kg"`` or ``"lb"``; empty: the gym's own.
    account : int or None
        Number of the account; None while there are none.
    gym_id : int or None
        The gym that the account is of; None: every gym of the store.
    """

    name: str
    role: Role = "coach"
    lifter: str = ""
    units: Liked = ""
    account: int | None = None
    gym_id: int | None = None

    @property
    def coach(self) -> bool:
        """Whether it is a coach."""
        return self.role == "coach"

    def may_see(self, lifter: str) -> bool:
        """Say whether a lifter's own things may be seen and logged.

        >>> Visitor(name="pip", role="lifter", lifter="Pip").may_see("Osric")
        False
        """
        return self.coach or lifter.casefold() == self.lifter.casefold()

    def must_see(self, lifter: str) -> None:
        """Refuse with 403 what `may_see` does not allow."""
        if not self.may_see(lifter):
            raise forbidden(f"These are {lifter}'s own pages", wanted="your own, or a coach")


@dataclass(slots=True, kw_only=True)
class Visit:
    """A request under way.

    Parameters
    ----------
    keys : Keys
        What signs cookies.
    token : str
        What the browser's cookie holds; empty when it brought none.
    visitor : Visitor or None
        Who asks; None when nobody is signed in and somebody must be.
    desk : Desk or None
        The store and gym that are served; None for a file, or when none is chosen yet.
    path, whole : str
        What was asked for, without and with its question.
    units : str
        What a cookie remembers of units, for whoever has no account.
    said : dict
        What the page before wanted to be said on this one.
    nav : tuple
        Links to the pages that the visitor may see: what they say, where they go.
    gyms : int
        How many gyms the visitor may choose from.
    begun : bool
        Whether the token was drawn for this request.
    out : list of str
        Cookies that go with the answer, each a header.
    """

    keys: Keys
    token: str
    path: str = "/"
    whole: str = "/"
    visitor: Visitor | None = None
    desk: Desk | None = None
    units: str = ""
    said: dict[str, Any] = field(default_factory=dict)
    nav: tuple[tuple[str, str], ...] = ()
    gyms: int = 0
    begun: bool = False
    out: list[str] = field(default_factory=list)

    def tell(self) -> dict[str, Any]:
        """Give what is to be said on this page; it is said once."""
        if self.said:
            self.out.append(self.keys.cookie("said", "", 0))
        return self.said

    def csrf(self) -> str:
        """Give the token that a form or a script sends back; a browser without cookie gets one."""
        if not self.token:
            self.token, self.begun = new_token(), True
        return self.keys.csrf(self.token)


VISIT: Final[ContextVar[Visit]] = ContextVar("VISIT")
"""The visit of the request that is being answered; set around every route."""


def visit_now() -> Visit | None:
    """The visit under way; None outside of a request."""
    return VISIT.get(None)


def a_visit() -> Visit:
    """The visit under way, where there must be one."""
    return VISIT.get()


async def _signed_in() -> Visitor:
    visit = visit_now()
    if visit is None or visit.visitor is None:
        raise not_signed_in()
    return visit.visitor


async def _coach() -> Visitor:
    visitor = await _signed_in()
    if not visitor.coach:
        raise forbidden("This is for coaches", wanted="a coach's account")
    return visitor


SignedIn = Annotated[Visitor, Depends(_signed_in)]
"""For routes: whoever asks, coach or lifter; 401 when nobody is signed in."""

Coach = Annotated[Visitor, Depends(_coach)]
"""For routes: the coach who asks; 403 for lifters."""


def liked(text: str) -> Liked:
    """Read the units that somebody likes; empty for anything that is none."""
    return "kg" if text == "kg" else "lb" if text == "lb" else ""
