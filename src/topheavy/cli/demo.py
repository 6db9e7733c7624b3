"""`topheavy demo`: the main job on the built-in gym."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from topheavy.cli.options import UnitsOption, unit_system

OutOption = Annotated[
    Path, typer.Option("--out", metavar="FOLDER", help="Where card and picture go.")
]


def demo(out: OutOption = Path("demo-out"), units: UnitsOption = None) -> None:
    """Find a rig for the built-in gym; write card and picture.

    A bench press of 85 kg at the chest and 115 kg at lockout, asked as "topheavy rig" is asked.

    \b
    Examples
      topheavy demo
      topheavy demo --out demo-out --units lb
    """
    from topheavy.cli.files import make_folder
    from topheavy.cli.rig import show, write_outputs
    from topheavy.cli.rig_options import read_question
    from topheavy.services.rig import answer_rig

    question = read_question(lifter="Osric", bottom="85kg", top="115kg")
    shown = unit_system(units, question.place.gym)
    answer = answer_rig(question)
    show(answer, shown, as_json=False)
    make_folder(out)
    card, svg, png = (out / name for name in ("rig-card.pdf", "rig.svg", "rig.png"))
    write_outputs(answer, shown, card=card, picture=svg)
    write_outputs(answer, shown, picture=png)
    print(f"\nWrote {card}, {svg} and {png}")
