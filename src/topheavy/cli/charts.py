"""`--chart FILE`: what a command shows, drawn; the file's ending says how."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from topheavy.cli.files import check_output, write_whole

if TYPE_CHECKING:
    from topheavy.present.charts import Chart
    from topheavy.units import UnitSystem

KINDS = (".svg", ".png", ".pdf")

ChartOption = Annotated[
    Path | None,
    typer.Option("--chart", metavar="FILE", help="Write a chart of it (.svg, .png or .pdf)."),
]


def check_chart(path: Path | None) -> None:
    """Refuse a place for a chart before anything is worked out."""
    if path is not None:
        check_output(path, "--chart", kinds=KINDS)


def write_chart(path: Path, charts: Chart | tuple[Chart, ...], units: UnitSystem) -> None:
    """Write charts to a file: several below each other, which only a PDF holds.

    Raises
    ------
    BadInputError
        The library that draws is not installed, or several charts for a picture.
    FileError
        The place can't be written.
    """
    from topheavy.errors import BadInputError
    from topheavy.present.charts import LIGHT, PAPER, chart_pdf, chart_png, chart_svg

    several = charts if isinstance(charts, tuple) else (charts,)
    kind = path.suffix.lower()
    if kind != ".pdf" and len(several) > 1:
        raise BadInputError(
            "A picture holds one chart, and these are several",
            field="--chart",
            got=f"{len(several)} charts",
            wanted="a name that ends in .pdf",
        )
    if kind == ".pdf":
        write_whole(path, chart_pdf(several, units))
    elif kind == ".png":
        write_whole(path, chart_png(several[0]))
    else:
        write_whole(path, chart_svg(several[0], PAPER, LIGHT, titled=True))
