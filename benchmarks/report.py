"""The measurements as a page of Markdown."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchmarks.changes import run_changes
from benchmarks.growth import COUNTS, SERIES
from benchmarks.killed import AT_ONCE, KILLS, fresh_postgres, fresh_sqlite, run_killed
from benchmarks.killed import PHONES as QUEUES
from benchmarks.killed import SETS as KILLED_SETS
from benchmarks.links import HEIGHTS_M, LINKS, SPEED_M_PER_S, engine_there, run_links
from benchmarks.logs import SETS, run_logs
from benchmarks.measure import machine
from benchmarks.named import check_twelve, memory_mib, run_forty
from benchmarks.phones import EACH_S, PHONES, quantile, run_phones
from benchmarks.phones import SECONDS as PHONE_SECONDS
from benchmarks.reps import CHECKED, COUNT, LOOSE, run_reps
from benchmarks.room_plans import FEW, ROOMS, SECONDS_S, SHORT_S, WEEK_S, measured, spread
from benchmarks.startup import commands_s
from benchmarks.weeks import HOURS, LIFTERS, measured_week

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

_HEAD = """# How fast it is

Written by `python -m benchmarks --write`. Times are wall-clock, medians where a run is short. They
differ from machine to machine, the ratios far less. This run: {machine}.
"""

_CASE = """## Forty pieces

40 pieces in 8 kinds, 60 feeder settings, 200 plate totals, no limit on pieces below what the
stock holds: {rigs:,} rigs. Every way must end at the same optimum, the general solver within its
rounding to grams, or the run fails.

- Nested loops try every rig in pure Python, with the loads of each count of each kind reckoned
  beforehand, as the search has them. Every rig was tried; nothing is scaled up.
- The general solver is OR-tools CP-SAT, to a proven optimum. The choice of feeder is written for it
  in two ways: rows that hold if their feeder is chosen, and tables.
"""

_SMALL = """A case of {rigs:,} rigs is searched in both ways too, with equal cost.
"""

_MEMORY = """Peak memory of a fresh interpreter that poses and searches this case: {peak:.0f} MiB,
of which {load:.0f} MiB are there once numpy and the search are loaded.
"""

_GROWTH = """## How time grows with the stock

The same question (80 kg at the chest, 125 kg at lockout) asked of stocks from 10 to 200 pieces,
with 60 feeder settings and 200 plate totals each; milliseconds to pose and search. Kinds are
sizes and lengths. A star: so many pieces were weighed that nearly equal ones counted as alike.
"""

_REPS = """## Ten thousand reps

Bench press under doubled chain, every number of the model drawn from its range, straight weight
from a third of the 1RM to just too much: {completed:,} of {count:,} reps reach lockout.

- All at once: with every figure of each rep, as speeds, sticking region, powers, energy account.
- One by one: scipy's solve_ivp in lean plain Python, for duration and greatest force only. Of
  {ways} settings the quickest that keeps to 0.1 % was taken: {way}.
- Errors are the worst of {checked} reps against solve_ivp at 1e-9, missed reps included. Which reps
  are missed must agree, or the run fails.
"""

_LINKS = """## Link by link

One straight piece of {links} links, {chain_kg:.2f} kg, let down on the floor and lifted again at
{speed} m/s.

- From the curves: the loads at {heights} heights each way, pile and pick-up of links included, the
  curves themselves made anew each time.
- A lifter's rep: the model's whole rep with that piece on the bar.
- Link by link: the same stroke in a general physics engine (MuJoCo), every link a body of its own,
  the heap's settling included. Over both ways it reads {mean:+.2f} kg against the curves in the
  mean, {rms:.2f} kg root mean square: links leave the floor one by one, the curves average over
  them.
- Times here are the processor's, medians, all on one core.
"""

_NO_LINKS = """## Link by link

Left out: the physics engine is not installed. For the ratio to a simulation of every link:
`pip install --constraint requirements/pins.txt --requirement requirements/physics.txt`, then again.
"""

_LOGS = """## A log of many sets

{sets:,} sets in a CSV file of {megabytes:.0f} MB, the day first and decimal commas, half of them
with chain on, into SQLite. Every set must be there once, and come back the same from the exported
file, or the run fails.

- Bare: the csv module reads the cells, the sqlite3 module puts them into one table as text with one
  index; nothing is checked, understood or kept from doubling.
- With the same file once more, every set is recognised.
"""

_CHANGES = """## A change on the rig page

Setting, pieces or plates changed, nothing asked twice: from the question to everything that the
picture, the curve and the numbers are drawn anew from, over HTTP from a real `topheavy serve`.
"""

_PHONES = """## Thirty phones at once

A real `topheavy serve` on SQLite, {phones} lifters with a phone and work of their own, over HTTP on
one machine that clients and server share. For {seconds:.0f} s each asks every {each:.0f} s whether
anything has changed, as the page does; every fifth time it loads the page, every other time it logs
a set, some twenty times as often as people do. Every set logged anywhere makes the next answer of
all a new one. The server took {busy:.0f} % of one core. Of {acknowledged:,} sets that were
acknowledged {lost} are lost and {doubled} doubled, or the run fails. Waits are wall-clock; where
the machine has other work too, look at the core's share first.
"""

_KILLED = """## Killed in the middle

The server is killed with SIGKILL {kills} times while {phones} phones send their queues, {at_once}
sets a request, until {sets:,} sets are acknowledged; then it is started again each time. Every
acknowledged set must be in the log once at the end, or the run fails.
"""

_ROOMS = """## Rooms

60 lifters, 8 stations, 40 pieces, 5 lifts, drawn by seed. Seconds are those of the core that
searches, from the room as asked to the first plan, and for planning altogether; the bound is worked
out beside it. Ratios are to a plan by hand: group after group, as a coach would. Every plan is held
to the validator, or the run fails. Medians, and from the tenth to the ninetieth of a hundred.
"""

_WEEK = """{lifters} lifters in a week of seven days of {hours:g} h, two or three lifts each, every
lift on one of three to five days, planned in {asked:g} s of a core (took {took:.0f} s): {planned:,}
of {wanted:,} lifts have a place; the week and every day are sound; two hard days in a row: {rows}
times. Gap of a day, %: {gap}.
"""

_START = """## Starting up

Each command in a process of its own, on the built-in gym.
"""


def page() -> Iterator[str]:
    """Measure, and give out the page part by part."""
    yield _HEAD.format(machine=machine())
    for section in (
        case_section,
        growth_section,
        reps_section,
        links_section,
        logs_section,
        changes_section,
        phones_section,
        killed_section,
        rooms_section,
        startup_section,
    ):
        yield from section()


def case_section() -> Iterator[str]:
    """The named case in every way, and its memory."""
    case = run_forty()
    yield _CASE.format(rigs=case.rigs)
    yield table(
        ("way", "time", "times the search's", "least cost, kg"),
        [
            (
                way.name,
                span(way.seconds),
                f"{way.seconds / case.search_s:,.1f}",
                f"{way.cost_kg:.4f}",
            )
            for way in case.ways
        ],
    )
    yield _SMALL.format(rigs=check_twelve())
    load, peak = memory_mib()
    yield _MEMORY.format(load=load, peak=peak)


def growth_section() -> Iterator[str]:
    """Time by size of the stock."""
    yield _GROWTH
    rows = []
    for series in SERIES:
        cells = []
        for count in COUNTS:
            seconds, exact = series.seconds(count)
            cells.append(f"{seconds * 1e3:,.0f}{'' if exact else ' *'}")
        rows.append((series.name, *cells))
    yield table(("pieces", *(str(count) for count in COUNTS)), rows)


def reps_section() -> Iterator[str]:
    """Reps simulated at once and one by one."""
    speed = run_reps()
    yield _REPS.format(
        completed=speed.completed,
        count=COUNT,
        ways=len(LOOSE),
        way=f"{speed.way.method}, relative tolerance {speed.way.relative:g}",
        checked=CHECKED,
    )
    rows = (
        ("all at once", speed.batch_s, speed.duration_error, speed.force_error),
        ("one by one", speed.single_s, speed.single_duration_error, speed.single_force_error),
    )
    yield table(
        ("way", "time", "times the batch's", "worst duration", "worst peak force"),
        [
            (name, span(s), f"{s / speed.batch_s:,.0f}", f"{100 * d:.3f} %", f"{100 * f:.3f} %")
            for name, s, d, f in rows
        ],
    )


def links_section() -> Iterator[str]:
    """One stroke by its curves and link by link, where the engine is installed."""
    if not engine_there():
        yield _NO_LINKS
        return
    speed = run_links()
    yield _LINKS.format(
        links=LINKS,
        chain_kg=speed.chain_kg,
        speed=SPEED_M_PER_S,
        heights=len(HEIGHTS_M),
        mean=speed.mean_off_kg,
        rms=speed.rms_off_kg,
    )
    rows = (
        ("loads from the curves", speed.curves_s),
        ("a lifter's rep", speed.rep_s),
        ("link by link", speed.links_s),
    )
    yield table(
        ("way", "time", "link by link takes so many times that"),
        [(name, span(s), f"{speed.links_s / s:,.0f}") for name, s in rows],
    )


def logs_section() -> Iterator[str]:
    """Import and export of a log."""
    times = run_logs()
    yield _LOGS.format(sets=SETS, megabytes=times.megabytes)
    rows = (
        ("bare csv and sqlite3", times.bare_s),
        ("read, understood and checked", times.read_s),
        ("put into the store", times.write_s),
        ("read and recognised, the second time", times.again_s),
        ("exported as CSV", times.csv_s),
        ("exported as JSON lines", times.json_s),
    )
    yield table(
        ("step", "time", "times the bare"),
        [(name, span(s), f"{s / times.bare_s:.1f}") for name, s in rows],
    )


def changes_section() -> Iterator[str]:
    """The stage after a change."""
    yield _CHANGES
    yield table(
        ("rig of", "changes", "half within", "95 % within"),
        [
            (name, f"{len(some)}", span(quantile(some, 0.5)), span(quantile(some, 0.95)))
            for name, some in run_changes().items()
        ],
    )


def phones_section() -> Iterator[str]:
    """Thirty phones polling and logging."""
    waits = run_phones()
    if waits.lost or waits.doubled:
        raise RuntimeError(f"{waits.lost} sets lost, {waits.doubled} doubled")
    yield _PHONES.format(
        phones=PHONES,
        seconds=PHONE_SECONDS,
        each=EACH_S,
        busy=100 * waits.busy,
        acknowledged=len(waits.acknowledged),
        lost=waits.lost,
        doubled=waits.doubled,
    )
    rows = (
        ("the whole page", waits.page),
        ("what has changed", waits.poll),
        ("a set logged", waits.log),
    )
    yield table(
        ("asked for", "times", "half within", "95 % within"),
        [
            (name, f"{len(some):,}", span(quantile(some, 0.5)), span(quantile(some, 0.95)))
            for name, some in rows
        ],
    )


def killed_section() -> Iterator[str]:
    """Sets that outlive the server."""
    rows = []
    for name, fresh in (("SQLite", fresh_sqlite), ("PostgreSQL", fresh_postgres)):
        with fresh() as address:
            if not address:
                continue
            told = run_killed(address)
        if told.lost or told.doubled:
            raise RuntimeError(f"{name}: {told.lost} sets lost, {told.doubled} doubled")
        counts = (told.sent, told.acknowledged, told.found, told.lost, told.doubled)
        rows.append((name, *(f"{count:,}" for count in counts), span(told.seconds)))
    yield _KILLED.format(kills=KILLS, phones=QUEUES, at_once=AT_ONCE, sets=KILLED_SETS)
    yield table(
        ("store", "sent", "acknowledged", "in the log", "lost", "doubled", "time, starts counted"),
        rows,
    )


def rooms_section() -> Iterator[str]:
    """Rooms by hand and planned, and a week of many lifters."""
    yield _ROOMS
    few = [one for seed in range(1, FEW + 1) if (one := measured(seed, SECONDS_S)) is not None]
    many = [one for seed in range(1, ROOMS + 1) if (one := measured(seed, SHORT_S)) is not None]
    rows = []
    for seconds_s, rooms, found in ((SECONDS_S, FEW, few), (SHORT_S, ROOMS, many)):
        columns = [list(column) for column in zip(*(one.ratios for one in found), strict=True)]
        rows.append(
            (
                f"{len(found)} of {rooms} rooms, {seconds_s:g} s",
                spread([one.first_s for one in found]),
                spread([100 * one.gap for one in found]),
                *(spread(column) for column in columns),
            )
        )
    head = ("", "first plan, s", "gap, %", "finish", "changes of chain", "plates moved", "cost")
    yield table(head, rows)
    week = measured_week(1, WEEK_S)
    yield _WEEK.format(
        lifters=LIFTERS,
        hours=HOURS,
        asked=WEEK_S,
        took=week.seconds,
        planned=week.planned,
        wanted=week.wanted,
        rows=len(week.found.in_a_row),
        gap=spread([100 * gap for gap in week.gaps]),
    )


def startup_section() -> Iterator[str]:
    """Commands against a bare interpreter."""
    yield _START
    commands = commands_s()
    bare_s = commands[0][1]
    yield table(
        ("command", "time", "times the interpreter's"),
        [(name, span(seconds), f"{seconds / bare_s:.1f}") for name, seconds in commands],
    )


def span(seconds: float) -> str:
    """Print a time with a unit that fits it."""
    if seconds >= 1:
        return f"{seconds:.1f} s"
    return f"{seconds * 1e3:.0f} ms" if seconds >= 0.01 else f"{seconds * 1e3:.2g} ms"


def table(head: Sequence[str], rows: Sequence[Sequence[str]]) -> str:
    """Lay out a Markdown table, numbers to the right."""
    widths = [max(len(row[i]) for row in (head, *rows)) for i in range(len(head))]
    lines = [head, ["-" * widths[0], *("-" * (w - 1) + ":" for w in widths[1:])], *rows]
    return "".join("| " + " | ".join(_padded(line, widths)) + " |\n" for line in lines)


def _padded(cells: Sequence[str], widths: Sequence[int]) -> list[str]:
    rest = [cell.rjust(w) for cell, w in zip(cells[1:], widths[1:], strict=True)]
    return [cells[0].ljust(widths[0]), *rest]
