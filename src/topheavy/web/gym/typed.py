"""What was typed into a form, and who is to be shown what, as the routes take them."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated, Final

from fastapi import Depends, Request

from topheavy.errors import BadInputError

if TYPE_CHECKING:
    from topheavy.web.gym.fields import Words

MOST_FIELDS: Final = 5000
LONGEST: Final = 100_000


async def _typed(request: Request) -> Words:
    form = await request.form(max_fields=MOST_FIELDS)
    return {name: text[:LONGEST] for name, text in form.items() if isinstance(text, str)}


Typed = Annotated[dict[str, str], Depends(_typed)]
"""For routes: what was typed, by the name of its input."""


def over_in(words: Words) -> int:
    """The version of the gym that a form was made from.

    Raises
    ------
    BadInputError
        The form does not say it.
    """
    text = words.get("over", "")
    if not (text.isascii() and text.isdigit() and len(text) < 10):
        raise BadInputError(
            "The form does not say which version of the gym it was made from",
            field="over",
            got=repr(text),
            wanted="a number; load the page again",
        )
    return int(text)
