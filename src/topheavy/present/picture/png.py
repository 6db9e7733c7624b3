"""The picture as a bitmap."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Final

from topheavy.errors import BadInputError

FONTS: Final = Path(__file__).resolve().parent.parent / "fonts"
_MOST_PX: Final = 10_000
_POINTS_AN_INCH: Final = 72


def to_png(svg: str, width_px: int) -> bytes:
    """Render an SVG picture with the packaged fonts, alike on every machine.

    Parameters
    ----------
    svg : str
        As `draw_rig` returns it.
    width_px : int
        Width of the bitmap [px], 1 to 10000.

    Returns
    -------
    bytes
        A PNG file. System fonts are left out; letters beyond the packaged typeface come from
        those that typst brings.

    Raises
    ------
    BadInputError
        A width outside the range, or text that is no such SVG.
    """
    if not 1 <= width_px <= _MOST_PX:
        raise BadInputError(
            "A picture can't be so wide",
            field="width_px",
            got=width_px,
            wanted=f"1 to {_MOST_PX}",
        )
    box = re.search(r'viewBox="0 0 ([\d.]+) ([\d.]+)"', svg)
    if box is None:
        raise BadInputError("Not a picture of this package", field="svg", wanted="a viewBox")
    return _rendered(svg, float(box[1]), float(box[2]), width_px)


def _rendered(svg: str, width: float, height: float, width_px: int) -> bytes:
    import typst  # noqa: PLC0415 - slow to load, and only a bitmap needs it

    page = (
        f"#set page(width: {width}pt, height: {height}pt, margin: 0pt)\n"
        '#image(bytes(sys.inputs.svg), format: "svg", width: 100%, height: 100%)'
    )
    try:
        return typst.compile(
            page.encode(),
            format="png",
            ppi=_POINTS_AN_INCH * width_px / width,
            font_paths=typst.Fonts(include_system_fonts=False, font_paths=[FONTS]),
            sys_inputs={"svg": svg},
        )
    except typst.TypstError as error:
        raise BadInputError(f"The picture can't be rendered: {error}", field="svg") from error
