"""A week of the room on the terminal: planned, shown, and a PDF of each day written."""

from __future__ import annotations

from typing import TYPE_CHECKING

from topheavy.errors import BadInputError

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

    from topheavy.present.room.week_view import WeekView
    from topheavy.room.week import PlannedWeek, Week
    from topheavy.room.week_solve import WeekProgress
    from topheavy.units import UnitSystem


def refuse_of_one_day(options: dict[str, object]) -> None:
    """Refuse options that speak of one session."""
    for name, value in options.items():
        if value:
            raise BadInputError(
                "This option is for one session, and the file is of a week",
                field=name,
                wanted="a room file without [[day]], or the option left out",
            )


def with_broken(week: Week, tags: Sequence[str]) -> Week:
    """Hang some pieces on no day."""
    from dataclasses import replace

    for tag in tags:
        if all(band.tag != tag for band in week.gym.stock.bands):
            week.gym.stock.piece(tag)
    days = tuple(replace(day, broken=(*day.broken, *tags)) for day in week.days)
    return replace(week, days=days)


def show_week(
    week: Week, seconds: float, shown: UnitSystem, *, sheets: Path | None, as_json: bool
) -> None:
    """Plan a week, print it, and write what was asked for."""
    from topheavy.cli.show import print_json, print_view
    from topheavy.cli.today import the_day
    from topheavy.present.room.week_view import view_week

    found = _planned(week, seconds)
    view = view_week(found, shown, today=the_day())
    wrote = _write(view, shown, sheets) if sheets is not None else []
    if as_json:
        print_json(view)
        return
    from topheavy.present.room.week_terminal import render_week

    print_view(view, render_week)
    for path in wrote:
        print(f"Wrote {path}")


def _planned(week: Week, seconds: float) -> PlannedWeek:
    """Plan while showing how far it is, and check what came of it."""
    from time import monotonic

    from topheavy.cli.waiting import timed_bar
    from topheavy.room.solve import Effort
    from topheavy.room.week import require_sound_week
    from topheavy.room.week_solve import plan_week

    with timed_bar("Choosing days ...", seconds) as say:

        def progress(now: WeekProgress) -> None:
            say(f"{now.what}: {now.done} of {now.of}")

        found = plan_week(week, Effort(seconds_s=seconds, now=monotonic), progress=progress)
    return require_sound_week(found)


def _write(view: WeekView, shown: UnitSystem, sheets: Path) -> list[Path]:
    """Write a PDF for each day that has a plan, named after the day."""
    from topheavy.cli.files import check_output, write_whole
    from topheavy.present.room.sheets import room_pdf

    wrote = []
    for number, day in enumerate(view.days, 1):
        if day.plan is not None:
            path = sheets.with_name(f"{sheets.stem}-{number}{sheets.suffix}")
            check_output(path, "--sheets", kinds=(".pdf",))
            write_whole(path, room_pdf(day.plan, shown))
            wrote.append(path)
    return wrote
