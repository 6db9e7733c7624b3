"""What hangs on an end in a coach's words: "A1+A2 on ring strap:7 with 10 mm screw link"."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Final, cast, get_args

from topheavy.asked.chain_words import read_chain
from topheavy.asked.facts import not_understood
from topheavy.asked.part_words import (
    WANTED_FEEDER,
    no_connector,
    read_connector,
    read_feeder,
)
from topheavy.errors import BadInputError, NotInStockError
from topheavy.rigging.fixtures import Fixture
from topheavy.rigging.limits import Style
from topheavy.services.described import Hanging

if TYPE_CHECKING:
    from topheavy.gym.stock import ChainPiece, Stock

NOTHING: Final = "none"
_STYLES: Final = get_args(Style)
_STYLE: Final = re.compile(rf"(.*\S)\s+({'|'.join(_STYLES)})", re.IGNORECASE | re.DOTALL)
_WITH: Final = " with "


@dataclass(frozen=True, slots=True, kw_only=True)
class HangWords:
    """What was typed of what hangs.

    Parameters
    ----------
    left, right, both : tuple of str
        Hangs of each end, and those of both ends alike.
    feeder, connector : str or None
        What doubled hangs that name none of their own hang from.
    style : str
        How hangs hang that don't say.
    left_bands, right_bands : tuple of str
        Bands of each end; an end with a band may have no chain.
    """

    left: tuple[str, ...] = ()
    right: tuple[str, ...] = ()
    both: tuple[str, ...] = ()
    feeder: str | None = None
    connector: str | None = None
    style: str = "doubled"
    left_bands: tuple[str, ...] = ()
    right_bands: tuple[str, ...] = ()

    @property
    def empty(self) -> bool:
        """Whether nothing was typed of what hangs."""
        return not (self.left or self.right or self.both or self.left_bands or self.right_bands)


@dataclass(frozen=True, slots=True)
class _How:
    """How pieces hang: style, feeder and connector in words; alike means on one connector."""

    style: str
    feeder: str | None
    connector: str | None


@dataclass(slots=True)
class _Reader:
    """Reads hangs, and remembers which pieces of the gym are taken."""

    words: HangWords
    stock: Stock
    taken: dict[str, str] = field(default_factory=dict)
    count: int = 0

    def end(self, side: str) -> tuple[Hanging, ...]:
        """Read one end; what hangs alike there hangs on one connector."""
        groups: dict[_How, list[ChainPiece]] = {}
        self.count = 0
        for option, texts in (("--chain", self.words.both), (side, self._own(side))):
            for text in texts:
                pieces, how = self._split(text, option)
                groups.setdefault(how, []).extend(
                    self._piece(piece, option) for piece in pieces.split("+")
                )
        return tuple(
            Hanging(fixture=self._fixture(how, side), pieces=tuple(pieces))
            for how, pieces in groups.items()
        )

    def _own(self, side: str) -> tuple[str, ...]:
        texts: tuple[str, ...] = getattr(self.words, side.removeprefix("--"))
        return () if [text.strip().lower() for text in texts] == [NOTHING] else texts

    def _split(self, text: str, option: str) -> tuple[str, _How]:
        """Take "PIECES [STYLE] [on FEEDER] [with CONNECTOR]" apart."""
        pieces, on, rest = (f"{text} ").partition(" on ")
        feeder, connector = self._parts(rest) if on else (None, None)
        if on and not feeder:
            raise not_understood(text, option, WANTED_FEEDER)
        if not on and _WITH in text:
            pieces, _, connector = text.partition(_WITH)
        pieces, styled = pieces.strip(), _STYLE.fullmatch(pieces.strip())
        style = styled[2].lower() if styled else ("doubled" if on else self.words.style)
        if styled:
            pieces = styled[1]
        if style not in _STYLES:
            raise BadInputError(
                "Unknown way to hang chain",
                field="--hang",
                got=repr(style),
                wanted=", ".join(_STYLES),
            )
        if style != "doubled":
            if on or connector:
                raise BadInputError(
                    f"Chain hung {style} takes no feeder and no connector",
                    field=option,
                    got=repr(text),
                    wanted=f'"{pieces} {style}", or doubled',
                )
            return pieces, _How(style, None, None)
        return pieces, _How(style, feeder or self.words.feeder, connector or self.words.connector)

    def _parts(self, rest: str) -> tuple[str, str | None]:
        """Feeder with its setting, and connector; a feeder's name may have "with" in it."""
        for colon in re.finditer(":", rest):
            name = rest[: colon.start()].strip()
            if any(feeder.name == name for feeder in self.stock.feeders):
                setting, _, connector = rest[colon.end() :].partition(_WITH)
                return f"{name}:{setting.strip()}", connector.strip() or None
        feeder, _, connector = rest.partition(_WITH)
        return feeder.strip(), connector.strip() or None

    def _piece(self, text: str, option: str) -> ChainPiece:
        """A piece of the gym by its tag, or one described; only the latter on both ends."""
        tag = text.strip()
        if not any(piece.tag == tag for piece in self.stock.chains):
            if tag and not re.search(r"[\s\d/]", tag):
                self._no_such_piece(tag, option)
            self.count += 1
            return self._described(tag, option)
        if option == "--chain":
            raise BadInputError(
                f"One piece can't hang on both ends: {tag}",
                field=option,
                got=repr(tag),
                wanted="a description such as 32 x 5/8 in; or tags in --left and --right",
            )
        if tag in self.taken:
            raise BadInputError(
                f"The piece {tag} is listed twice",
                field=option if self.taken[tag] == option else f"{self.taken[tag]} and {option}",
                got=repr(tag),
                wanted="each piece once, on one end",
            )
        self.taken[tag] = option
        return self.stock.piece(tag)

    def _described(self, text: str, option: str) -> ChainPiece:
        if re.fullmatch(r"\S*[A-Za-z]\S*\d+", text) and "x" not in text:
            self._no_such_piece(text, option)
        return read_chain(text, option, f"#{self.count}")

    def _no_such_piece(self, tag: str, option: str) -> None:
        known = [piece.tag for piece in self.stock.chains]
        few = ", ".join(known[:12]) + (f" and {len(known) - 12} more" if len(known) > 12 else "")
        raise NotInStockError(
            f"No chain piece {tag!r} in stock",
            field=option,
            got=repr(tag),
            wanted=(f"one of {few}; or a " if few else "a ") + "description such as 32 x 5/8 in",
        )

    def _fixture(self, how: _How, side: str) -> Fixture:

        if how.style != "doubled":
            return Fixture(style=cast("Style", how.style))
        if how.feeder is None:
            raise BadInputError(
                "Doubled chain hangs from a feeder",
                field="--feeder",
                wanted='such as "ring strap:7" or 62cm; or --hang straight, --hang draped',
            )
        option = side if how.feeder != self.words.feeder else "--feeder"
        feeder, setting = read_feeder(how.feeder, self.stock, option)
        connector = no_connector()
        if how.connector is not None:
            option = side if how.connector != self.words.connector else "--connector"
            connector = read_connector(how.connector, self.stock, option)
        return Fixture(style="doubled", feeder=feeder, setting=setting, connector=connector)


def read_ends(words: HangWords, stock: Stock) -> tuple[tuple[Hanging, ...], tuple[Hanging, ...]]:
    """Read what hangs left and right.

    Parameters
    ----------
    words : HangWords
        As typed. A hang is ``PIECES [straight|draped] [on FEEDER] [with CONNECTOR]``, pieces
        joined by ``+``: tags of the gym, or descriptions (`read_chain`).
    stock : Stock
        The gym's.

    Raises
    ------
    BadInputError
        Words not understood, one end left out, or a piece listed twice.
    NotInStockError
        No such piece, feeder, setting or connector.
    """
    if not words.both:
        for side, texts in (
            ("--left", words.left or words.left_bands),
            ("--right", words.right or words.right_bands),
        ):
            if not texts:
                raise BadInputError(
                    "Nothing says what hangs" + ("" if words.empty else f" on the {side[2:]} end"),
                    field=side,
                    wanted='--left A1+A2 --right A3+A4, or --chain "32 x 5/8 in"; '
                    f"{side} {NOTHING} for a bare end",
                )
    reader = _Reader(words, stock)
    return reader.end("--left"), reader.end("--right")
