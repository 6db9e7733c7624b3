"""A ramp in sentences: what shares speak of, what to do between sets, the published protocol."""

from __future__ import annotations

from typing import TYPE_CHECKING

from topheavy.training.plate_path import PLATE_PRICE_KG
from topheavy.training.protocols import PROTOCOLS
from topheavy.training.ramp_parts import NOTHING

if TYPE_CHECKING:
    from topheavy.gym.lifts import Lift
    from topheavy.rigging.built import BuiltRig
    from topheavy.services.ramp import RampAnswer
    from topheavy.training.attempt_plates import LoadedAttempt
    from topheavy.training.protocols import Protocol, ProtocolSet
    from topheavy.training.ramp_parts import RampSet
    from topheavy.units import UnitSystem


def shares_words(answer: RampAnswer, units: UnitSystem) -> str:
    """Say what the shares are shares of."""
    ramp, strong = answer.ramp, answer.strong
    top_kg = ramp.sets[-1].limit_kg
    at = f"{units.length(ramp.limit_m)}, {units.mass(top_kg)}"
    what = f"Rest: before the set. Share: of the top set's load at {at}"
    if ramp.limited_by == "bottom":
        return f"{what}: the bottom, for want of the lifter's strength by height."
    if strong.typical:
        return (
            f"{what}: where it uses the lifter hardest, if this one's strength has the usual form "
            "(one best is known, and no more)."
        )
    return f"{what}: where it uses the lifter hardest."


def chain_text(one: RampSet, before: RampSet | None, answer: RampAnswer) -> str:
    """What to do about what hangs before this set; nothing when it stays as it is."""
    full = answer.ramp.sets[-1].hanging
    if before is not None and one.hanging is before.hanging:
        return ""
    if one.hanging is full:
        return f"{full.name} on" if before is None or before.hanging is NOTHING else "all chain on"
    if one.hanging is NOTHING:
        return f"no {full.name} yet"
    pieces = f"{one.hanging.pieces} of {full.pieces} pieces on"
    return f"{pieces}, bands on" if answer.rig.best.bands else pieces


def between_sets(best: BuiltRig, lift: Lift) -> str:
    """How to change plates with something on the sleeve."""
    what, how = ["collar off"], []
    if best.bands:
        what.append("bands off, held until slack")
        how.append("bands on")
    if best.pieces and best.fixture.style == "doubled":
        what.append("loop off with the chain's weight held")
        how.append("loop on")
    elif best.pieces:
        what.append("chain off")
        how.append("chain on")
    steps = [*what, "plates off and on as listed", *reversed(how), "collar on"]
    where = "Bar down" if lift.station == "platform" else "Bar in the rack, nobody under it"
    return f"{where}. Each end: {', '.join(steps)}. Both ends alike."


def rest_text(rest_s: float) -> str:
    """Say a rest [s].

    >>> rest_text(90.0), rest_text(180.0)
    ('1:30', '3:00')
    """
    return f"{int(rest_s // 60)}:{int(rest_s % 60):02d}"


def proof_words(units: UnitSystem, *, exact: bool) -> str:
    """Say what the choice of plates stands for."""
    if not exact:
        return "More stacks are possible than were looked at; taller ones might do better."
    pair = units.mass(2 * PLATE_PRICE_KG)
    return (
        f"Proven best: one more pair of plates is handled only where it brings a set {pair} nearer "
        "to its share."
    )


def protocol_lines() -> tuple[str, ...]:
    """The published protocols, a line each."""
    return tuple(_protocol(one) for one in PROTOCOLS)


def _protocol(protocol: Protocol) -> str:
    sets = "; ".join(_set(one) for one in protocol.sets)
    within = (
        f", the 1RM within {protocol.attempts[0]} to {protocol.attempts[1]} of them"
        if protocol.attempts
        else ""
    )
    return f"{protocol.name}: {sets}{within}. (Seen: {protocol.seen}.)"


def _set(one: ProtocolSet) -> str:
    reps = _span(*one.reps)
    said = one.what if one.reps == (1, 1) else f"{one.what} {reps} reps"
    if one.rest_s is None:
        return said
    low, high = (f"{rest / 60:g}" for rest in one.rest_s)
    rest = low if low == high else f"{low} to {high}"
    return f"{said}, rest {rest} min"


def _span(low: int, high: int) -> str:
    return str(low) if low == high else f"{low} to {high}"


def next_words(found: LoadedAttempt, units: UnitSystem) -> str:
    """Why this next attempt, or why stop."""
    reason = found.advice.reason.say(units)
    return f"{reason[0].upper()}{reason[1:]}."
