"""From the tables of what was written down to a lifter's records."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from topheavy.errors import BadInputError
from topheavy.gym.lifts import lift_named
from topheavy.gym.records import (
    BandsUsed,
    HungLift,
    HungThen,
    LiftedSet,
    MissedRep,
    PinEffort,
    SpeedRead,
)
from topheavy.gymfile.places import Place
from topheavy.gymfile.sections import Placed
from topheavy.services.hung_then import hung_curve_then

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Sequence

    from topheavy.gym.gym import Gym
    from topheavy.gym.people import Travel
    from topheavy.gym.records import Record
    from topheavy.gymfile.problems import Problems
    from topheavy.gymfile.tables import LiftTable
    from topheavy.gymfile.tables_records import (
        HungLiftTable,
        HungTable,
        IsometricTable,
        MissTable,
        SetTable,
        SpeedTable,
    )


def records_from(
    placed: Placed[LiftTable], travel: Travel, problems: Problems
) -> tuple[Record, ...]:
    """Make the records of a lift; whatever is wrong is noted at its own row.

    Parameters
    ----------
    placed : placed table
        Of the lift, as read.
    travel : Travel
        Bottom and top [m]: heights of records lie between.
    problems : Problems
        Where whatever is wrong gets noted.
    """
    found: list[Record] = []
    makers: dict[str, Callable[[Any, Travel], Record]] = {
        "sets": _set,
        "isometrics": _effort,
        "misses": _miss,
        "hung": _hung_lift,
        "speeds": _speed,
    }
    for group, make in makers.items():
        for row in _rows(placed, group):
            with problems.caught(row.place):
                try:
                    found.append(make(row.table, travel))
                except BadInputError as error:
                    raise row.as_written(error) from None
    return tuple(found)


def check_hung(
    gym: Gym, people: Sequence[tuple[Place, str, list[Placed[LiftTable]]]], problems: Problems
) -> None:
    """Note whatever hung that can't have: unknown names, bands beyond their readings.

    Parameters
    ----------
    gym : Gym
        Whole and without other mistakes.
    people : sequence of (place, name, lifts)
        The lifters as read.
    problems : Problems
        Where whatever is wrong gets noted.
    """
    for _, name, lifts in people:
        for placed in lifts:
            lift = lift_named(str(placed.place.path[-1]))
            measured = gym.lifter(name).measured(lift)
            for place, hung in _hung_rows(placed):
                with problems.caught(place):
                    station = gym.station(measured.station or gym.station_for(lift).name)
                    hung_curve_then(_hung_then(hung), gym.stock, station, measured.travel)


def _rows(placed: Placed[LiftTable], group: str) -> Iterator[Placed[Any]]:
    raw = placed.raw.get(group, [])
    for number, table in enumerate(getattr(placed.table, group)):
        path = (*placed.place.path, group, number)
        yield Placed(Place(path, placed.place.called, placed.place.line), table, raw[number])


def _hung_rows(placed: Placed[LiftTable]) -> Iterator[tuple[Place, HungTable]]:
    for row in _rows(placed, "hung"):
        yield row.place, row.table
    for row in _rows(placed, "misses"):
        if row.table.hung is not None:
            yield (
                Place((*row.place.path, "hung"), row.place.called, row.place.line),
                row.table.hung,
            )


def _set(table: SetTable, travel: Travel) -> LiftedSet:
    if table.start is not None:
        _check_inside(table.start, travel, "start")
    return LiftedSet(
        load_kg=table.load,
        reps=table.reps,
        reps_left=table.reps_left,
        tried=table.tried,
        from_m=table.start,
        day=table.day or "",
    )


def _effort(table: IsometricTable, travel: Travel) -> PinEffort:
    _check_inside(table.height, travel, "height")
    return PinEffort(
        height_m=table.height, effort_kg=table.effort, rest_kg=table.rest, day=table.day or ""
    )


def _miss(table: MissTable, travel: Travel) -> MissedRep:
    if table.height is not None:
        _check_inside(table.height, travel, "height")
    return MissedRep(
        straight_kg=table.straight,
        height_m=table.height,
        third=table.third,
        hung=_hung_with_it(table.hung) if table.hung is not None else None,
        day=table.day or "",
    )


def _hung_with_it(table: HungTable) -> HungThen:
    try:
        return _hung_then(table)
    except BadInputError as error:
        error.field = "hung"
        raise


def _hung_lift(table: HungLiftTable, _: Travel) -> HungLift:
    return HungLift(
        straight_kg=table.straight, hung=_hung_then(table), tried=table.tried, day=table.day or ""
    )


def _speed(table: SpeedTable, _: Travel) -> SpeedRead:
    return SpeedRead(
        load_kg=table.load, speed_m_per_s=table.speed, kind=table.kind, day=table.day or ""
    )


def _hung_then(table: HungTable) -> HungThen:
    return HungThen(
        left=tuple(table.left),
        right=tuple(table.right),
        style=table.style,
        feeder=table.feeder or "",
        setting=table.setting or "",
        connector=table.connector or "",
        bands=tuple(
            BandsUsed(
                left=pair.left,
                right=pair.right,
                peg=pair.peg,
                second_peg=pair.second_peg or "",
            )
            for pair in table.bands
        ),
    )


def _check_inside(height_m: float, travel: Travel, key: str) -> None:
    if not travel.bottom_m < height_m < travel.top_m:
        raise BadInputError(
            "The height lies outside the lift",
            field=key,
            got=f"{height_m:g} m",
            wanted=f"above {travel.bottom_m:g} m, the bottom, and below {travel.top_m:g} m, the "
            "top; floor to bar centre",
        )
