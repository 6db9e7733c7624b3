"""The numbers and the misfit of the rep's model, inside its reference page."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from docs.makers.markers import fill
from topheavy.lifter.motion_model import MODELS
from topheavy.lifter.velocity import LINES, POWERLIFTERS, misfit

if TYPE_CHECKING:
    from topheavy.lifter.motion_model import MotionModel

WORDS: Final = {
    "speed_limit_m_per_s": "speed at which no force is left, m/s",
    "hill": "h, how hollow force against speed is",
    "activation_s": "time to full activation, s",
    "fatigue_s": "time over which force fades, s",
    "reserve": "1RM over least isometric strength",
    "ease_m_per_s2": "slowing before lockout with a 1RM, m/s²",
    "ease_power": "power by which less load is slowed harder",
    "hardest_ease_g": "hardest slowing, g",
    "limb_share": "limbs or body that move with the bar, over 1RM",
    "dip_at": "where strength is least, share of the travel",
    "bottom_surplus": "strength at the bottom over the least, less 1",
    "top_surplus": "strength high up over the least, less 1",
    "top_width": "share of the travel over which it rises",
    "pick_up": "k, pick-up of chain",
}


def reference_page(page: str) -> str:
    """Fill the generated parts of the page."""
    for model in MODELS.values():
        slug = model.pattern.replace(" ", "-")
        page = fill(page, f"numbers-{slug}", numbers(model))
        page = fill(page, f"misfit-{slug}", lines(model))
    return page


def numbers(model: MotionModel) -> str:
    """Write the numbers of a lift as a table."""
    rows = ["| number | value | range | where from |", "|---|--:|--:|---|"]
    named = [*((WORDS[name], one) for name, one in model.numbers.items())]
    for word, one in [*named, ("travel when not measured, m", model.travel_m)]:
        rows.append(f"| {word} | {one.value:g} | {one.low:g} to {one.high:g} | {one.source} |")
    return "\n".join(rows)


def lines(model: MotionModel) -> str:
    """Write model and published line side by side."""
    found, line = misfit(model), LINES[model.pattern]
    best = POWERLIFTERS[model.pattern]
    loads = " | ".join(f"{100 * share:.0f} %" for share in found.share)
    rows = [
        f"{line.source}. Seen: {line.seen}.",
        "",
        f"| share of 1RM | {loads} |",
        "|---|" + "--:|" * found.share.size,
        f"| published, m/s | {_row(found.published_m_per_s.tolist())} |",
        f"| simulated, m/s | {_row(found.simulated_m_per_s.tolist())} |",
        "",
        (
            f"Root mean square of the differences {found.rms_m_per_s:.3f} m/s; a lifter's own "
            f"error about the line {line.error_m_per_s:.2f} m/s. Powerlifters' 1RM: "
            f"{best.mean_m_per_s:.2f} ± {best.sd_m_per_s:.2f} m/s ({best.source})."
        ),
    ]
    return "\n".join(rows)


def _row(speeds: list[float]) -> str:
    return " | ".join(f"{speed:.2f}" for speed in speeds)
