"""Routes that show the log: the list, and files to take away."""

from __future__ import annotations

import io
from importlib.util import find_spec
from typing import TYPE_CHECKING, Annotated, Any, Final, Literal

from fastapi import APIRouter, Query
from fastapi.responses import HTMLResponse, Response, StreamingResponse

from topheavy.gym.lifts import LIFTS
from topheavy.logfile.write import csv_text, json_lines, write_parquet
from topheavy.present.store.log_view import how_it_went, set_row
from topheavy.store.sets import list_sets
from topheavy.web.access import SignedIn, Visitor  # noqa: TC001 - read by the routes
from topheavy.web.access.desks import OpenDesk  # noqa: TC001 - read by the routes
from topheavy.web.log.asked import LogWords, wanted_of
from topheavy.web.templates import render

if TYPE_CHECKING:
    from collections.abc import Iterator

    from topheavy.present.store.log_view import SetRow
    from topheavy.web.desk import Desk
    from topheavy.web.house import House

Words = Annotated[LogWords, Query()]

_MORE: Final = 5
_MOST: Final = 5_000
_FILES: Final = {
    "csv": "text/csv; charset=utf-8",
    "jsonl": "application/jsonl; charset=utf-8",
    "parquet": "application/vnd.apache.parquet",
}


def list_routes(house: House) -> APIRouter:
    """Make the routes that show the log."""
    routes = APIRouter(include_in_schema=False)

    @routes.get("/log")
    def listed(visitor: SignedIn, desk: OpenDesk, words: Words) -> HTMLResponse:
        return render("log/list.html", _page(house, visitor, desk, words))

    @routes.get("/log/export.{kind}")
    def export(
        visitor: SignedIn,
        desk: OpenDesk,
        kind: Literal["csv", "jsonl", "parquet"],
        words: Words,
    ) -> Response:
        wanted = wanted_of(house, visitor, words)
        sets = (entry.logged for entry in list_sets(desk.store, desk.gym_id, wanted))
        name = {"Content-Disposition": f'attachment; filename="sets.{kind}"'}
        if kind == "parquet":
            file = io.BytesIO()
            write_parquet(sets, file)
            return Response(file.getvalue(), media_type=_FILES[kind], headers=name)
        text = csv_text(sets) if kind == "csv" else json_lines(sets)
        return StreamingResponse(_encoded(text), media_type=_FILES[kind], headers=name)

    return routes


def _encoded(pieces: Iterator[str]) -> Iterator[bytes]:
    for piece in pieces:
        yield piece.encode()


def _page(house: House, visitor: Visitor, desk: Desk, words: LogWords) -> dict[str, Any]:
    """Sets by day, the last day first; one more than asked for tells whether there are more."""
    wanted = wanted_of(house, visitor, words, most=words.most + 1)
    found = list(list_sets(desk.store, desk.gym_id, wanted))
    more = len(found) > words.most
    units = house.units()
    days: dict[str, list[tuple[SetRow, str]]] = {}
    for entry in reversed(found[-words.most :]):
        row = set_row(entry.logged, units, corrected=entry.corrected)
        days.setdefault(row.day, []).append((row, how_it_went(row)))
    kinds = [kind for kind in _FILES if kind != "parquet" or find_spec("pyarrow")]
    return {
        "words": words,
        "days": list(days.items()),
        "count": min(len(found), words.most),
        "more": words.asks(most=min(words.most * _MORE, _MOST)) if more else "",
        "full": more and words.most >= _MOST,
        "lifters": [one.name for one in house.gym.lifters] if visitor.coach else [],
        "lifts": list(LIFTS),
        "files": [
            (kind, f"/log/export.{kind}?{words.asks(most=LogWords().most)}") for kind in kinds
        ],
        "coach": visitor.coach,
    }
