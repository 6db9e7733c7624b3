"""Every mistake a user can make: exit code 2, plain words on stderr, nothing written."""

from __future__ import annotations

import shlex
from typing import TYPE_CHECKING

import pytest

from tests.cli.calling import RIG, TINY, call, refused, run

if TYPE_CHECKING:
    from pathlib import Path

SHORT = {
    "CURVE": ("curve", "--gym", TINY),
    "RIG": ("rig", "--gym", TINY),
    "FREE": ("curve", "--chain", "32 x 5/8 in", "--feeder", "62cm"),
    "PIECES": ("--left", "A1", "--right", "A2"),
    "STRAP": ("--feeder", "strap:2"),
    "ENDS": ("--left", "A1", "--right", "A2", "--feeder", "strap:2"),
}

_TABLE = """\
unknown unit
    CURVE ENDS --at "70 hands"
    Unknown unit 'hands' | --at
no unit
    CURVE ENDS --at 70
    Not a length | --at
mass for a length
    FREE --bottom 85kg --top 115kg
    'kg' for a length | --bottom
negative length
    FREE --at -70cm
    No human holds a bar | -0.7 m
zero feeder
    CURVE PIECES --feeder 0cm --at 70cm
    above zero | --feeder
negative feeder
    CURVE PIECES --feeder -62cm --at 70cm
    above zero | --feeder
no links
    curve --chain "0 x 5/8 in" --at 1m
    so many links | --chain
chain of no mass
    curve --chain "32 x 5/8 in, 0kg" --at 1m
    above zero | --chain
bottom not below top
    FREE --bottom 107cm --top 66cm
    must be below its top | bottom 107cm
bottom alone
    FREE --bottom 66cm
    a bottom and a top | only --bottom
heights above any human
    FREE --bottom 66cm --top 4m
    No human holds a bar | top
heights of another lift
    FREE --bottom 10cm --top 66cm --lift squat
    No human squat has its bottom there | 0.35 to 1.3 m
no heights
    FREE
    Nothing says at which heights | heights
setting that does not exist
    CURVE PIECES --feeder strap:9 --at 70cm
    no setting '9' | one of 1, 2, 3
setting not said
    CURVE PIECES --feeder strap --at 70cm
    Which setting of 'strap'? | 1, 2, 3
no such feeder
    CURVE PIECES --feeder rope:1 --at 70cm
    No feeder called | strap
no such connector
    CURVE ENDS --connector hook --at 70cm
    No connector called 'hook' | screw link
no feeder
    CURVE PIECES --at 70cm
    Doubled chain hangs from a feeder | --feeder
feeder for straight chain
    CURVE --left "A1 straight on strap:1" --right A2 --at 70cm
    Chain hung straight takes no feeder | --left
no such hang
    CURVE ENDS --hang sideways --at 70cm
    Unknown way to hang | draped
piece listed twice on one end
    CURVE --left A1+A1 --right A2 STRAP --at 70cm
    A1 is listed twice | --left
piece listed on both ends
    CURVE --left A1 --right A1 STRAP --at 70cm
    A1 is listed twice | --left and --right
piece of the gym as chain of both ends
    CURVE --chain A1 STRAP --at 70cm
    can't hang on both ends | --chain
no such piece
    CURVE --left Z9 --right A2 STRAP --at 70cm
    No chain piece 'Z9' | A1, A2
one end forgotten
    CURVE --left A1 STRAP --at 70cm
    on the right end | --right none
nothing hangs
    CURVE --at 70cm
    Nothing says what hangs | --left
more feeders than there are
    CURVE --left "A1 on strap:1" --left "A2 on strap:2" --right "A3 on strap:1" --at 70cm
    takes more of 'strap' than the gym has | at most 2
chain of another mass
    curve --chain "32 x 5/8 in, 95kg" --at 1m
    weighs so much | kg or lb
chain in words
    curve --chain "some chain" --at 1m
    Not understood | 32 x 5/8 in
plates and straight weight
    CURVE ENDS --straight 80kg --plates 20kg --at 70cm
    given twice | --plates
straight weight below the bar
    CURVE ENDS --straight 10kg --bar bar --at 70cm
    less than the bar | 25 kg
plate without mass
    CURVE ENDS --plates 20kg+ --at 70cm
    plate is missing | --plates
no such bar
    CURVE ENDS --bar log --at 70cm
    No bar 'log' | bar
percent of no best
    FREE --at 70cm --straight 60%
    no best is known | --straight
negative friction
    FREE --at 70cm --dragged --friction -1
    friction | 0 or more
friction that is no number
    FREE --at 70cm --dragged --friction nan
    friction | nan
mat as high as a house
    FREE --at 70cm --mat 9m
    that far from the floor | --mat
design factor below one
    FREE --at 70cm --design-factor 0.5
    beyond its rating | 0.5
load of nothing
    FREE --at 70cm --reach 0kg
    above zero | load
no such lifter
    CURVE ENDS --lifter Nobody
    No lifter called 'Nobody' | Ansa
lift nobody measured
    CURVE ENDS --lifter Ansa --lift deadlift
    has no heights | squat
no such lift
    CURVE ENDS --lifter Ansa --lift curl
    No lift called 'curl' | squat
no such station
    CURVE ENDS --lifter Ansa --station roof
    No station called | the bench
lift on the wrong station
    CURVE ENDS --lifter Ansa --station "the rack"
    not done on a rack | the rack
unknown units
    FREE --at 70cm --units stone
    Unknown units | kg or lb
missing gym file
    rig --gym nowhere.toml --bottom 80kg
    no such file | nowhere.toml
folder for a gym file
    rig --gym . --bottom 80kg
    That is a directory | .
target of one load
    RIG --bottom 80kg
    needs just two | 1 of them
target upside down
    RIG --bottom 80kg --top 70kg
    top heavier than the bottom | 80.0
unknown base
    RIG --bottom 60kg --chain 20% --of all
    Unknown base | top, bottom, best
chain of it all
    RIG --bottom 60kg --chain 100%
    between 0 and 100 % | 100%
point outside the lift
    RIG --follow 30cm=60kg --follow 1m=80kg
    lies outside the lift | 0.3 m
point that is none
    RIG --follow 70cm
    a height and a load | 70cm=90kg
points at one height
    RIG --follow 70cm=60kg --follow 70cm=80kg
    must rise | target
no pieces at all
    RIG --bottom 60kg --top 80kg --most-pieces 0
    above zero | pieces
limits that allow no rig
    RIG --bottom 60kg --top 80kg --design-factor 500
    No rig can be built | limit
size not in stock
    RIG --bottom 60kg --top 80kg --size "1 in"
    no chain of that size | 5/8 in
"""
"""What is wrong; what was typed; what the message says."""


def _typed(line: str) -> list[str]:
    return [word for part in shlex.split(line) for word in SHORT.get(part, (part,))]


_LINES = [line.strip() for line in _TABLE.splitlines()]
MISTAKES = {
    name: (_typed(typed), said.split(" | "))
    for name, typed, said in zip(_LINES[::3], _LINES[1::3], _LINES[2::3], strict=True)
}


@pytest.mark.parametrize("name", list(MISTAKES))
def test_mistake(name: str) -> None:
    words, said = MISTAKES[name]
    done = call(*words)
    refused(done, *said)
    assert done.err.startswith("topheavy: ")
    assert "\n  where  " in done.err


@pytest.mark.parametrize(
    "words",
    [("rig", "--links-down", "many"), ("curve", "--nonsense"), ("weigh", "stray"), ("nix",)],
)
def test_words_the_parser_refuses(words: tuple[str, ...]) -> None:
    done = call(*words)
    assert (done.code, done.out) == (2, "")
    assert "Usage: topheavy" in done.err
    assert "Error: " in done.err


@pytest.mark.parametrize(
    "name", ["unknown unit", "piece listed twice on one end", "missing gym file"]
)
def test_the_shell_sees_the_same(name: str) -> None:
    words, said = MISTAKES[name]
    refused(run(*words), *said)


def test_a_gym_file_with_a_mistake_stops_every_command(tmp_path: Path) -> None:
    broken = tmp_path / "broken.toml"
    broken.write_text('[gym]\nname = "The Shed"\nunits = \n')
    for words in (
        ("rig", "--bottom", "60kg", "--top", "80kg"),
        ("card", "--bottom", "60kg", "--top", "80kg", "--out", str(tmp_path / "card.pdf")),
        ("curve", "--chain", "32 x 5/8 in", "--feeder", "62cm", "--at", "70cm"),
        ("weigh", "--chain", "32 x 5/8 in", "--feeder", "62cm", "--reading", "70cm=80kg"),
    ):
        refused(call(*words, "--gym", str(broken)), "Not valid TOML", "line 3, column 9")
    assert [path.name for path in tmp_path.iterdir()] == ["broken.toml"]


def test_an_unrated_or_overloaded_part_is_refused_by_the_search_and_told_of_by_the_curve() -> None:
    """The search leaves the snap hook out; the same hook in a described rig is called a danger."""
    found = call("rig", "--gym", TINY, "--bottom", "60kg", "--top", "75kg", "--json").json
    assert "connector snap hook: no rating marked" in found["left_out"]
    assert found["connector"] in {"screw link", "toy clip"}
    words = ["snap hook" if word == "screw link" else word for word in RIG]
    told = call("curve", *words, "--at", "70cm", "--json").json
    assert any("snap hook" in danger for danger in told["dangers"])
