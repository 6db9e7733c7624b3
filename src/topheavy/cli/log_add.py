"""`topheavy log add`, `correct` and `strike`: one set at a time."""

from __future__ import annotations

import uuid
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any, cast

import typer

from topheavy.cli.options import JsonOption, UnitsOption, load_kg, unit_system
from topheavy.cli.panels import option
from topheavy.cli.stored import ByOption, StoredGymOption
from topheavy.errors import BadInputError

if TYPE_CHECKING:
    from topheavy.gym.log import LoggedSet, RigThen
    from topheavy.gym.records import Third
    from topheavy.store.gyms import StoredGym
    from topheavy.store.opening import Store

_HUNG = "What hung: nothing, or one of these"
_HOW = "How it went"
_WHEN = "When"


Lifter = Annotated[str | None, typer.Option("--lifter", metavar="NAME", help="Who lifted.")]
Lift = Annotated[
    str | None, typer.Option("--lift", metavar="LIFT", help="bench press, squat, deadlift, ...")
]
Station = Annotated[str | None, typer.Option("--station", metavar="NAME", help="Where.")]
Straight = Annotated[
    str | None,
    typer.Option("--straight", metavar="LOAD", help="Bar, collars and plates together."),
]
Rig = Annotated[
    Path | None,
    option("--rig", "FILE", "A rig as rig --json printed it; - reads a pipe.", _HUNG),
]
Left = Annotated[list[str] | None, option("--left", "HANG", "Left end, as curve takes it.", _HUNG)]
Right = Annotated[list[str] | None, option("--right", "HANG", "The same, right end.", _HUNG)]
Feeder = Annotated[str | None, option("--feeder", "FEEDER", '"ring strap:7", or 62cm.', _HUNG)]
Connector = Annotated[str | None, option("--connector", "CONNECTOR", "What held the fold.", _HUNG)]
Hang = Annotated[str, option("--hang", "STYLE", "doubled, draped or straight.", _HUNG)]
LeftBand = Annotated[
    list[str] | None, option("--left-band", "BAND", "Band on the left: red-1 on low.", _HUNG)
]
RightBand = Annotated[
    list[str] | None, option("--right-band", "BAND", "The same, right end.", _HUNG)
]
Loads = Annotated[
    str | None,
    option("--loads", "LOADS", "All on the bar, bottom/mean/top: 85kg/98kg/115kg.", _HUNG),
]
Hung = Annotated[str, option("--hung", "TEXT", "With --loads: what it was, in words.", _HUNG)]
Reps = Annotated[
    int | None, option("--reps", "N", "Repetitions done; 0 when the first was missed.", _HOW)
]
RepsLeft = Annotated[float | None, option("--reps-left", "N", "How many more were in it.", _HOW)]
Speed = Annotated[float | None, option("--bar-speed", "M/S", "Mean speed on the way up.", _HOW)]
Missed = Annotated[
    bool | None,
    typer.Option("--missed/--made", help="Whether it ended with a miss.", rich_help_panel=_HOW),
]
ThirdOption = Annotated[
    str | None, option("--third", "WHERE", "Where it stopped: lower, middle, top.", _HOW)
]
Note = Annotated[str | None, option("--note", "TEXT", "Whatever else.", _HOW)]
Day = Annotated[str | None, option("--day", "DAY", "2026-11-25; else today.", _WHEN)]
Time = Annotated[str | None, option("--time", "HH:MM", "By the clock in the gym.", _WHEN)]
Session = Annotated[
    str | None, option("--session", "NAME", "What sets of one session share.", _WHEN)
]
Number = Annotated[int | None, option("--set", "N", "Which set of the session.", _WHEN)]
Id = Annotated[
    str | None,
    typer.Option("--id", metavar="UUID", help="Its id, to send it again without doubling."),
]
SetArgument = Annotated[str, typer.Argument(metavar="SET", help="Id of a set, or its beginning.")]


def add(
    lifter: Lifter = None,
    lift: Lift = None,
    straight: Straight = None,
    station: Station = None,
    rig: Rig = None,
    left: Left = None,
    right: Right = None,
    feeder: Feeder = None,
    connector: Connector = None,
    hang: Hang = "doubled",
    left_band: LeftBand = None,
    right_band: RightBand = None,
    loads: Loads = None,
    hung: Hung = "",
    reps: Reps = None,
    reps_left: RepsLeft = None,
    bar_speed: Speed = None,
    missed: Missed = None,
    third: ThirdOption = None,
    note: Note = None,
    day: Day = None,
    time: Time = None,
    session: Session = None,
    number: Number = None,
    gym: StoredGymOption = "",
    by: ByOption = None,
    id_: Id = None,
    units: UnitsOption = None,
    as_json: JsonOption = False,
) -> None:
    """Log a set: who, what, what hung, and how it went.

    What hung is kept as loads and words: later changes of the stock do not
    touch it. A hard set, a single with chain on or a miss tells of strength
    wherever the gym is used as --gym store:NAME.

    \b
    Examples
      topheavy log add --lifter Osric --lift "bench press" --straight 120kg \\
        --reps 5 --reps-left 1
      topheavy log add --lifter Osric --lift bench --station "bench 1" \\
        --left A1+A2 --right A3+A4 --feeder "ring strap:7" \\
        --connector "10 mm screw link" --straight 85kg --reps 3
      topheavy log add --lifter Pip --lift squat --straight 60kg \\
        --loads 60kg/72kg/80kg --hung "two chains a side" --reps 0 --missed \\
        --third middle
    """
    from topheavy.cli.stored import name_of, the_store, who
    from topheavy.cli.today import the_day
    from topheavy.gym.log import LoggedSet
    from topheavy.store.gyms import load_gym

    described = {
        "rig": rig, "left": left, "right": right, "feeder": feeder, "connector": connector,
        "left_band": left_band, "right_band": right_band,
    }  # fmt: skip
    words = {name: value for name, value in described.items() if value}
    with the_store() as store:
        house = load_gym(store, name_of(gym))
        place = {"lifter": lifter, "lift": lift, "station": station, "straight": straight}
        if words:
            found = _described(house, {**words, "hang": hang}, place, loads)
        else:
            found = _plain(place, loads, hung)
        logged = LoggedSet(
            id=_id(id_),
            **found,
            day=the_day() if day is None else day.strip(),
            time=time or "",
            session=(session or "").strip(),
            number=number,
            reps=_needed(reps, "--reps", "how many repetitions"),
            reps_left=reps_left,
            speed_m_per_s=bar_speed,
            missed=bool(missed) or third is not None,
            third=cast("Third | None", third),
            note=(note or "").strip(),
            by=who(by),
        )
        _send(store, house, logged, units, as_json=as_json)


def correct(
    which: SetArgument,
    straight: Straight = None,
    station: Station = None,
    reps: Reps = None,
    reps_left: RepsLeft = None,
    bar_speed: Speed = None,
    missed: Missed = None,
    third: ThirdOption = None,
    note: Note = None,
    day: Day = None,
    time: Time = None,
    session: Session = None,
    number: Number = None,
    gym: StoredGymOption = "",
    by: ByOption = None,
    units: UnitsOption = None,
    as_json: JsonOption = False,
) -> None:
    """Correct a set: a new one stands for it, the old one stays.

    What is not typed stays as it was. What hung can't be corrected: strike the
    set out and add it anew.

    \b
    Examples
      topheavy log correct 5d5a2c8e --reps 4 --reps-left 0
    """
    from topheavy.cli.stored import name_of, the_store, who
    from topheavy.store.gyms import load_gym
    from topheavy.store.sets import find_set

    typed: dict[str, Any] = {
        "straight_kg": load_kg(straight, "--straight"), "station": station, "reps": reps,
        "reps_left": reps_left, "speed_m_per_s": bar_speed, "missed": missed, "third": third,
        "note": note, "day": day, "time": time, "session": session, "number": number,
    }  # fmt: skip
    new = {name: value for name, value in typed.items() if value is not None}
    if not new:
        raise BadInputError("Nothing is corrected", field="SET", wanted="such as --reps 4")
    if missed is False:
        new["third"] = None
    with the_store() as store:
        house = load_gym(store, name_of(gym))
        old = find_set(store, house.id, which).logged
        if old.rig is not None and "straight_kg" in new:
            raise BadInputError(
                "The loads were worked out with the old straight weight",
                field="--straight",
                got=straight,
                wanted="strike the set out (topheavy log strike) and add it anew",
            )
        logged = replace(
            old, **new, id=str(uuid.uuid4()), corrects=old.id, by=who(by), struck=False
        )
        _send(store, house, logged, units, as_json=as_json)


def strike(
    which: SetArgument,
    note: Note = None,
    gym: StoredGymOption = "",
    by: ByOption = None,
    units: UnitsOption = None,
    as_json: JsonOption = False,
) -> None:
    """Strike a set out: it never happened; the log still shows it.

    \b
    Examples
      topheavy log strike 5d5a2c8e --note "logged for the wrong lifter"
    """
    from topheavy.cli.stored import name_of, the_store, who
    from topheavy.store.gyms import load_gym
    from topheavy.store.sets import find_set

    with the_store() as store:
        house = load_gym(store, name_of(gym))
        old = find_set(store, house.id, which).logged
        said = old.note if note is None else note.strip()
        gone = replace(
            old, id=str(uuid.uuid4()), corrects=old.id, struck=True, by=who(by), note=said
        )
        _send(store, house, gone, units, as_json=as_json)


def _send(
    store: Store, house: StoredGym, logged: LoggedSet, units: str | None, *, as_json: bool
) -> None:
    """Add a set to the log, and show it."""
    from topheavy.cli.show import print_json, print_view
    from topheavy.cli.stored import now
    from topheavy.present.store.log_view import render_log, view_log
    from topheavy.services.logged import as_known
    from topheavy.store.sets import add_sets

    known = as_known(house.gym, logged)
    added = add_sets(store, house.id, [known], at=now())
    view = view_log(house.gym.name, [(known, False)], unit_system(units, house.gym))
    if as_json:
        print_json(view)
        return
    print("Logged." if added.new else "It is in the log already.")
    print_view(view, render_log)


def _described(
    house: StoredGym, words: dict[str, Any], place: dict[str, str | None], loads: str | None
) -> dict[str, Any]:
    """Who, what, where and what hung, of a rig by its parts."""
    from topheavy.cli.described_options import read_described
    from topheavy.present.rig.hung_words import ends_words
    from topheavy.services.logged import rig_then
    from topheavy.services.reading import read_rig
    from topheavy.units import SYSTEMS

    if loads is not None:
        raise BadInputError(
            "What hung is said twice",
            field="--loads",
            got=loads,
            wanted="the loads, or the parts that hung",
        )
    said: dict[str, Any] = {**words, **place}
    told = read_described(**said, gym=Path(f"store:{house.gym.name}"))
    travel = told.travel
    if travel is None:
        raise BadInputError(
            "Nobody's lift is named", field="--lifter", wanted="--lifter, and --lift if no bench"
        )
    reading = read_rig(told.described.rig, travel, told.ground)
    left, right = ends_words(told.described, SYSTEMS[house.gym.units])
    words_then = f"left {'; '.join(left)}. Right {'; '.join(right)}"
    return {
        "lifter": told.lifter.name,
        "lift": told.lift.name,
        "station": told.station.name,
        "straight_kg": round(reading.straight_weight_kg, 6),
        "rig": rig_then(reading, words_then),
    }


def _plain(place: dict[str, str | None], loads: str | None, hung: str) -> dict[str, Any]:
    """Who, what, where, and the three loads of what hung, if anything did."""
    straight_kg = load_kg(_needed(place["straight"], "--straight", "such as 100kg"), "--straight")
    return {
        "lifter": _needed(place["lifter"], "--lifter", "a lifter of the gym"),
        "lift": _needed(place["lift"], "--lift", "such as squat"),
        "station": place["station"] or "",
        "straight_kg": round(straight_kg or 0.0, 6),
        "rig": _three(loads, hung),
    }


def _three(loads: str | None, hung: str) -> RigThen | None:
    from topheavy.gym.log import RigThen

    if loads is None:
        if hung:
            raise BadInputError(
                "Something hung, and no loads are given",
                field="--hung",
                got=hung,
                wanted="--loads bottom/mean/top as well",
            )
        return None
    parts = loads.split("/")
    if len(parts) != 3:
        raise BadInputError(
            "Not three loads", field="--loads", got=loads, wanted="bottom/mean/top: 85kg/98kg/115kg"
        )
    bottom, mean, top = (round(load_kg(part, "--loads") or 0.0, 6) for part in parts)
    return RigThen(bottom_kg=bottom, mean_kg=mean, top_kg=top, words=hung.strip())


def _needed(value: Any, option: str, wanted: str) -> Any:
    if value is None:
        raise BadInputError(f"{option} is missing", field=option, wanted=wanted)
    return value


def _id(typed: str | None) -> str:
    return str(uuid.uuid4()) if typed is None else typed.strip().lower()
