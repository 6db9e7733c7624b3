"""A rig in sentences: what was wanted, how near it comes, how it compares."""

from __future__ import annotations

from typing import TYPE_CHECKING

from topheavy.present.match.view import part_words, percent

if TYPE_CHECKING:
    from topheavy.services.match import Fit
    from topheavy.services.rig import RigAnswer
    from topheavy.units import UnitSystem


def wanted(answer: RigAnswer, units: UnitSystem) -> str:
    """Say the target: loads at heights, then the rules."""
    target = answer.target
    points = [
        f"{units.mass(load_kg)} at {units.length(height_m)}"
        for height_m, load_kg in zip(target.heights_m, target.loads_kg, strict=True)
    ]
    if answer.fit:
        effort = f"{100 * answer.fit.matching.effort:g} %"
        points = [f"as near {effort} of strength at every height as can be, nowhere more"]
    rules = []
    if target.mean_kg is not None:
        rules.append(f"a mean of {units.mass(target.mean_kg)}")
    if target.straight_weight_kg is not None:
        rules.append(f"straight weight kept at {units.mass(target.straight_weight_kg)}")
    if target.full_deload:
        rules.append("no chain on the bar at the bottom")
    if target.links_down:
        links = "a link" if target.links_down == 1 else f"{target.links_down} links"
        rules.append(f"{links} of every strand left on the floor at lockout")
    if target.all_clear:
        rules.append("every link clear of the floor at lockout")
    return "; ".join([", ".join(points), *rules])


def verdict(answer: RigAnswer, units: UnitSystem) -> str:
    """Say whether the rig meets the target, and by how much it misses."""
    if answer.fit:
        return _evenness(answer.fit, units, meets=answer.meets, chosen=answer.chosen)
    off = units.mass(answer.best.miss_kg)
    if answer.meets:
        return f"Meets the target: {off} off at worst."
    enough = units.mass(answer.tolerance_kg)
    if enough == off:
        off, enough = (units.mass(kg, 3) for kg in (answer.best.miss_kg, answer.tolerance_kg))
    if answer.chosen:
        return f"Misses the target: {off} off at worst, and {enough} would do."
    return f"The stock does not reach the target: {off} off at worst, and {enough} would do."


def _evenness(fit: Fit, units: UnitSystem, *, meets: bool, chosen: bool) -> str:
    """Say how evenly the rig uses the lifter, and how evenly plain weight would."""
    least, most, plain = (percent(effort) for effort in (fit.least, fit.most, fit.least_plain))
    said = (
        f"Uses {least} to {most} of strength {part_words(fit, units)}; plain weight as hard would "
        f"use {plain} to {percent(fit.matching.effort)}."
    )
    if meets or chosen:
        return said
    return f"{said} Within its limits nothing in the stock is more even."


def proof(answer: RigAnswer) -> str:
    """Say what the search stands for."""
    pairs = ", bands in their pairs" if answer.question.limits.most_bands else ""
    if answer.chosen:
        return "Parts as you chose them; the search may know better."
    if answer.exact:
        return f"Proven best of the whole stock{pairs}."
    return f"Proven best of the stock{pairs}, pieces of nearly the same weight taken as alike."


def compared(answer: RigAnswer, units: UnitSystem) -> str:
    """Say what the same chain would do hung straight, the common mistake."""
    change = units.mass(answer.reading.top.load_kg - answer.reading.bottom.load_kg)
    if not answer.best.pieces:
        return f"The bands change the bar by {change} over the lift."
    if answer.best.bands:
        return _with_bands(answer, units, change)
    straight = units.mass(answer.straight.top.load_kg - answer.straight.bottom.load_kg)
    style = answer.best.fixture.style
    if style == "straight":
        return (
            f"Hung straight, this chain changes the bar by {change} over the lift. "
            "Folded on a feeder it would change it by up to twice as much."
        )
    how = "Folded on its feeder" if style == "doubled" else "Laid across the bar"
    return (
        f"{how}, this chain changes the bar by {change} over the lift. Straight from the sleeve, "
        f"the common mistake, it would change it by {straight}."
    )


def _with_bands(answer: RigAnswer, units: UnitSystem, change: str) -> str:
    """Say what chain and bands do apart, and what the chain would do hung straight."""
    reading, straight = answer.reading, answer.straight
    chain = units.mass(reading.hung_top_kg - reading.hung_bottom_kg)
    bands = units.mass(reading.bands_top_kg - reading.bands_bottom_kg)
    said = (
        f"Chain and bands change the bar by {change} over the lift: the chain by {chain}, the "
        f"bands by {bands}."
    )
    if answer.best.fixture.style == "straight":
        return f"{said} Folded on a feeder the chain would change it by up to twice as much."
    other = units.mass(straight.hung_top_kg - straight.hung_bottom_kg)
    return (
        f"{said} Straight from the sleeve, the common mistake, the same chain would change it by "
        f"{other}."
    )
