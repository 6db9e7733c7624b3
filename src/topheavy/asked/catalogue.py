"""Chain that somebody asks about: by standard, grade and size, or by caliper readings."""

from __future__ import annotations

from dataclasses import dataclass

from topheavy.asked.facts import amount
from topheavy.asked.quantities import length_m
from topheavy.catalogue.calipers import CaliperReadings
from topheavy.catalogue.verdict import Job
from topheavy.errors import BadInputError
from topheavy.services.catalogue import CaliperAnswer, LookUp, from_calipers, look_up
from topheavy.units import parse_quantity


@dataclass(frozen=True, slots=True, kw_only=True)
class ChainAsked:
    """What was said of chain; each as its option of ``topheavy catalogue`` says it.

    Parameters
    ----------
    standard, grade, size : str or None
        Which chain; with readings, what it was when new.
    wire, outside, pitch, width : str or None
        Caliper readings, as quantities in words.
    links_over : int
        How many links the outside length is over, > 0.
    wire_within, outside_within : str
        How sure the readings are.
    travel, best : str or None
        The job that the chain must be heavy enough for.
    share : str
        Chain wanted at the top, of the best.
    """

    standard: str | None = None
    grade: str | None = None
    size: str | None = None
    wire: str | None = None
    outside: str | None = None
    links_over: int = 10
    pitch: str | None = None
    width: str | None = None
    wire_within: str = "0.3 mm"
    outside_within: str = "2 mm"
    travel: str | None = None
    best: str | None = None
    share: str = "10 %"


def answer_chain(asked: ChainAsked) -> LookUp | CaliperAnswer:
    """Look chain up in the tables, or say what readings tell of it.

    Parameters
    ----------
    asked : ChainAsked
        The words.

    Raises
    ------
    BadInputError, NotInStockError
        Words not understood, or no such chain in the tables.
    """
    job = _job(asked)
    standard, size, grade = asked.standard or "", asked.size or "", asked.grade or ""
    if asked.outside is None and asked.pitch is None:
        if asked.width is not None:
            raise BadInputError(
                "Nothing says how long the links are",
                field="--width",
                wanted="--outside 592mm (over ten links), or --pitch 56mm, beside --wire",
            )
        wire_m = length_m(asked.wire, "--wire")
        return look_up(standard=standard, size=size, grade=grade, wire_diameter_m=wire_m, job=job)
    return from_calipers(
        _readings(asked), grade=grade, nominal_size=size, nominal_standard=standard, job=job
    )


def _job(asked: ChainAsked) -> Job:
    return Job(
        travel_m=None if asked.travel is None else amount(asked.travel, "length", "--travel"),
        best_kg=None if asked.best is None else amount(asked.best, "mass", "--best"),
        share=parse_quantity(asked.share, "share", field="--share"),
    )


def _readings(asked: ChainAsked) -> CaliperReadings:
    wire_m = length_m(asked.wire, "--wire")
    if wire_m is None:
        raise BadInputError(
            "Links alone don't say how thick the wire is",
            field="--wire",
            wanted="the wire's diameter, such as --wire 15.8mm",
        )
    return CaliperReadings(
        wire_diameter_m=wire_m,
        outside_m=length_m(asked.outside, "--outside"),
        links=asked.links_over,
        pitch_m=length_m(asked.pitch, "--pitch"),
        inside_width_m=length_m(asked.width, "--width"),
        wire_u_m=length_m(asked.wire_within, "--wire-within") or 0.0,
        outside_u_m=length_m(asked.outside_within, "--outside-within") or 0.0,
    )
