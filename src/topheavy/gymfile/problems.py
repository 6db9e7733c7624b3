"""Everything wrong in a gym file, gathered and told at once in a coach's words."""

from __future__ import annotations

import copy
import difflib
from contextlib import contextmanager
from dataclasses import replace
from typing import TYPE_CHECKING, Any, Final

from topheavy.errors import BadInputError, TopheavyError
from topheavy.gymfile.places import Place, quoted
from topheavy.gymfile.schema import keys_at, wanted_at
from topheavy.units import pounds_beside

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from pydantic import ValidationError
    from pydantic_core import ErrorDetails

MOST_SHOWN: Final = 40
"""How many problems one message lists."""

_WORDS: Final = {
    "missing": "Something is missing",
    "int_type": "Not a whole number",
    "float_type": "Not a number",
    "string_type": "Not a text in quotes",
    "bool_type": "Neither true nor false",
    "list_type": "Not a list in square brackets",
    "dict_type": "Not a table",
    "model_type": "Not a table",
    "model_attributes_type": "Not a table",
    "literal_error": "Not one of the words known here",
    "greater_than_equal": "Too small",
    "less_than_equal": "Too large",
    "too_short": "Too short a list",
    "too_long": "Too long a list",
    "string_too_long": "Too long a text",
    "string_pattern_mismatch": "Not a usable name",
}
_NAME_RULE: Final = (
    "one line of text, no tabs, no space at either end; in a tag no space or , ; : + @ or quotes"
)


Keys = tuple[str | int, ...]


class GymFileError(BadInputError):
    """A gym file with mistakes, all of them told.

    Parameters
    ----------
    source : str
        Name of the file.
    problems : sequence of TopheavyError
        What is wrong, in the order of the file.
    """

    def __init__(self, source: str, problems: Sequence[TopheavyError]) -> None:
        self.source = source
        self.problems = tuple(problems)
        if len(problems) == 1:
            one = problems[0]
            super().__init__(
                f"Mistake in {source}: {one.message}",
                field=one.field,
                got=one.got,
                wanted=one.wanted,
            )
            return
        told = [_numbered(number, one) for number, one in enumerate(problems[:MOST_SHOWN], 1)]
        more = len(problems) - MOST_SHOWN
        told += [f"and {more} more."] if more > 0 else []
        super().__init__("\n  ".join([f"{len(problems)} mistakes in {source}:", *told]))

    def lines(self) -> list[str]:
        """Tell every mistake on lines of its own."""
        return super().lines() if len(self.problems) == 1 else [self.message]


def _numbered(number: int, problem: TopheavyError) -> str:
    """A mistake with its number, and what belongs to it below and further in."""
    message, *facts = problem.lines()
    return "\n     ".join([f"{number}. {message}", *facts])


class Problems:
    """The problems found so far, each with the line of the table it is in.

    Parameters
    ----------
    schema : dict, optional
        Of the file; a gym file's when left out.
    """

    def __init__(self, schema: dict[str, Any] | None = None) -> None:
        self._noted: list[tuple[int, TopheavyError]] = []
        self.schema = schema

    def __len__(self) -> int:
        return len(self._noted)

    @property
    def in_order(self) -> list[TopheavyError]:
        """Problems in the order of the file; those of the whole file first."""
        return [error for _, error in sorted(self._noted, key=lambda noted: noted[0])]

    def note(self, error: TopheavyError, place: Place) -> None:
        """Note a problem of a table."""
        self._noted.append((place.line or 0, error))

    def note_invalid(
        self, error: ValidationError, place: Place, raw: object, form: str = ""
    ) -> None:
        """Note what the check of one raw table against the format found."""
        for detail in error.errors(include_url=False):
            self.note(self._explained(detail, place, raw, form), place)

    @contextmanager
    def caught(self, place: Place, key: str = "") -> Iterator[None]:
        """Note an error as a problem of the table it came from.

        Its key is the one given, or the error's own field when the table has such a key.
        """
        try:
            yield
        except TopheavyError as error:
            own = (error.field or "").strip(".")
            found = key or (own if own in keys_at(place.path, "", self.schema) else "")
            self.note(
                BadInputError(
                    error.message,
                    field=place.key(*([found] if found else [])),
                    got=error.got,
                    wanted=error.wanted,
                ),
                place,
            )

    def refuse_twice(self, what: str, named: Sequence[tuple[str, Place, Keys]]) -> None:
        """Note every name that stands twice, with both places.

        Parameters
        ----------
        what : str
            What the names are of.
        named : sequence of (name, place, keys)
            Each name and where it stands.
        """
        first: dict[str, str] = {}
        for name, place, keys in named:
            here = place.key(*keys)
            earlier = first.setdefault(name.casefold(), here)
            if earlier != here:
                twice = BadInputError(
                    f"The {what} {quoted(name)} is listed twice",
                    field=f"{earlier} and {here}",
                    got=quoted(name),
                    wanted="each one once, upper and lower case alike",
                )
                self.note(twice, place)

    def _explained(
        self, detail: ErrorDetails, place: Place, raw: object, form: str
    ) -> BadInputError:
        keys = _really_there(detail["loc"], raw)
        path = (*place.path, *keys)
        kind, came = detail["type"], detail["input"]
        if kind == "extra_forbidden":
            parent = replace(place, path=(*place.path, *keys[:-1]))
            return unknown_key(str(keys[-1]), parent, keys_at(parent.path, form, self.schema))
        if kind == "missing":
            return BadInputError(
                f'"{keys[-1]}" is missing',
                field=place.key(*keys),
                wanted=wanted_at(path, form, self.schema),
            )
        context: dict[str, Any] = detail.get("ctx", {})
        return BadInputError(
            context["message"] if kind == "quantity" else _WORDS.get(kind, "Not usable here"),
            field=place.key(*keys),
            got=quoted(came),
            wanted=self._wanted(kind, context, path, form),
        )

    def _wanted(
        self, kind: str, context: dict[str, Any], path: tuple[str | int, ...], form: str
    ) -> str | None:
        if kind == "quantity":
            return str(context["wanted"])
        if kind in {"string_pattern_mismatch", "string_too_long"}:
            most = context.get("max_length")
            return _NAME_RULE + (f"; at most {most} characters" if most else "")
        if kind == "too_long":
            return f"at most {context['max_length']}"
        whole = path if isinstance(path[-1], str) else path[:-1]
        return wanted_at(path, form, self.schema) or wanted_at(whole, form, self.schema)


def in_pounds_too(problem: TopheavyError) -> TopheavyError:
    """Tell a problem again, pounds and inches beside kilograms and metres.

    >>> short = BadInputError("Too short", got="0.4 m", wanted="0.5 m or more")
    >>> str(in_pounds_too(short))
    'Too short; got: 0.4 m (15.7 in); wanted: 0.5 m (19.7 in) or more'
    """
    told = copy.copy(problem)
    told.got = pounds_beside(told.got) if isinstance(told.got, str) else told.got
    told.wanted = told.wanted and pounds_beside(told.wanted)
    return told


def unknown_key(key: str, place: Place, known: Sequence[str]) -> BadInputError:
    """Say which key is unknown, and which known one it resembles."""
    near = difflib.get_close_matches(key.lower(), known, n=1)
    return BadInputError(
        f"Unknown key {quoted(key)}",
        field=place.key(key),
        got=quoted(key),
        wanted=(f'"{near[0]}"? Known here: ' if near else "one of ") + ", ".join(known),
    )


def _really_there(keys: tuple[str | int, ...], raw: object) -> tuple[str | int, ...]:
    """Drop the list position of a single value that was read as a list of one."""
    if not keys or isinstance(keys[-1], str):
        return keys
    value = raw
    for step in keys[:-1]:
        value = value[step]  # type: ignore[index]  # the check walked the same way
    return keys if isinstance(value, list) else keys[:-1]
