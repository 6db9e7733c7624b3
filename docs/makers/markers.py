"""Generated parts inside hand-written pages, between two markers."""

from __future__ import annotations

import re


def fill(page: str, name: str, body: str) -> str:
    r"""Put a body between the markers of a name, which must stand in the page once.

    >>> fill("<!-- made: x -->old<!-- end: x -->", "x", "new")
    '<!-- made: x -->\nnew\n<!-- end: x -->'
    """
    begin, end = f"<!-- made: {name} -->", f"<!-- end: {name} -->"
    pattern = re.compile(f"{re.escape(begin)}.*?{re.escape(end)}", re.DOTALL)
    filled, times = pattern.subn(lambda _: f"{begin}\n{body}\n{end}", page)
    if times != 1:
        raise ValueError(f"markers {begin} and {end} stand {times} times in the page")
    return filled
