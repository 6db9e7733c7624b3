"""A rig's facts as names and values, in the order that terminal and card show them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from topheavy.present.figure import says_length

if TYPE_CHECKING:
    from topheavy.present.loads.view import LiftFacts
    from topheavy.present.rig.view import RigView

Fact = tuple[str, str]


def hang_facts(view: RigView) -> tuple[Fact, ...]:
    """What to hang and to load; parts that are not there are left out."""
    feeder = view.feeder
    if view.feeder_length and not says_length(view.setting, view.feeder_length):
        feeder = f"{view.feeder} ({view.feeder_length})"
    pairs = (
        ("left end", view.hang_left),
        ("right end", view.hang_right),
        ("feeders", feeder),
        ("connectors", view.connector),
        ("plates a side", view.plates_a_side),
        ("straight weight", f"{view.straight_weight}, bar and collars counted"),
    )
    return tuple((name, value) for name, value in pairs if value)


def share_facts(view: RigView | LiftFacts) -> tuple[Fact, ...]:
    """What chain and bands do: share with its base named, deload, balance, doubt."""
    pairs = [
        ("accommodating share, of the top load", view.share_of_top.text),
        ("of the bottom load", view.share_of_bottom.text),
    ]
    if view.share_of_best:
        pairs.append(("of the straight-weight best", view.share_of_best.text))
    if view.deload:
        alone = view.bands_top is not None
        what = "deload of the chain alone" if alone else "deload: hung load off the bar"
        pairs.append((f"{what} at the bottom", view.deload.text))
    if view.bands_bottom and view.bands_top:
        pulls = f"{view.bands_bottom}, {view.bands_top}"
        pairs.append(("all bands pull, at bottom and top", pulls))
    pairs.append(("the ends differ at the top by", view.imbalance.text))
    if view.mostly:
        pairs.append(("most of the doubt at the top", view.mostly))
    if view.side_pull:
        pairs.append(("sideways pull on an end, up to", view.side_pull.text))
    return tuple(pairs)
