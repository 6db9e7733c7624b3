"""Bands on the command line: described, weighed, searched."""

from __future__ import annotations

import json

import pytest

from tests.cli.calling import call, refused

OSRIC = ("--lifter", "Osric", "--straight", "80kg", "--today", "2026-11-25")
PAIR = ("--left-band", "red-1 on low", "--right-band", "red-3 on low")
ASK = ("--lifter", "Osric", "--bottom", "85kg", "--top", "115kg", "--today", "2026-11-25")


def test_bands_alone_need_no_chain() -> None:
    shown = call("curve", *PAIR, *OSRIC)
    assert shown.code == 0
    assert "band red-1 on peg low" in shown.out
    assert "red-1 and red-3 pull alike within 0.1 kg" in shown.out
    assert "never let go" in shown.out.lower()
    assert max(map(len, shown.out.splitlines())) <= 80


def test_pounds_say_the_same() -> None:
    kg, lb = (call("curve", *PAIR, *OSRIC, "--units", unit, "--json").json for unit in ("kg", "lb"))
    assert [row["top"]["kg"] for row in kg["bands"]] == [row["top"]["kg"] for row in lb["bands"]]
    assert lb["bands"][0]["top"]["shown"].endswith("lb")


@pytest.mark.parametrize(
    "words", ["red-1", "red-1 on LOW", "band red-1 on peg low", "red-1 single on low"]
)
def test_ways_to_say_the_same_band(words: str) -> None:
    once = call("curve", "--left-band", words, *PAIR[2:], *OSRIC, "--json").json
    assert once["bands"] == call("curve", *PAIR, *OSRIC, "--json").json["bands"]


def test_several_bands_on_one_end() -> None:
    bands = ("--left-band", "red-1+red-2 on low", "--right-band", "red-3", "--right-band", "red-4")
    shown = call("curve", *bands, *OSRIC, "--json").json
    assert [(row["side"], row["tag"]) for row in shown["bands"]] == [
        ("left", "red-1"), ("left", "red-2"), ("right", "red-3"), ("right", "red-4"),
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("--left-band", "red-9 on low", *PAIR[2:]), ("red-9", "--left-band")),
        (("--left-band", "red-1 on middle", *PAIR[2:]), ("no band peg", "one of low")),
        (("--left-band", "red-1 on low", "--right-band", "red-1 on low"), ("two places", "red-1")),
        (("--left-band", "", *PAIR[2:]), ("No band in it", "--left-band")),
        (("--left-band", "red-1 doubled on low", *PAIR[2:]), ("never read that long", "doubled")),
        (("--left-band", "red-1 on low"), ("right end", "--right")),
        ((*PAIR, "--station", "bench 2"), ("bench 2 has no band peg",)),
        ((*PAIR, "--today", "yesterday"), ("Not a day", "--today")),
    ],
)
def test_what_cannot_be_is_refused(words: tuple[str, ...], said: tuple[str, ...]) -> None:
    refused(call("curve", *OSRIC, *words), *said)


def test_no_station_no_pegs() -> None:
    done = call("curve", *PAIR, "--straight", "80kg", "--at", "80cm")
    refused(done, "pegs of a station", "--left-band")


def test_beyond_the_readings_is_a_guess_and_says_so() -> None:
    doubled = ("--left-band", "blue-1 doubled on low", "--right-band", "blue-2 doubled on low")
    shown = call("curve", *doubled, *OSRIC, "--beyond")
    assert shown.code == 0
    assert "guess" in shown.out


def test_bands_read_long_ago_are_to_be_read_again() -> None:
    late = (*OSRIC[:-1], "2027-11-25")
    for command in ("curve", "weigh"):
        reading = ("--reading", "80cm=95kg") if command == "weigh" else ()
        said = " ".join(call(command, *PAIR, *late, *reading).out.split())
        assert "Band red-1 was read 439 days ago: read it again" in said


def test_a_found_rig_with_bands_goes_on_to_curve_and_weigh() -> None:
    found = call("rig", *ASK, "--bands", "1", "--json")
    kept = found.json
    assert kept["described"]["left_bands"] == ["red-3 on low"]
    read = call("curve", "--rig", "-", "--json", stdin=found.out).json
    for mine, theirs in zip(read["loads"], kept["loads"], strict=True):
        assert mine["raising"]["kg"] == pytest.approx(theirs["raising"]["kg"], abs=1e-6)
    readings = [
        word
        for row in kept["curve"][::4]
        for word in (
            "--reading", f"{row['height']['m'] * 100:.1f}cm={row['raising']['kg']:.2f}kg:up"
        )
    ]  # fmt: skip
    weighed = call("weigh", "--rig", "-", *readings, "--json", stdin=found.out)
    assert weighed.json["outcome"] == "agrees"


def test_a_rig_file_from_before_bands_is_read() -> None:
    kept = call("rig", *ASK, "--json").json
    for side in ("left_bands", "right_bands"):
        assert kept["described"].pop(side) == []
    assert call("curve", "--rig", "-", stdin=json.dumps(kept)).code == 0


def test_bands_alone_can_be_asked_for() -> None:
    found = call("rig", *ASK, "--bands", "1", "--most-pieces", "0", "--json").json
    assert (found["style"], found["links"]) == ("bands", [])
    assert len(found["bands"]) == 2
    refused(call("rig", *ASK, "--most-pieces", "0"), "--most-pieces")


def test_chain_only_stands_beside_a_rig_with_bands() -> None:
    found = call("rig", *ASK, "--bands", "1", "--json").json
    others = {other["differs_by"]: other for other in found["alternatives"]}
    assert "band" not in others["chain only"]["hang"]
    assert any("Bands red-1" in why and "stretched to" in why for why in found["left_out"])


@pytest.mark.parametrize("many", ["3", "-1"])
def test_no_more_than_two_bands_an_end(many: str) -> None:
    refused(call("rig", *ASK, "--bands", many), "bands")


def test_no_rig_of_bands_says_why_no_band_would_do() -> None:
    words = ("rig", "--lifter", "Pip", "--bottom", "40kg", "--top", "50kg")
    refused(call(*words, "--bands", "1", "--most-pieces", "0"), "refused: Bands: this station has")
