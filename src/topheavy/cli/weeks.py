"""`topheavy weeks`: a block of weeks for a lifter or a group; check, print, export."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from topheavy.cli.charts import check_chart, write_chart
from topheavy.cli.options import (
    GymOption,
    JsonOption,
    UnitsOption,
    load_gym,
    name_in,
    unit_system,
)
from topheavy.cli.panels import PanelCommand
from topheavy.errors import BadInputError

if TYPE_CHECKING:
    from topheavy.gym.gym import Gym
    from topheavy.present.weeks.view import WeeksView
    from topheavy.services.weeks import WeeksAnswer
    from topheavy.training.weeks import Block

_FILES = "Files to write"

FileArgument = Annotated[
    Path | None, typer.Argument(metavar="FILE", help="Plan file (TOML). Without it: the example.")
]
LifterOption = Annotated[
    str | None, typer.Option("--lifter", metavar="NAME", help="Only this lifter, the whole block.")
]
WeekOption = Annotated[
    int | None, typer.Option("--week", metavar="N", help="Only this week, from 1.")
]
AllOption = Annotated[
    bool, typer.Option("--all", help="The whole block of everybody, not one week.")
]
Today = Annotated[
    str | None,
    typer.Option(
        "--today", metavar="DAY", help="Show the week this day is in; else the clock's: 2026-11-25."
    ),
]
Ical = Annotated[
    Path | None,
    typer.Option(
        "--ical",
        metavar="FILE",
        help="Write a calendar (.ics) of the whole block.",
        rich_help_panel=_FILES,
    ),
]
Sheet = Annotated[
    Path | None,
    typer.Option(
        "--sheet",
        metavar="FILE",
        help="Write what is shown as a sheet to print (.pdf).",
        rich_help_panel=_FILES,
    ),
]

Drawn = Annotated[
    Path | None,
    typer.Option(
        "--chart",
        metavar="FILE",
        help="Write charts of the loads shown, one for each lift (.pdf; one alone .svg, .png).",
        rich_help_panel=_FILES,
    ),
]

weeks = typer.Typer(
    help="Plan weeks of training for a lifter or a group; check, print, export.",
    no_args_is_help=True,
    rich_markup_mode=None,
    add_completion=False,
    pretty_exceptions_enable=False,
)


@weeks.command("show", cls=PanelCommand)
def show(
    file: FileArgument = None,
    lifter: LifterOption = None,
    week: WeekOption = None,
    whole: AllOption = False,
    gym: GymOption = None,
    ical: Ical = None,
    sheet: Sheet = None,
    chart: Drawn = None,
    today: Today = None,
    units: UnitsOption = None,
    as_json: JsonOption = False,
) -> None:
    """Show a plan: rigs, plates, loads, and what to look at.

    A group's week on one screen, or the whole block of one lifter. The plan file is the truth: it
    is checked, and nothing in it is changed.

    \b
    Examples
      topheavy weeks show --week 3
      topheavy weeks show --lifter Osric --units lb --chart loads.pdf
      topheavy weeks show --all
      topheavy weeks show --week 4 --sheet week-4.pdf --ical block.ics
    """
    from topheavy.cli.show import print_json, print_view
    from topheavy.present.weeks.view import view_weeks

    found = load_gym(gym)
    shown = unit_system(units, found)
    _check_outputs(ical, sheet)
    check_chart(chart)
    block = _block(file, gym, found)
    who = found.lifter(name_in(lifter, "--lifter") or "").name if lifter is not None else ""
    number = _week(block, week, today, whole=whole or bool(who))
    answer = _answered(found, block, who)
    view = view_weeks(answer, shown, who, number)
    whole_view = view if number is None else view_weeks(answer, shown, who)
    wrote = _write(view, whole_view, block, ical=ical, sheet=sheet)
    if chart is not None:
        from topheavy.present.charts.weeks import weeks_charts

        write_chart(chart, weeks_charts(view, shown), shown)
        wrote.append(chart)
    if as_json:
        print_json(view)
        return
    from topheavy.present.weeks.terminal import render_block, render_week

    print_view(view, render_block if number is None else render_week)
    for path in wrote:
        print(f"Wrote {path}")


@weeks.command("example", cls=PanelCommand)
def example() -> None:
    """Print the built-in plan file, with notes on every line worth one.

    Send it to a file, then change what is in it.

    \b
    Examples
      topheavy weeks example
      topheavy weeks example > winter.toml
    """
    from topheavy.planfile import demo_plan_text

    print(demo_plan_text(), end="")


@weeks.command("schema", cls=PanelCommand)
def schema() -> None:
    """Print the JSON Schema of plan files, for editors and scripts.

    \b
    Examples
      topheavy weeks schema
      topheavy weeks schema > plan.schema.json
    """
    import json

    from topheavy.planfile import plan_schema

    print(json.dumps(plan_schema(), indent=2))


def _check_outputs(ical: Path | None, sheet: Path | None) -> None:
    from topheavy.cli.files import check_output

    if ical is not None:
        check_output(ical, "--ical", kinds=(".ics",))
    if sheet is not None:
        check_output(sheet, "--sheet", kinds=(".pdf",))


def _block(file: Path | None, gym_file: Path | None, gym: Gym) -> Block:
    from topheavy.planfile import demo_plan, read_plan

    if file is not None:
        return read_plan(file, gym)
    if gym_file is not None:
        raise BadInputError(
            "The example is a plan for the built-in gym",
            field="FILE",
            got=f"--gym {gym_file} without a plan file",
            wanted="a plan file; topheavy weeks example prints one to begin with",
        )
    return demo_plan(gym)


def _week(block: Block, week: int | None, today: str | None, *, whole: bool) -> int | None:
    """The week to show: as asked; all of a lifter or with --all; else the one of today."""
    from topheavy.cli.today import the_day
    from topheavy.present.weeks.dates import week_with

    day = the_day(today)
    if week is None:
        return None if whole else week_with(block, day)
    if not 1 <= week <= block.weeks:
        raise BadInputError(
            "The block has no such week",
            field="--week",
            got=week,
            wanted=f"1 to {block.weeks}",
        )
    return week


def _answered(gym: Gym, block: Block, who: str) -> WeeksAnswer:
    """Find the rigs, of one lifter alone if only one is wanted."""
    from topheavy.cli.waiting import waiting
    from topheavy.services.weeks import WeeksQuestion, answer_weeks

    with waiting("Finding the rigs of every wave"):
        answer = answer_weeks(WeeksQuestion(gym=gym, block=block, lifter=who))
    if who and not answer.sessions:
        raise BadInputError(
            "The plan has no session for this lifter",
            field="--lifter",
            got=who,
            wanted="a lifter of the plan who was measured for one of its lifts",
        )
    return answer


def _write(
    view: WeeksView,
    whole: WeeksView,
    block: Block,
    *,
    ical: Path | None,
    sheet: Path | None,
) -> list[Path]:
    """Write what was asked for: all contents are made before the first is written."""
    from topheavy.cli.files import write_whole
    from topheavy.cli.today import the_moment

    contents: list[tuple[Path, bytes | str]] = []
    if ical is not None:
        from topheavy.present.weeks.calendar import calendar_of

        contents.append((ical, calendar_of(whole, block.time_zone, the_moment())))
    if sheet is not None:
        from topheavy.present.weeks.sheet import sheet_pdf
        from topheavy.units import SYSTEMS

        contents.append((sheet, sheet_pdf(view, SYSTEMS[view.mass_unit])))
    for path, content in contents:
        write_whole(path, content)
    return [path for path, _ in contents]
