"""A chain piece in a coach's words: "32 x 5/8 in", or links, size, tape and scale in a row."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Final

from pydantic import ValidationError

from topheavy.asked.facts import amount, dimension_of, facts_in, not_understood
from topheavy.catalogue.sizes import chain_of_size
from topheavy.catalogue.weighed import wire_of_weighed_m
from topheavy.errors import BadInputError, TopheavyError
from topheavy.gymfile.chains import pieces_from
from topheavy.gymfile.tables import SCALE_READING_KG
from topheavy.gymfile.tables_stock import ChainTable

if TYPE_CHECKING:
    from collections.abc import Callable

    from topheavy.gym.stock import ChainPiece

WANTED: Final = (
    'links and size, such as "32 x 5/8 in", or facts in a row, such as '
    '"32 links, 593 mm over ten links, 9.5 kg"'
)
_NUMBERS: Final = {"one": 1, "five": 5, "ten": 10, "twenty": 20}
_MOST_LINKS: Final = 1000


@dataclass(slots=True)
class _Facts:
    """What was said of a piece; lengths [m], masses [kg]."""

    option: str
    links: int | None = None
    size: str | None = None
    standard: str | None = None
    grade: str = ""
    wire_m: float | None = None
    width_m: float | None = None
    outside_m: float | None = None
    over: int = 10
    pitch_m: float | None = None
    mass_kg: float | None = None
    density_kg_per_m: float | None = None

    def note(self, name: str, value: object, fact: str) -> None:
        """Note a fact, once."""
        before = getattr(self, name)
        if before not in (None, ""):
            raise BadInputError(
                "The same thing is said twice", field=self.option, got=repr(fact), wanted="it once"
            )
        setattr(self, name, value)


def read_chain(text: str, option: str, tag: str) -> ChainPiece:
    """Read a chain piece that stands in no gym file.

    Parameters
    ----------
    text : str
        ``"32 x 5/8 in"``; or facts in a row: ``32 links``, a size (``16 x 56 mm``), ``DIN 764``,
        ``grade 43``, ``wire 15.9 mm``, ``width 20 mm``, ``pitch 56 mm``,
        ``593 mm over ten links``, ``9.5 kg`` (the piece on a scale), ``5.3 kg/m``.
    option : str
        Where the words stand, for errors.
    tag : str
        What to call the piece.

    Raises
    ------
    BadInputError
        Words not understood, too little, contradictions, or chain that can't be.
    NotInStockError
        A size, grade or standard that the tables do not hold.
    """
    facts = _Facts(option)
    for fact in facts_in(text):
        _take(facts, fact)
    if facts.links is None:
        raise not_understood(text, option, WANTED)
    try:
        return _piece(facts, tag)
    except TopheavyError as error:
        raise type(error)(
            error.message,
            field=option,
            got=repr(text) if error.got is None else error.got,
            wanted=error.wanted,
        ) from error


def _take(facts: _Facts, fact: str) -> None:
    """Find the form of a fact and note it."""
    for pattern, take in _FORMS:
        found = pattern.fullmatch(fact)
        if found is not None:
            take(facts, fact, found)
            return
    dimension = dimension_of(fact)
    if dimension == "mass":
        facts.note("mass_kg", amount(fact, "mass", facts.option), fact)
    elif dimension == "linear density":
        facts.note("density_kg_per_m", amount(fact, "linear density", facts.option), fact)
    elif dimension == "length" or re.fullmatch(r"(\d+ )?\d+/\d+", fact):
        facts.note("size", fact, fact)
    else:
        raise not_understood(fact, facts.option, WANTED)


def _links(facts: _Facts, fact: str, found: re.Match[str]) -> None:
    links = int(found[1])
    if not 1 <= links <= _MOST_LINKS:
        raise BadInputError(
            "No chain piece has so many links",
            field=facts.option,
            got=repr(fact),
            wanted=f"1 to {_MOST_LINKS} links",
        )
    facts.note("links", links, fact)


def _links_and_size(facts: _Facts, fact: str, found: re.Match[str]) -> None:
    if facts.links is not None:
        facts.note("size", fact, fact)
        return
    _links(facts, fact, found)
    facts.note("size", found[2], fact)


def _taped(facts: _Facts, fact: str, found: re.Match[str]) -> None:
    facts.note("outside_m", amount(found[1], "length", facts.option), fact)
    over = _NUMBERS.get(found[2].lower()) or (int(found[2]) if found[2].isdecimal() else 0)
    if not 1 <= over <= _MOST_LINKS:
        raise not_understood(fact, facts.option, "a length over some links: 593 mm over ten links")
    facts.over = over


def _length(name: str) -> Callable[[_Facts, str, re.Match[str]], None]:
    def take(facts: _Facts, fact: str, found: re.Match[str]) -> None:
        facts.note(name, amount(found[1], "length", facts.option), fact)

    return take


def _text(name: str) -> Callable[[_Facts, str, re.Match[str]], None]:
    def take(facts: _Facts, fact: str, found: re.Match[str]) -> None:
        facts.note(name, found[1], fact)

    return take


_FORMS: Final = [
    (re.compile(pattern, re.IGNORECASE), take)
    for pattern, take in (
        (r"(\d{1,9}) ?links?", _links),
        (r"(\d{1,9}) ?[x*\u00d7] ?(.+)", _links_and_size),
        (r"(.+) over (\w+)(?: links?)?", _taped),
        (r"pitch (.+)", _length("pitch_m")),
        (r"wire (.+)", _length("wire_m")),
        (r"(?:inside )?width (.+)", _length("width_m")),
        (r"grade (.{1,20})", _text("grade")),
        (r"(g ?\d{1,4})", _text("grade")),
        (r"((?:din|en|astm) ?.{1,20})", _text("standard")),
    )
]


def _piece(facts: _Facts, tag: str) -> ChainPiece:
    """Make the piece the way the reader of gym files does."""
    return pieces_from(_table(facts, tag), [tag], SCALE_READING_KG)[0]


def _table(facts: _Facts, tag: str) -> Any:

    said: dict[str, Any] = {
        "tag": tag,
        "links": facts.links,
        "size": facts.size,
        "standard": facts.standard,
        "grade": facts.grade,
        "weighed": _metres_or_kg(facts.mass_kg, "kg"),
        "density": _metres_or_kg(facts.density_kg_per_m, "kg/m"),
        **_measured(facts),
    }
    try:
        return ChainTable(**{key: value for key, value in said.items() if value is not None})
    except ValidationError as error:
        context = error.errors(include_url=False)[0].get("ctx", {})
        raise BadInputError(
            str(context.get("message", "No such chain")),
            field=facts.option,
            wanted=str(context.get("wanted", WANTED)),
        ) from error


def _measured(facts: _Facts) -> dict[str, Any]:
    """What tape and calipers said, as the length of ten links."""
    if facts.outside_m is None and facts.pitch_m is None:
        if facts.wire_m is not None or facts.size is None:
            raise BadInputError(
                "Nothing says how long the links are",
                field=facts.option,
                wanted="a size, or the length over some links, such as 593 mm over ten links",
            )
        return {}
    if facts.outside_m is not None and facts.pitch_m is not None:
        raise BadInputError(
            "The links are measured twice",
            field=facts.option,
            wanted="their pitch, or the length over some of them",
        )
    wire_m = _wire_m(facts)
    pitch_m = facts.pitch_m or (facts.outside_m or 0.0) / facts.over - 2 * wire_m / facts.over
    ten = _metres_or_kg(10 * pitch_m + 2 * wire_m, "m")
    if facts.wire_m is None and facts.size is not None:
        return {"ten_links": ten}
    calipers = {"wire": _metres_or_kg(wire_m, "m"), "ten_links": ten}
    if facts.width_m is not None:
        calipers["width"] = _metres_or_kg(facts.width_m, "m")
    return {"calipers": calipers}


def _wire_m(facts: _Facts) -> float:
    """Wire [m]: measured, or of the size, or what the mass asks for."""
    if facts.wire_m is not None:
        return facts.wire_m
    if facts.size is not None:
        about_m = facts.pitch_m or (facts.outside_m or 0.0) / (facts.over + 0.55)
        return chain_of_size(
            facts.size, grade=facts.grade, standard=facts.standard or "", pitch_m=about_m
        ).wire_diameter_m
    mass_kg = facts.mass_kg
    if mass_kg is None:
        raise BadInputError(
            "Nothing says how heavy the chain is",
            field=facts.option,
            wanted="a size, the wire's diameter, or the mass of the piece on a scale",
        )

    wire_m = wire_of_weighed_m(
        mass_kg,
        facts.links or 1,
        outside_m=facts.outside_m,
        over=facts.over,
        pitch_m=facts.pitch_m,
    )
    return round(wire_m, 4)


def _metres_or_kg(value: float | None, unit: str) -> str | None:
    return None if value is None else f"{value:.9f} {unit}"
