"""A first gym out of one form: what hangs, where, and who lifts; the rest as it usually is."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Any, Final, Literal

from pydantic import BaseModel, ConfigDict, Field

from topheavy.gym.lifts import LIFTS
from topheavy.web.typed import whole, with_unit

if TYPE_CHECKING:
    from collections.abc import Mapping

Words = Field(default="", max_length=200)

_USUAL: Final[Mapping[str, dict[str, Any]]] = {
    "kg": {
        "bar": ("20 kg", "41.5 cm"),
        "collar": ("2.5 kg", "5 cm"),
        "plates": (
            ("25 kg", "42 mm", "45 cm"),
            ("20 kg", "36 mm", "45 cm"),
            ("15 kg", "32 mm", "40 cm"),
            ("10 kg", "28 mm", "32.5 cm"),
            ("5 kg", "24 mm", "23 cm"),
            ("2.5 kg", "18 mm", "19 cm"),
            ("1.25 kg", "14 mm", "16 cm"),
        ),
    },
    "lb": {
        "bar": ("45 lb", "16.3 in"),
        "collar": ("5.5 lb", "2 in"),
        "plates": (
            ("45 lb", "1.75 in", "17.7 in"),
            ("45 lb", "1.75 in", "17.7 in"),
            ("25 lb", "1.4 in", "11 in"),
            ("10 lb", "1 in", "9 in"),
            ("5 lb", "0.8 in", "8 in"),
            ("2.5 lb", "0.6 in", "6.5 in"),
        ),
    },
}
"""Bar, collars and one pair of each plate: common practice, no source, from memory. They are to be
put right on the gym's pages, which the guide says; chain, feeders, connectors and heights decide
the rig, and none of those is ever taken for granted."""


class Starter(BaseModel):
    """The form, as it is sent; quantities as they are typed, bare numbers in the gym's units."""

    model_config = ConfigDict(extra="ignore", frozen=True, str_strip_whitespace=True)

    gym: str = Words
    units: Literal["kg", "lb"] = "kg"
    size: str = Words
    links: str = Words
    pieces: str = Words
    rings: str = Words
    feeder_mass: str = Words
    feeder_rating: str = Words
    connector_mass: str = Words
    connector_length: str = Words
    connector_rating: str = Words
    lifter: str = Words
    lift: str = Field(default="bench press", max_length=60)
    pad: str = Words
    bottom: str = Words
    top: str = Words
    best: str = Words


_PLACES: Final = {
    "gym.name": "gym",
    "chain.size": "size",
    "chain.links": "links",
    "chain.count": "pieces",
    "feeder.rings": "rings",
    "feeder.mass": "feeder_mass",
    "feeder.rating": "feeder_rating",
    "connector.mass": "connector_mass",
    "connector.length": "connector_length",
    "connector.rating": "connector_rating",
    "station.pad": "pad",
    "lifter.name": "lifter",
    "lifter.lifts": "top",
    "lifter.lifts.bottom": "bottom",
    "lifter.lifts.top": "top",
    "lifter.lifts.best": "best",
}
"""Fields of the form by where the gym file has them, without positions and names."""

_POSITIONS: Final = re.compile(r'\[\d+\]|\."[^"]*"|(?<=lifts)\.(?:squat|deadlift)\b| \(.*\)')


def tables_of(form: Starter) -> dict[str, Any]:
    """Write the form as the tables of a gym file; what is wrong in it is told when it is read.

    >>> tables_of(Starter(gym="The Shed", bottom="66", top="107", lifter="Ansa"))["lifter"]
    [{'name': 'Ansa', 'lifts': {'bench press': {'bottom': '66 cm', 'top': '107 cm'}}}]
    """
    long, heavy = ("cm", "kg") if form.units == "kg" else ("in", "lb")
    usual = _USUAL[form.units]
    lift = {
        "bottom": with_unit(form.bottom, long),
        "top": with_unit(form.top, long),
        **_when(form.best, best=with_unit(form.best, heavy)),
    }
    kind = LIFTS[form.lift].station if form.lift in LIFTS else "rack"
    names = {"bench": "the bench", "rack": "the rack", "platform": "the platform"}
    return {
        "gym": {"name": form.gym, "units": form.units},
        "chain": [
            {
                "prefix": "A",
                "count": whole(form.pieces),
                "size": form.size,
                "links": whole(form.links),
            }
        ],
        "feeder": [
            {
                "name": "feeder",
                "form": "rings",
                "count": 2,
                "rings": [with_unit(one, long) for one in form.rings.replace(";", ",").split(",")],
                **_when(form.feeder_mass, mass=with_unit(form.feeder_mass, heavy)),
                **_when(form.feeder_rating, rating=with_unit(form.feeder_rating, heavy)),
            }
        ],
        "connector": [
            {
                "name": "connector",
                "count": 2,
                "mass": with_unit(form.connector_mass, heavy),
                "length": with_unit(form.connector_length, long),
                **_when(form.connector_rating, rating=with_unit(form.connector_rating, heavy)),
            }
        ],
        "bar": [{"name": "bar", "mass": usual["bar"][0], "sleeve": usual["bar"][1]}],
        "collar": [
            {"name": "collar", "count": 2, "mass": usual["collar"][0], "width": usual["collar"][1]}
        ],
        "plate": [
            {"mass": mass, "width": width, "diameter": across, "pairs": 1}
            for mass, width, across in usual["plates"]
        ],
        "station": [
            {
                "name": names.get(kind, kind),
                "kind": kind,
                **(_when(form.pad, pad=with_unit(form.pad, long)) if kind == "bench" else {}),
            }
        ],
        "lifter": [{"name": form.lifter, "lifts": {form.lift: lift}}],
    }


def field_of(where: str | None) -> str:
    """Name the field of the form that a mistake is in; empty when it is in none.

    >>> field_of('lifter[1].lifts."bench press".best (Ansa)'), field_of("plate[1].mass")
    ('best', '')
    >>> field_of("feeder[1].rings[2] (feeder)"), field_of("lifter[1].lifts.squat")
    ('rings', 'top')
    """
    return _PLACES.get(_POSITIONS.sub("", where or ""), "")


def _when(text: str, **pair: str) -> dict[str, str]:
    return pair if text else {}
