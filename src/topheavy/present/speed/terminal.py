"""Speed work on the terminal."""

from __future__ import annotations

from typing import TYPE_CHECKING

from rich.console import Group
from rich.text import Text

from topheavy.present.terminal import ACCENT, QUIET, FirstThatFits, headed, listed, ruled

if TYPE_CHECKING:
    from rich.console import RenderableType
    from rich.table import Table

    from topheavy.present.rep.motion_figures import Spread
    from topheavy.present.speed.view import EqualView, LineView, SpeedView


def render_speed(view: SpeedView) -> RenderableType:
    """Lay speed work out for the terminal: two tables, since they answer two questions."""
    parts: list[RenderableType] = [
        Text(view.title, style=ACCENT),
        Text(f"{view.gym}. Best {view.best}, plain.", style=QUIET),
        Text(f"Hung: {view.hangs}."),
    ]
    parts += [headed(table.heading, *_equal(table)) for table in view.tables]
    parts += [
        headed("Plates a side", _plates(view)),
        headed("Mind", listed(view.cautions)),
        headed("How sure this is", listed(view.limits)),
    ]
    return Group(*parts)


def _equal(table: EqualView) -> list[RenderableType]:
    shown: list[RenderableType] = [Text(table.answers)]
    if table.lines:
        ways = tuple(_speeds(table, columns) for columns in (8, 7, 6, 4))
        shown += [Text(""), FirstThatFits(ways), Text("A minus: slower with chain.", style=QUIET)]
    if table.left_out:
        shown += [Text(""), Text(table.left_out)]
    return shown


def _speeds(table: EqualView, columns: int) -> Table:
    """Show loads and speeds; narrower ways leave the last columns out."""
    other = "at the\ntop" if table.equal_at == "mean" else "at the\nbottom"
    names = (
        "of\nbest",
        "plain\nbar",
        "its\nspeed",
        "with\nchain",
        "faster by\n(nine in ten)",
        "peak\nby",
        "bar and\nplates",
        other,
    )
    drawn = ruled(*names[:columns])
    drawn.padding = (0, 1, 0, 0)
    for column in drawn.columns:
        column.no_wrap = True
    for line in table.lines:
        drawn.add_row(*_cells(line, table.equal_at)[:columns])
    return drawn


def _cells(line: LineView, equal_at: str) -> tuple[str, ...]:
    return (
        line.of_best.text,
        line.plain.text,
        line.plain_speed.likely.text,
        line.chain_speed.likely.text,
        _faster(line.faster),
        line.faster_peak.likely.text,
        line.straight.text,
        (line.top if equal_at == "mean" else line.bottom).text,
    )


def _faster(found: Spread) -> str:
    """Both ends of the range without their unit, since the number before them has it."""
    return f"{found.likely} ({found.between.removesuffix(' %')})"


def _plates(view: SpeedView) -> RenderableType:
    """Say which plates make each load: plain, and beside the chain."""
    of_share: dict[str, dict[str, str]] = {}
    for table in view.tables:
        for line in table.lines:
            found = of_share.setdefault(line.of_best.text, {})
            found["plain"] = line.plain_plates
            found[table.equal_at] = line.chain_plates
    lines = []
    for share, found in of_share.items():
        said = [f"plain {found['plain']}"]
        said += [f"equal at the top {found['top']}"] if "top" in found else []
        said += [f"equal in the mean {found['mean']}"] if "mean" in found else []
        lines.append(f"{share}: {'; '.join(said)}")
    return listed(lines)
