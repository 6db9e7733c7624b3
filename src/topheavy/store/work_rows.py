"""Work of the day as JSON, with a version, and back: what the store keeps and programs read."""

from __future__ import annotations

from dataclasses import asdict
from typing import TYPE_CHECKING, Any, Final, cast

from topheavy.errors import BadInputError
from topheavy.gym.log import RigThen
from topheavy.gym.records import BandsUsed, HungThen
from topheavy.phrase import Amount, Phrase, Remark
from topheavy.training.on_bar import OnBar
from topheavy.training.work import Step, Work

if TYPE_CHECKING:
    from collections.abc import Mapping

VERSION: Final = 1
"""How work is written; a later release reads every earlier one."""

_WORDS: Final = ("id", "day", "lifter", "lift", "station", "kind", "aim", "source", "at")


def encode_work(work: Work) -> dict[str, Any]:
    """Write work as plain values: numbers in SI, names as the gym has them."""
    return {
        "version": VERSION,
        **{name: getattr(work, name) for name in _WORDS},
        "limit_hung_kg": work.limit_hung_kg,
        "steps": [_step(step) for step in work.steps],
        "cautions": [
            {
                "code": one.code,
                "text": one.phrase.text,
                "amounts": [asdict(amount) for amount in one.phrase.amounts],
            }
            for one in work.cautions
        ],
    }


def decode_work(values: Mapping[str, Any]) -> Work:
    """Read work that `encode_work` wrote.

    Raises
    ------
    BadInputError
        Of a later release, or a part of it is missing or wrong.
    """
    if values.get("version") != VERSION:
        raise BadInputError(
            "Work of the day in a form that this release does not know",
            field="version",
            got=values.get("version"),
            wanted=str(VERSION),
        )
    try:
        return Work(
            **{name: str(values[name]) for name in _WORDS if name != "source"},
            source=values["source"],
            limit_hung_kg=values["limit_hung_kg"],
            steps=tuple(_read_step(one) for one in values["steps"]),
            cautions=tuple(_read_remark(one) for one in values["cautions"]),
        )
    except (KeyError, TypeError, ValueError) as error:
        if isinstance(error, BadInputError):
            raise
        raise BadInputError(
            "Work of the day that can't be read", field="work", got=str(error)
        ) from error


def _step(step: Step) -> dict[str, Any]:
    hung = step.bar.hung
    return {
        "number": step.number,
        "kind": step.kind,
        "plates_kg": list(step.bar.plates_kg),
        "hung": asdict(hung) if hung else None,
        "straight_kg": step.straight_kg,
        "rig": asdict(step.rig) if step.rig else None,
        "reps": step.reps,
        "reps_left": list(step.reps_left) if step.reps_left else None,
        "speed_m_per_s": step.speed_m_per_s,
        "loss": step.loss,
        "rest_s": step.rest_s,
    }


def _read_step(values: Mapping[str, Any]) -> Step:
    left = values["reps_left"]
    rig = values["rig"]
    return Step(
        number=values["number"],
        kind=values["kind"],
        bar=OnBar(plates_kg=tuple(values["plates_kg"]), hung=_read_hung(values["hung"])),
        straight_kg=values["straight_kg"],
        rig=RigThen(**{**rig, "curve": tuple(tuple(pair) for pair in rig["curve"])})
        if rig
        else None,
        reps=values["reps"],
        reps_left=cast("tuple[int, int]", tuple(left)) if left else None,
        speed_m_per_s=values["speed_m_per_s"],
        loss=values["loss"],
        rest_s=values["rest_s"],
    )


def _read_hung(values: Mapping[str, Any] | None) -> HungThen | None:
    if values is None:
        return None
    bands = tuple(BandsUsed(**one) for one in values["bands"])
    ends = {end: tuple(values[end]) for end in ("left", "right")}
    return HungThen(**{**values, **ends, "bands": bands})


def _read_remark(values: Mapping[str, Any]) -> Remark:
    amounts = tuple(Amount(**one) for one in values["amounts"])
    return Remark(values["code"], Phrase(values["text"], amounts))
