"""Whatever is typed, the command line answers or refuses in plain words; it never breaks down.

Words are drawn for the options that each command really has, near enough to good ones that most
calls get past the first check. A call may end with 0 or 2, never with an exception.
"""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from typer.main import get_command

from tests.cli.calling import TINY, call
from topheavy.cli.app import app
from topheavy.gymfile import read_gym

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from hypothesis.strategies import SearchStrategy

NUMBERS = st.sampled_from(
    ["0", "1", "2", "-1", "0.5", "3,5", "7", "12", "66", "80", "107", "1e3", "1e308", "1/2", "5/0",
     "nan", "inf", "-inf", "999999999999", "1 1/4", "+8", "0x10", "\u0663"]
)  # fmt: skip
UNITS = st.sampled_from(
    ["kg", "lb", "cm", "m", "mm", "in", "ft", '"', "'", "%", "kg/m", "lb/ft", "g", "", " ", "stone",
     "KG", " cm", "\u00b5m"]
)  # fmt: skip
QUANTITIES = st.builds(str.__add__, NUMBERS, UNITS)
HEIGHTS = st.one_of(
    st.floats(0, 3).map(lambda height_m: f"{height_m:.3f}m"),
    st.integers(20, 250).map(lambda height_cm: f"{height_cm}cm"),
    QUANTITIES,
)
LOADS = st.one_of(
    st.integers(0, 300).map(lambda kg: f"{kg}kg"), st.just("60%"), st.just("185lb"), QUANTITIES
)
JUNK = st.one_of(
    st.text(max_size=12),
    st.sampled_from(
        ["", " ", "+", ":", "=", ",", "none", "A1", "--", "-", "\x00", "\u00df{}{0}%s"]
    ),
)
CHAINS = st.one_of(
    st.sampled_from(["32 x 5/8 in", "20 x 1/2 in", "8 x 16 x 56 mm", "54 x 1/4 in"]),
    st.lists(
        st.one_of(
            st.sampled_from(
                [
                    "32 links",
                    "5/8 in",
                    "16 mm",
                    "593 mm over ten links",
                    "9.5 kg",
                    "5.3 kg/m",
                    "G30",
                    "wire 16 mm",
                    "width 21 mm",
                    "pitch 56 mm",
                    "DIN 764",
                    "grade 80",
                    "1 link",
                    "300 mm over five",
                    "0.3 kg",
                    "4 x 5/8 in",
                ]
            ),
            QUANTITIES,
            JUNK,
        ),
        max_size=4,
    ).map(", ".join),
)
FEEDERS = st.one_of(
    st.sampled_from(["strap:1", "strap:2", "strap: 64 cm", "62cm", "62 cm, 0.2 kg, rated 90 kg"]),
    st.builds("strap:{}".format, JUNK),
    QUANTITIES,
    JUNK,
)
CONNECTORS = st.one_of(
    st.sampled_from(["screw link", "snap hook", "toy clip", "175 g, 7 cm, rated 850 kg"]),
    QUANTITIES,
    JUNK,
)
TAGS = st.lists(st.sampled_from(["A1", "A2", "A3", "A4", "R1", "H1"]), min_size=1, max_size=2).map(
    "+".join
)
PIECES = st.one_of(TAGS, CHAINS, JUNK)
HANGS = st.one_of(
    TAGS,
    PIECES,
    st.builds("{} {}".format, PIECES, st.sampled_from(["straight", "draped", "doubled"])),
    st.builds("{} on {}".format, PIECES, FEEDERS),
    st.builds("{} on {} with {}".format, PIECES, FEEDERS, CONNECTORS),
)
READINGS = st.one_of(
    st.builds(
        "{}cm={:.2f}kg{}".format,
        st.integers(40, 140),
        st.floats(0, 200),
        st.sampled_from(["", ":up", ":down"]),
    ),
    st.builds("{}={}".format, HEIGHTS, LOADS),
    JUNK,
)
SETS = st.one_of(
    st.builds("{}x{}".format, NUMBERS, LOADS),
    st.builds("{}x{}kg@{}".format, st.integers(1, 12), st.integers(50, 110), NUMBERS),
    JUNK,
)
PLACES = st.one_of(st.sampled_from(["lower", "middle", "top", "upper"]), HEIGHTS)
EFFORTS = st.one_of(st.builds("{}={}-{}".format, HEIGHTS, LOADS, LOADS), READINGS)
SPEEDS = st.one_of(
    st.builds(
        "{}={}{}".format, LOADS, NUMBERS, st.sampled_from(["", "m/s", ":propulsive", ":peak"])
    ),
    st.builds("{}kg=0.{}:propulsive".format, st.integers(40, 110), st.integers(10, 99)),
    JUNK,
)
WORDS: dict[str, SearchStrategy[str]] = {
    "gym": st.sampled_from([TINY, TINY, TINY, "nowhere.toml", ""]),
    "lifter": st.sampled_from(["Ansa", "ansa", "Nobody", ""]),
    "lift": st.sampled_from(["bench press", "squat", "bench", "curl", "deadlift", ""]),
    "station": st.sampled_from(["the bench", "the rack", "roof", ""]),
    "left": HANGS, "right": HANGS, "chain": CHAINS, "feeder": FEEDERS, "connector": CONNECTORS,
    "hang": st.sampled_from(["doubled", "draped", "straight", "sideways"]),
    "reading": READINGS,
    "bottom": st.one_of(HEIGHTS, LOADS), "top": st.one_of(HEIGHTS, LOADS),
    "at": HEIGHTS, "mat": HEIGHTS, "travel": HEIGHTS, "reach": LOADS, "straight": LOADS,
    "mean": LOADS, "best": LOADS, "bare": LOADS, "within": LOADS, "most_imbalance": LOADS,
    "follow": READINGS,
    "sets": SETS, "partial": READINGS, "isometric": EFFORTS, "speed": SPEEDS,
    "miss": st.builds("{}={}".format, PLACES, LOADS),
    "carries": st.sampled_from(["bar", "left", "right", "floor", "floor left", "me"]),
    "of": st.sampled_from(["top", "bottom", "best", "all"]),
    "units": st.sampled_from(["kg", "lb", "stone"]),
    "standard": st.sampled_from(["DIN 764", "EN", "A413", "XYZ", ""]),
    "grade": st.sampled_from(["30", "80", "G43", "nix", ""]),
    "size": st.one_of(st.sampled_from(["5/8 in", "16 mm", "16 x 56 mm", "1/4 in"]), QUANTITIES),
    "design_factor": NUMBERS, "friction": NUMBERS, "links_down": NUMBERS, "links_over": NUMBERS,
    "most_pieces": st.sampled_from(["1", "2", "4", "0", "-2", "many"]),
}  # fmt: skip
"""What to draw for an option; any other gets quantities and junk."""

FILES = {"card", "picture", "out", "rig", "readings", "file"}
NEVER = {"help", "version", "_version"}


@pytest.fixture(scope="module", autouse=True)
def _small() -> Iterator[None]:
    """The tiny gym stands in for the built-in one, which takes seconds to search."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("topheavy.gymfile.demo_gym", lambda: read_gym(TINY))
        yield


def _options(*path: str) -> list[Any]:
    command: Any = get_command(app)
    for word in path:
        command = command.commands[word]
    return [p for p in command.params if p.name not in NEVER | FILES]


@st.composite
def typed(
    draw: st.DrawFn, path: tuple[str, ...], usual: dict[str, SearchStrategy[str]]
) -> list[str]:
    """Draw a call of a command: usual options, then a few others, each perhaps twice."""
    options = _options(*path)
    by_name = {option.name: option for option in options}
    names = [name for name in usual if draw(st.integers(0, 9)) < 9]
    names += draw(st.lists(st.sampled_from(sorted(by_name)), max_size=2))
    words = list(path)
    for name in names:
        option = by_name[name]
        words.append(option.opts[0])
        if not option.is_flag:
            others = WORDS.get(name, st.one_of(QUANTITIES, JUNK))
            good = usual.get(name, others)
            words.append(draw(good if draw(st.integers(0, 9)) < 9 else others))
    return words


def answered(words: list[str]) -> None:
    """Assert that a call is answered, or refused in plain words."""
    done = call(*words)
    assert done.code in {0, 2}, words
    assert "Traceback" not in done.err
    if done.code == 2:
        assert done.out == "", words
        assert done.err.startswith(("topheavy: ", "Usage: ")), done.err
    else:
        assert done.out
        if "--json" in words:
            assert isinstance(done.json, dict)


def _few(examples: int) -> settings:
    return settings(
        max_examples=examples,
        suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large],
    )


ENDS: dict[str, SearchStrategy[str]] = {
    "gym": st.just(TINY),
    "left": st.sampled_from(["A1", "A1+A2", "A1 on strap:3", "H1 straight", "none"]),
    "right": st.sampled_from(["A3", "A3+A4", "A4 on strap:1 with toy clip", "H2 draped"]),
    "feeder": st.sampled_from(["strap:2", "62cm", "strap:56 cm"]),
}
LIFT: dict[str, SearchStrategy[str]] = {
    "bottom": st.integers(40, 80).map("{}cm".format),
    "top": st.integers(90, 140).map("{}cm".format),
}
SCALE: dict[str, SearchStrategy[str]] = {
    "reading": st.builds("{}cm={}kg".format, st.integers(50, 120), st.integers(20, 90)),
}
ASK: dict[str, SearchStrategy[str]] = {
    "gym": st.just(TINY),
    "bottom": st.integers(30, 90).map("{}kg".format),
    "top": st.integers(50, 130).map("{}kg".format),
}
CALIPERS: dict[str, SearchStrategy[str]] = {
    "wire": st.integers(30, 300).map(lambda tenths: f"{tenths / 10}mm"),
    "outside": st.integers(150, 1200).map("{}mm".format),
}


@_few(70)
@given(words=typed(("curve",), {**ENDS, **LIFT}))
def test_curve(words: list[str]) -> None:
    answered(words)


@_few(40)
@given(words=typed(("curve",), {"chain": CHAINS, "feeder": FEEDERS, "at": HEIGHTS}))
def test_curve_of_no_gym(words: list[str]) -> None:
    answered(words)


@_few(20)
@given(
    words=typed(("weigh",), ENDS),
    readings=st.lists(typed(("weigh",), SCALE).map(lambda words: words[1:3]), max_size=4),
)
def test_weigh(words: list[str], readings: list[list[str]]) -> None:
    answered([*words, *(word for pair in readings for word in pair)])


KNOWN: dict[str, SearchStrategy[str]] = {
    "gym": st.just(TINY),
    "partial": st.builds("{}cm={}kg".format, st.integers(60, 110), st.integers(90, 200)),
}


@_few(40)
@given(
    words=typed(("strength",), KNOWN),
    more=st.lists(
        st.one_of(
            st.tuples(st.just("--set"), SETS),
            st.tuples(st.just("--miss"), st.builds("{}={}".format, PLACES, LOADS)),
            st.tuples(st.just("--isometric"), EFFORTS),
            st.tuples(st.just("--speed"), SPEEDS),
        ),
        max_size=3,
    ),
)
def test_strength(words: list[str], more: list[tuple[str, str]]) -> None:
    answered([*words, *(word for pair in more for word in pair)])


@_few(60)
@given(words=typed(("catalogue",), {"size": WORDS["size"]}))
def test_catalogue(words: list[str]) -> None:
    answered(words)


@_few(60)
@given(words=typed(("catalogue",), CALIPERS))
def test_catalogue_by_calipers(words: list[str]) -> None:
    answered(words)


@_few(25)
@given(words=typed(("rig",), ASK))
def test_rig(words: list[str]) -> None:
    answered(words)


AFTER: dict[str, SearchStrategy[str]] = {
    "singles": st.just(""),
    "after": st.sampled_from(["45kg", "55kg", "65kg", "60%", "120lb"]),
    "reps_left": st.sampled_from(["0", "1", "2.5", "-1", "nan", "12"]),
    "attempt": st.sampled_from(["1", "3", "5", "0", "900"]),
}
RAMP: dict[str, SearchStrategy[str]] = {
    "reps": st.sampled_from(["1", "3", "8", "0", "-2", "many"]),
    "chain_from": st.sampled_from(["1", "2", "3", "40", "0"]),
}


@_few(12)
@given(words=typed(("ramp",), {**ASK, **RAMP}))
def test_ramp(words: list[str]) -> None:
    answered(words)


@_few(12)
@given(words=typed(("ramp",), {**ASK, **AFTER}))
def test_next_attempt(words: list[str]) -> None:
    answered(words)


@_few(12)
@given(
    words=typed(
        ("session",),
        {
            **ASK,
            "day": st.sampled_from(["heavy", "speed", "repetition", "technique", "leg"]),
            "do": st.sampled_from(["5x3", "1X1", "0x3", "5x", "99x99"]),
            "stop_at": st.sampled_from(["10%", "45%", "0%", "46%", "ten"]),
        },
    )
)
def test_session(words: list[str]) -> None:
    answered(words)


@_few(8)
@given(words=typed(("card",), ASK))
def test_card(words: list[str], tmp_path_factory: pytest.TempPathFactory) -> None:
    out = tmp_path_factory.mktemp("card") / "card.pdf"
    done = call(*words, "--out", str(out))
    assert done.code in {0, 2}
    assert out.exists() == (done.code == 0)
    assert [path.name for path in out.parent.iterdir()] == (["card.pdf"] if out.exists() else [])


@_few(60)
@given(
    name=st.sampled_from(["demo", "rig", "card", "curve", "weigh", "catalogue", "gym", "nix"]),
    words=st.lists(st.one_of(JUNK, QUANTITIES), min_size=1, max_size=4),
)
def test_words_that_no_command_takes(name: str, words: list[str]) -> None:
    """Loose words, none of them an option."""
    loose = [word for word in words if not word.startswith("-")] or ["stray"]
    done = call(name, *loose)
    assert done.code == 2
    assert "Error: " in done.err


@_few(60)
@given(
    text=st.one_of(st.text(max_size=300), st.binary(max_size=300).map(repr)), header=st.booleans()
)
def test_any_csv_file(text: str, header: bool, tmp_path_factory: pytest.TempPathFactory) -> None:
    path = tmp_path_factory.mktemp("csv") / "scale.csv"
    top = "height [cm],mass [kg],way\n70,80.5,up\n" if header else ""
    path.write_text(top + text, encoding="utf-8", errors="surrogatepass")
    answered(
        ["weigh", "--gym", TINY, "--left", "A1", "--right", "A2", "--feeder", "strap:2",
         "--readings", str(path)]
    )  # fmt: skip


JSONS = st.recursive(
    st.one_of(st.none(), st.booleans(), st.integers(), st.floats(), st.text(max_size=8)),
    lambda inner: st.one_of(
        st.lists(inner, max_size=3), st.dictionaries(st.text(max_size=6), inner, max_size=3)
    ),
    max_leaves=8,
)
KEPT = {
    "gym": "The Shed", "left": "A1", "right": "A2", "hang": "doubled", "feeder": "strap:2",
    "connector": "screw link", "straight": "65 kg", "lifter": "Ansa", "lift": "bench press",
    "station": "the bench", "slack": "piled",
}  # fmt: skip


@_few(60)
@given(key=st.sampled_from([*KEPT, ""]), value=st.one_of(JSONS, HANGS, QUANTITIES))
def test_any_rig_file(key: str, value: object, tmp_path_factory: pytest.TempPathFactory) -> None:
    path: Path = tmp_path_factory.mktemp("rig") / "rig.json"
    path.write_text(json.dumps({"described": {**KEPT, key: value} if key else value}))
    answered(["curve", "--gym", TINY, "--rig", str(path)])


MOVES: dict[str, SearchStrategy[str]] = {**ASK, "partial": KNOWN["partial"]}


@_few(8)
@given(words=typed(("rep",), MOVES))
def test_rep(words: list[str]) -> None:
    answered(words)


@_few(8)
@given(words=typed(("speed",), MOVES))
def test_speed(words: list[str]) -> None:
    answered(words)
