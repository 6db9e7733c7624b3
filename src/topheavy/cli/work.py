"""`topheavy work`: the work of the day, given to lifters and shown at the rack."""

from __future__ import annotations

import uuid
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from topheavy.cli.options import JsonOption, UnitsOption, name_in, unit_system
from topheavy.cli.panels import PanelCommand
from topheavy.cli.rig_options import asks_of_lifter
from topheavy.cli.stored import ByOption, StoredGymOption
from topheavy.errors import BadInputError, NotInStockError

if TYPE_CHECKING:
    from topheavy.present.work.view import RackView
    from topheavy.store.gyms import StoredGym
    from topheavy.store.opening import Store
    from topheavy.store.work import GivenWork
    from topheavy.training.work import Work
    from topheavy.units import UnitSystem

_DAY = "The day"

work = typer.Typer(
    help="Give lifters the work of the day, list it, show it, take it away.",
    no_args_is_help=True,
    rich_markup_mode=None,
    add_completion=False,
    pretty_exceptions_enable=False,
)

InStoreOption = Annotated[
    Path,
    typer.Option(
        "--gym", metavar="store:NAME", help="Which gym in the store; not needed for the only one."
    ),
]
KindOption = Annotated[
    str,
    typer.Option(
        "--kind", metavar="KIND", help="heavy, speed, repetition, technique.", rich_help_panel=_DAY
    ),
]
DoOption = Annotated[
    str | None,
    typer.Option(
        "--do", metavar="SETSxREPS", help="Such as 5x3; else as usual.", rich_help_panel=_DAY
    ),
]
SinglesOption = Annotated[
    bool,
    typer.Option("--singles", help="Singles up to a max instead.", rich_help_panel=_DAY),
]
ForOption = Annotated[
    str | None,
    typer.Option(
        "--for", metavar="DAY", help="Which day, 2026-11-25; else today.", rich_help_panel=_DAY
    ),
]
AtOption = Annotated[
    str, typer.Option("--at", metavar="HH:MM", help="When it begins.", rich_help_panel=_DAY)
]
ReplaceOption = Annotated[
    bool,
    typer.Option(
        "--replace", help="In place of what the lifter has that day.", rich_help_panel=_DAY
    ),
]
DayOption = Annotated[
    str | None, typer.Option("--for", metavar="DAY", help="Which day; else today.")
]
LiftOption = Annotated[str | None, typer.Option("--lift", metavar="LIFT", help="Only this lift.")]
PlanArgument = Annotated[Path, typer.Argument(metavar="FILE", help="Plan file (TOML).")]
LifterArgument = Annotated[str, typer.Argument(metavar="LIFTER", help="Whose work.")]


@work.command("give", cls=PanelCommand)
@asks_of_lifter
def give(
    question: Any,
    gym: InStoreOption = Path("store:"),
    kind: KindOption = "heavy",
    do: DoOption = None,
    singles: SinglesOption = False,
    for_: ForOption = None,
    at: AtOption = "",
    replace: ReplaceOption = False,
    by: ByOption = None,
    units: UnitsOption = None,
    as_json: JsonOption = False,
) -> None:
    """Give a lifter work for a day: the ramp to a rig, then its sets.

    The rig is found as topheavy rig finds it. Loads, parts and cautions are
    kept as they are now; the lifter sees them at the rack, set by set.

    \b
    Examples
      topheavy work give --lifter Osric --bottom 85kg --top 115kg
      topheavy work give --lifter Pip --lift squat --bottom 55kg --top 70kg \\
        --kind speed --do 8x3 --for 2026-11-27 --at 18:00
      topheavy work give --lifter Osric --bottom 105kg --top 135kg --singles \\
        --replace
    """
    from topheavy.asked.training import session_question
    from topheavy.cli.show import print_json, print_view
    from topheavy.cli.stored import name_of, now, the_store, who
    from topheavy.present.work.terminal import render_rack
    from topheavy.services.rig import answer_rig
    from topheavy.services.work import WorkAsk, work_of
    from topheavy.store.gyms import Change, load_gym
    from topheavy.store.work import give_work

    day = _day(for_)
    plan = session_question(question, kind, do).plan
    if singles and do is not None:
        raise BadInputError("Singles have no sets of reps", field="--do", got=do, wanted="no --do")
    ask = WorkAsk(id=str(uuid.uuid4()), day=day, plan=None if singles else plan, at=at)
    made = work_of(answer_rig(question), ask)
    with the_store() as store:
        house = load_gym(store, name_of(str(gym)))
        old = [one.work.id for one in _standing(store, house, day, made)]
        if old and not replace:
            raise BadInputError(
                f"{made.lifter} has work in the {made.lift} on {day} already",
                field="--replace",
                wanted="--replace to give this in its place; what was logged of it stays",
            )
        change = Change(author=who(by), at=now())
        give_work(store, house.id, made, change, replaces=old[0] if old else "")
        view = _views(store, house, [made], day, unit_system(units, house.gym))[0]
    if as_json:
        print_json(view)
        return
    print(f"Given to {made.lifter} for {day}.")
    print_view(view, render_rack)


@work.command("plan", cls=PanelCommand)
def plan(
    file: PlanArgument,
    gym: StoredGymOption = "",
    for_: DayOption = None,
    by: ByOption = None,
    units: UnitsOption = None,
    as_json: JsonOption = False,
) -> None:
    """Give everybody the work that a plan of weeks has for a day.

    All of it or nothing: work of the same lifter and lift is replaced, work
    that an earlier plan gave and this one has not is taken away.

    \b
    Examples
      topheavy work plan winter.toml --for 2026-12-02
    """
    from topheavy.cli.show import print_json, print_view
    from topheavy.cli.stored import gym_with_log, name_of, now, the_store, who
    from topheavy.cli.waiting import waiting
    from topheavy.planfile import read_plan
    from topheavy.present.weeks.dates import day_of
    from topheavy.present.work.terminal import render_day
    from topheavy.present.work.view import DayView
    from topheavy.services.weeks import WeeksQuestion, answer_weeks
    from topheavy.services.work_weeks import works_of_day
    from topheavy.store.gyms import Change, load_gym
    from topheavy.store.work import publish_work, todays_work

    day = _day(for_)
    found = gym_with_log(f"store:{name_of(gym)}")
    block = read_plan(file, found)
    days = {
        day_of(block, week, weekday).isoformat(): (week, weekday)
        for week in range(1, block.weeks + 1)
        for weekday in {one.weekday for one in block.days}
    }
    if day not in days:
        raise NotInStockError(
            "Nobody trains on that day of the plan",
            field="--for",
            got=day,
            wanted=", ".join(sorted(one for one in days if one >= day)[:3]) or "an earlier day",
        )
    with waiting("Finding the rigs of every wave"):
        answer = answer_weeks(WeeksQuestion(gym=found, block=block))
    made = works_of_day(answer, *days[day], day, lambda: str(uuid.uuid4()))
    with the_store() as store:
        house = load_gym(store, name_of(gym))
        change = Change(author=who(by), at=now())
        done = publish_work(store, house.id, made.works, change, day=day, source="weeks")
        works = [one.work for one in todays_work(store, house.id, day)]
        views = _views(store, house, works, day, unit_system(units, house.gym))
    view = DayView(day=day, work=tuple(views))
    if as_json:
        print_json(view)
        return
    print(f"Given: {done.given}. As before: {done.same}. Taken away: {done.gone}.")
    for line in made.left_out:
        print(f"Left out: {line}.")
    print_view(view, render_day)


@work.command("list", cls=PanelCommand)
def list_(
    gym: StoredGymOption = "",
    for_: DayOption = None,
    units: UnitsOption = None,
    as_json: JsonOption = False,
) -> None:
    """List everybody's work of a day, and how far each one is.

    \b
    Examples
      topheavy work list
      topheavy work list --for 2026-11-27 --json
    """
    from topheavy.cli.show import print_json, print_view
    from topheavy.cli.stored import name_of, the_store
    from topheavy.present.work.terminal import render_day
    from topheavy.present.work.view import DayView
    from topheavy.store.gyms import load_gym
    from topheavy.store.work import todays_work

    day = _day(for_)
    with the_store() as store:
        house = load_gym(store, name_of(gym))
        works = [one.work for one in todays_work(store, house.id, day)]
        views = _views(store, house, works, day, unit_system(units, house.gym))
    view = DayView(day=day, work=tuple(views))
    if as_json:
        print_json(view)
    else:
        print_view(view, render_day)


@work.command("show", cls=PanelCommand)
def show(
    lifter: LifterArgument,
    lift: LiftOption = None,
    gym: StoredGymOption = "",
    for_: DayOption = None,
    units: UnitsOption = None,
    as_json: JsonOption = False,
) -> None:
    """Show a lifter's work, and what to change on the bar before each set.

    \b
    Examples
      topheavy work show Runa
      topheavy work show Runa --lift squat --units lb
    """
    from topheavy.cli.show import print_json, print_view
    from topheavy.cli.stored import name_of, the_store
    from topheavy.present.work.terminal import render_rack
    from topheavy.store.gyms import load_gym

    day = _day(for_)
    with the_store() as store:
        house = load_gym(store, name_of(gym))
        found = [one.work for one in _of(store, house, day, lifter, lift)]
        views = _views(store, house, found, day, unit_system(units, house.gym))
    if as_json:
        print_json(views if lift is None else views[0])
        return
    for view in views:
        print_view(view, render_rack)


@work.command("take", cls=PanelCommand)
def take(
    lifter: LifterArgument,
    lift: LiftOption = None,
    gym: StoredGymOption = "",
    for_: DayOption = None,
    by: ByOption = None,
) -> None:
    """Take a lifter's work of a day away; what was logged of it stays.

    \b
    Examples
      topheavy work take Runa
      topheavy work take Runa --lift squat
    """
    from topheavy.cli.stored import name_of, now, the_store, who
    from topheavy.store.gyms import Change, load_gym
    from topheavy.store.work import take_work

    day = _day(for_)
    with the_store() as store:
        house = load_gym(store, name_of(gym))
        found = _of(store, house, day, lifter, lift)
        if len(found) > 1:
            raise BadInputError(
                "There is work in several lifts",
                field="--lift",
                wanted=f"one of {', '.join(one.work.lift for one in found)}",
            )
        one = found[0].work
        take_work(store, house.id, one.id, Change(author=who(by), at=now()))
    print(f"Taken away: {one.lifter}'s {one.lift} of {day}. What was logged of it stays.")


def _day(text: str | None) -> str:
    """The day that was asked for; today when none was."""
    from topheavy.cli.today import the_day
    from topheavy.gym.day import day_number

    if text is None:
        return the_day()
    day_number(text.strip(), "--for")
    return text.strip()


def _standing(store: Store, house: StoredGym, day: str, made: Work) -> list[GivenWork]:
    from topheavy.store.work import todays_work

    given = todays_work(store, house.id, day, made.lifter)
    return [one for one in given if one.work.lift == made.lift]


def _of(store: Store, house: StoredGym, day: str, lifter: str, lift: str | None) -> list[GivenWork]:
    """A lifter's work of a day; there must be some."""
    from topheavy.gym.lifts import lift_named
    from topheavy.store.work import todays_work

    name = house.gym.lifter(name_in(lifter, "LIFTER") or "").name
    wanted = lift_named(lift).name if lift else ""
    given = todays_work(store, house.id, day, name)
    found = [one for one in given if wanted in {"", one.work.lift}]
    if not found:
        raise NotInStockError(
            f"{name} has no such work on {day}",
            field="--lift" if lift else "LIFTER",
            got=wanted or name,
            wanted="topheavy work list shows what there is",
        )
    return found


def _views(
    store: Store, house: StoredGym, works: list[Work], day: str, units: UnitSystem
) -> list[RackView]:
    from topheavy.present.work.view import view_rack
    from topheavy.services.after_attempt import after_attempt, left_at
    from topheavy.services.at_the_rack import stand
    from topheavy.store.sets import Wanted, list_sets
    from topheavy.store.work import todays_work

    everybody = [one.work for one in todays_work(store, house.id, day)]
    wanted = Wanted(since=day, until=day)
    sets = [entry.logged for entry in list_sets(store, house.id, wanted)]
    found = []
    for one in works:
        standing = stand(one, sets)
        advice = after_attempt(one, house.gym, standing.done)
        left = left_at(everybody, sets, one.station, house.gym)
        found.append(view_rack(standing, left, advice, units))
    return found
