"""`topheavy room`: a session of the whole gym; plan it, print it, plan it anew."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from topheavy.cli.options import GymOption, JsonOption, UnitsOption, load_gym, unit_system
from topheavy.cli.panels import PanelCommand
from topheavy.errors import BadInputError

if TYPE_CHECKING:
    from topheavy.gym.gym import Gym
    from topheavy.room.ask import Room
    from topheavy.room.plan import Former
    from topheavy.room.solve import Planned, Progress
    from topheavy.room.week import Week

_FILES = "Files"
_ANEW = "Planning anew"

FileArgument = Annotated[
    Path | None, typer.Argument(metavar="FILE", help="Room file (TOML). Without it: the example.")
]
SecondsOption = Annotated[
    float, typer.Option("--seconds", metavar="N", help="Plan for so long; Ctrl-C stops at once.")
]
Sheets = Annotated[
    Path | None,
    typer.Option(
        "--sheets",
        metavar="FILE",
        help="Write board, station sheets and lifters' slips (.pdf).",
        rich_help_panel=_FILES,
    ),
]
Save = Annotated[
    Path | None,
    typer.Option(
        "--save", metavar="FILE", help="Keep the plan (.json) for --from.", rich_help_panel=_FILES
    ),
]
From = Annotated[
    Path | None,
    typer.Option(
        "--from",
        metavar="FILE",
        help="A plan kept before: stay as near to it as can be.",
        rich_help_panel=_ANEW,
    ),
]
Late = Annotated[
    list[str] | None,
    typer.Option(
        "--late",
        metavar="NAME=TIME",
        help="A lifter comes later: Pip=18:40. May be repeated.",
        rich_help_panel=_ANEW,
    ),
]
Broken = Annotated[
    list[str] | None,
    typer.Option(
        "--broken",
        metavar="TAG",
        help="A piece that must not be hung today. May be repeated.",
        rich_help_panel=_ANEW,
    ),
]

room = typer.Typer(
    help="Plan a session of the whole gym: who lifts where, with whom, on what.",
    no_args_is_help=True,
    rich_markup_mode=None,
    add_completion=False,
    pretty_exceptions_enable=False,
)


@room.command("plan", cls=PanelCommand)
def plan(
    file: FileArgument = None,
    gym: GymOption = None,
    seconds: SecondsOption = 10.0,
    sheets: Sheets = None,
    save: Save = None,
    former: From = None,
    late: Late = None,
    broken: Broken = None,
    units: UnitsOption = None,
    as_json: JsonOption = False,
) -> None:
    """Plan a session: no piece in two places at once, all done in time.

    Lifters whom one chain serves share a bar. A plan made by hand is there at
    once; better ones follow while there is time. When it can't be done, it
    says what stands in the way and what would do. Every plan is checked by
    itself before it is shown. A file with [[day]] tables is of a week: each
    lift gets a day, each day a plan, and a PDF of its own.

    \b
    Examples
      topheavy room plan --seconds 3
      topheavy room plan --seconds 3 --sheets tuesday.pdf --save plan.json
      topheavy room plan --seconds 3 --broken A3 --late Pip=18:20 --units lb
    """
    from topheavy.cli.room_week import refuse_of_one_day, show_week, with_broken
    from topheavy.cli.show import print_json, print_view
    from topheavy.cli.today import the_day
    from topheavy.present.room.view import view_room
    from topheavy.room.ask import Room

    found = load_gym(gym)
    shown = unit_system(units, found)
    _check(seconds, sheets, save)
    read = _asked(file, gym, found)
    if not isinstance(read, Room):
        refuse_of_one_day({"--save": save, "--from": former, "--late": late})
        week = with_broken(read, broken or [])
        show_week(week, seconds, shown, sheets=sheets, as_json=as_json)
        return
    asked = _changed(read, late or [], broken or [])
    before = _former(former)
    planned = _planned(asked, seconds, before)
    blocked = _blocked(asked, planned, seconds)
    moved = _moved(planned, before)
    view = view_room(asked, planned, shown, blocked=blocked, moved=moved, today=the_day())
    wrote = _write(view, planned, shown, sheets=sheets, save=save)
    if as_json:
        print_json(view)
        return
    from topheavy.present.room.terminal import render_room

    print_view(view, render_room)
    for path in wrote:
        print(f"Wrote {path}")


@room.command("example", cls=PanelCommand)
def example() -> None:
    """Print the built-in room file, with notes on every line worth one.

    Send it to a file, then change what is in it.

    \b
    Examples
      topheavy room example
      topheavy room example > tuesday.toml
    """
    from topheavy.roomfile import demo_room_text

    print(demo_room_text(), end="")


@room.command("schema", cls=PanelCommand)
def schema() -> None:
    """Print the JSON Schema of room files, for editors and scripts.

    \b
    Examples
      topheavy room schema
      topheavy room schema > room.schema.json
    """
    import json

    from topheavy.roomfile import room_schema

    print(json.dumps(room_schema(), indent=2))


def _check(seconds: float, sheets: Path | None, save: Path | None) -> None:
    from topheavy.cli.files import check_output

    if not 0 < seconds <= 3600:
        raise BadInputError(
            "Not a time to plan for",
            field="--seconds",
            got=f"{seconds:g}",
            wanted="above 0 to 3600",
        )
    if sheets is not None:
        check_output(sheets, "--sheets", kinds=(".pdf",))
    if save is not None:
        check_output(save, "--save", kinds=(".json",))


def _asked(file: Path | None, gym_file: Path | None, gym: Gym) -> Room | Week:
    from topheavy.roomfile import demo_room, read_asked

    if file is not None:
        return read_asked(file, gym)
    if gym_file is not None:
        raise BadInputError(
            "The example is a session of the built-in gym",
            field="FILE",
            got=f"--gym {gym_file} without a room file",
            wanted="a room file; topheavy room example prints one to begin with",
        )
    return demo_room()


def _changed(asked: Room, late: list[str], broken: list[str]) -> Room:
    """Take late arrivals and broken pieces into account."""
    from dataclasses import replace

    from topheavy.roomfile.today import arrivals

    for tag in broken:
        asked.gym.stock.piece(tag)
    bookings = arrivals(asked, late)
    return replace(asked, bookings=bookings, broken=(*asked.broken, *broken))


def _former(path: Path | None) -> Former | None:
    from topheavy.roomfile.kept import read_kept

    return None if path is None else read_kept(path)


def _planned(asked: Room, seconds: float, former: Former | None) -> Planned:
    """Plan while showing time, cost and bound, and check what came of it."""
    from time import monotonic

    from topheavy.cli.waiting import timed_bar
    from topheavy.room.solve import Effort, plan_room
    from topheavy.room.validate import require_sound

    with timed_bar("Planning ... Ctrl-C keeps the best so far", seconds) as say:

        def progress(now: Progress) -> None:
            dear = f"at most {100 * now.gap:.0f} % too much"
            say(f"Cost {now.cost / 100:.1f}, {dear}; Ctrl-C keeps it")

        effort = Effort(seconds_s=seconds, now=monotonic)
        planned = plan_room(asked, effort, former=former, progress=progress)
    if planned.plan is not None:
        require_sound(planned.plan)
    return planned


def _blocked(asked: Room, planned: Planned, seconds: float) -> Any:
    from topheavy.cli.waiting import waiting
    from topheavy.room.blocked import why_not
    from topheavy.room.solve import Effort

    if planned.plan is not None:
        return None
    with waiting("Looking for what stands in the way"):
        return why_not(asked, Effort(seconds_s=max(1.0, seconds / 4)))


def _moved(planned: Planned, former: Former | None) -> tuple[str, ...]:
    """Say whose station or start differs from the plan kept before."""
    from topheavy.present.room.words import moved_lines

    return moved_lines(planned.plan, former) if planned.plan and former is not None else ()


def _write(
    view: Any, planned: Planned, shown: Any, *, sheets: Path | None, save: Path | None
) -> list[Path]:
    from topheavy.cli.files import write_whole

    wrote: list[Path] = []
    if planned.plan is None:
        return wrote
    if sheets is not None:
        from topheavy.present.room.sheets import room_pdf

        write_whole(sheets, room_pdf(view, shown))
        wrote.append(sheets)
    if save is not None:
        from topheavy.roomfile.kept import kept_text

        write_whole(save, kept_text(planned.plan))
        wrote.append(save)
    return wrote
