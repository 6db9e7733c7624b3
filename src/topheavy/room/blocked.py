"""Why a room can't be planned: what stands in the way, by how much, and what would do."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from topheavy.room.blocked_large import Short, WaysOut, short_hours
from topheavy.room.by_hand import first_plan
from topheavy.room.draft import capacities
from topheavy.room.model import build
from topheavy.room.model_parts import Slack, solver_library
from topheavy.room.offers import offers_for
from topheavy.room.solve import SEED, SMALL

if TYPE_CHECKING:
    from topheavy.room.ask import Room
    from topheavy.room.draft import Part
    from topheavy.room.offers import Offers
    from topheavy.room.solve import Effort


@dataclass(frozen=True, slots=True, kw_only=True)
class Unserved:
    """A booking for which nothing in stock will do.

    Parameters
    ----------
    booking : int
        Its position.
    nearest_kg : float
        The least miss that any chain leaves [kg]; infinite when none keeps the rules.
    tolerance_kg : float
        What would have done [kg].
    """

    booking: int
    nearest_kg: float
    tolerance_kg: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Blocked:
    """Why there is no plan, and what would make one possible, each by itself.

    Parameters
    ----------
    unserved : tuple of Unserved
        Bookings that no chain serves; nothing else helps them.
    short : tuple of Short
        What has too few hours, whatever the plan.
    longer : int or None
        Grains more that the room must be open; None when not known, or when time does not help.
    longer_is_least : bool
        Whether fewer were proven too few.
    more : tuple of (Part, int)
        Parts of which so many more would do: pairs, or people.
    leave_out : tuple of int
        Bookings without which the rest can be planned: the fewest found.
    """

    unserved: tuple[Unserved, ...] = ()
    short: tuple[Short, ...] = ()
    longer: int | None = None
    longer_is_least: bool = False
    more: tuple[tuple[Part, int], ...] = ()
    leave_out: tuple[int, ...] = ()


def why_not(room: Room, effort: Effort, offers: Offers | None = None) -> Blocked:
    """Look for what stands in the way of a plan.

    Parameters
    ----------
    room : Room
        What is asked.
    effort : Effort
        How long to look for each way out.
    offers : Offers, optional
        What serves whom.
    """
    offers = offers or offers_for(room)
    unserved = tuple(_unserved(room, offers))
    if unserved:
        return Blocked(unserved=unserved)
    short = short_hours(room, offers)
    if len(room.bookings) > SMALL:
        ways = WaysOut(room, offers, effort)
        longer, least = ways.longer()
        return Blocked(
            short=short,
            longer=longer,
            longer_is_least=least,
            more=tuple(ways.more()),
            leave_out=ways.leave_out(),
        )
    longer, least = _longer(room, offers, effort)
    return Blocked(
        short=short,
        longer=longer,
        longer_is_least=least,
        more=tuple(_more(room, offers, effort)),
        leave_out=_leave_out(room, offers, effort),
    )


def _unserved(room: Room, offers: Offers) -> list[Unserved]:
    found = []
    for number in range(len(room.bookings)):
        if not offers.serves(number):
            own = [offer for (n, _), offer in offers.at.items() if n == number]
            best = min(own, key=lambda offer: offer.nearest_kg)
            found.append(
                Unserved(booking=number, nearest_kg=best.nearest_kg, tolerance_kg=best.tolerance_kg)
            )
    return found


def _longer(room: Room, offers: Offers, effort: Effort) -> tuple[int | None, bool]:
    """How much longer the room must be open: as found, and whether that is the least."""
    if any(booking.leaves is not None for booking in room.bookings):
        by_hand = None
    else:
        by_hand = first_plan(room, offers)
    written = build(room, offers, slack=Slack(time=True))
    if by_hand is not None:
        written.hint(by_hand)
    library, solver, status = _solved(written.model, effort)
    found = None
    if status in (library.OPTIMAL, library.FEASIBLE):
        found = round(solver.objective_value)
    elif by_hand is not None:
        found = max(draft.ends for draft in by_hand)
    if found is None or found <= room.length:
        return None, False
    return found - room.length, bool(status == library.OPTIMAL)


def _more(room: Room, offers: Offers, effort: Effort) -> list[tuple[Part, int]]:
    """Parts of which a few more would do, other things being as they are."""
    found = []
    for part in _worth_asking(room, offers):
        written = build(room, offers, slack=Slack(part=part))
        library, solver, status = _solved(written.model, effort)
        if status in (library.OPTIMAL, library.FEASIBLE):
            found.append((part, round(solver.objective_value)))
    return sorted(found, key=lambda one: (one[1], one[0]))


def _worth_asking(room: Room, offers: Offers) -> list[Part]:
    return [part for part in capacities(room, offers) if part[0] != "plates"]


def _leave_out(room: Room, offers: Offers, effort: Effort) -> tuple[int, ...]:
    written = build(room, offers, slack=Slack(leave_out=True))
    library, solver, status = _solved(written.model, effort)
    if status not in (library.OPTIMAL, library.FEASIBLE):
        return ()
    return tuple(n for n, var in written.left_out.items() if solver.value(var))


def _solved(model: Any, effort: Effort) -> tuple[Any, Any, Any]:
    library = solver_library()
    solver = library.CpSolver()
    solver.parameters.random_seed = SEED
    solver.parameters.num_workers = effort.workers
    if effort.steps is None:
        solver.parameters.max_time_in_seconds = effort.seconds_s
    else:
        solver.parameters.max_deterministic_time = effort.steps
    return library, solver, solver.solve(model)
