"""The block that is planned in a gym: fetched, found rigs for, changed."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING, Any

from topheavy.errors import NotInStockError
from topheavy.planfile.read import block_of_tables
from topheavy.services.weeks import WeeksQuestion, answer_weeks
from topheavy.store.blocks import last_block, save_block
from topheavy.store.gyms import Change
from topheavy.web.desk import now

if TYPE_CHECKING:
    from topheavy.services.weeks import WeeksAnswer
    from topheavy.store.blocks import StoredBlock
    from topheavy.training.weeks import Block
    from topheavy.web.access import Visitor
    from topheavy.web.desk import Desk
    from topheavy.web.house import House


def standing(desk: Desk) -> StoredBlock | None:
    """The block that holds; None when none is planned."""
    last = last_block(desk.store, desk.gym_id)
    return None if last is None or last.gone else last


def needed(desk: Desk) -> StoredBlock:
    """The block that holds.

    Raises
    ------
    NotInStockError
        None is planned.
    """
    found = standing(desk)
    if found is None:
        raise NotInStockError("No weeks are planned", field="weeks", wanted="a plan: /weeks")
    return found


def block_in(desk: Desk, stored: StoredBlock) -> Block:
    """Read a stored block with the gym as it stands: all lifters, whoever asks."""
    return block_of_tables(stored.written, desk.source.read()[0], "the plan in the store")


def answered(house: House, desk: Desk, stored: StoredBlock, lifter: str) -> WeeksAnswer:
    """Find the rigs of a block, of one lifter or of everybody; remembered while nothing changes."""
    gym, stamp = desk.source.read()
    block = block_in(desk, stored)
    key = ("weeks", stamp, desk.gym_id, stored.number, lifter)
    question = WeeksQuestion(gym=gym, block=block, lifter=lifter)
    return house.answers.get(key, lambda: answer_weeks(question))


def keep(
    desk: Desk, visitor: Visitor, tables: dict[str, Any], note: str, over: int | None
) -> StoredBlock:
    """Check a block and write it down.

    Raises
    ------
    PlanFileError
        The tables describe no plan for this gym.
    StaleError
        Somebody else has changed the weeks meanwhile.
    """
    written = plain_tables(tables)
    block_of_tables(written, desk.source.read()[0])
    change = Change(author=visitor.name, at=now(), note=note, over=over)
    return save_block(desk.store, desk.gym_id, written, change)


def plain_tables(value: Any) -> Any:
    """Tables with days and times as text, as they are stored."""
    if isinstance(value, dict):
        return {key: plain_tables(one) for key, one in value.items()}
    if isinstance(value, list):
        return [plain_tables(one) for one in value]
    if isinstance(value, dt.time):
        return f"{value:%H:%M}"
    return value.isoformat() if isinstance(value, dt.date) else value


def newest(desk: Desk) -> int | None:
    """Number of the row that was written last, put away or not; None for none."""
    last = last_block(desk.store, desk.gym_id)
    return last.number if last else None
