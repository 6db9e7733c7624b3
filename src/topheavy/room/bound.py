"""What no plan can cost less than: the room without hours.

Everyone is in one group, every group on a chain that serves all of it; chain is hung before it is
used. Which group lifts when is left open: the stations of a sort have only to hold the work of all
their groups, and there must be enough chain and spotters for all work together. Every plan keeps
these, so the cheapest way to keep them is a bound.

It is a set partitioning over all possible groups, solved as a linear program first. The bound is
not the solver's word: it is worked out anew from the prices that the solver gives to each rule, and
holds for any prices (Lagrangian relaxation: Geoffrion 1974, Mathematical Programming Study 2,
82-114; from memory).
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any, Final

import numpy as np

from topheavy.room.draft import parts_hung
from topheavy.room.facts import bits
from topheavy.room.plan import PER_CHANGE, PER_GRAIN, PER_STEP, sure_finish

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from topheavy.room.facts import Facts, Names

    Floats = NDArray[np.float64]
    Ints = NDArray[np.int64]

_MOST_TEAMS: Final = 20_000
"""With more possible groups, work is counted by lifter, not by group: a looser bound."""

_ALL_COSTS: Final = math.gcd(PER_GRAIN, PER_CHANGE, PER_STEP)
"""Every cost is a whole multiple of this, so a bound may be rounded up to one."""


@dataclass(frozen=True, slots=True, eq=False)
class _Block:
    """Groups possible at a sort of station, t, and chain hung there, h.

    Parameters
    ----------
    stations : int
        How many stations.
    hung : list of int
        Which chain.
    serves : bool array (t, h)
        Which chain serves which group.
    member : float array (t, b)
        Which bookings a group is of.
    long, price : float array (t)
        Work [grains] and cost of bars far apart.
    takes : float array (t, p), holds : float array (h, p)
        What groups take, and hung chain, of each scarce thing.
    """

    stations: int
    hung: list[int]
    serves: NDArray[np.bool_]
    member: Floats
    long: Floats
    price: Floats
    takes: Floats
    holds: Floats


def teams_at(facts: Facts, sort: int, most: int) -> list[Names] | None:
    """List every group that one chain serves at a sort of station; None when over `most`."""
    serving = facts.sorts[sort].serving
    who = sorted(serving)
    level: list[tuple[Names, int]] = [((n,), serving[n]) for n in who]
    found = [some for some, _ in level]
    for _ in range(1, facts.room.most_in_group):
        larger = []
        for some, mask in level:
            larger += [
                ((*some, n), mask & serving[n]) for n in who if n > some[-1] and mask & serving[n]
            ]
            if len(found) + len(larger) > most:
                return None
        level = larger
        found += [some for some, _ in larger]
    return found


def _block(facts: Facts, sort: int) -> _Block:
    room, kind = facts.room, facts.sorts[sort]
    all_teams = teams_at(facts, sort, _MOST_TEAMS)
    rows: list[tuple[Names, int, int, int, int]] = []
    for some in all_teams or [(n,) for n in sorted(kind.serving)]:
        team = facts.team(sort, some)
        work = room.work(room.bookings[some[0]])
        if all_teams is None:
            rows.append((some, kind.serving[some[0]], work.sets * work.turn, 0, 0))
        elif team is not None:
            rows.append((some, team.serving, team.long, PER_STEP * team.apart, team.takes))
    every = 0
    for mask in kind.serving.values():
        every |= mask
    hung = bits(every)
    member = np.zeros((len(rows), len(room.bookings)))
    for at, row in enumerate(rows):
        member[at, list(row[0])] = 1.0
    parts = [parts_hung(facts.offers, h) for h in hung]
    return _Block(
        stations=len(kind.stations),
        hung=hung,
        serves=np.array([[row[1] >> h & 1 for h in hung] for row in rows], dtype=bool),
        member=member,
        long=np.array([float(row[2]) for row in rows]),
        price=np.array([float(row[3]) for row in rows]),
        takes=np.array([facts.counted(row[4]) for row in rows], dtype=float),
        holds=np.array([[float(one.get(p, 0)) for p in facts.scarce] for one in parts]),
    )


class Relaxed:
    """The room without hours, as a program of numbers.

    Parameters
    ----------
    facts : Facts
        Facts of the room.
    sharing : bool
        Whether to count scarce things too. Without, only chain matters that serves most: small, and
        solved at once, but a looser bound.
    """

    def __init__(self, facts: Facts, *, sharing: bool) -> None:
        room = facts.room
        self.have = facts.have if sharing else ()
        found = [_block(facts, sort) for sort in range(len(facts.sorts))]
        self.blocks = found if sharing else [_widest(block) for block in found]
        self.rig, self.least_finish = room.pace.rig_grains, sure_finish(room)
        self.bookings, self.length = len(room.bookings), room.length
        self.first_y = [1]
        for block in self.blocks:
            self.first_y.append(self.first_y[-1] + len(block.hung))
        self.columns = [np.argwhere(block.serves) for block in self.blocks]

    @property
    def size(self) -> int:
        """How many groups on chains there are to choose from."""
        return sum(len(some) for some in self.columns)

    def bound(self, best: int, seconds_s: float | None = None) -> int:
        """Bound from the linear program; 0 when there was no time for it.

        Parameters
        ----------
        best : int
            Cost of a plan that is known: only cheaper ones matter.
        seconds_s : float, optional
            Time there is [s].
        """
        from scipy.optimize import linprog  # noqa: PLC0415 - slow to load, and only planning needs it

        cost, equal, under = self._matrices(best)
        limits: Any = np.column_stack([self._lower(len(cost)), np.full(len(cost), np.inf)])
        options: Any = {} if seconds_s is None else {"time_limit": max(0.1, seconds_s)}
        found = linprog(
            cost,
            A_ub=under,
            b_ub=np.zeros(under.shape[0]),
            A_eq=equal,
            b_eq=np.ones(equal.shape[0]),
            bounds=limits,
            method="highs",
            options=options,
        )
        if found.status != 0:
            return 0
        one, rest = found.eqlin.marginals, np.minimum(0.0, found.ineqlin.marginals)
        off = cost - equal.T @ one - under.T @ rest
        self.off = off
        return rounded_up(self._sure(one, off, best))

    def whole_bound(self, best: int, bound: int, seconds_s: float) -> int:
        """Bound with groups and hung chain whole, as far as it is proven in the time given.

        Columns too dear to be in any plan cheaper than `best` are left out.
        """
        from scipy.optimize import Bounds, LinearConstraint, milp  # noqa: PLC0415 - as above

        cost, equal, under = self._matrices(best)
        kept = np.flatnonzero(self.off <= best - bound)
        kept = np.union1d(kept, np.arange(self.first_y[-1]))
        found = milp(
            cost[kept],
            constraints=[
                LinearConstraint(equal[:, kept], 1, 1),
                LinearConstraint(under[:, kept], -np.inf, 0),
            ],
            bounds=Bounds(self._lower(len(cost))[kept], np.inf),
            integrality=np.ones(len(kept), dtype=np.int64),
            options={"time_limit": max(0.1, seconds_s), "mip_rel_gap": 1e-4},
        )
        if found.status == 2:
            return best
        dual = found.mip_dual_bound
        return bound if dual is None or not math.isfinite(dual) else max(bound, rounded_up(dual))

    def _lower(self, columns: int) -> Floats:
        lower = np.zeros(columns)
        lower[0] = self.least_finish
        return lower

    def _matrices(self, best: int) -> tuple[Any, Any, Any]:
        """Costs; rows that must be one; rows that must not be above nothing.

        The latter: for each sort its hours; for each scarce thing its use; for each chain at a sort
        how long one run can be, and each booking on it.
        """
        from scipy.sparse import coo_matrix  # noqa: PLC0415 - as above

        first_x, sorts, parts = self.first_y[-1], len(self.blocks), len(self.have)
        head, links = sorts + parts, sorts + parts + self.first_y[-1] - 1
        longest = max(0, min(self.length, best // PER_GRAIN) - self.rig)
        costs = [np.array([float(PER_GRAIN)]), np.full(first_x - 1, float(PER_CHANGE))]
        equal: list[Triples] = []
        under: list[Triples] = [_at(sorts + np.arange(parts), 0, -np.array(self.have, dtype=float))]
        x = first_x
        for at, (block, columns) in enumerate(zip(self.blocks, self.columns, strict=True)):
            t, h = columns[:, 0], columns[:, 1]
            ys = self.first_y[at] + np.arange(len(block.hung))
            xs = x + np.arange(len(columns))
            x += len(columns)
            costs.append(block.price[t])
            long = block.long[t]
            under += [_at(at, 0, -block.stations), _at(at, ys, self.rig), _at(at, xs, long)]
            under += [_at(head + ys - 1, ys, -longest), _at(head + ys[h] - 1, xs, long)]
            for p in range(parts):
                under.append(_at(sorts + p, ys, self.rig * block.holds[:, p]))
                under.append(_at(sorts + p, xs, long * (block.takes[t, p] + block.holds[h, p])))
            i, b = np.nonzero(block.member[t])
            equal.append(_at(b, xs[i], 1.0))
            under.append(_at(links + (ys[h[i]] - 1) * self.bookings + b, xs[i], 1.0))
            both = np.arange(self.bookings)
            for y in ys:
                under.append(_at(links + (y - 1) * self.bookings + both, y, -1.0))
        rows = links + (first_x - 1) * self.bookings
        made = []
        for triples, count in ((equal, self.bookings), (under, rows)):
            i, j, v = (np.concatenate(some) for some in zip(*triples, strict=True))
            made.append(coo_matrix((v, (i, j)), shape=(count, x)).tocsr())
        return np.concatenate(costs), made[0], made[1]

    def _sure(self, one: Floats, off: Floats, best: int) -> float:
        """Bound that these prices prove, whatever they are: each number at its cheapest.

        A plan has no more groups, and no more runs, than bookings.
        """
        finish = max(self.least_finish, best // PER_GRAIN)
        total = float(one.sum()) + float(min(off[0] * self.least_finish, off[0] * finish))
        first_x = self.first_y[-1]
        total += float(np.minimum(0.0, off[1:first_x]).sum()) * self.bookings
        return total + min(0.0, float(off[first_x:].min())) * self.bookings


Triples = tuple["Ints", "Ints", "Floats"]


def _at(rows: Any, columns: Any, values: Any) -> Triples:
    """Entries of a matrix, single ones repeated."""
    i, j, v = np.broadcast_arrays(rows, columns, values)
    return np.ravel(i).astype(int), np.ravel(j).astype(int), np.ravel(v).astype(float)


def _widest(block: _Block) -> _Block:
    """Only chain of which no other serves the same and more."""
    alone = block.serves[block.member.sum(axis=1) == 1].astype(int)
    more = alone.T @ (1 - alone)  # how many h serves and g does not
    order = sorted(range(len(block.hung)), key=lambda h: (-int(alone[:, h].sum()), h))
    kept: list[int] = []
    for h in order:
        if all(more[h, g] for g in kept):
            kept.append(h)
    return replace(
        block,
        hung=[block.hung[h] for h in kept],
        serves=block.serves[:, kept],
        holds=block.holds[kept],
    )


def rounded_up(bound: float) -> int:
    """Round a bound up to the next cost that is possible.

    Parameters
    ----------
    bound : float
        No plan costs less [-]; not finite: nothing is known.

    >>> rounded_up(12586.6), rounded_up(12600.00001)
    (12600, 12600)
    """
    if not math.isfinite(bound):
        return 0
    return _ALL_COSTS * math.ceil((bound - 0.01) / _ALL_COSTS)
