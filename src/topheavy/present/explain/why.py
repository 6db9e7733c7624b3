"""Why the chain, in the lifter's own numbers; and how sure those are."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from topheavy.present.picture.words import sentence
from topheavy.services.evidence_words import evidence_phrase

if TYPE_CHECKING:
    from topheavy.lifter.strength import StrengthCurve
    from topheavy.services.explain import Explained
    from topheavy.units import UnitSystem

_STEP: Final = 0.05
"""How finely it is said how much stronger a lifter is at lockout [-]: it is never known better."""

_UNKNOWN: Final = (
    (
        "Lifters hang chain because the weakest height decides how much plain weight goes up, and "
        "the stronger heights above it then have little to do. Chain is light where the bar is "
        "low and heavy where it is high. Whether you are made like that, this page can't say."
    ),
    (
        "Tell your coach a best single, or a set and how many reps you had left; a best from pins "
        "near lockout tells most. Then ask for this page again: it will show your strength beside "
        "these loads."
    ),
)


def warning(explained: Explained, units: UnitSystem) -> str:
    """Say that the rig is too heavy, or may be; empty when it is neither."""
    if explained.effort is None or explained.effort_at_m is None or explained.at_most is None:
        return ""
    where = units.length(explained.effort_at_m)
    if explained.effort > 1:
        return (
            f"Too heavy: with the bar at {where} this rig is {_percent(explained.effort)} of what "
            "your numbers say you can move. Take weight off before you lift it."
        )
    if explained.at_most > 1:
        return (
            f"It may be too heavy: if you are as weak as your numbers leave open, it is "
            f"{_percent(explained.at_most)} of what you can move. Start well lighter and work up."
        )
    return ""


def why_head(explained: Explained, units: UnitSystem) -> str:
    """Say the reason in one line."""
    strength = explained.strength
    if strength is None:
        return "How strong you are at each height, nobody has written down yet."
    at = f"weakest with the bar at {units.length(strength.weakest_m)}"
    if any(remark.code == "one number" for remark in strength.remarks):
        at = f"You are taken for a typical lifter: {at}"
    else:
        at = f"You are {at}"
    if explained.hardly_stronger:
        return f"{at}, and likely hardly stronger at lockout."
    more = float(strength.best_kg[-1]) / strength.full_range_kg - 1
    return f"{at}, and likely some {_percent(_STEP * round(more / _STEP))} stronger at lockout."


def why_lines(explained: Explained, units: UnitSystem) -> tuple[str, ...]:
    """Say why chain, in short sentences."""
    strength = explained.strength
    if strength is None:
        return _UNKNOWN
    lines = [_strength_line(strength, units), *_plain_lines(explained, units)]
    if explained.hardly_stronger:
        lines.append(
            "Chain asks most at lockout. By these numbers you have little to spare there: bring a "
            "best from pins near lockout before you build on chain."
        )
    return tuple(lines)


def _strength_line(strength: StrengthCurve, units: UnitSystem) -> str:
    travel = strength.travel
    part = (strength.weakest_m - travel.bottom_m) / travel.travel_m
    low, high = (units.mass(float(kg), 0) for kg in (strength.low_kg[-1], strength.high_kg[-1]))
    where = f"{_percent(part)} of the way up" if part > 0 else "right at the bottom"
    return (
        f"Where you are weakest, {where}, you can move about {units.mass(strength.full_range_kg)}; "
        f"at lockout about {units.mass(float(strength.best_kg[-1]), 0)}, "
        f"somewhere from {low.split(' ')[0]} to {high}."
    )


def _plain_lines(explained: Explained, units: UnitSystem) -> list[str]:
    """Set plain weight beside the rig."""
    plain, chosen = explained.plain, explained.chosen
    if explained.effort is None or plain.top_use is None or chosen.top_use is None:
        return []
    hard = "the most you can lift" if explained.effort > 1 else "as hard where it is hardest"
    lines = [
        "Plain weight is the same all the way, so your weakest height decides how much goes up."
    ]
    if chosen.top_use <= plain.top_use + 0.005:
        return lines
    lines.append(
        f"{units.mass(plain.straight_kg)} of plain weight is {hard}, and uses "
        f"{_percent(plain.top_use)} of your strength at lockout. This rig uses "
        f"{_percent(chosen.top_use)} there."
    )
    return lines


def drawn_from(explained: Explained, units: UnitSystem) -> str:
    """Say what the strength curve was made from; empty without one."""
    strength = explained.strength
    if strength is None:
        return ""
    pieces = [
        evidence_phrase(piece, strength.travel.top_m).say(units) for piece in strength.evidence
    ]
    return f"Your strength is drawn from {', '.join(pieces)}."


def sureness(explained: Explained, units: UnitSystem) -> tuple[str, ...]:
    """Say what to know of the strength curve."""
    strength = explained.strength
    if strength is None:
        return ()
    return tuple(sentence(remark.say(units)) for remark in strength.remarks)


def _percent(fraction: float) -> str:
    return f"{100 * fraction:.0f} %"
