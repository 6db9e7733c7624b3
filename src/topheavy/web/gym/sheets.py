"""Which fields each thing of a gym has, in the order in which a coach fills them in."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from topheavy.web.gym.fields import Field, Kind

if TYPE_CHECKING:
    from collections.abc import Sequence


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """The form of one kind of thing.

    Parameters
    ----------
    section : str
        Where it stands in a gym file.
    what : str
        What it is called, such as ``"chain"``.
    fields : tuple of Field
        In order.
    fixed : tuple of (str, str)
        Keys that say which form it is, and their values.
    intro : str
        What to know before filling it in.
    """

    section: str
    what: str
    fields: tuple[Field, ...]
    fixed: tuple[tuple[str, str], ...] = ()
    intro: str = ""

    def field(self, key: str) -> Field | None:
        """The field of a key, or of the table or list it is in."""
        for field in sorted(self.fields, key=lambda one: -len(one.key)):
            if key == field.key or key.startswith((f"{field.key}.", f"{field.key}[")):
                return field
        return None


def _f(key: str, label: str, kind: Kind = "text", **more: object) -> Field:
    return Field(key=key, label=label, kind=kind, **more)  # type: ignore[arg-type]  # checked there


def _mass(key: str, label: str, **more: object) -> Field:
    return _f(key, label, "quantity", of="mass", **more)


def _length(key: str, label: str, of: str = "length", **more: object) -> Field:
    return _f(key, label, "quantity", of=of, **more)


def _words(*choices: str) -> tuple[tuple[str, str], ...]:
    return tuple((word, word) for word in choices)


_NAME: Final = _f("name", "Name", must=True)
_COUNT: Final = _f("count", "How many", "count", must=True)
_DAY: Final = _f("day", "Day", "day")
_RATING: Final = _mass(
    "rating",
    "Rated for (WLL)",
    help="the working load limit as marked on the metal; leave it empty when nothing is marked, "
    "and it will not be hung",
)

_CHAIN: Final = (
    _f("tags", "Tags", "tags",
       help="a name for each piece, such as A1 A2 A3 A4; wired to its last link"),
    _f("count", "Or how many", "count", help="when the pieces have no tags yet"),
    _f("prefix", "Named by", help='what their names begin with: "C" gives C1, C2, ...'),
    _f("links", "Links in each piece", "count", must=True, help="count them all"),
    _f("size", "Trade size", help="as marked or sold, such as 5/8 in or 13 mm"),
    _f("grade", "Grade", help="as marked on the links, such as 30; unmarked counts as 30"),
    _f("weighed", "Weighed", "lines", of="mass",
       help="one mass a piece, in the order of the tags, one a line; a scale beats every table"),
    _f("matched", "Must split equally over both ends", "switch"),
    _length("calipers.wire", "Calipers: wire", "fine", help="away from the weld, thinnest place"),
    _length("calipers.width", "Calipers: inside width", "fine"),
    _length("calipers.ten_links", "Calipers: ten links, outside", "fine",
            help="pulled straight, outer face of the first to outer face of the tenth"),
    _length("ten_links", "Ten links, without calipers", "fine", more=True),
    _f("density", "Mass per length from the seller", "quantity", of="density", more=True),
    _f("standard", "Standard", more=True, help="such as DIN 764; settles the pitch"),
    _mass("scale_reading", "Smallest step of the scale", more=True,
          help="when other than the gym's, such as 50 g"),
    _f("inspected", "Inspected on", "day", more=True),
    _f("pitch_growth", "Pitch grown by", "quantity", of="share", more=True,
       help="where it is worst; retired from 3 %"),
    _f("lost_section", "Section worn by", "quantity", of="share", more=True,
       help="where it is worst; retired from 10 %"),
    _f("retired", "Retired because", more=True, help="then none of these pieces is ever hung"),
)  # fmt: skip

_FEEDER: Final = (
    _NAME,
    _f("count", "How many", "count", must=True, help="alike; a rig takes two"),
)
_FEEDER_MASS: Final = (
    _mass("mass", "Mass of one", help="or mass per length below, not both"),
    _RATING,
    _f("density", "Mass per length", "quantity", of="density", more=True),
    _length("within", "Length sure within", "fine", more=True),
)

SHEETS: Final[dict[str, Sheet]] = {
    "gym": Sheet(
        section="gym",
        what="gym",
        fields=(
            _f("units", "Shown", "choice", choices=(("kg", "kg and cm"), ("lb", "lb and in"))),
            _mass("scale_reading", "Smallest step of your scale", help="such as 20 g"),
            _f("inspect_days", "Inspect chain every", "count",
               help="so many days; 365 when left empty, sooner where chain is dropped"),
        ),
    ),
    "chain": Sheet(
        section="chain",
        what="chain",
        fields=_CHAIN,
        intro="One form for each cut length. Weigh what you can, else measure with calipers, else "
        "the trade size will do (give or take 10 %).",
    ),
    "rings": Sheet(
        section="feeder",
        what="feeder with fixed rings",
        fixed=(("form", "rings"),),
        fields=(
            *_FEEDER,
            _f("rings", "Working length at each ring", "lines", of="length", must=True,
               help="middle of the bar down to where the connector bears; one a line"),
            _f("labels", "What each ring is called", "lines",
               help="one a line, when other than ring 1, ring 2, ..."),
            _length("whole", "Whole length", help="when longer than its last ring"),
            *_FEEDER_MASS,
        ),
    ),
    "links": Sheet(
        section="feeder",
        what="feeder of light chain",
        fixed=(("form", "links"),),
        fields=(
            *_FEEDER,
            _f("links", "Links in all", "count", must=True, help="loop and all"),
            _length("pitch", "Inside length of one link", "fine", must=True),
            _f("loop", "Links round the sleeve", "count", must=True),
            _length("loop_drop", "Bar centre to where the loop closes", "fine",
                    help="when measured"),
            *_FEEDER_MASS,
        ),
    ),
    "strap": Sheet(
        section="feeder",
        what="feeder strap of any length",
        fixed=(("form", "strap"),),
        fields=(
            *_FEEDER,
            _length("shortest", "Shortest working length", must=True),
            _length("longest", "Longest working length", must=True),
            _length("marks", "Step between marks", "fine"),
            _length("whole", "Whole length", help="tail and all"),
            *_FEEDER_MASS,
        ),
    ),
    "connector": Sheet(
        section="connector",
        what="connector",
        fields=(
            _NAME,
            _f("count", "How many", "count", must=True, help="alike; a rig takes two"),
            _mass("mass", "Mass of one", must=True, help="such as 175 g"),
            _length("length", "Inside length", "fine", must=True,
                    help="between where it bears above and below"),
            _RATING,
        ),
    ),
    "bar": Sheet(
        section="bar",
        what="bar",
        fields=(
            _NAME,
            _mass("mass", "Mass", must=True, help="without collars"),
            _length("sleeve", "Sleeve", must=True, help="loadable length of one sleeve"),
        ),
    ),
    "collar": Sheet(
        section="collar",
        what="collar",
        fields=(
            _NAME,
            _COUNT,
            _mass("mass", "Mass of one", must=True),
            _length("width", "Width on the sleeve", must=True),
        ),
    ),
    "plate": Sheet(
        section="plate",
        what="plate",
        fields=(
            _mass("mass", "Mass of one", must=True),
            _length("width", "Width on the sleeve", "fine", must=True),
            _length("diameter", "Diameter", must=True),
            _f("pairs", "Pairs", "count"),
            _f("count", "Or single plates", "count"),
        ),
    ),
    "band": Sheet(
        section="band",
        what="band",
        fields=(
            _f("tag", "Tag", must=True, help="the name of this very band, such as red-1"),
            _length("rest", "Length at rest", must=True,
                    help="laid flat, just not pulling, between the points that hold it"),
            _f("readings", "Readings", "rows", must=True,
               columns=(_length("length", "Length", must=True), _mass("pull", "Pull", must=True)),
               help="a scale in line with it; three at least, up to the longest that will "
               "be used. Nobody stands in line with it"),
            _f("measured", "Read on", "day"),
            _length("within", "Lengths sure within", "fine", more=True),
            _mass("scale_reading", "Smallest step of the scale", more=True),
            _f("retired", "Retired because", more=True),
        ),
    ),
    "station": Sheet(
        section="station",
        what="station",
        fields=(
            _NAME,
            _f("kind", "What it is", "choice", must=True,
               choices=_words("bench", "rack", "platform")),
            _length("pad", "Floor to pad", help="of a bench; heights move with it"),
            _length("mat", "Mat under the chain",
                    help="that the lifter does not stand on; empty for none"),
            _length("block", "Block under the chain", help="or a box; empty for none"),
            _length("lifter_raised", "Lifter stands higher by",
                    help="above the floor that the chain lies on; empty for nothing"),
            _f("bar", "Bar that lives there", "choice", names="bar"),
            _f("pegs", "Pegs for bands", "rows", more=True,
               columns=(_f("name", "Name", must=True), _length("height", "Height", must=True),
                        _length("offset", "Out to the side"),
                        _length("within", "Sure within", "fine"))),
        ),
    ),
    "lifter": Sheet(
        section="lifter",
        what="lifter",
        fields=(_f("name", "Name", must=True, help="first name or nickname"),),
    ),
    "lift": Sheet(
        section="lifts",
        what="lift",
        fields=(
            _length("bottom", "Bottom", must=True, help="floor to bar centre where it turns round"),
            _length("top", "Top", must=True, help="floor to bar centre at lockout"),
            _length("within", "Each sure within", "fine"),
            _f("station", "Measured at", "choice", names="station"),
            _mass("best", "Best single", help="straight weight; bar and collars counted"),
            _f("best_day", "Lifted on", "day"),
        ),
    ),
    "sets": Sheet(
        section="sets",
        what="set",
        fields=(
            _mass("load", "Load", must=True, help="bar, collars and plates"),
            _f("reps", "Repetitions", "count"),
            _f("reps_left", "Repetitions left", "number"),
            _length("start", "Started at", help="when from pins, boards or blocks"),
            _f("tried", "The lifter tried for as much as would go", "switch", usual=True),
            _DAY,
        ),
    ),
    "misses": Sheet(
        section="misses",
        what="miss",
        fields=(
            _mass("straight", "Straight weight", must=True, help="bar, collars and plates"),
            _length("height", "Stopped at", help="floor to bar centre"),
            _f("third", "Or in which third", "choice", choices=_words("lower", "middle", "top")),
            _DAY,
        ),
    ),
    "isometrics": Sheet(
        section="isometrics",
        what="effort against pins",
        fields=(
            _length("height", "Pins at", must=True, help="floor to bar centre"),
            _mass("effort", "Scale at best effort", must=True),
            _mass("rest", "Scale at rest", must=True),
            _DAY,
        ),
    ),
    "speeds": Sheet(
        section="speeds",
        what="bar speed",
        fields=(
            _mass("load", "Load", must=True),
            _f("speed", "Speed", "quantity", of="speed", must=True),
            _f("kind", "Which", "choice", choices=_words("mean", "propulsive")),
            _DAY,
        ),
    ),
}  # fmt: skip
"""Every form by its name; a feeder has one for each form it can have."""

STOCK: Final = ("chain", "feeder", "connector", "bar", "collar", "plate", "band")
"""Sections of the stock, in the order in which they are shown."""

FEEDERS: Final = ("rings", "strap", "links")


def sheet_for(section: str, form: str = "") -> Sheet | None:
    """The form of a section; of a feeder that of its form."""
    if section == "feeder":
        return SHEETS[form if form in FEEDERS else "rings"]
    return SHEETS.get(section)


def keys_of(fields: Sequence[Field]) -> tuple[str, ...]:
    """Keys of a table that a form speaks for."""
    own = {field.key.partition(".")[0] for field in fields}
    return (*own, *(("tag",) if "tags" in own else ()))
