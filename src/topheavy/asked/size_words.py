"""A chain size as typed, found among the sizes that a gym owns."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from topheavy.catalogue.sizes import read_size
from topheavy.errors import BadInputError, NotInStockError

if TYPE_CHECKING:
    from topheavy.gym.stock import ChainPiece, Stock

_SAME: Final = 0.03
"""Sizes are nominal: 5/8 in (15.9 mm) and 16 mm are one, as are 1/2 in and its 13 mm wire."""


def own_sizes(typed: tuple[str, ...], stock: Stock) -> tuple[str, ...]:
    """Find the gym's own words for sizes that were typed.

    Parameters
    ----------
    typed : tuple of str
        ``"5/8 in"``, ``"5/8"``, ``'5/8"'``, ``"16mm"``.
    stock : Stock
        The gym's.

    Returns
    -------
    tuple of str
        Sizes as the stock writes them, each once.

    Raises
    ------
    NotInStockError
        No fit piece is of that size; the error lists the sizes owned.
    """
    found = [size for text in typed for size in _own(text, stock.fit_chains)]
    return tuple(dict.fromkeys(found))


def _own(text: str, pieces: tuple[ChainPiece, ...]) -> list[str]:
    plain = "".join(text.split()).casefold()
    alike = [piece.size for piece in pieces if "".join(piece.size.split()).casefold() == plain]
    alike = alike or [piece.size for piece in pieces if _is_size(piece, text)]
    if not alike:
        owned = dict.fromkeys(piece.size for piece in pieces)
        raise NotInStockError(
            "The gym has no chain of that size",
            field="--size",
            got=repr(text),
            wanted=f"one of {', '.join(owned)}" if owned else "a gym with chain that may hang",
        )
    return alike


def _is_size(piece: ChainPiece, text: str) -> bool:
    """Whether the length typed is the piece's size by name, or its wire."""
    typed_m = _length_m(text)
    if typed_m is None:
        return False
    known_m = (_length_m(piece.size), piece.wire_diameter_m)
    return any(own_m is not None and abs(own_m / typed_m - 1) <= _SAME for own_m in known_m)


def _length_m(text: str) -> float | None:

    try:
        length_m, _ = read_size(" ".join(text.split()))
    except BadInputError:
        return None
    return length_m if length_m > 0 else None
