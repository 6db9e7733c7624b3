"""How the rig feels, how it hangs, how it comes down, and what it does not promise."""

from __future__ import annotations

from typing import TYPE_CHECKING

from topheavy.present.explain.names import at_the_bottom, off_the_bottom, side_name
from topheavy.present.picture.words import sentence
from topheavy.present.rig.steps import ends_text, plates_text
from topheavy.present.rig.words import compared
from topheavy.services.explain import FIRST_SHIFT_KG, REPEATS_MEN, REPEATS_WOMEN

if TYPE_CHECKING:
    from topheavy.services.explain import Explained, Side, Stand
    from topheavy.services.rig import RigAnswer
    from topheavy.units import UnitSystem

_FELT_KG = 0.5
"""Less than this is not said [kg]."""


def rig_line(answer: RigAnswer, units: UnitSystem) -> str:
    """Name the rig in one line."""
    best = answer.best
    ends = ends_text(best)
    style = {"doubled": "doubled", "draped": "laid across the bar", "straight": "hung straight"}
    how = style.get(best.fixture.style, "") if best.left or best.right else ""
    hung = f"left {ends.left}, right {ends.right}" if ends.left or ends.right else ""
    plates = f"{plates_text(best)} a side, {units.mass(best.rig.straight_weight_kg)} with the bar"
    said = ", ".join(filter(None, (hung, how, ends.feeder)))
    return "; ".join(filter(None, (said, plates)))


def feel_lines(explained: Explained, units: UnitSystem) -> tuple[str, ...]:
    """Say what the lifter will notice, on the way up and down."""
    bottom, middle, top = explained.stands
    lift = explained.answer.question.place.lift
    return (
        f"{sentence(off_the_bottom(lift))}: {_start(explained, bottom, units)}",
        _rise(middle, top, units),
        _lockout(explained, bottom, top, units),
        _lowering(explained, middle, bottom, units),
    )


def _start(explained: Explained, bottom: Stand, units: UnitSystem) -> str:
    own_kg = explained.answer.best.rig.straight_weight_kg
    more_kg = bottom.raising_kg - own_kg
    if bottom.band_kg < -_FELT_KG:
        carried = units.mass(-bottom.band_kg)
        return f"{units.mass(bottom.raising_kg)}, for the bands above carry {carried} of the bar."
    if more_kg < _FELT_KG and not sum(bottom.links):
        return "just the bar and its plates, the bands hardly pull yet."
    if more_kg < _FELT_KG:
        return "just the bar and its plates, and the chain still on the floor."
    if bottom.band_kg > 0.5 * more_kg:
        return f"the bar and its plates, and bands that pull {units.mass(bottom.band_kg)} already."
    chain_kg = units.mass(more_kg)
    if sum(bottom.links_off):
        return f"the bar and its plates, and {chain_kg} of chain that is off the floor already."
    return f"the bar and its plates, and {chain_kg} of what holds the chain."


def _rise(middle: Stand, top: Stand, units: UnitSystem) -> str:
    step_m = 10 * units.m_per_length if units.name == "kg" else 4 * units.m_per_length
    rise = (top.raising_kg - middle.raising_kg) / (top.height_m - middle.height_m) * step_m
    if rise < 0.1:
        return "On the way up it hardly grows heavier: it feels much like plain weight."
    return (
        f"On the way up it grows heavier, by {units.mass(rise)} with every "
        f"{units.length(step_m, 0)}. Near the top, where plain weight feels easier, this does "
        "not: drive all the way."
    )


def _lockout(explained: Explained, bottom: Stand, top: Stand, units: UnitSystem) -> str:
    lift = explained.answer.question.place.lift
    more = units.mass(top.raising_kg - bottom.raising_kg)
    said = f"At lockout you hold {more} more than {at_the_bottom(lift)}."
    return f"{said} Hanging chain sways: hold still before you come down." if top.links[0] else said


def _lowering(explained: Explained, middle: Stand, bottom: Stand, units: UnitSystem) -> str:
    lift = explained.answer.question.place.lift
    return (
        f"On the way down it gets lighter again: {units.mass(middle.lowering_kg)} half-way, "
        f"{units.mass(bottom.lowering_kg)} {at_the_bottom(lift)}."
    )


def why_title(explained: Explained) -> str:
    """Name the first section by what hangs."""
    things = []
    if sum(explained.stands[0].links):
        things.append("chain")
    if explained.answer.best.bands:
        things.append("bands")
    return f"Why {' and '.join(things)}" if things != ["chain"] else "Why the chain"


def hang_title(explained: Explained) -> str:
    """Name the section on how it hangs."""
    chain = sum(explained.stands[0].links)
    return "How the chain hangs" if chain else "How the bands pull"


def fold_lines(explained: Explained, units: UnitSystem) -> tuple[str, ...]:
    """Say what folding the chain does, or how bands pull."""
    if sum(explained.stands[0].links):
        return _folded(explained, units)
    lift = explained.answer.question.place.lift
    pulls = [units.mass(abs(stand.band_kg)) for stand in explained.stands]
    if explained.stands[0].band_kg < 0:
        return (
            "Bands from above carry part of the bar, most where it is lowest.",
            (
                f"Both ends together: {pulls[0]} {at_the_bottom(lift)}, {pulls[1]} half-way up, "
                f"{pulls[2]} at lockout. If one breaks, that is on you at once."
            ),
        )
    return (
        "A band pulls harder the longer it is stretched, and has no weight to speak of.",
        (
            f"Both ends together: {pulls[0]} {at_the_bottom(lift)}, {pulls[1]} half-way up, "
            f"{pulls[2]} at lockout."
        ),
    )


def _folded(explained: Explained, units: UnitSystem) -> tuple[str, ...]:
    answer = explained.answer
    style, straight = answer.best.fixture.style, answer.straight
    if style == "straight":
        return (
            compared(answer, units),
            "Folded, two strands leave the floor for every bit the bar goes up; straight, one.",
        )
    how = "Folded in half" if style == "doubled" else "Laid across the bar"
    lines = [
        f"{how}, two strands leave the floor for every bit the bar goes up. Straight, one does.",
        compared(answer, units),
    ]
    if straight.hung_bottom_kg > answer.reading.hung_bottom_kg + _FELT_KG:
        hangs = units.mass(straight.hung_bottom_kg)
        lift = answer.question.place.lift
        at = sentence(at_the_bottom(lift))
        lines.append(f"{at}, {hangs} of it would hang from the bar already.")
    return tuple(lines)


def down_lines(explained: Explained, units: UnitSystem) -> tuple[str, ...]:
    """Say how chain and bands come down."""
    chain = bool(sum(explained.stands[0].links))
    faster = [side for side in explained.sides if side.start_g > 1 + 1e-6]
    lines = []
    if chain:
        lines.append(
            "Chain comes down with the bar and lies down link by link. It never pulls the bar "
            "down faster than it falls."
        )
    if explained.stands[0].band_kg < 0:
        lines.append("The bands above hold the bar back on the way down, more the lower it is.")
    elif faster:
        own = next((side for side in faster if side.chosen), faster[-1])
        lines.append(_pulled(explained, own, units))
    else:
        lines.append(
            "A band does: it has no weight to speak of, it pulls. No pair of this gym's bands "
            "suits this lift here, so there are no numbers for one."
        )
    if explained.too_heavy:
        names = ", ".join(name.replace("chain", "the same chain") for name in explained.too_heavy)
        lines.append(f"Left out, too heavy for you here even with an empty bar: {names}.")
    lines.append("These are sums for a bar that nobody holds. Never let go of a bar to try it.")
    return tuple(lines)


def _pulled(explained: Explained, side: Side, units: UnitSystem) -> str:
    top_m = explained.answer.question.place.travel.top_m
    if side.chosen:
        pull_kg = explained.stands[2].band_kg
        who = "The bands of this rig pull"
    else:
        pull_kg = float(side.hung.at(top_m))
        who = f"{sentence(side_name(side))} would pull"
    return (
        f"{who} it down with {units.mass(pull_kg)} at lockout and go on pulling: the bar starts "
        f"down {side.start_g:.2f} times as hard as it falls, so there is more to brake."
    )


def promise_lines(explained: Explained, units: UnitSystem) -> tuple[str, ...]:
    """Say what the page does not promise.

    Studies of bests after weeks of training disagree: Lin et al. 2022, Int. J. Environ. Res. Public
    Health 19: 8559 (abstract), pooled 14 of them in favour of load that varies with height, and
    found no difference in trained lifters below 80 % of 1RM.
    """
    place, top = explained.answer.question.place, explained.answer.reading.top
    men, women = (units.mass(part * top.load_kg) for part in (REPEATS_MEN, REPEATS_WOMEN))
    shown, shift = units.mass(top.load_kg), units.mass(FIRST_SHIFT_KG)
    last = "kilogram" if units.name == "kg" else "pound"
    bench = "bench press" in place.lift.name
    other = "" if bench else f" For the {place.lift.name} no such study was found; expect no less."
    within = f"{100 * REPEATS_MEN:.1f} % in men and {100 * REPEATS_WOMEN:.1f} % in women"
    return (
        (
            "Not that you get stronger by it than by plain weight. Studies disagree: some found "
            "better bests after weeks with chain or bands, some found no difference."
        ),
        (
            "Not that the first days tell anything. Learn it light first: in one study the men's "
            f"best with chain had moved by {shift} from the first test to the second."
        ),
        (
            "Not that a small change means something. In that study a bench press best, all the "
            f"load in chain, repeated within {within}: of {shown} that is {men} and {women}."
            f"{other} (McCurdy and others, 2008.)"
        ),
        (
            f"Not the last {last}. Loads are worked out, not weighed: {shown} at lockout, give "
            f"or take {units.mass(top.u_kg)}."
        ),
    )
