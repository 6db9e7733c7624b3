"""`topheavy rig` and `topheavy card`: find a rig, show it, print it."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from topheavy.cli.files import check_output, write_whole
from topheavy.cli.options import JsonOption, UnitsOption, unit_system
from topheavy.cli.rig_options import asks_for_rig
from topheavy.errors import BadInputError, NotInStockError

if TYPE_CHECKING:
    from topheavy.services.rig import RigAnswer
    from topheavy.units import UnitSystem

CardOption = Annotated[
    Path | None, typer.Option("--card", metavar="FILE", help="Write the one-page card (.pdf).")
]
CardFile = Annotated[Path, typer.Option("--out", metavar="FILE", help="Where to write the PDF.")]
PictureOption = Annotated[
    Path | None,
    typer.Option("--picture", metavar="FILE", help="Write the picture, to scale (.svg or .png)."),
]
CurvesOption = Annotated[
    Path | None,
    typer.Option(
        "--curves",
        metavar="FILE",
        help="With --match: draw strength and loads by height (.svg, .png or .pdf).",
    ),
]
_CARDS = (".pdf",)
_PICTURES = (".svg", ".png")
_PNG_WIDTH = 1800


@asks_for_rig
def rig(
    question: Any,
    card: CardOption = None,
    picture: PictureOption = None,
    curves: CurvesOption = None,
    units: UnitsOption = None,
    as_json: JsonOption = False,
) -> None:
    """Find the best rig for a lifter, a lift and a target, or for the lifter's strength.

    \b
    Examples
      topheavy rig --lifter Osric --bottom 85kg --top 115kg
      topheavy rig --lifter Runa --lift squat --bottom 60% --chain 25% --of top
      topheavy rig --lifter Pip --straight 45kg --chain 20% --of best --json
      topheavy rig --lifter Osric --bottom 85kg --top 115kg --bands 1
      topheavy rig --lifter Osric --match --effort 85% --curves curves.svg
      topheavy rig --lifter Wren --match --set 5x50kg@2
      topheavy rig --lifter Osric --follow 66cm=80kg --follow 107cm=105kg
      topheavy rig --gym mine.toml --bottom 135lb --top 185lb \\
        --card rig.pdf --picture rig.svg
    """
    for file, option, kinds in (
        (picture, "--picture", _PICTURES),
        (card, "--card", _CARDS),
        (curves, "--curves", (*_PICTURES, ".pdf")),
    ):
        if file is not None:
            check_output(file, option, kinds=kinds)
    if curves is not None and question.matching is None:
        raise BadInputError(
            "Without the lifter's strength there are no curves to lay over each other",
            field="--curves",
            got=str(curves),
            wanted="--match beside it",
        )
    shown = unit_system(units, question.place.gym)
    answer = answered(question)
    write_outputs(answer, shown, card=card, picture=picture, curves=curves)
    show(answer, shown, as_json=as_json)


@asks_for_rig
def card(
    question: Any,
    out: CardFile = Path("rig-card.pdf"),
    units: UnitsOption = None,
    as_json: JsonOption = False,
) -> None:
    """Print the card of a rig: one page for the rack.

    What to hang, the loads, how to set it up, and the rig drawn to scale.

    \b
    Examples
      topheavy card --lifter Osric --bottom 85kg --top 115kg
      topheavy card --gym mine.toml --lifter Pip --lift squat \\
        --bottom 60kg --chain 25% --out squat.pdf
    """
    check_output(out, "--out", kinds=_CARDS)
    shown = unit_system(units, question.place.gym)
    answer = answered(question)
    write_outputs(answer, shown, card=out)
    if as_json:
        show(answer, shown, as_json=True)
    else:
        print(f"Wrote {out}")


def answered(question: Any) -> RigAnswer:
    """Find the rig; when there is none, say which parts of the stock were refused, and why."""
    from topheavy.services.rig import answer_rig
    from topheavy.services.stock_check import left_out

    try:
        return answer_rig(question)
    except NotInStockError as error:
        refused = [str(why) for why in (error.got, *left_out(question.place.gym)) if why]
        if error.field == "limits" or error.got is None:
            error.got = f"refused: {'; '.join(refused)}" if refused else None
        raise


def show(answer: RigAnswer, units: UnitSystem, *, as_json: bool) -> None:
    """Print an answer."""
    from topheavy.cli.show import print_json, print_view
    from topheavy.present.rig.view import view_rig

    view = view_rig(answer, units)
    if as_json:
        print_json(view)
        return
    from topheavy.present.rig.terminal import render_rig

    print_view(view, render_rig)


def write_outputs(
    answer: RigAnswer,
    units: UnitSystem,
    *,
    card: Path | None = None,
    picture: Path | None = None,
    curves: Path | None = None,
) -> None:
    """Write card, picture and curves where asked; all are made before any is written."""
    outputs: list[tuple[Path, bytes | str]] = []
    if picture is not None:
        from topheavy.present.rig.picture import rig_picture

        outputs.append((picture, _drawn(rig_picture(answer, units), picture)))
    if curves is not None:
        from topheavy.present.match.curves import match_curves

        svg = match_curves(answer, units)
        if curves.suffix.lower() == ".pdf":
            from topheavy.present.charts.printed import drawings_pdf

            outputs.append((curves, drawings_pdf((svg,), units)))
        else:
            outputs.append((curves, _drawn(svg, curves)))
    if card is not None:
        from topheavy.present.card import card_pdf

        outputs.append((card, card_pdf(answer, units)))
    for path, content in outputs:
        write_whole(path, content)


def _drawn(svg: str, path: Path) -> bytes | str:
    if path.suffix.lower() == ".svg":
        return svg
    from topheavy.present.picture import to_png

    return to_png(svg, _PNG_WIDTH)
