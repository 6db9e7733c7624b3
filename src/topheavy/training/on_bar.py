"""What is on a bar, by the names of the parts, as it is built up from the middle outwards.

A sleeve is a stack: plates, the heaviest inside, then the feeder's loop or the chain that lies
over it, then bands, and the collar outside of everything. Only the outermost comes off. Pieces of
chain on a connector and the feeder's setting are changed with everything else in its place.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from topheavy.errors import BadInputError
from topheavy.gym.records import BandsUsed, HungThen
from topheavy.mechanics.chain import require_positive

if TYPE_CHECKING:
    from collections.abc import Iterable

    from topheavy.gym.records import HangStyle

ItemKind = Literal["plate", "loop", "chain", "bands", "collar"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Item:
    """One thing on both sleeves, alike.

    Parameters
    ----------
    kind : {'plate', 'loop', 'chain', 'bands', 'collar'}
        What: a loop is a feeder's, with all that hangs from it; chain lies over the sleeve itself.
    mass_kg : float
        Of a plate [kg]; 0 for anything else.
    feeder, connector : str
        Of a loop.
    style : str
        Of chain without a feeder: straight or draped.
    left, right : tuple of str
        Tags of chain without a feeder, or of the two bands.
    peg, second_peg : str
        Of bands.
    """

    kind: ItemKind
    mass_kg: float = 0.0
    feeder: str = ""
    connector: str = ""
    style: str = ""
    left: tuple[str, ...] = ()
    right: tuple[str, ...] = ()
    peg: str = ""
    second_peg: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class OnBar:
    """What is on a bar.

    Parameters
    ----------
    plates_kg : tuple of float
        Plates of one end [kg], innermost first, both ends alike; > 0.
    hung : HungThen or None
        Chain and bands by their tags; None: nothing hangs.
    collars : bool
        Whether the collars are on; only a bare bar lies in the rack without.

    Raises
    ------
    BadInputError
        A plate that weighs nothing, a part that is named twice, or anything without collars.

    Examples
    --------
    >>> OnBar(plates_kg=(20.0, 10.0)).stack[-1].kind
    'collar'
    >>> OnBar(plates_kg=(20.0,), collars=False)
    Traceback (most recent call last):
    topheavy.errors.BadInputError: Nothing stays on a bar without collars; ...
    """

    plates_kg: tuple[float, ...] = ()
    hung: HungThen | None = None
    collars: bool = True

    def __post_init__(self) -> None:
        for plate_kg in self.plates_kg:
            require_positive("plates_kg", plate_kg)
        if not self.collars and (self.plates_kg or self.hung):
            raise BadInputError(
                "Nothing stays on a bar without collars", field="collars", wanted="collars"
            )
        if self.hung:
            _once((*self.hung.left, *self.hung.right))
            _once(tag for pair in self.hung.bands for tag in (pair.left, pair.right))

    @property
    def stack(self) -> tuple[Item, ...]:
        """What is on each sleeve, innermost first."""
        found = [Item(kind="plate", mass_kg=plate_kg) for plate_kg in self.plates_kg]
        hung = self.hung
        if hung and (hung.left or hung.right):
            found.append(_carrier(hung))
        found += [_bands(pair) for pair in (hung.bands if hung else ())]
        return (*found, Item(kind="collar")) if self.collars else tuple(found)

    @property
    def setting(self) -> str:
        """Setting of the feeders; empty without."""
        return self.hung.setting if self.hung else ""

    @property
    def held(self) -> tuple[tuple[str, ...], tuple[str, ...]]:
        """Tags of the pieces on the connectors, left and right."""
        if self.hung is None or self.hung.style != "doubled":
            return (), ()
        return self.hung.left, self.hung.right


BARE = OnBar(collars=False)
"""A bar with nothing on it."""


def bar_of(
    stack: Iterable[Item], setting: str, held: tuple[tuple[str, ...], tuple[str, ...]]
) -> OnBar:
    """Read a stack back into what is on the bar; the other way round of `OnBar.stack`.

    Parameters
    ----------
    stack : iterable of Item
        Innermost first.
    setting : str
        Of the feeders.
    held : tuple of (tuple of str, tuple of str)
        Tags of the pieces on the connectors, left and right.

    Examples
    --------
    >>> bar = OnBar(plates_kg=(20.0,), hung=HungThen(left=("A1",), right=("A2",), style="straight"))
    >>> bar_of(bar.stack, bar.setting, bar.held) == bar
    True
    """
    items = tuple(stack)
    bands = tuple(
        BandsUsed(left=one.left[0], right=one.right[0], peg=one.peg, second_peg=one.second_peg)
        for one in items
        if one.kind == "bands"
    )
    hung = HungThen(bands=bands) if bands else None
    for one in items:
        if one.kind == "loop":
            hung = HungThen(
                left=held[0],
                right=held[1],
                feeder=one.feeder,
                setting=setting,
                connector=one.connector,
                bands=bands,
            )
        elif one.kind == "chain":
            style: HangStyle = "straight" if one.style == "straight" else "draped"
            hung = HungThen(left=one.left, right=one.right, style=style, bands=bands)
    return OnBar(
        plates_kg=tuple(one.mass_kg for one in items if one.kind == "plate"),
        hung=hung,
        collars=any(one.kind == "collar" for one in items),
    )


def _carrier(hung: HungThen) -> Item:
    if hung.style == "doubled":
        return Item(kind="loop", feeder=hung.feeder, connector=hung.connector)
    return Item(kind="chain", style=hung.style, left=hung.left, right=hung.right)


def _bands(pair: BandsUsed) -> Item:
    return Item(
        kind="bands",
        left=(pair.left,),
        right=(pair.right,),
        peg=pair.peg,
        second_peg=pair.second_peg,
    )


def _once(tags: Iterable[str]) -> None:
    seen: set[str] = set()
    for tag in tags:
        if tag in seen:
            raise BadInputError(
                "The same one can't hang in two places",
                field="hung",
                got=tag,
                wanted="each piece or band once",
            )
        seen.add(tag)
