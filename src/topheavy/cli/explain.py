"""`topheavy explain`: a rig explained to the lifter, as a PDF."""

from __future__ import annotations

import textwrap
from pathlib import Path
from typing import TYPE_CHECKING, Any

from topheavy.cli.files import check_output, write_whole
from topheavy.cli.options import JsonOption, UnitsOption, unit_system
from topheavy.cli.rig import CardFile, answered
from topheavy.cli.rig_options import asks_of_lifter

if TYPE_CHECKING:
    from topheavy.services.explain import Explained
    from topheavy.units import UnitSystem

_KINDS = (".pdf",)


@asks_of_lifter
def explain(
    question: Any,
    out: CardFile = Path("explain.pdf"),
    units: UnitsOption = None,
    as_json: JsonOption = False,
) -> None:
    """Explain a rig to the lifter: two pages, why the chain and how it will feel.

    In plain words and the lifter's own numbers: strength by height beside the loads, chain hung
    straight against folded, chain against bands on the way down, and what nobody promises.

    \b
    Examples
      topheavy explain --lifter Osric --bottom 85kg --top 115kg
      topheavy explain --lifter Runa --lift squat --bottom 60% --chain 25% \\
        --out runa-squat.pdf
      topheavy explain --lifter Osric --match --partial 95cm=170kg
      topheavy explain --lifter Pip --bottom 35kg --top 50kg --json
    """
    check_output(out, "--out", kinds=_KINDS)
    shown = unit_system(units, question.place.gym)
    _write(_explained(question), shown, out, as_json=as_json)


def _explained(question: Any) -> Explained:
    from topheavy.services.explain import explain_rig

    return explain_rig(answered(question))


def _write(explained: Explained, units: UnitSystem, out: Path, *, as_json: bool) -> None:
    from topheavy.present.explain import explain_pdf, view_explained

    write_whole(out, explain_pdf(explained, units))
    view = view_explained(explained, units)
    if as_json:
        from topheavy.cli.show import print_json

        print_json(view)
        return
    print(f"Wrote {out}")
    for words in (view.warning, *explained.answer.remeasure):
        if words:
            print(textwrap.fill(words, 80))
